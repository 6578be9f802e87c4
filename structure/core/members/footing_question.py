"""What is asked about a pad under one post, and what is out of its reach. In the units of its code."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from structure.core.clauses import Editions
from structure.core.codes.combination import Combination
from structure.core.codes.pads import pad_rules
from structure.core.codes.us import concrete, concrete_pad, soil
from structure.core.codes.us import concrete_reinforced as bars
from structure.core.errors import InputError, OutOfScope
from structure.core.members import ca_footing_scope as ca
from structure.core.members.footing_pad import SAME, Bar, Base, Force
from structure.core.units import place_in_words


@dataclass(frozen=True, slots=True)
class Reinforcement:
    """Straight bars both ways; a count that is None is solved. f_y, clear cover.

    `along_length` is how many run along the length of the pad, `along_width` along its width.
    """

    bar: Bar
    along_length: int | None = None
    along_width: int | None = None
    f_y: float = bars.MAX_YIELD
    cover: float = bars.EARTH_COVER


@dataclass(frozen=True, slots=True)
class FootingQuestion:
    """Loads by case, allowable soil pressure, f'c, density as weight, sizes; the defaults are those of the us code.

    `side` asks for a square pad; `length` and `width` for a rectangular one, either of them solved where
    the other is given. `off_length`, `off_width`: the post off the middle of the pad. Without
    `reinforcement` the pad is plain concrete. `least_area`: what a table of the code asks for, 0 for none.
    """

    loads: Mapping[str, float]
    soil: float
    base: Base
    f_c: float = concrete.MIN_STRENGTH
    density: float = 150.0 / 1728.0
    net: bool = False
    soil_from: str | None = None
    side: float | None = None
    thickness: float | None = None
    step: float = 2.0
    existing: bool = False
    length: float | None = None
    width: float | None = None
    off_length: float = 0.0
    off_width: float = 0.0
    reinforcement: Reinforcement | None = None
    least_area: float = 0.0

    @property
    def sides(self) -> tuple[float | None, float | None]:
        """Length and width as they are given."""
        return (self.length or self.side, self.width or self.side)

    @property
    def sides_given(self) -> bool:
        return None not in self.sides

    @property
    def off_middle(self) -> bool:
        return bool(self.off_length or self.off_width)


def scope(question: FootingQuestion, editions: Editions) -> None:
    """Raises InputError for sizes that cannot be, OutOfScope for what the rules held here do not cover."""
    base, slack = question.base, 1 + SAME
    rules, code = pad_rules(editions), editions.code

    def said(length: float) -> str:
        return place_in_words(length, code)

    soil_scope(question.soil, question.soil_from, editions)
    concrete_scope(question.f_c, question.density, editions)
    finest, coarsest = rules.steps
    if not finest <= question.step <= coarsest:
        raise InputError("step", said(question.step), f"a step of {finest:g} to {said(coarsest)}")
    square = question.side is not None
    for name, side, stands, off in (
        ("side" if square else "side.length", question.sides[0], base.length, question.off_length),
        ("side" if square else "side.width", question.sides[1], base.width, question.off_width),
    ):
        # The old rule of a square pad: wider than the wider side of what stands on it.
        widest = max(base.length, base.width) if square else stands
        if side is not None and side <= widest + 2 * off:
            raise InputError(
                name, said(side), f"a side of more than the {said(widest + 2 * off)} that stands on it"
            )
    if question.thickness is not None and question.thickness <= rules.face_loss:
        raise InputError(
            "thickness", said(question.thickness), f"a thickness of more than {said(rules.face_loss)}"
        )
    if base.column > min(base.length, base.width):
        raise InputError("post.column", said(base.column), "a post no wider than its plate")
    if question.reinforcement is not None:
        _steel_scope(question, question.reinforcement, editions)
    if question.off_middle and question.sides_given:
        length, width = question.sides
        k = concrete_pad.kern_ratio(question.off_length, question.off_width, length, width)
        if k > slack:
            raise outside_the_kern(editions)


def outside_the_kern(editions: Editions) -> OutOfScope:
    return OutOfScope(
        pad_rules(editions).clauses.base_area.at(editions),
        "the post stands outside the kern of the pad: a corner would lift off the soil; engineered design",
    )


def soil_scope(value: float, origin: str | None, editions: Editions) -> None:
    """Soil that must come from an investigation, or is past the table. IRC R401.4.1; NBC 9.4.4.1., 9.15.1.1."""
    if editions.code == "ca":
        ca.soil_scope(value, origin, editions)
        return
    slack = 1 + SAME
    if value * slack < soil.PRESUMPTIVE_FLOOR and origin == "presumptive":
        raise OutOfScope(
            soil.INVESTIGATION.at(editions),
            "soil under 1,500 psf is never presumed: it needs a soils investigation",
        )
    if value > soil.PRESUMPTIVE_CEILING * slack:
        raise OutOfScope(
            soil.PRESUMPTIVE.at(editions), "soil above 12,000 psf is past the last row of the table"
        )


def concrete_scope(f_c: float, density: float, editions: Editions) -> None:
    """Strength and density that the rules cover. ACI 318-19 Table 19.2.1.1, 19.2.2.1; NBC 9.3.1.6."""
    if editions.code == "ca":
        ca.concrete_scope(f_c, density, editions)
        return
    slack = 1 + SAME
    if f_c * slack < concrete.MIN_STRENGTH or f_c > concrete.MAX_STRENGTH * slack:
        raise OutOfScope(
            concrete.STRENGTH_RANGE.at(editions),
            f"f'c of {f_c:g} psi; held: {concrete.MIN_STRENGTH:g} to {concrete.MAX_STRENGTH:g} psi",
        )
    pounds = density * 1728
    if pounds * slack < concrete.MIN_DENSITY or pounds > concrete.MAX_DENSITY * slack:
        raise OutOfScope(
            concrete.DENSITY_RANGE.at(editions),
            f"density of {pounds:g} lbf/ft**3; held: {concrete.MIN_DENSITY:g} to {concrete.MAX_DENSITY:g}",
        )


def _steel_scope(question: FootingQuestion, mat: Reinforcement, editions: Editions) -> None:
    slack, code = 1 + SAME, editions.code
    if code == "ca":
        ca.bars_scope(question.f_c, mat.f_y, editions)
    elif mat.f_y * slack < bars.MIN_YIELD or mat.f_y > bars.MAX_YIELD * slack:
        raise OutOfScope(
            bars.YIELD_RANGE.at(editions),
            f"bars of {mat.f_y:g} psi; held: {bars.MIN_YIELD:g} to {bars.MAX_YIELD:g} psi, grades 40 and 60",
        )
    deep = mat.cover + 1.5 * mat.bar.diameter
    if question.thickness is not None and question.thickness <= deep:
        raise InputError(
            "thickness",
            place_in_words(question.thickness, code),
            f"more than the {place_in_words(deep, code)} that cover and bars take",
        )
    for name, side in (("length", question.sides[0]), ("width", question.sides[1])):
        if side is not None and side <= 2 * mat.cover + mat.bar.diameter:
            raise InputError(
                "side",
                place_in_words(side, code),
                f"a {name} that leaves room between the covers of {place_in_words(mat.cover, code)}",
            )


def worst_service(loads: Mapping[str, float], editions: Editions) -> Force:
    """The unfactored sum that presses hardest. Raises OutOfScope for uplift, InputError for no load."""
    rules = pad_rules(editions)
    present = [case for case, value in loads.items() if value]
    sums = _sums(rules.service(present), loads)
    if any(force.value < 0 for force in sums):
        raise OutOfScope(rules.clauses.uplift.at(editions), "net uplift on the pad: engineered design")
    if not sums or max(force.value for force in sums) <= 0:
        raise InputError("loads", "no load", "at least one load of more than zero")
    return max(sums, key=lambda force: force.value)


def worst_factored(loads: Mapping[str, float], editions: Editions) -> Force:
    """The factored sum for concrete that presses hardest."""
    present = [case for case, value in loads.items() if value]
    return max(_sums(pad_rules(editions).factored(present), loads), key=lambda force: force.value)


def _sums(combinations: Iterable[Combination], loads: Mapping[str, float]) -> list[Force]:
    return [Force(each.name, each.total(loads)) for each in combinations]
