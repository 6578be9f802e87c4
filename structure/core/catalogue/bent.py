"""Bending of all wood sections of a search at once: every bay, both edges, every duration of load. NDS 3.3.

Sums whose allowed stress is the same for a section, because duration, unbraced length and row of table
3.3.3 are, form a group: of them only the largest moment matters. Where the unbraced length reaches to a
point of contraflexure it differs from sum to sum, and every sum that can govern is a group of its own.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from structure.core.catalogue.columns import DURATIONS
from structure.core.catalogue.result import Column
from structure.core.catalogue.together import Asked
from structure.core.codes.us import wood
from structure.core.codes.us import wood_beams as nds
from structure.core.members.beam_stability import Row, effective_length, unbraced
from structure.core.statics.growing import governing
from structure.core.statics.response import Response

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.intp]
LEAST = 1e-9  # of the largest moment: what is less is rounding and presses no edge
ROWS_AT_ONCE = 4_000


@dataclass(frozen=True, eq=False)
class Groups:
    """Sums that share what is allowed, a group each: its key, and by weight its moment, row and unbraced length.

    `keys`: edge, bay, number of the duration, row of table 3.3.3; the others (groups, weights).
    """

    keys: tuple[tuple[int, int, int, Row], ...]
    moment: Array
    rows: Whole
    l_u: Array

    def __getitem__(self, kept: list[int]) -> Groups:
        return Groups(tuple(self.keys[n] for n in kept), self.moment[kept], self.rows[kept], self.l_u[kept])


def bending(asked: Asked) -> tuple[Column, npt.NDArray[np.bool_]]:
    """The worst bending of all sums, bays and edges, and which sections are too slender (NDS 3.3.3.7)."""
    columns, at, block = asked.columns, asked.weight, asked.demands.strength
    groups = _groups(asked)
    least = LEAST * np.maximum(groups.moment.max(axis=0), LEAST)
    M = np.where(groups.moment > least, groups.moment, 0.0)[:, at]
    l_u = groups.l_u[:, at]
    star = columns.star[[key[0] for key in groups.keys], [key[2] for key in groups.keys]]
    pressed = (M > 0) & (l_u > 0) & ~columns.level
    C_L = np.ones(M.shape)
    refused = np.zeros(len(at), dtype=bool)
    if pressed.any():
        depths: Any = columns.d  # the rule is written for one depth and holds for many
        l_e = np.stack(
            [effective_length(key[3], each, depths) for key, each in zip(groups.keys, l_u, strict=True)]
        )
        R_B = np.where(pressed, nds.beam_slenderness(l_e=l_e, d=columns.d, b=columns.b), 0.0)
        refused = R_B.max(axis=0) > nds.MOST_SLENDER
        F_bE = nds.critical_bending(E_min=columns.E_min, R_B=np.where(pressed, R_B, 1.0))
        C_L = np.where(pressed, nds.stability_factor(F_bE=F_bE, F_b=star), 1.0)
    allowed = wood.with_stability(F_b=star, C_L=np.minimum(C_L, columns.most))
    worst = (M / columns.S / allowed).argmax(axis=0)
    each = np.arange(len(at))
    column = Column(
        "bending",
        "stress",
        nds.FLEXURE.at(asked.editions),
        nds.bending_stress(M=M[worst, each], S=columns.S),
        allowed[worst, each],
        block.combination_of[groups.rows[worst, at]],
        block.names,
    )
    return column, refused


def _groups(asked: Asked) -> Groups:
    """The groups that can govern for some weight, with their exact moments."""
    demands, block = asked.demands, asked.demands.strength
    question, bays = demands.question, demands.question.line.bays
    edges = unbraced(demands)
    follows = question.bottom_bracing is None and question.bracing == "continuous"
    moments = np.stack(
        [
            [np.maximum(each.max, 0.0) for each in demands.moments],
            [np.maximum(-each.min, 0.0) for each in demands.moments],
        ]
    )
    low, high = moments[..., block.rows(0)], moments[..., block.rows(1)]
    number: dict[tuple[int, int, int, Row], int] = {}
    of = np.empty((2, len(bays), len(block.combinations)), dtype=np.intp)
    for edge, bay, n in np.ndindex(*of.shape):
        key = (edge, bay, DURATIONS.index(block.combinations[n].C_D), edges[edge].rows[n][bay])
        of[edge, bay, n] = number.setdefault(key, len(number))
    bent = np.maximum(low, high) > 0
    if follows:
        bent[1] = False
    entries = np.flatnonzero(bent)
    keys = tuple(number)
    found = []
    if entries.size:
        numbers, group = np.unique(of[..., block.combination_of].ravel()[entries], return_inverse=True)
        best, which = governing(
            low.ravel()[entries],
            high.ravel()[entries],
            group,
            asked.shares,
            lambda chosen: _exact(asked, entries[chosen], low.shape),
        )
        lengths = np.array([edges[keys[n][0]].lengths[0, keys[n][1]] for n in numbers.tolist()])
        held = Groups(
            tuple(keys[n] for n in numbers.tolist()),
            best,
            entries[which] % low.shape[2],
            np.broadcast_to(lengths[:, None], best.shape),
        )
        found.append(held[_unruled(held)])
    if follows and np.any(np.maximum(low[1], high[1]) > 0):
        found.append(_following(asked, low[1], high[1], of[1], keys))
    if not found:
        # Nothing bends, such as a beam with forces over its supports alone.
        nothing = np.zeros((1, len(asked.shares)))
        return Groups(keys[:1], nothing, nothing.astype(np.intp), nothing)
    return _joined(found)


def _joined(parts: list[Groups]) -> Groups:
    return Groups(
        tuple(key for part in parts for key in part.keys),
        *(np.concatenate([getattr(part, name) for part in parts]) for name in ("moment", "rows", "l_u")),
    )


def _exact(asked: Asked, entries: Whole, shape: tuple[int, ...]) -> Array:
    """Moments (entries, weights) of edge, bay and row, numbered through."""
    edge, bay, row = np.unravel_index(entries, shape)
    found = np.empty((len(entries), len(asked.shares)))
    for n in np.unique(bay).tolist():
        here = bay == n
        extremes = asked.strength.extremes(
            row[here], asked.demands.question.line.bays[n], Response.moment_extremes
        )
        found[here] = np.where(edge[here, None] == 0, extremes.max, -extremes.min)
    return np.maximum(found, 0.0)


def _unruled(groups: Groups) -> list[int]:
    """Groups that another one of the same edge, bay and row of the table does not rule out for every weight.

    What is allowed rises with the duration factor, but no faster than the factor itself.
    """
    kept: list[int] = []
    for n, (edge, bay, duration, row) in enumerate(groups.keys):
        for m, other in enumerate(groups.keys):
            if m == n or (other[0], other[1]) != (edge, bay) or other[3] is not row:
                continue
            ratio = max(1.0, DURATIONS[other[2]] / DURATIONS[duration])
            if np.all(groups.moment[n] * ratio < groups.moment[m]):
                break
        else:
            kept.append(n)
    return kept


def _following(
    asked: Asked, low: Array, high: Array, of: Whole, keys: tuple[tuple[int, int, int, Row], ...]
) -> Groups:
    """Hogging that reaches to the next point of contraflexure: every sum of every bay by itself."""
    block = asked.demands.strength
    bays, rows = np.nonzero(np.maximum(low, high) > 0)
    weights = len(asked.shares)
    moment, l_u = np.empty((2, len(rows), weights))
    for n in np.unique(bays).tolist():
        here = bays == n
        bay = asked.demands.question.line.bays[n]
        extremes = asked.strength.extremes(rows[here], bay, Response.moment_extremes)
        moment[here] = np.maximum(-extremes.min, 0.0)
    used, place = np.unique(rows, return_inverse=True)
    step = max(1, ROWS_AT_ONCE // weights)
    lengths = np.concatenate([_contraflexures(asked, used[n : n + step]) for n in range(0, len(used), step)])
    l_u = lengths[place, :, bays]
    number = of[bays, block.combination_of[rows]]
    every = np.broadcast_to(rows[:, None], moment.shape)
    return Groups(tuple(keys[n] for n in number.tolist()), moment, every, l_u)


def _contraflexures(asked: Asked, rows: Whole) -> Array:
    """Unbraced lengths of the pressed bottom edge (rows, weights, bays) as the sheet of one section takes them."""
    demands, block = asked.demands, asked.demands.strength
    response = asked.strength.response(rows)
    count = len(rows) * len(asked.shares)
    flat = Response(response.line, response.breaks, response.packed.reshape(count, -1))
    one = replace(
        demands,
        strength=replace(
            block,
            response=flat,
            rows_each=count,
            combination_of=np.repeat(block.combination_of[rows], len(asked.shares)),
        ),
    )
    return one.hogging_lengths.reshape(len(rows), len(asked.shares), -1)
