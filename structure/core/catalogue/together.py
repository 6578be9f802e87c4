"""Shear, deflection and bearing of all wood sections of a search at once. NDS 3.4, 3.5 and 3.10.

The forces of a sum depend on a section only through its weight, so they are found once for each weight that
there is. Rules and formulas are those of `members/beam_service.py`; a test holds both against each other.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, Generic, TypeVar

import numpy as np
import numpy.typing as npt

from structure.core.catalogue.columns import DURATIONS, Columns
from structure.core.catalogue.result import Column
from structure.core.clauses import Clause, Editions
from structure.core.codes.us import wood, wood_bearing
from structure.core.codes.us import wood_beams as nds
from structure.core.members.beam_demand import Block, Demands
from structure.core.members.beam_service import (
    RULE,
    DeflectionRule,
    creep_factor,
    nearness,
    reduced_shears,
)
from structure.core.statics.growing import Entry, Growing, entries, governing
from structure.core.statics.response import Response

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.intp]
Held = TypeVar("Held")  # the columns of a code


@dataclass(frozen=True, eq=False)
class Many(Generic[Held]):
    """A question for many sections: `demands` at the least and the largest self weight of all.

    `shares`: the weights between them; `weight`: which of them each section has.
    """

    demands: Demands
    columns: Held
    shares: Array
    weight: Whole
    editions: Editions

    @cached_property
    def by_combination(self) -> Array:
        """Duration factor of each strength sum."""
        return np.array([each.C_D for each in self.demands.strength.combinations])

    @property
    def durations(self) -> tuple[float, ...]:
        """The duration factors that there are, in order."""
        return DURATIONS

    @cached_property
    def C_D(self) -> Array:
        """Duration factor of each strength row."""
        return np.asarray(self.by_combination[self.demands.strength.combination_of])

    @cached_property
    def strength(self) -> Growing:
        return self.grown(self.demands.strength)

    def grown(self, block: Block) -> Growing:
        """The sums of a block from the first to the second self weight."""
        pressing = all(min(load.value, load.end_value) >= 0 for load in self.demands.question.loads)
        low, high = (block.response[block.rows(n)] for n in (0, 1))
        return Growing(low, high, self.shares, pressing)

    def at_weights(self, rows: Whole, weights: Whole) -> Demands:
        """Demands whose strength sums are the chosen rows at the chosen weights, (rows, weights) in a row."""
        block, held = self.demands.strength, self.strength
        grown = Growing(held.low, held.high, self.shares[weights]).response(rows)
        count = len(rows) * len(weights)
        flat = Response(grown.line, grown.breaks, grown.packed.reshape(count, -1))
        of = np.repeat(block.combination_of[rows], len(weights))
        return replace(
            self.demands, strength=replace(block, response=flat, rows_each=count, combination_of=of)
        )

    @cached_property
    def spans(self) -> Array:
        """Length of each bay that its deflection is held against."""
        bays = self.demands.question.line.bays
        return np.array([bay.length if bay.kind == "span" else 2 * bay.length for bay in bays])


class Asked(Many[Columns]):
    """A question under the rules of the NDS."""


def worst_of(
    held: Sequence[Entry], shares: Array, exact: Callable[[Entry], Array]
) -> tuple[Array, Whole, Whole]:
    """The value, row and bay of the largest of all entries at every share; nothing where there are none."""
    if not held:
        nowhere = np.zeros(len(shares), dtype=np.intp)
        return np.zeros(len(shares)), nowhere, nowhere
    best, which = governing(held, shares, exact)
    row, bay, scale = (
        np.array([getattr(each, name) for each in held])[which] for name in ("row", "bay", "scale")
    )
    return best / scale, row, bay


def shear(asked: Asked) -> Column:
    """The worst shear of all sums and bays; with `shear_at: d` what lies within d of a support is left out."""
    columns, block = asked.columns, asked.demands.strength
    within = asked.demands.question.shear_at == "d"
    V, row = shear_at_d(asked, asked.columns.d, nearness) if within else shear_at_face(asked)
    return Column(
        "shear",
        "stress",
        (nds.SHEAR_AT_D if within else nds.SHEAR).at(asked.editions),
        nds.shear_stress(V=V, b=columns.b, d=columns.d),
        wood.shear_value(F=columns.F_v, C_D=asked.C_D[row], C_M=columns.C_Mv),
        block.combination_of[row],
        block.names,
    )


def shear_at_face(asked: Many[Any]) -> tuple[Array, Whole]:
    """The worst shear for each section, and the sum that brings it."""
    demands = asked.demands
    by_row, by_bay = (1 / asked.C_D).tolist(), [1.0] * len(demands.shears)
    held = entries(demands.shears, demands.strength.rows_each, 0.0, by_bay, by_row)
    V, row, _ = worst_of(held, asked.shares, asked.strength.shear)
    return V[asked.weight], row[asked.weight]


def shear_at_d(
    asked: Many[Any], depths: Array, counts: Callable[[float, float], float]
) -> tuple[Array, Whole]:
    """The same where it depends on the depth too: all sums for every depth with the weights that it has."""
    block, bays = asked.demands.strength, asked.demands.question.line.bays
    rows = np.arange(block.rows_each)
    worst, of = np.empty(len(asked.weight)), np.empty(len(asked.weight), dtype=np.intp)
    for depth in np.unique(depths).tolist():
        here = np.flatnonzero(depths == depth)
        weights, place = np.unique(asked.weight[here], return_inverse=True)
        demands = asked.at_weights(rows, weights)
        response = demands.strength.response
        V = np.stack([np.abs(response.shear_extremes(bay.start, bay.end).largest) for bay in bays], axis=-1)
        V = np.minimum(V, reduced_shears(demands, demands.strength.rows(0), depth, counts))
        V = V.reshape(len(rows), len(weights), len(bays)).max(axis=2)
        row = (V / asked.C_D[:, None]).argmax(axis=0)
        worst[here], of[here] = V[row, np.arange(len(weights))][place], row[place]
    return worst, of


def deflections(asked: Many[Any], rule: DeflectionRule = RULE) -> list[Column]:
    """Live and total deflection; an overhang counts against twice its length."""
    demands, limits = asked.demands, asked.demands.question.deflection
    found = []
    if demands.live is not None:
        live = demands.live.response
        worst = _worst_deflection(asked, live, len(live))
        found.append(_deflection(asked, "deflection_live", demands.live, worst, limits.live, rule.live))
    total = demands.total(creep_factor(demands.question) if rule.creeps else 1.0)
    if total.names:
        worst = _worst_deflection(asked, total.response, total.rows_each)
        found.append(_deflection(asked, "deflection_total", total, worst, limits.total, rule.total))
    return found


def _worst_deflection(asked: Many[Any], response: Response, sums: int) -> tuple[Array, Whole, Whole]:
    """The worst deflection by weight of so many sums; where it grows, at the least and then at the largest one.

    First of the sum and bay that are likely the worst, then of those that they do not rule out, since their
    bounds at both ends are below a line that the first one is never below.
    """
    bays, grows = response.line.bays, len(response) > sums

    def held(bay: int, rows: Whole) -> list[Entry]:
        some = response[np.concatenate((rows, sums + rows)) if grows else rows]
        found = some.deflection_extremes(bays[bay].start, bays[bay].end)
        made = entries((found,), len(rows), 0.0, (1 / float(asked.spans[bay]),), [1.0] * len(rows), grows)
        return [each._replace(bay=bay, row=int(rows[each.row])) for each in made]

    low = response[:sums] if grows else response
    growing = Growing(low, response[sums:] if grows else low, asked.shares)
    bounds = response.deflection_bounds() / asked.spans
    one, other = bounds[:sums], bounds[sums:] if grows else bounds
    top, bay = divmod(int(one.argmax()), len(bays))
    found = held(bay, np.array([top]))
    left = np.ones(one.shape, dtype=bool)
    for each in found:
        line = growing.there(each, deflection=True)
        left = (one > each.low * each.scale) | (other > line * each.scale)
    left[top, bay] = False
    for n in np.flatnonzero(left.any(axis=0)).tolist():
        found += held(n, np.flatnonzero(left[:, n]))
    return worst_of(found, asked.shares, growing.deflection)


def _deflection(
    asked: Many[Any],
    name: str,
    block: Block,
    worst: tuple[Array, Whole, Whole],
    limit: float,
    clause: Clause,
) -> Column:
    columns = asked.columns
    y, row, bay = (each[asked.weight] for each in worst)
    return Column(
        name,
        "length",
        clause.at(asked.editions),
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
