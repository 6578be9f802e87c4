"""Adjustable and pipe columns in a basement: only by the capacity that their maker states.

Nothing about such a post is computed here: the user enters what the maker's paper says. It stands on a
pad of its own, never on a bare slab (common practice).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import COMMON_PRACTICE, Clause, Editions
from structure.core.codes.us.combinations import asd
from structure.core.errors import InputError, OutOfScope
from structure.core.members.checkdata import check_data
from structure.core.trace import Check, formula
from structure.core.units import quantity

OWN_PAD = Clause(COMMON_PRACTICE.document, "a post on its own pad")
OWN_PAD_REMARK = (
    "It stands on its own pad, never on a bare slab (common practice); the screw is turned up snug and "
    "then fixed so that nobody can turn it."
)
STATED = Clause("maker's statement", "")


@formula("P_a", "P_stated", unit="lbf", clause=STATED, P_stated="lbf")
def stated_capacity(P_stated: float) -> float:
    """The allowable load that the maker states for this height [lbf]."""
    return P_stated


@dataclass(frozen=True, slots=True)
class StatedPost:
    """A post known by its stated allowable load. Lengths in inches, loads in lbf by case."""

    height: float
    loads: Mapping[str, float]
    capacity: float
    source: str
    longest: float | None = None
    on_slab: bool = False


@dataclass(frozen=True, slots=True)
class StatedResult:
    """The one check of a stated post."""

    question: StatedPost
    check: Check
    remarks: tuple[str, ...]

    def as_data(self) -> dict[str, Any]:
        """The result of the `post` kind."""
        return {
            "capacity": quantity(self.check.capacity, "force"),
            "ratio": self.check.ratio,
            "passes": self.check.passes,
            "governing": self.check.name,
            "section": f"post by stated capacity ({self.question.source})",
            "height": quantity(self.question.height, "length"),
            "axes": {},
            "checks": {self.check.name: check_data(self.check)},
            "factors": {},
            "fastening": None,
            "remarks": list(self.remarks),
        }


def check_stated_post(question: StatedPost, editions: Editions) -> StatedResult:
    """Load against the stated capacity.

    Raises OutOfScope on a bare slab, past the stated height or under uplift; InputError for no load.
    """
    if question.on_slab:
        raise OutOfScope(
            OWN_PAD.at(editions),
            "an adjustable post stands on its own pad, never on a bare slab; give it a pad",
        )
    if question.longest is not None and question.height > question.longest:
        raise OutOfScope(
            STATED.at(editions),
            f"the capacity is stated up to {question.longest:g} in; the post is {question.height:g} in tall",
        )
    if any(value < 0 for value in question.loads.values()):
        raise OutOfScope(OWN_PAD.at(editions), "a load that pulls up on the post: uplift is the engineer's")
    present = {case for case, value in question.loads.items() if value > 0}
    if not present:
        raise InputError("loads", "no load", "at least one load of more than zero")
    sums = {
        each.name: sum(factor * question.loads[case] for case, factor in each.factors.items())
        for each in asd(present)
    }
    name = max(sums, key=lambda key: sums[key])
    step = stated_capacity.step(editions, P_stated=question.capacity, note=question.source)
    check = Check("stated", sums[name], step.result, "force", name, STATED.at(editions), (step,))
    return StatedResult(
        question,
        check,
        (
            f"Capacity as stated by the maker ({question.source}), entered by the user and not computed here.",
            OWN_PAD_REMARK,
        ),
    )
