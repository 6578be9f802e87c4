"""What a beam line asks of a steel shape under any code: its worst unbraced segment, shear, deflection."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from structure.core.clauses import Clause, Editions
from structure.core.codes.ca import steel as s16
from structure.core.codes.us.wood_beams import deflection
from structure.core.materials.rolled import RolledSection
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_service import DeflectionRule, bay_name, deflection_checks
from structure.core.members.steel_segments import Segment, Segments, gradient_steps, segments
from structure.core.trace import Check, Step

Array = npt.NDArray[np.float64]
SERVICE: Mapping[str, Clause] = {"us": Clause("AISC 360", "L2"), "ca": s16.DEFLECTION}
LENGTHS: Mapping[str, tuple[float, str]] = {"us": (12.0, "ft"), "ca": (1000.0, "m")}


@dataclass(frozen=True, slots=True)
class Worst:
    """The segment whose ratio is the largest under any sum, with the line of its moment gradient."""

    M: float
    L_b: float
    C_b: float
    combination: str
    gradient: tuple[Step, ...]
    note: str


def worst_segment(
    demands: Demands, weight: int, capacity: Callable[[Array, Array], Array], editions: Editions
) -> Worst:
    """The worst of all sums and unbraced segments; `capacity` of their lengths and gradient factors."""
    block, held = demands.strength, segments(demands)
    rows = block.rows(weight)
    moments, L_b, C_b = held.moments[rows], held.L_b[rows], held.C_b[rows]
    ratios = np.where(loaded(moments), moments / capacity(L_b, C_b), 0.0)
    row, place = (int(i) for i in np.unravel_index(int(ratios.argmax()), ratios.shape))
    segment = held.held[place]
    far, unit = LENGTHS[demands.code]
    length = float(L_b[row, place])
    braced = f"unbraced {length / far:.2f} {unit}" if length > 0 else "held sideways all along"
    return Worst(
        float(moments[row, place]),
        length,
        float(C_b[row, place]),
        block.names[int(block.combination_of[row])],
        _gradient(demands, held, rows.start + row, segment, place, editions),
        f"{'hogging' if segment.hogging else 'sagging'} in "
        f"{bay_name(demands.question.line.bays[segment.bay])}, "
        f"{float(held.places[rows][row, place]) / far:.2f} {unit} from the left end, {braced}",
    )


def loaded(moments: Array) -> npt.NDArray[np.bool_]:
    """Where there is a moment to speak of."""
    return np.asarray(moments > 1e-9 * max(float(moments.max()), 1e-9))


def _gradient(
    demands: Demands, held: Segments, row: int, segment: Segment, place: int, editions: Editions
) -> tuple[Step, ...]:
    """The gradient factor as a line of the sheet, where it is not 1 by the clause itself."""
    if held.L_b[row, place] <= 0 or not segment.gradient:
        return ()
    return gradient_steps(demands, segment, row, editions)


def largest_shear(demands: Demands, weight: int) -> tuple[float, str, str]:
    """The largest shear of all sums and bays, its sum and where it is; at the support and not within d of it."""
    block = demands.strength
    rows = block.rows(weight)
    V = np.stack([np.abs(each.largest[rows]) for each in demands.shears], axis=-1)
    row, bay = (int(i) for i in np.unravel_index(int(V.argmax()), V.shape))
    note = f"{bay_name(demands.question.line.bays[bay])}, full shear at the support"
    return float(V[row, bay]), block.names[int(block.combination_of[row])], note


def deflections(demands: Demands, weight: int, section: RolledSection, editions: Editions) -> list[Check]:
    """Live and total deflection; steel does not go on bending under what stays, so there is no creep."""
    clause = SERVICE[editions.code]

    def bent(EI_delta: float) -> tuple[Step, ...]:
        E = section.reference.value("E")
        return (deflection.under(clause).step(editions, EI_delta=EI_delta, E=E, I=section.inertia),)

    return deflection_checks(demands, weight, bent, editions, DeflectionRule(clause, clause, creeps=False))
