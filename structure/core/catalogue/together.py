"""Shear, deflection and bearing of all wood sections of a search at once. NDS 3.4, 3.5 and 3.10.

The forces of a sum depend on a section only through its weight, so they are found once for each weight that
there is. Rules and formulas are those of `members/beam_service.py`; a test holds both against each other.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from structure.core.catalogue.columns import Columns
from structure.core.catalogue.result import Column
from structure.core.clauses import Editions
from structure.core.codes.us import wood, wood_bearing
from structure.core.codes.us import wood_beams as nds
from structure.core.members.beam_demand import Block, Demands
from structure.core.members.beam_service import creep_factor
from structure.core.statics.growing import Growing, governing
from structure.core.statics.response import Extremes, Response

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.intp]
Find = Callable[[Response, float, float], Extremes]


@dataclass(frozen=True, eq=False)
class Asked:
    """A question for many sections: `demands` at the least and the largest self weight of all.

    `shares`: the weights between them; `weight`: which of them each section has.
    """

    demands: Demands
    columns: Columns
    shares: Array
    weight: Whole
    editions: Editions

    @cached_property
    def C_D(self) -> Array:
        """Duration factor of each strength row."""
        block = self.demands.strength
        return np.array([each.C_D for each in block.combinations])[block.combination_of]

    @cached_property
    def strength(self) -> Growing:
        return grown(self.demands.strength, self.shares)

    @cached_property
    def spans(self) -> Array:
        """Length of each bay that its deflection is held against."""
        bays = self.demands.question.line.bays
        return np.array([bay.length if bay.kind == "span" else 2 * bay.length for bay in bays])


def grown(block: Block, shares: Array) -> Growing:
    """Rows at the first and the second self weight of a block."""
    return Growing(block.response[block.rows(0)], block.response[block.rows(1)], shares)


def ends(block: Block, values: list[Array]) -> tuple[Array, Array]:
    """Values by bay at both self weights, (rows, bays) each."""
    both = np.stack(values, axis=-1)
    return both[block.rows(0)], both[block.rows(1)]


def worst_of(
    growing: Growing, low: Array, high: Array, scale: Array, find: Find
) -> tuple[Array, Whole, Whole]:
    """The value, row and bay of the largest of all (times its scale) at every share.

    `low`, `high`, `scale`: (rows, bays); `find`: extremes of a response, taken without their sign.
    """
    bays = growing.low.line.bays
    flat = scale.ravel()

    def exact(entries: Whole) -> Array:
        found = np.empty((len(entries), len(growing.shares)))
        row, bay = np.divmod(entries, len(bays))
        for n in np.unique(bay).tolist():
            here = bay == n
            extremes = growing.extremes(row[here], bays[n], find)
            found[here] = np.maximum(extremes.max, -extremes.min)
        return found * flat[entries, None]

    one_group = np.zeros(low.size, dtype=np.intp)
    best, which = governing((low * scale).ravel(), (high * scale).ravel(), one_group, growing.shares, exact)
    row, bay = np.divmod(which[0], len(bays))
    return best[0] / flat[which[0]], row, bay


def shear(asked: Asked) -> Column:
    """The worst shear of all sums and bays, full at the support."""
    demands, columns, block = asked.demands, asked.columns, asked.demands.strength
    low, high = ends(block, [np.abs(each.largest) for each in demands.shears])
    scale = np.broadcast_to(1 / asked.C_D[:, None], low.shape)
    V, row, _ = worst_of(asked.strength, low, high, scale, Response.shear_extremes)
    sums = block.combination_of[row]
    return Column(
        "shear",
        "stress",
        nds.SHEAR.at(asked.editions),
        nds.shear_stress(V=V[asked.weight], b=columns.b, d=columns.d),
        wood.shear_value(F=columns.F_v, C_D=asked.C_D[row][asked.weight], C_M=columns.C_Mv),
        sums[asked.weight],
        block.names,
    )


def deflections(asked: Asked) -> list[Column]:
    """Live and total deflection; an overhang counts against twice its length."""
    demands, limits = asked.demands, asked.demands.question.deflection
    found = []
    if demands.live is not None:
        largest = np.stack([np.abs(each.largest) for each in demands.live_deflections], axis=-1)
        row, bay = divmod(int((largest / asked.spans).argmax()), len(asked.spans))
        same = np.zeros(len(asked.shares), dtype=np.intp)
        worst = (largest[row, bay] + same, row + same, bay + same)
        found.append(_deflection(asked, "deflection_live", demands.live, worst, limits.live))
    creep = creep_factor(demands.question)
    block = demands.total(creep)
    if block.names:
        low, high = ends(block, [np.abs(each.largest) for each in demands.total_deflections(creep)])
        scale = np.broadcast_to(1 / asked.spans, low.shape)
        worst = worst_of(grown(block, asked.shares), low, high, scale, Response.deflection_extremes)
        found.append(_deflection(asked, "deflection_total", block, worst, limits.total))
    return found


def _deflection(
    asked: Asked, name: str, block: Block, worst: tuple[Array, Whole, Whole], limit: float
) -> Column:
    columns = asked.columns
    y, row, bay = (each[asked.weight] for each in worst)
    return Column(
        name,
        "length",
        (nds.CREEP if name == "deflection_total" else nds.DEFLECTION).at(asked.editions),
        nds.deflection(EI_delta=y, E=columns.E, I=columns.I),
        nds.deflection_limit(L=asked.spans[bay], n=limit),
        block.combination_of[row],
        block.names,
    )


def area_factor(length: float, place: float, whole: float) -> float:
    """C_b of a bearing by its length and its distance from the nearer end of the beam. NDS 3.10.4."""
    room = min(place, whole - place)
    if length < wood_bearing.LONGEST and room - length / 2 >= wood_bearing.END_DISTANCE:
        return float(wood_bearing.bearing_area_factor(l_b=length, l_a=wood_bearing.ADDED_LENGTH))
    return 1.0


def bearings(asked: Asked) -> list[Column]:
    """Crushing of the beam and of what it stands on, each at its worst support; none without lengths."""
    question, columns, block = asked.demands.question, asked.columns, asked.demands.strength
    if question.bearings is None:
        return []
    both = block.response.reactions
    low, high = both[block.rows(0)], both[block.rows(1)]
    forces = low + asked.shares[:, None, None] * (high - low)
    rows = forces.argmax(axis=1)
    R = np.maximum(np.take_along_axis(forces, rows[:, None, :], axis=1)[:, 0, :], 0.0)
    if not (R > 0).any():
        return []
    lengths = np.array(question.bearings)
    C_b = np.array(
        [
            area_factor(length, place, question.line.length)
            for length, place in zip(question.bearings, question.line.supports, strict=True)
        ]
    )
    clause = wood_bearing.ACROSS_THE_GRAIN.at(asked.editions)
    share = np.arange(len(asked.shares))

    def column(name: str, factors: Array, capacity: Array | None) -> Column:
        support = (R / (lengths * factors)).argmax(axis=1)
        at = asked.weight
        stress = nds.bearing_stress(R=R[share, support][at], b=columns.b, l_b=lengths[support][at])
        if capacity is None:
            capacity = nds.bearing_value(F_cp=columns.F_cp, C_M=columns.C_Mcp, C_b=factors[support][at])
        sums = block.combination_of[rows[share, support]][at]
        return Column(name, "stress", clause, stress, capacity, sums, block.names)

    found = [column("bearing", C_b, None)]
    if question.support is not None:
        allowed = np.full(len(asked.weight), question.support.F_c_perp)
        found.append(column("support_bearing", np.ones(len(lengths)), allowed))
    return found
