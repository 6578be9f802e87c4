"""Shear, deflection and bearing of all wood sections of a search at once. NDS 3.4, 3.5 and 3.10.

The forces of a sum depend on a section only through its weight, so they are found once for each weight that
there is. Rules and formulas are those of `members/beam_service.py`; a test holds both against each other.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
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
from structure.core.statics.growing import Entry, Growing, entries, governing
from structure.core.statics.response import Extremes, Response

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.intp]


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
        return self.grown(self.demands.strength)

    def grown(self, block: Block) -> Growing:
        """The sums of a block from the first to the second self weight."""
        pressing = all(min(load.value, load.end_value) >= 0 for load in self.demands.question.loads)
        low, high = (block.response[block.rows(n)] for n in (0, 1))
        return Growing(low, high, self.shares, pressing)

    @cached_property
    def spans(self) -> Array:
        """Length of each bay that its deflection is held against."""
        bays = self.demands.question.line.bays
        return np.array([bay.length if bay.kind == "span" else 2 * bay.length for bay in bays])


def worst_of(
    held: Sequence[Entry], shares: Array, exact: Callable[[Entry], Array]
) -> tuple[Array, Whole, Whole]:
    """The value, row and bay of the largest of all entries at every share."""
    best, which = governing(held, shares, exact)
    row, bay, scale = (
        np.array([getattr(each, name) for each in held])[which] for name in ("row", "bay", "scale")
    )
    return best / scale, row, bay


def shear(asked: Asked) -> Column:
    """The worst shear of all sums and bays, full at the support."""
    demands, columns, block = asked.demands, asked.columns, asked.demands.strength
    by_row = (1 / asked.C_D).tolist()
    held = entries(demands.shears, block.rows_each, 0.0, [1.0] * len(demands.shears), by_row)
    V, row, _ = worst_of(held, asked.shares, asked.strength.shear)
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
        largest = _largest(demands.live_deflections)
        bay, row = divmod(int((largest / asked.spans[:, None]).argmax()), largest.shape[1])
        same = np.zeros(len(asked.shares), dtype=np.intp)
        held = (largest[bay, row] + same, row + same, bay + same)
        found.append(_deflection(asked, "deflection_live", demands.live, held, limits.live))
    worst = _total(asked)
    if worst is not None:
        block = demands.total(creep_factor(demands.question))
        found.append(_deflection(asked, "deflection_total", block, worst, limits.total))
    return found


def _total(asked: Asked) -> tuple[Array, Whole, Whole] | None:
    """The worst total deflection by weight."""
    demands = asked.demands
    block = demands.total(creep_factor(demands.question))
    if not block.names:
        return None
    by_bay = (1 / asked.spans).tolist()

    def held(rows: Whole) -> list[Entry]:
        extremes = block.response[np.concatenate((rows, block.rows_each + rows))].deflection_by_bay()
        found = entries(extremes, len(rows), 0.0, by_bay, [1.0] * len(rows))
        return [each._replace(row=int(rows[each.row])) for each in found]

    growing = asked.grown(block)
    found, rows = _likely(asked, block, held)
    return worst_of(found + (held(rows) if rows.size else []), asked.shares, growing.deflection)


def _likely(asked: Asked, block: Block, held: Callable[[Whole], list[Entry]]) -> tuple[list[Entry], Whole]:
    """Entries of the sum that is likely the worst, and the other sums that it does not rule out.

    No sum is larger than its dead part and its live part, each at its own worst place, and none gets smaller
    by more than what the growing weight bends by itself.
    """
    live, count = asked.demands.live, block.rows_each
    if live is None or count != 1 + live.rows_each or block.names[0] != "D":
        return [], np.arange(count)
    packed = block.response.packed
    pair = Response(
        block.response.line, block.response.breaks, np.stack((packed[0], packed[count] - packed[0]))
    )
    dead, more = np.moveaxis(_largest(pair.deflection_by_bay()) / asked.spans[:, None], 1, 0)
    upper = np.empty(count)
    upper[0] = (dead + more).max()
    upper[1:] = (
        (dead + more)[:, None] + _largest(asked.demands.live_deflections) / asked.spans[:, None]
    ).max(axis=0)
    top = int(upper.argmax())
    found = held(np.array([top]))
    least = max((each.low * each.scale - more[each.bay] for each in found), default=0.0)
    left = upper >= least
    left[top] = False
    return found, np.flatnonzero(left)


def _largest(extremes: tuple[Extremes, ...]) -> Array:
    """Without signs, (bays, rows)."""
    return np.abs(np.stack([each.largest for each in extremes]))


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
