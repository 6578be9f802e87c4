"""Squash blocks: short posts of wood that carry a post's load through a floor cavity to what stands below.

Each block stands by itself, so each carries its share as a post of its own: buckling, end grain, and the
plate or floor across the grain. US: lbf, inches, psi; Canada: N, mm, MPa.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import COMMON_PRACTICE, Clause, Editions
from structure.core.errors import InputError
from structure.core.materials.section import Section
from structure.core.members.bearing import PlateQuestion
from structure.core.members.checkdata import Checked, check_data, worst
from structure.core.members.post import PostQuestion, check_post
from structure.core.trace import Check, Step, formula
from structure.core.units import quantity

SHARE = Clause("statics", "blocks of one size share alike")
AREA = Clause(COMMON_PRACTICE.document, "blocks have at least the area of the post above")
LONGER = {"us": "1/16 in", "ca": "2 mm"}
STANDING = (
    "Blocks stand upright, grain upright, tight under the floor: cut {longer} longer than the joists are deep "
    "(common practice), and nailed to them."
)


@formula("P_1", "P / n", unit="lbf", clause=SHARE, P="lbf", n="")
def block_share(P: float, n: float) -> float:
    """Load of one of n like blocks. Statics. P: load [lbf], n: blocks, plain. [lbf]."""
    return P / n


@dataclass(frozen=True, slots=True)
class BlocksQuestion:
    """`section`: one block; `height`: of the floor cavity [in]; `loads` [lbf] by case.

    `F_c_perp` [psi] is of the softer of floor and plate that they stand on and under; `post_area` [in**2] of the
    post above.
    """

    count: int
    section: Section
    height: float
    loads: Mapping[str, float]
    F_c_perp: float | None = None
    plate: str = ""
    post_area: float | None = None


@dataclass(frozen=True, slots=True)
class BlocksResult(Checked):
    """Checks of one block, and how many are needed."""

    question: BlocksQuestion
    checks: Mapping[str, Check]
    shares: tuple[Step, ...]
    needed: int
    remarks: tuple[str, ...]
    code: str = "us"

    def as_data(self) -> dict[str, Any]:
        """The result of the `squash_blocks` kind; demands and capacities are those of one block."""
        return {
            "passes": self.passes,
            "ratio": self.ratio,
            "governing": self.governing.name,
            "count": self.question.count,
            "needed": self.needed,
            "share": {step.note: quantity(step.result, "force", self.code) for step in self.shares},
            "area": quantity(self.question.count * self.question.section.area, "area", self.code),
            "checks": {name: check_data(check, self.code) for name, check in self.checks.items()},
            "steps": [step.as_data() for step in self.shares],
            "remarks": list(self.remarks),
        }


def check_blocks(question: BlocksQuestion, editions: Editions) -> BlocksResult:
    """One block under its share, and all of them against the area of the post. NDS 3.6, 3.7, 3.10.

    Raises InputError for a block of several plies, no blocks or no height, OutOfScope for uplift.
    """
    if question.count < 1:
        raise InputError("count", question.count, "at least one block")
    if question.section.plies != 1:
        raise InputError("section.plies", question.section.plies, "one: every block stands by itself")
    shares = tuple(
        block_share.step(editions, P=value, n=question.count, note=case)
        for case, value in question.loads.items()
        if value
    )
    plate = None
    if question.F_c_perp is not None:
        plate = PlateQuestion(F_c_perp=question.F_c_perp, material=question.plate)
    found = check_post(
        PostQuestion(
            height=question.height,
            loads={step.note: step.result for step in shares},
            section=question.section,
            plate=plate,
        ),
        editions,
    )
    checks = dict(found.checks)
    needed = math.ceil(worst(checks.values()).ratio * question.count - 1e-9)
    if question.post_area is not None:
        whole = question.count * question.section.area
        checks["area"] = Check("area", question.post_area, whole, "area", "", AREA.at(editions))
        needed = max(needed, math.ceil(question.post_area / question.section.area - 1e-9))
    remarks = [STANDING.format(longer=LONGER[editions.code])]
    if plate is None:
        remarks.append("Crushing of the floor or plate under the blocks was not asked for.")
    return BlocksResult(question, checks, shares, max(1, needed), tuple(remarks), editions.code)
