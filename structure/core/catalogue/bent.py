"""Bending of all wood sections of a search at once: every bay, both edges, every duration of load. NDS 3.3.

Sums whose allowed stress is the same for a section, because duration, unbraced length and row of table
3.3.3 are, form a group: of them only the largest moment matters. Where the unbraced length reaches to a
point of contraflexure it differs from sum to sum, and every sum that can govern is a group of its own.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

import numpy as np
import numpy.typing as npt

from structure.core.catalogue.result import Column
from structure.core.catalogue.together import Asked, Many
from structure.core.codes.us import wood
from structure.core.codes.us import wood_beams as nds
from structure.core.members.beam_stability import LONG, Row, Unbraced, effective_length, unbraced
from structure.core.statics.growing import Entry, entries, governing

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.intp]
LEAST = 1e-9  # of the largest moment: what is less is rounding and presses no edge
LENGTHS_APART = 1.01  # at l_u = 7 d the table steps back by less than that
NOISE = 1e-12  # of the largest moment: what rounding leaves over a support
ROWS_AT_ONCE = 1_500
GROUPS_AT_ONCE = 256


@dataclass(frozen=True, eq=False)
class Groups:
    """Sums that share what is allowed, a group each: its key, and by weight its moment, row and unbraced length.

    `keys`: edge, bay, number of the duration, row of table 3.3.3; the others (groups, weights).
    """

    keys: tuple[tuple[int, int, int, Row], ...]
    moment: Array
    rows: Whole
    l_u: Array

    def __getitem__(self, part: slice) -> Groups:
        return Groups(self.keys[part], self.moment[part], self.rows[part], self.l_u[part])


def bending(asked: Asked) -> tuple[Column, Array]:
    """The worst bending of all sums, bays and edges, and the largest slenderness R_B of each section."""
    columns, at, block = asked.columns, asked.weight, asked.demands.strength
    groups = bending_groups(asked)
    least = LEAST * np.maximum(groups.moment.max(axis=0), LEAST)
    # Many groups come of patterns on many bays: so many at once as fit into memory together.
    parts = [
        _worst_of_groups(asked, groups[n : n + GROUPS_AT_ONCE], least)
        for n in range(0, len(groups.keys), GROUPS_AT_ONCE)
    ]
    worst = np.stack([part[0] for part in parts]).argmax(axis=0)
    each = np.arange(len(at))
    M, allowed, rows = (np.stack([part[n] for part in parts])[worst, each] for n in (1, 2, 3))
    column = Column(
        "bending",
        "stress",
        nds.FLEXURE.at(asked.editions),
        nds.bending_stress(M=M, S=columns.S),
        allowed,
        block.combination_of[rows],
        block.names,
    )
    return column, np.max([part[4] for part in parts], axis=0)


def _worst_of_groups(asked: Asked, groups: Groups, least: Array) -> tuple[Array, Array, Array, Whole, Array]:
    """By section the largest ratio with its moment, what is allowed and the sum; and the largest slenderness."""
    columns, at = asked.columns, asked.weight
    M = np.where(groups.moment > least, groups.moment, 0.0)[:, at]
    l_u = groups.l_u[:, at]
    star = columns.star[[key[0] for key in groups.keys], [key[2] for key in groups.keys]]
    pressed = (M > 0) & (l_u > 0) & ~columns.level
    C_L = np.ones(M.shape)
    slender = np.zeros(len(at))
    if pressed.any():
        depths: Any = columns.d  # the rule is written for one depth and holds for many
        l_e = np.stack(
            [effective_length(key[3], each, depths) for key, each in zip(groups.keys, l_u, strict=True)]
        )
        R_B = np.where(pressed, nds.beam_slenderness(l_e=l_e, d=columns.d, b=columns.b), 0.0)
        slender = R_B.max(axis=0)
        F_bE = nds.critical_bending(E_min=columns.E_min, R_B=np.where(pressed, R_B, 1.0))
        C_L = np.where(pressed, nds.stability_factor(F_bE=F_bE, F_b=star), 1.0)
    allowed = wood.with_stability(F_b=star, C_L=np.minimum(C_L, columns.most))
    ratios = M / columns.S / allowed
    worst, each = ratios.argmax(axis=0), np.arange(len(at))
    return ratios[worst, each], M[worst, each], allowed[worst, each], groups.rows[worst, at], slender


def bending_groups(asked: Many[Any]) -> Groups:
    """The groups that can govern for some weight, with their exact moments."""
    demands, block = asked.demands, asked.demands.strength
    question, bays = demands.question, demands.question.line.bays
    follows = question.bottom_bracing is None and question.bracing == "continuous"
    # Lengths that reach to points of contraflexure are worked out for each weight, so not here.
    plain = replace(demands, question=replace(question, bottom_bracing="ends")) if follows else demands
    edges = unbraced(plain)
    ones = [1.0] * max(len(bays), block.rows_each)
    both = [entries(demands.moments, block.rows_each, sign, ones, ones) for sign in (1.0, -1.0)]
    least = NOISE * max((max(each.low, each.high) for held in both for each in held), default=0.0)
    found: list[Groups] = []
    for edge, every in enumerate(both):
        held = [each for each in every if max(each.low, each.high) > least]
        if edge and follows:
            found += [_following(asked, held, edges[1])] if held else []
            continue
        left = _in_question(asked, held, edges[edge])
        for bay in range(len(bays)):
            here = [each for each in left if each.bay == bay]
            if here:
                found += _fixed(asked, edge, bay, here, edges[edge])
    if found:
        return _joined(found)
    # Nothing bends, such as a beam with forces over its supports alone.
    nothing = np.zeros((1, len(asked.shares)))
    key = (0, 0, _duration(asked, 0), edges[0].rows[0][0])
    return Groups((key,), nothing, nothing.astype(np.intp), nothing)


def _duration(asked: Many[Any], row: int) -> int:
    return asked.durations.index(float(asked.C_D[row]))


def _fixed(asked: Many[Any], edge: int, bay: int, held: list[Entry], unbraced: Unbraced) -> list[Groups]:
    """Groups of one edge of one bay whose unbraced length is the same in every sum."""
    l_u = float(unbraced.lengths[0, bay])
    of = asked.demands.strength.combination_of.tolist()
    tables = [rows[bay] for rows in unbraced.rows]
    groups: dict[tuple[int, Row], list[Entry]] = {}
    for each in held:
        groups.setdefault((_duration(asked, each.row), tables[of[each.row]]), []).append(each)
    found = []
    for (duration, table), some in groups.items():
        best, which = governing(some, asked.shares, asked.strength.moment)
        rows = np.array([each.row for each in some])[which]
        key = ((edge, bay, duration, table),)
        found.append(Groups(key, np.maximum(best, 0.0)[None], rows[None], np.full((1, len(best)), l_u)))
    return found


def _in_question(asked: Many[Any], held: list[Entry], unbraced: Unbraced) -> list[Entry]:
    """The sums and bays of one edge that are left after those that the worst one rules out.

    What is allowed rises with the duration factor, but no faster than the factor itself, and falls with the
    effective length.
    """
    if len(held) < 2:
        return held
    C_D, of = asked.C_D.tolist(), asked.demands.strength.combination_of.tolist()
    l_u = unbraced.lengths[0].tolist()
    top = max(held, key=lambda each: each.low / C_D[each.row])
    line, most = asked.strength.there(top), l_u[top.bay]
    table = unbraced.rows[of[top.row]][top.bay]

    def ruled_out(each: Entry) -> bool:
        factor = max(C_D[top.row] / C_D[each.row], 1.0)
        if each.low * factor >= top.low or each.high * factor >= line:
            return False
        length = l_u[each.bay]
        shorter = length == most or length * LENGTHS_APART <= most
        return length == 0 or (shorter and _no_longer(unbraced.rows[of[each.row]][each.bay], table))

    return [each for each in held if each is top or not ruled_out(each)]


@lru_cache(maxsize=256)
def _no_longer(row: Row, top: Row) -> bool:
    """Whether a row of the table never gives a longer effective length than another one, whatever l_u and d."""
    if row is top:
        return True
    if row.short > top.short:
        return False
    if row.deep is None:
        # In proportion to the length throughout; the three depths of the other row are left out.
        return all(row.short <= each for each in (top.deep, top.long) if each is not None)
    if top.deep is None or row.deep > top.deep:
        return False
    if row.long is not None:
        return row.long <= (top.deep if top.long is None else top.long)
    # Over l_u = 14.3 d, three depths are no more than 3/14.3 of the length.
    return top.long is None or row.deep + 3 / LONG <= top.long


def _following(asked: Many[Any], held: list[Entry], unbraced: Unbraced) -> Groups:
    """Hogging that reaches to the next point of contraflexure: every sum of every bay by itself."""
    of = asked.demands.strength.combination_of
    moment = np.stack([np.maximum(asked.strength.moment(each), 0.0) for each in held])
    rows, bays = (np.array([getattr(each, name) for each in held]) for name in ("row", "bay"))
    used, place = np.unique(rows, return_inverse=True)
    step, weights = max(1, ROWS_AT_ONCE // len(asked.shares)), np.arange(len(asked.shares))
    lengths = np.concatenate(
        [
            asked.at_weights(used[n : n + step], weights).hogging_lengths.reshape(
                -1, len(weights), len(asked.spans)
            )
            for n in range(0, len(used), step)
        ]
    )
    keys = tuple(
        (1, each.bay, _duration(asked, each.row), unbraced.rows[of[each.row]][each.bay]) for each in held
    )
    return Groups(keys, moment, np.broadcast_to(rows[:, None], moment.shape), lengths[place, :, bays])


def _joined(parts: list[Groups]) -> Groups:
    return Groups(
        tuple(key for part in parts for key in part.keys),
        *(np.concatenate([getattr(part, name) for part in parts]) for name in ("moment", "rows", "l_u")),
    )
