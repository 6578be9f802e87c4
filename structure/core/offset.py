"""A wall above against the support below it: how far off, and what the code says about that.

Both are measured from an exterior face; the two faces may themselves stand apart, since a foundation
wall and the framed wall on it are rarely as thick as each other. Lengths in inches, or mm in Canada.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from structure.core.clauses import Clause, ClauseRef, Editions
from structure.core.codes.ca import nbc
from structure.core.codes.ca.offsets import WITH_FLOOR, WITHOUT
from structure.core.codes.ca.offsets import offset_limit as nbc_offset_limit
from structure.core.codes.us import irc
from structure.core.trace import Step, formula
from structure.core.units import quantity

Answer = bool | Literal["within tolerance"]
WITHIN_TOLERANCE: Literal["within tolerance"] = "within tolerance"
MEASURED = Clause("geometry", "measured on site")
PARALLEL_IN_CANADA = (
    "Along the joists a bearing wall stands on a beam or on a wall strong enough; no offset is allowed for."
)
ACROSS_IN_CANADA = (
    "The limits are for lumber joists that carry nothing else at the wall; other joists, and an offset beyond the "
    "limit, are sized for the concentrated load."
)


@dataclass(frozen=True, slots=True)
class Measured:
    """One line of framing as measured from the exterior face of its own level [in]."""

    distance: float
    to: Literal["near_face", "centre"]
    thickness: float
    tolerance: float = 0.0


@dataclass(frozen=True, slots=True)
class OffsetQuestion:
    """`wall_shift` is where the face below lies minus where the face above lies [in]."""

    above: Measured
    below: Measured
    joist_depth: float
    wall_shift: float = 0.0
    tolerance: float = 0.0
    supports_floor: bool = True
    parallel: bool = False


@dataclass(frozen=True, slots=True)
class OffsetResult:
    """Offset centre to centre, the limit (None along the joists) and the two answers."""

    offset: float
    tolerance: float
    limit: float | None
    aligned: Answer
    overlap: float
    stacks: Answer
    clause: ClauseRef
    steps: tuple[Step, ...]
    remarks: tuple[str, ...]
    code: str = "us"

    def as_data(self) -> dict[str, Any]:
        """The result of the `offset` kind."""
        return {
            "offset": quantity(self.offset, "length", self.code),
            "tolerance": quantity(self.tolerance, "length", self.code),
            "limit": None if self.limit is None else quantity(self.limit, "length", self.code),
            "aligned": self.aligned,
            "overlap_limit": quantity(self.overlap, "length", self.code),
            "stacks": self.stacks,
            "clause": str(self.clause),
            "steps": [step.as_data() for step in self.steps],
            "remarks": list(self.remarks),
        }


@formula("x", "d + t / 2", unit="in", clause=MEASURED, d="in", t="in")
def centre_from_near_face(d: float, t: float) -> float:
    """Centre of a wall measured to its near face. d: distance, t: thickness [in]."""
    return d + t / 2


@formula(
    "e",
    "abs(x_above - (x_below + shift))",
    unit="in",
    clause=MEASURED,
    x_above="in",
    x_below="in",
    shift="in",
)
def centre_offset(x_above: float, x_below: float, shift: float) -> float:
    """Distance between centres, both seen from the face above [in]."""
    return abs(x_above - (x_below + shift))


@formula(
    "tol",
    "tol_both + tol_above + tol_below",
    unit="in",
    clause=MEASURED,
    tol_both="in",
    tol_above="in",
    tol_below="in",
)
def added_tolerance(tol_both: float, tol_above: float, tol_below: float) -> float:
    """Tolerances of measurements add [in]."""
    return tol_both + tol_above + tol_below


@formula("o", "(t_above + t_below) / 2", unit="in", clause=MEASURED, t_above="in", t_below="in")
def overlap_reach(t_above: float, t_below: float) -> float:
    """Offset up to which two walls overlap in plan [in]."""
    return (t_above + t_below) / 2


@formula("e_limit", "d_joist", unit="in", clause=irc.OFFSET_BEARING_WALL, d_joist="in")
def offset_limit(d_joist: float) -> float:
    """How far a bearing wall across the joists may stand off its support. IRC R502.4 [in]."""
    return d_joist


def check_offset(question: OffsetQuestion, editions: Editions) -> OffsetResult:
    """Does the wall above stack over its support, and is it within the code limit: two answers.

    IRC R502.4: across the joists the limit is the joist depth. NBC 9.23.9.8.: 600 mm for a wall that carries a
    floor, 900 mm for one that does not. Along the joists no offset is allowed
    for: the wall needs joists or a beam under it that are sized for it, so `aligned` is what `stacks`
    is. A large offset is a defect and never evidence that the wall does not bear.
    """
    above, at_above = _centre(question.above, editions, "wall above")
    below, at_below = _centre(question.below, editions, "support below")
    offset = centre_offset.step(editions, x_above=at_above, x_below=at_below, shift=question.wall_shift)
    tolerance = added_tolerance.step(
        editions,
        tol_both=question.tolerance,
        tol_above=question.above.tolerance,
        tol_below=question.below.tolerance,
    )
    reach = overlap_reach.step(editions, t_above=question.above.thickness, t_below=question.below.thickness)
    stacks = _answer(offset.result, tolerance.result, reach.result)
    steps = [*above, *below, offset, tolerance, reach]
    limit = None
    aligned = stacks
    if not question.parallel:
        held = _limit(question, editions)
        limit, aligned = held.result, _answer(offset.result, tolerance.result, held.result)
        steps.append(held)
    return OffsetResult(
        offset.result,
        tolerance.result,
        limit,
        aligned,
        reach.result,
        stacks,
        (irc.OFFSET_BEARING_WALL if editions.code == "us" else nbc.OFFSET_BEARING_WALL).at(editions),
        tuple(steps),
        tuple(_remarks(question, aligned, editions)),
        editions.code,
    )


def _limit(question: OffsetQuestion, editions: Editions) -> Step:
    if editions.code == "us":
        return offset_limit.step(editions, d_joist=question.joist_depth)
    return nbc_offset_limit.step(editions, e_rule=WITH_FLOOR if question.supports_floor else WITHOUT)


def _centre(wall: Measured, editions: Editions, what: str) -> tuple[list[Step], float]:
    if wall.to == "centre":
        return [], wall.distance
    step = centre_from_near_face.step(
        editions, d=wall.distance, t=wall.thickness, note=f"centre of the {what}"
    )
    return [step], step.result


def _answer(offset: float, tolerance: float, limit: float) -> Answer:
    if offset + tolerance <= limit:
        return True
    return False if offset - tolerance > limit else WITHIN_TOLERANCE


def _remarks(question: OffsetQuestion, aligned: Answer, editions: Editions) -> list[str]:
    remarks = []
    if editions.code == "ca":
        remarks.append(PARALLEL_IN_CANADA if question.parallel else ACROSS_IN_CANADA)
    elif question.parallel:
        remarks.append(
            "Along the joists no offset is allowed for: a bearing wall needs doubled joists or a beam under "
            "it, sized for its load; doubled joists held apart are blocked full depth at most 4 ft on centre."
        )
    else:
        remarks.append(
            "The joist-depth limit is for solid rectangular joists; I-joists and floor trusses are to be "
            "designed for the offset load."
        )
    if aligned is not True:
        remarks.append(
            "Out of line or not shown to be in line: the joists or the support must be sized for the load by "
            "calculation. It is a defect to report and no evidence that the wall does not bear."
        )
    return remarks
