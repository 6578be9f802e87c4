"""A square plain concrete pad under one post: sized, or an existing one checked. lbf, in, psi.

The soil is asked at service load with the weight of the pad, the concrete at factored load without
it. Side and thickness that are not given are solved to the step.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.us import concrete, irc, soil
from structure.core.codes.us.combinations import Combination, asd, strength_concrete
from structure.core.errors import InputError, OutOfScope
from structure.core.members.checkdata import check_data, worst
from structure.core.members.footing_checks import SAME, Base, Force, Pad, pad_checks
from structure.core.trace import Check, Step
from structure.core.units import quantity

THICKEST = 48.0  # in; past this nobody pours a plain pad by hand: common practice
_PLACE = (
    "The post stands in the middle of the pad, and the pad on undisturbed soil or engineered fill, never on "
    "a slab alone; no footing beside it may be undermined."
)
STEPS = (0.25, 12.0)  # in; finer is not formed, coarser is no rounding
THICK = 24.0  # in; from here on a reinforced pad is worth asking for: common practice


@dataclass(frozen=True, slots=True)
class FootingQuestion:
    """Loads by case [lbf], allowable soil pressure and f'c [psi], density [lbf/in**3], sizes [in]."""

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


@dataclass(frozen=True, slots=True)
class FootingResult:
    """The pad and its checks; `solved` names what was not given."""

    pad: Pad
    checks: tuple[Check, ...]
    required_side: Step
    solved: tuple[str, ...]
    remarks: tuple[str, ...]

    @property
    def governing(self) -> Check:
        return worst(self.checks)

    @property
    def passes(self) -> bool:
        return all(check.passes for check in self.checks)

    @property
    def volume(self) -> float:
        """Concrete of the pad [in**3], no waste."""
        return self.pad.side**2 * self.pad.thickness

    def as_data(self) -> dict[str, Any]:
        """The result of the `footing` kind."""
        return {
            "passes": self.passes,
            "governing": self.governing.name,
            "ratio": self.governing.ratio,
            "side": quantity(self.pad.side, "length"),
            "thickness": quantity(self.pad.thickness, "length"),
            "pressure": quantity(self.checks[0].demand, "pressure"),
            "required_side": quantity(self.required_side.result, "length"),
            "volume": quantity(self.volume, "volume"),
            "bars": None,
            "solved": list(self.solved),
            "checks": {check.name: check_data(check) for check in self.checks},
            "steps": [self.required_side.as_data()],
            "remarks": list(self.remarks),
        }


def size_pad(question: FootingQuestion, editions: Editions) -> FootingResult:
    """Solve what is not given of a pad and check all of it. ACI 318-19 chapter 14, IRC R403.1.1.

    With both sizes absent the thinnest pad that passes is taken; with a side given, the thinnest that
    passes all but the soil, which no thickness helps. Raises InputError for sizes that cannot be, and
    OutOfScope for soil, concrete or loads that the rules held here do not cover.
    """
    _scope(question, editions)
    service, factored = _worst_service(question, editions), _worst_factored(question)
    solved = tuple(name for name in ("side", "thickness") if getattr(question, name) is None)
    result = None
    for thickness in _thicknesses(question):
        side = question.side
        needed = _required(question, service, thickness, editions)
        if side is None:
            if needed is None:
                break
            side = _rounded_side(question, needed.result)
        pad = Pad(side, thickness, question.f_c, question.density, question.soil, question.net, question.base)
        checks = pad_checks(pad, service, factored, editions)
        result = FootingResult(
            pad, checks, needed or _at_no_thickness(question, service, editions), solved, ()
        )
        wanted = checks if question.side is None else checks[1:]
        if question.thickness is not None or all(check.passes for check in wanted):
            return replace(result, remarks=_remarks(question, result, editions))
    if result is not None and question.side is not None:
        return replace(result, remarks=_remarks(question, result, editions))
    if question.thickness is not None:
        most = question.soil / question.density
        raise InputError(
            "thickness",
            f"{question.thickness:g} in",
            f"a thickness under {most:g} in, where the pad's own weight uses up the soil",
        )
    raise OutOfScope(
        concrete.REINFORCED_FOOTING.at(editions),
        f"no plain pad up to {THICKEST:g} in thick carries it; a reinforced pad or a pile is the engineer's",
    )


