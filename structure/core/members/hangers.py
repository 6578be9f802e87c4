"""Joists that hang on a flush beam: how many, what each brings, and what its hanger must be rated for.

What a hanger carries is its maker's to state; nothing is assumed for it. US: lbf, inches, psi and a rating in
allowable load; Canada: N, mm, MPa and a factored resistance.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from structure.core.clauses import COMMON_PRACTICE, Clause, Editions
from structure.core.errors import InputError, OutOfScope
from structure.core.members.checkdata import check_data
from structure.core.members.hanger_sums import SUMS
from structure.core.trace import Check, Step, formula
from structure.core.units import in_words, place_in_words, quantity

JOIST_REACTION = Clause("statics", "half of a simple joist")
LAYOUT = Clause(COMMON_PRACTICE.document, "one joist at each end of the opening and one every spacing")
RATING = Clause(COMMON_PRACTICE.document, "rating stated by the maker of the hanger")
SIDES = ("left", "right")


@formula("R", "w * s * L / 2", unit="lbf", clause=JOIST_REACTION, w="lbf/inch**2", s="inch", L="inch")
def joist_reaction(w: float, s: float, L: float) -> float:
    """What a simple joist brings to its hanger. Statics.

    w: pressure of one case [psi], s: spacing of the joists, L: span [in]. [lbf].
    """
    return w * s * L / 2


@formula("n", "C / s", unit="", clause=LAYOUT, C="inch", s="inch")
def joist_spaces(C: float, s: float) -> float:
    """Joist spaces over an opening; the whole ones and one more is the number of joists. Common practice.

    C: clear width of the opening, s: spacing [in]. Plain number.
    """
    return C / s


@dataclass(frozen=True, slots=True)
class HangingSide:
    """Joists of one side: simple span [in] and pressure by case [psi]."""

    span: float
    pressures: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Rating:
    """What the maker states for the hanger at hand: load [lbf], where, and the nails into the beam [in]."""

    capacity: float
    source: str
    nail_length: float | None = None
    least_breadth: float | None = None


@dataclass(frozen=True, slots=True)
class HangerQuestion:
    """`clear_width` [in] of the opening; `breadth` [in] of the beam that the hangers are nailed to."""

    clear_width: float
    spacing: float
    sides: Mapping[str, HangingSide]
    rating: Rating | None = None
    breadth: float | None = None


@dataclass(frozen=True, slots=True)
class HungSide:
    """One side: joists, load of each hanger by case [lbf], and the rating that the worst sum of it needs."""

    count: int
    by_case: Mapping[str, float]
    worst: float
    combination: str
    line: Mapping[str, float]
    steps: tuple[Step, ...] = field(default=())


@dataclass(frozen=True, slots=True)
class HangerResult:
    """Hangers of both sides and the check of their rating, or the question for it."""

    question: HangerQuestion
    sides: Mapping[str, HungSide]
    check: Check | None
    questions: tuple[str, ...]
    fails: tuple[str, ...]
    code: str = "us"

    @property
    def worst(self) -> HungSide:
        return max(self.sides.values(), key=lambda side: side.worst)

    @property
    def count(self) -> int:
        return sum(side.count for side in self.sides.values())

    @property
    def state(self) -> str:
        if self.fails or (self.check is not None and not self.check.passes):
            return "fails"
        return "question" if self.questions else "passes"

    def as_data(self) -> dict[str, Any]:
        """The result of the `hangers` kind."""
        return {
            "state": self.state,
            "passes": self.state == "passes",
            "count": self.count,
            "spacing": quantity(self.question.spacing, "length", self.code),
            "sides": {name: _side_data(side, self.code) for name, side in self.sides.items()},
            "required": quantity(self.worst.worst, "force", self.code),
            "combination": self.worst.combination,
            "ratio": None if self.check is None else self.check.ratio,
            "checks": {} if self.check is None else {"rating": check_data(self.check, self.code)},
            "questions": list(self.questions),
            "fails": list(self.fails),
            "remarks": [
                SUMS[self.code].remark,
                "Uplift is not covered: where the maker's paper or the engineer asks for it, hangers resist it too.",
            ],
        }


def _side_data(side: HungSide, code: str) -> dict[str, Any]:
    return {
        "count": side.count,
        "by_case": {case: quantity(value, "force", code) for case, value in side.by_case.items()},
        "load": quantity(side.worst, "force", code),
        "combination": side.combination,
        "line": {case: quantity(value, "line_load", code) for case, value in side.line.items()},
        "steps": [step.as_data() for step in side.steps],
    }


def joist_count(clear_width: float, spacing: float) -> int:
    """Joists of one side over an opening: one at its end and one every spacing. Common practice."""
    spaces: float = joist_spaces(C=clear_width, s=spacing)
    return math.floor(spaces + 1e-9) + 1


def check_hangers(question: HangerQuestion, editions: Editions) -> HangerResult:
    """Count and load of the hangers on a flush beam, and the rating stated for them.

    Raises InputError for no side or no load, OutOfScope for a load that pulls up.
    """
    if not question.sides:
        raise InputError("sides", None, "joists on at least one side")
    sides = {name: _hung(name, side, question, editions) for name, side in question.sides.items()}
    worst = max(sides.values(), key=lambda side: side.worst)
    asked = f"{in_words(worst.worst, 'force', editions.code)} a hanger ({worst.combination})"
    rating, questions, fails, check = question.rating, [], [], None
    if rating is None:
        questions.append(
            f"Which hanger is put in, and is it rated for {asked}? Its paper also says what nails it takes and how "
            "thick the beam behind them must be."
        )
    else:
        check = Check(
            "rating",
            worst.worst,
            rating.capacity,
            "force",
            worst.combination,
            RATING.at(editions),
            worst.steps,
            rating.source,
        )
        fails += _too_thin(question, rating, editions.code)
        if rating.nail_length is None and rating.least_breadth is None:
            questions.append("What nails does the rating ask for, and how thick a beam behind them?")
    return HangerResult(question, sides, check, tuple(questions), tuple(fails), editions.code)


def _hung(name: str, side: HangingSide, question: HangerQuestion, editions: Editions) -> HungSide:
    if any(value < 0 for value in side.pressures.values()):
        raise OutOfScope(JOIST_REACTION.at(editions), "a pressure that pulls up: uplift is the engineer's")
    present = [case for case, value in side.pressures.items() if value > 0]
    if not present:
        raise InputError(f"sides.{name}.loads", "no load", "at least one pressure of more than zero")
    steps = [
        joist_reaction.step(
            editions, w=side.pressures[case], s=question.spacing, L=side.span, note=f"{name}, {case}"
        )
        for case in present
    ]
    by_case = {case: step.result for case, step in zip(present, steps, strict=True)}
    sums = SUMS[editions.code].needed(by_case)
    worst = max(sums, key=lambda key: sums[key])
    line = {case: value / question.spacing for case, value in by_case.items()}
    count = joist_count(question.clear_width, question.spacing)
    return HungSide(count, by_case, sums[worst], worst, line, tuple(steps))


def _too_thin(question: HangerQuestion, rating: Rating, code: str) -> list[str]:
    """Nails whose points come through the beam, or a beam thinner than the rating asks for."""
    breadth = question.breadth
    if breadth is None:
        return []
    found = []
    if rating.nail_length is not None and rating.nail_length > breadth + 1e-9:
        found.append(
            f"Hanger nails {place_in_words(rating.nail_length, code)} long come through a beam "
            f"{place_in_words(breadth, code)} wide: shorter nails and their rating, or one more ply."
        )
    if rating.least_breadth is not None and breadth < rating.least_breadth - 1e-9:
        found.append(
            f"The rating asks for a beam {place_in_words(rating.least_breadth, code)} wide; this one is "
            f"{place_in_words(breadth, code)}."
        )
    return found
