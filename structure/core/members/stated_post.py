"""Adjustable and pipe columns in a basement: only by the capacity that their maker states.

Nothing about such a post is computed here: the user enters what the maker's paper says. Without one the National
Building Code lets an adjustable steel column carry 36 kN of working load. It stands on a pad of its own, never on a
bare slab (common practice).
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import COMMON_PRACTICE, Clause, Editions
from structure.core.codes.ca import combinations as ca
from structure.core.codes.ca import nbc
from structure.core.codes.combination import Combination, heaviest
from structure.core.codes.us.combinations import asd
from structure.core.errors import InputError, OutOfScope
from structure.core.members.checkdata import check_data
from structure.core.trace import Check, Step, formula
from structure.core.units import in_words, place_in_words, quantity

OWN_PAD = Clause(COMMON_PRACTICE.document, "a post on its own pad")
OWN_PAD_REMARK = (
    "It stands on its own pad, never on a bare slab (common practice); the screw is turned up snug and "
    "then fixed so that nobody can turn it."
)
STATED = Clause("maker's statement", "")


@formula("P_a", "P_stated", unit="lbf", clause=STATED, P_stated="lbf")
def stated_capacity(P_stated: float) -> float:
    """The allowable load that the maker states for this height [lbf], or what a code allows."""
    return P_stated


@dataclass(frozen=True, slots=True)
class StatedPost:
    """A post known by its stated allowable load, in the units of its code; loads by case.

    `capacity` left out is what the National Building Code lets an adjustable steel column carry.
    """

    height: float
    loads: Mapping[str, float]
    capacity: float | None
    source: str
    longest: float | None = None
    on_slab: bool = False


@dataclass(frozen=True, slots=True)
class StatedResult:
    """The one check of a stated post."""

    question: StatedPost
    check: Check
    remarks: tuple[str, ...]
    code: str = "us"

    def as_data(self) -> dict[str, Any]:
        """The result of the `post` kind."""
        return {
            "capacity": quantity(self.check.capacity, "force", self.code),
            "ratio": self.check.ratio,
            "passes": self.check.passes,
            "governing": self.check.name,
            "section": "adjustable steel column"
            if self.question.capacity is None
            else f"post by stated capacity ({self.question.source})",
            "height": quantity(self.question.height, "length", self.code),
            "axes": {},
            "checks": {self.check.name: check_data(self.check, self.code)},
            "factors": {},
            "fastening": None,
            "remarks": list(self.remarks),
        }


def check_stated_post(question: StatedPost, editions: Editions) -> StatedResult:
    """Load against the stated capacity, both unfactored.

    Raises OutOfScope on a bare slab, past the stated height or under uplift; InputError for no load, and for no
    capacity where the code has none of its own.
    """
    code = editions.code
    if question.on_slab:
        raise OutOfScope(
            OWN_PAD.at(editions),
            "an adjustable post stands on its own pad, never on a bare slab; give it a pad",
        )
    if question.longest is not None and question.height > question.longest:
        raise OutOfScope(
            STATED.at(editions),
            f"the capacity is stated up to {place_in_words(question.longest, code)}; the post is "
            f"{place_in_words(question.height, code)} tall",
        )
    if any(value < 0 for value in question.loads.values()):
        raise OutOfScope(OWN_PAD.at(editions), "a load that pulls up on the post: uplift is the engineer's")
    present = {case for case, value in question.loads.items() if value > 0}
    if not present:
        raise InputError("loads", "no load", "at least one load of more than zero")
    name, P = heaviest(SUMS[code](present), question.loads)
    step = _capacity(question, editions)
    check = Check("stated", P, step.result, "force", name, step.clause, (step,))
    return StatedResult(question, check, _remarks(question, check, code), code)


# Unfactored sums, by code.
SUMS: Mapping[str, Callable[[Collection[str]], tuple[Combination, ...]]] = {"us": asd, "ca": ca.service}


def _capacity(question: StatedPost, editions: Editions) -> Step:
    if question.capacity is not None:
        return stated_capacity.step(editions, P_stated=question.capacity, note=question.source)
    if editions.code != "ca":
        raise InputError("stated.capacity", None, "the allowable load that the maker states, with a unit")
    allowed = stated_capacity.under(nbc.STEEL_COLUMNS)
    return allowed.step(editions, P_stated=nbc.MAX_ADJUSTABLE_COLUMN, note="an adjustable steel column")


def _remarks(question: StatedPost, check: Check, code: str) -> tuple[str, ...]:
    found = [
        f"Capacity as stated by the maker ({question.source}), entered by the user and not computed here."
        if question.capacity is not None
        else "Capacity of an adjustable steel column without a report of its own, by the building code."
    ]
    if code == "ca":
        most = in_words(nbc.MAX_ADJUSTABLE_COLUMN, "force", code)
        if question.capacity is None and not check.passes:
            found.append(f"More than {most}: enter the column's own report, or it goes to the engineer.")
        if question.capacity is not None and question.capacity > nbc.MAX_ADJUSTABLE_COLUMN:
            found.append(
                f"Over the {most} of NBC 9.17.3.4. it stands on its own report alone: show that to the engineer "
                "and to the building department."
            )
    return (*found, OWN_PAD_REMARK)