def _scope(question: FootingQuestion, editions: Editions) -> None:
    base, slack = question.base, 1 + SAME
    if question.soil * slack < soil.PRESUMPTIVE_FLOOR and question.soil_from == "presumptive":
        raise OutOfScope(
            soil.INVESTIGATION.at(editions),
            "soil under 1,500 psf is never presumed: it needs a soils investigation",
        )
    if question.soil > soil.PRESUMPTIVE_CEILING * slack:
        raise OutOfScope(
            soil.PRESUMPTIVE.at(editions), "soil above 12,000 psf is past the last row of the table"
        )
    if question.f_c * slack < concrete.MIN_STRENGTH or question.f_c > concrete.MAX_STRENGTH * slack:
        raise OutOfScope(
            concrete.STRENGTH_RANGE.at(editions),
            f"f'c of {question.f_c:g} psi; held: {concrete.MIN_STRENGTH:g} to {concrete.MAX_STRENGTH:g} psi",
        )
    density = question.density * 1728
    if density * slack < concrete.MIN_DENSITY or density > concrete.MAX_DENSITY * slack:
        raise OutOfScope(
            concrete.DENSITY_RANGE.at(editions),
            f"density of {density:g} lbf/ft**3; held: {concrete.MIN_DENSITY:g} to {concrete.MAX_DENSITY:g}",
        )
    if not STEPS[0] <= question.step <= STEPS[1]:
        raise InputError("step", f"{question.step:g} in", f"a step of {STEPS[0]:g} to {STEPS[1]:g} in")
    widest = max(base.length, base.width)
    if question.side is not None and question.side <= widest:
        raise InputError(
            "side", f"{question.side:g} in", f"a side of more than the {widest:g} in that stands on it"
        )
    if question.thickness is not None and question.thickness <= concrete.SOIL_FACE_LOSS:
        raise InputError("thickness", f"{question.thickness:g} in", "a thickness of more than 2 in")
    if base.column > min(base.length, base.width):
        raise InputError("post.column", f"{base.column:g} in", "a post no wider than its plate")


def _worst_service(question: FootingQuestion, editions: Editions) -> Force:
    present = [case for case, value in question.loads.items() if value]
    sums = _sums(asd(present), question.loads)
    if any(force.value < 0 for force in sums):
        raise OutOfScope(irc.ENGINEERED_DESIGN.at(editions), "net uplift on the pad: engineered design")
    if not sums or max(force.value for force in sums) <= 0:
        raise InputError("loads", "no load", "at least one load of more than zero")
    return max(sums, key=lambda force: force.value)


def _worst_factored(question: FootingQuestion) -> Force:
    present = [case for case, value in question.loads.items() if value]
    return max(_sums(strength_concrete(present), question.loads), key=lambda force: force.value)


def _sums(combinations: Iterable[Combination], loads: Mapping[str, float]) -> list[Force]:
    return [
        Force(each.name, sum(factor * loads[case] for factor, case in each.terms)) for each in combinations
    ]


def _thicknesses(question: FootingQuestion) -> Iterable[float]:
    if question.thickness is not None:
        return (question.thickness,)
    first = math.ceil(concrete.MIN_FOOTING_THICKNESS / question.step - SAME)
    last = max(first, math.floor(THICKEST / question.step + SAME))
    return (n * question.step for n in range(first, last + 1))


def _required(question: FootingQuestion, service: Force, thickness: float, editions: Editions) -> Step | None:
    density = 0.0 if question.net else question.density
    if question.soil <= density * thickness:
        return None
    return soil.required_side.step(editions, P=service.value, q_a=question.soil, gamma=density, t=thickness)


def _at_no_thickness(question: FootingQuestion, service: Force, editions: Editions) -> Step:
    return soil.required_side.step(
        editions, P=service.value, q_a=question.soil, gamma=0.0, t=0.0, note="before the weight of any pad"
    )


def _rounded_side(question: FootingQuestion, needed: float) -> float:
    least = max(question.base.length, question.base.width) + 2 * irc.MIN_PROJECTION
    steps = max(needed, least) / question.step
    return math.ceil(steps * (1 - SAME)) * question.step


def _remarks(question: FootingQuestion, result: FootingResult, editions: Editions) -> tuple[str, ...]:
    remarks = [_PLACE]
    if question.soil * (1 + SAME) < soil.PRESUMPTIVE_FLOOR and question.soil_from is None:
        remarks.append(
            f"Soil under 1,500 psf must come from a soils investigation ({soil.INVESTIGATION.at(editions)}); "
            "where this value comes from was not said."
        )
    if question.base.plate and not question.base.column:
        remarks.append(
            "The post on the plate was not given: the critical sections are taken as for a post of no width."
        )
    if question.existing:
        remarks.append(
            "An existing pad, by the sizes measured: its concrete, its soil and what it carries already are "
            "for the engineer to confirm."
        )
    if question.net:
        remarks.append("The soil value is net: the weight of the pad was left out of the pressure.")
    if not result.passes:
        failing = [check.name for check in result.checks if not check.passes]
        remarks.append(f"Does not pass: {', '.join(failing)}.")
    if result.pad.thickness > THICK:
        remarks.append("So thick a plain pad is unusual: ask the engineer for a reinforced one.")
    return tuple(remarks)
