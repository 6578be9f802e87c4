"""A pile, helical or driven, in place of a pad: only by the capacity that its installer or engineer states."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Clause, Editions
from structure.core.codes.ca import nbc_footings
from structure.core.errors import InputError
from structure.core.members.checkdata import check_data
from structure.core.members.footing_question import worst_service
from structure.core.trace import Check, Step, formula
from structure.core.units import quantity

_GOVERNS = (
    "The installer's or the engineer's paper governs: depth, torque, bracket, corrosion, and the authority's "
    "approval of the pile."
)
_SCREW = (
    "A screw pile needs an engineer's approval, welding and corrosion protection to their standards, and a certified "
    "installer (NRC, technical bulletin on auger-installed steel piles); "
)
STATED = Clause("installer's statement", "")


@formula("P_a", "n * P_stated", unit="lbf", clause=STATED, n="", P_stated="lbf")
def stated_capacity(n: float, P_stated: float) -> float:
    """Allowable load of n piles that share alike, each as stated by installer or engineer [lbf]."""
    return n * P_stated


@formula("P_1", "P / n", unit="lbf", clause=STATED, P="lbf", n="")
def load_each(P: float, n: float) -> float:
    """Service load on each of n piles that share alike [lbf]."""
    return P / n


@dataclass(frozen=True, slots=True)
class PileQuestion:
    """Service loads by case, allowable load of one pile and who states it. In the units of the code."""

    loads: Mapping[str, float]
    capacity: float
    source: str
    count: int = 1


@dataclass(frozen=True, slots=True)
class PileResult:
    """The one check of stated piles."""

    question: PileQuestion
    check: Check
    each: Step
    editions: Editions

    def as_data(self) -> dict[str, Any]:
        """The result of the `pile` kind."""
        question, code = self.question, self.editions.code
        remarks = [
            f"Capacity as stated ({question.source}), entered by the user and not computed here.",
            _GOVERNS,
        ]
        if question.count > 1:
            remarks.append(
                "Several piles share alike only under a stiff cap with the post on its middle: the cap is the "
                "engineer's."
            )
        if code == "ca":
            remarks.append(
                f"{_SCREW}deep foundations are designed by Section 4.2 ({nbc_footings.DEEP.at(self.editions)})."
            )
        return {
            "passes": self.check.passes,
            "governing": self.check.name,
            "ratio": self.check.ratio,
            "capacity": quantity(self.check.capacity, "force", code),
            "load": quantity(self.check.demand, "force", code),
            "load_each": quantity(self.each.result, "force", code),
            "count": question.count,
            "source": question.source,
            "checks": {self.check.name: check_data(self.check, code)},
            "remarks": remarks,
        }


def check_pile(question: PileQuestion, editions: Editions) -> PileResult:
    """Service load against the stated allowable load. Raises OutOfScope for uplift, InputError for no load."""
    if question.count < 1:
        raise InputError("count", question.count, "one pile or more")
    service = worst_service(question.loads, editions)
    step = stated_capacity.step(
        editions, n=float(question.count), P_stated=question.capacity, note=question.source
    )
    each = load_each.step(editions, P=service.value, n=float(question.count))
    check = Check(
        "stated",
        service.value,
        step.result,
        "force",
        service.combination,
        STATED.at(editions),
        (step, each),
    )
    return PileResult(question, check, each, editions)
