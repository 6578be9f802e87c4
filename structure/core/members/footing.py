"""A pad under one post, plain or reinforced: sized, or checked by its sizes. In the units of its code.

The soil is asked at service load with the weight of the pad, the concrete at factored load without
it. Sides, thickness and number of bars that are not given are solved to the step.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.pads import PadRules, pad_rules
from structure.core.codes.us import soil
from structure.core.errors import InputError, OutOfScope
from structure.core.members.checkdata import check_data, worst
from structure.core.members.footing_bars import LEAST_BARS, bars_data
from structure.core.members.footing_checks import kern, soil_steps
from structure.core.members.footing_codes import CHECKS
from structure.core.members.footing_pad import SAME, Force, Mat, Pad
from structure.core.members.footing_question import (
    FootingQuestion,
    Reinforcement,
    outside_the_kern,
    scope,
    worst_factored,
    worst_service,
)
from structure.core.members.footing_remarks import pad_remarks
from structure.core.members.footing_sides import Sides, solve_sides
from structure.core.trace import Check
from structure.core.units import place_in_words, quantity

MENDED_BY_BARS = frozenset(
    ("one_way_shear", "flexure", "minimum_steel", "minimum_steel_punching", "spacing", "development")
)
MENDED_BY_SIDES = frozenset(("soil", "part9_area"))
MOST_MORE_BARS = 12  # beyond the least that may lie there; after that a thicker pad is the better answer


@dataclass(frozen=True, slots=True)
class FootingResult:
    """The pad and its checks; `solved` names what was not given."""

    pad: Pad
    checks: tuple[Check, ...]
    required: Sides
    service: Force
    solved: tuple[str, ...]
    remarks: tuple[str, ...]
    editions: Editions

    @property
    def governing(self) -> Check:
        """The largest ratio. Bars with just the cover asked for would hide what sizes the pad: left out if met."""
        return worst(each for each in self.checks if each.name != "cover" or not each.passes)

    @property
    def passes(self) -> bool:
        return all(check.passes for check in self.checks)

    @property
    def wanted(self) -> tuple[Check, ...]:
        """The checks that thickness and bars can mend: all where the sides are solved, else all but the soil."""
        sides_solved = {"side", "length", "width"} & set(self.solved)
        return self.checks if sides_solved else tuple(c for c in self.checks if c.name not in MENDED_BY_SIDES)

    @property
    def volume(self) -> float:
        """Concrete of the pad, no waste."""
        return self.pad.length * self.pad.width * self.pad.thickness

    def as_data(self) -> dict[str, Any]:
        """The result of the `footing` kind."""
        pad, code = self.pad, self.editions.code
        length, width = quantity(pad.length, "length", code), quantity(pad.width, "length", code)
        return {
            "passes": self.passes,
            "governing": self.governing.name,
            "ratio": self.governing.ratio,
            "side": length if pad.square else {"length": length, "width": width},
            "length": length,
            "width": width,
            "thickness": quantity(pad.thickness, "length", code),
            "pressure": quantity(self.checks[0].demand, "pressure", code),
            "pressures": pressures(pad, self.service, self.editions),
            "required_side": quantity(self.required.needed, "length", code),
            "volume": quantity(self.volume, "volume", code),
            "bars": None if pad.bars is None else bars_data(pad, pad.bars, self.editions),
            "solved": list(self.solved),
            "checks": {check.name: check_data(check, code) for check in self.checks},
            "steps": [step.as_data() for step in self.required.steps],
            "remarks": list(self.remarks),
        }


def pressures(pad: Pad, service: Force, editions: Editions) -> dict[str, Any]:
    """Service pressure gross (with the pad's weight) and net (without), at the worst and the least corner."""
    steps, code = soil_steps(pad, service, editions), editions.code
    gross, net, mean = steps[-1].result, steps[-2].result, steps[0].result
    least = soil.least_pressure(mean, kern(pad, editions).result)
    weight = gross - net
    return {
        "gross": {
            "max": quantity(gross, "pressure", code),
            "min": quantity(least + weight, "pressure", code),
        },
        "net": {"max": quantity(net, "pressure", code), "min": quantity(least, "pressure", code)},
    }


def pad_checks(pad: Pad, service: Force, factored: Force, editions: Editions) -> tuple[Check, ...]:
    """Every check of the pad: as plain concrete, or with its bars."""
    code = CHECKS[editions.code]
    check = code.plain if pad.bars is None else code.reinforced
    return check(pad, service, factored, editions)


def size_pad(question: FootingQuestion, editions: Editions) -> FootingResult:
    """Solve what is not given of a pad and check all of it. ACI 318-19 chapters 13 and 14, IRC R403.1.1;
    CSA A23.3:19 clauses 15 and 22, NBC 9.15.3.

    The thinnest pad that passes is taken, with the fewest bars; with the sides given, the thinnest that
    passes all but the soil, which no thickness helps. Raises InputError for sizes that cannot be, and
    OutOfScope for soil, concrete, bars or loads that the rules held here do not cover.
    """
    scope(question, editions)
    service, factored = worst_service(question.loads, editions), worst_factored(question.loads, editions)
    solved, rules = _solved(question), pad_rules(editions)
    best: FootingResult | None = None
    refusal: OutOfScope | None = None
    for thickness in _thicknesses(question, rules):
        sides = solve_sides(question, service, thickness, editions)
        if sides is None:
            break
        for pad in _pads(question, sides, thickness, rules):
            try:
                checks = pad_checks(pad, service, factored, editions)
            except OutOfScope as refused:
                refusal = refused  # a thicker pad or a wider one may be covered
                continue
            found = FootingResult(pad, checks, sides, service, solved, (), editions)
            if all(check.passes for check in found.wanted):
                return replace(found, remarks=pad_remarks(question, found, editions))
            failing = {check.name for check in found.wanted if not check.passes}
            if best is None or worst(found.wanted).ratio < worst(best.wanted).ratio:
                best = found
            if failing - MENDED_BY_BARS:
                break  # more bars do not help: on to a thicker pad
    if best is not None and (question.thickness is not None or question.sides_given):
        return replace(best, remarks=pad_remarks(question, best, editions))
    raise refusal if best is None and refusal is not None else _nothing(question, best, editions)


def _solved(question: FootingQuestion) -> tuple[str, ...]:
    names = []
    length, width = question.sides
    if length is None and width is None:
        names.append("side")
    else:
        names += [name for name, side in (("length", length), ("width", width)) if side is None]
    if question.thickness is None:
        names.append("thickness")
    mat = question.reinforcement
    if mat is not None and None in (mat.along_length, mat.along_width):
        names.append("bars")
    return tuple(names)


def _nothing(
    question: FootingQuestion, best: FootingResult | None, editions: Editions
) -> InputError | OutOfScope:
    """Why no pad was found."""
    rules, code = pad_rules(editions), editions.code
    if question.thickness is not None and best is None:
        most = question.soil / question.density
        return InputError(
            "thickness",
            place_in_words(question.thickness, code),
            f"a thickness under {place_in_words(most, code)}, where the pad's own weight uses up the soil",
        )
    if question.off_middle and best is None:
        return outside_the_kern(editions)
    kind = "plain" if question.reinforcement is None else "reinforced"
    failing = "" if best is None else ", ".join(c.name for c in best.checks if not c.passes)
    why = f"; the best one tried fails {failing}" if failing and kind == "reinforced" else ""
    return OutOfScope(
        rules.clauses.foundations.at(editions),
        f"no {kind} pad up to {place_in_words(rules.thickest, code)} thick carries it{why}; "
        + (
            "a reinforced pad or a pile may" if kind == "plain" else "other bars, a plain pad or the engineer"
        ),
    )


def _thicknesses(question: FootingQuestion, rules: PadRules) -> Iterable[float]:
    if question.thickness is not None:
        return (question.thickness,)
    mat = question.reinforcement
    least = rules.least_plain if mat is None else rules.bottom_depth + mat.cover + 1.5 * mat.bar.diameter
    first = math.ceil(least / question.step - SAME)
    last = max(first, math.floor(rules.thickest / question.step + SAME))
    return (n * question.step for n in range(first, last + 1))


def _pads(question: FootingQuestion, sides: Sides, thickness: float, rules: PadRules) -> Iterator[Pad]:
    """The pad of that thickness; with bars that are to be counted, one for each number of them."""
    pad = Pad(
        sides.length,
        sides.width,
        thickness,
        question.f_c,
        question.density,
        question.soil,
        question.net,
        question.base,
        question.off_length,
        question.off_width,
        least_area=question.least_area,
    )
    mat = question.reinforcement
    if mat is None:
        yield pad
        return
    for n_1, n_2 in _counts(mat, pad, rules):
        yield replace(pad, bars=Mat(mat.bar, n_1, n_2, mat.f_y, mat.cover))


def _counts(mat: Reinforcement, pad: Pad, rules: PadRules) -> Iterator[tuple[int, int]]:
    """Numbers of bars both ways, fewest first; the same spacing both ways where both are solved."""
    first = [
        given or _fewest(mat, across, pad.thickness, rules)
        for given, across in ((mat.along_length, pad.width), (mat.along_width, pad.length))
    ]
    if None not in (mat.along_length, mat.along_width):
        yield first[0], first[1]
        return
    for more in range(MOST_MORE_BARS + 1):
        grown = [n if given else n + more for n, given in zip(first, _given(mat), strict=True)]
        yield grown[0], grown[1]


def _given(mat: Reinforcement) -> tuple[bool, bool]:
    return mat.along_length is not None, mat.along_width is not None


def _fewest(mat: Reinforcement, across: float, thickness: float, rules: PadRules) -> int:
    """The least number that the least steel and the widest spacing leave."""
    by_area = math.ceil(rules.least_steel(across, thickness) / mat.bar.area * (1 - SAME))
    room = across - 2 * mat.cover - mat.bar.diameter
    by_spacing = math.ceil(room / rules.widest_spacing(thickness) * (1 - SAME)) + 1
    return int(max(LEAST_BARS, by_area, by_spacing))
