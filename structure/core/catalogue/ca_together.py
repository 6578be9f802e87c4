"""All sawn lumber of a search at once under CSA O86:19 6.5.3, 6.5.4, 5.4 and 6.5.6.

Rules and formulas are those of `members/ca_wood_bending.py` and `members/ca_wood_service.py`; a test holds both
against each other. Where K_D follows the self weight, because what stays is the greater part of a sum, and where
what stays bends the beam by more than half, each section is checked by itself.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from structure.core.catalogue.bent import LEAST, bending_groups
from structure.core.catalogue.ca_columns import CaColumns
from structure.core.catalogue.result import Column
from structure.core.catalogue.together import Many, deflections, shear_at_d, shear_at_face
from structure.core.codes.ca import wood, wood_bearing
from structure.core.codes.ca import wood_beams as o86
from structure.core.members.ca_wood_bending import ANY_LOADING, EFFECTIVE, sawn_limit, stability
from structure.core.members.ca_wood_service import RULE, left_out
from structure.core.members.ca_wood_values import durations, support_duration
from structure.core.statics.response import Response

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.intp]
SURELY_LESS = 0.9  # of the half that what stays may bend a beam without a check of its own


@dataclass(frozen=True, eq=False)
class CaAsked(Many[CaColumns]):
    """A question under CSA O86, whose K_D is the same for every self weight."""

    @cached_property
    def by_combination(self) -> Array:
        return np.array([each.K_D for each in durations(self.demands, 0)])

    @cached_property
    def durations(self) -> tuple[float, ...]:
        return tuple(sorted(set(self.by_combination.tolist())))

    @cached_property
    def at_supports(self) -> Array:
        """K_D of every strength sum at every support, (sums, supports)."""
        return _at_supports(self, 0)


def all_checks(asked: CaAsked) -> tuple[tuple[Column, ...], Array]:
    """Every check of every section, and the largest slenderness C_B of each; no check where all stand alone."""
    slender = np.zeros(len(asked.weight))
    if not _steady(asked) or _stays_too_long(asked):
        return (), slender
    crushed = _bearings(asked)
    if crushed is None:
        return (), slender
    bent, slender = _bending(asked)
    return (bent, _shear(asked), *deflections(asked, RULE), *crushed), slender


def _at_supports(asked: CaAsked, weight: int) -> Array:
    demands = asked.demands
    sums, supports = len(demands.strength.combinations), len(demands.question.line.supports)
    return np.array(
        [[support_duration(demands, weight, n, c).K_D for n in range(supports)] for c in range(sums)]
    )


def _steady(asked: CaAsked) -> bool:
    """Whether K_D is the same for the lightest and the heaviest section, and so for those between them."""
    heaviest = [each.K_D for each in durations(asked.demands, 1)]
    same: bool = asked.by_combination.tolist() == heaviest
    if not same or asked.demands.question.bearings is None:
        return same
    return bool((asked.at_supports == _at_supports(asked, 1)).all())


def _stays_too_long(asked: CaAsked) -> bool:
    """Whether what stays may bend some section by more than half of the whole, so that 5.4.3 checks it."""
    demands = asked.demands
    block = demands.total(1.0)
    if not demands.question.deflection.creep or "D" not in block.names:
        return False
    # The first row of each sum is one of those that the total is the largest of.
    of = block.combination_of
    rows = np.array([int(np.flatnonzero(of == n)[0]) for n in range(len(block.names))])
    alone = block.names.index("D")
    for weight in (0, 1):
        packed = block.response[block.rows(weight)].packed[rows]
        response = Response(block.response.line, block.response.breaks, packed)
        for bay in demands.question.line.bays:
            largest = np.abs(response.deflection_extremes(bay.start, bay.end).largest)
            if largest[alone] > SURELY_LESS * o86.PERMANENT_SHARE * largest.max():
                return True
    return False


def _bending(asked: CaAsked) -> tuple[Column, Array]:
    columns, at, block = asked.columns, asked.weight, asked.demands.strength
    groups = bending_groups(asked)
    least = LEAST * np.maximum(groups.moment.max(axis=0), LEAST)
    M = np.where(groups.moment > least, groups.moment, 0.0)[:, at]
    l_u = groups.l_u[:, at]
    K_D = np.array([asked.durations[key[2]] for key in groups.keys])
    F_b = columns.F_b * K_D[:, None]
    factors = np.array([EFFECTIVE.get(key[3], ANY_LOADING) for key in groups.keys])
    pressed = (M > 0) & (l_u > 0) & (columns.d > columns.b * sawn_limit(l_u))
    L_e = o86.effective_length(k=factors[:, None], l_u=np.where(pressed, l_u, 0.0))
    C_B = np.asarray(o86.slenderness(L_e=L_e, d=columns.d, b=columns.b))
    M_r = o86.moment_resistance(
        phi=wood.PHI_BENDING, F_b=F_b, S=columns.S, K_Zb=columns.K_Zb, K_L=stability(C_B, columns.E_K, F_b)
    )
    worst = (M / M_r).argmax(axis=0)
    each = np.arange(len(at))
    column = Column(
        "bending",
        "moment",
        o86.BENDING.at(asked.editions),
        M[worst, each],
        M_r[worst, each],
        block.combination_of[groups.rows[worst, at]],
        block.names,
    )
    return column, C_B.max(axis=0)


def _shear(asked: CaAsked) -> Column:
    columns, block = asked.columns, asked.demands.strength
    within = asked.demands.question.shear_at == "d"
    V, row = shear_at_d(asked, columns.d, left_out) if within else shear_at_face(asked)
    F_v = columns.F_v * asked.C_D[row]
    V_r = o86.shear_resistance(phi=wood.PHI_SHEAR, F_v=F_v, A_n=columns.A, K_Zv=columns.K_Zv)
    sums = block.combination_of[row]
    return Column("shear", "force", o86.SHEAR.at(asked.editions), V, np.asarray(V_r), sums, block.names)


def _bearings(asked: CaAsked) -> list[Column] | None:
    """Crushing at the worst support of each section; none without lengths, None where a section lacks a check."""
    question, columns, block = asked.demands.question, asked.columns, asked.demands.strength
    if question.bearings is None:
        return []
    both = np.asarray(block.response.reactions)
    low, high = both[block.rows(0)], both[block.rows(1)]
    K_D = asked.at_supports[block.combination_of]
    forces = low + asked.shares[:, None, None] * (high - low)
    rows = (forces / K_D).argmax(axis=1)
    R = np.take_along_axis(forces, rows[:, None, :], axis=1)[:, 0, :]
    if not (R > 0).all():
        return None
    lengths, at = np.array(question.bearings), asked.weight
    lasting = np.take_along_axis(K_D, rows, axis=0)
    support = (R / (lengths * lasting)).argmax(axis=1)
    share = np.arange(len(asked.shares))
    K, l_b = lasting[share, support][at], lengths[support][at]
    sums = block.combination_of[rows[share, support]][at]
    held = {"phi": wood.PHI_COMPRESSION, "b": columns.b, "l_b": l_b, "K_B": 1.0, "K_Zcp": 1.0}
    Q_r = wood_bearing.bearing_resistance(F_cp=columns.F_cp * K, **held)
    clause, force = wood_bearing.ALL_LOADS.at(asked.editions), R[share, support][at]
    found = [Column("bearing", "force", clause, force, np.asarray(Q_r), sums, block.names)]
    if question.support is not None:
        F_cp = question.support.F_c_perp * K * columns.K_Scp
        Q_r = wood_bearing.bearing_resistance(F_cp=F_cp, **held)
        found.append(Column("support_bearing", "force", clause, force, np.asarray(Q_r), sums, block.names))
    near = _near(asked, K_D, lengths)
    return None if near is None else [*found, near]


def _near(asked: CaAsked, K_D: Array, lengths: Array) -> Column | None:
    """Loads within the depth of a support, 6.5.6.3; None where some section has none."""
    columns, block, line = asked.columns, asked.demands.strength, asked.demands.question.line
    response, count = block.response, len(columns.sections)
    reactions = np.asarray(response.reactions, dtype=float)
    depths, of = np.unique(columns.d, return_inverse=True)
    shares, each = asked.shares[asked.weight][:, None], np.arange(count)
    worst, K, l_b = np.full(count, -1.0), np.ones(count), np.ones(count)
    demand, row_of = np.zeros(count), np.zeros(count, dtype=np.intp)
    for n, place in enumerate(line.supports):
        Q = np.repeat(reactions[None, :, n], len(depths), axis=0)
        for number, depth in enumerate(depths.tolist()):
            if place - depth > 0:
                Q[number] += response.shear(place - depth, "left")
            if place + depth < line.length:
                Q[number] -= response.shear(place + depth, "right")
        low, high = Q[:, block.rows(0)], Q[:, block.rows(1)]
        grown = low[of] + (high - low)[of] * shares
        row = (grown / K_D[:, n]).argmax(axis=1)
        value, lasting = grown[each, row], K_D[row, n]
        ratio = value / (lasting * lengths[n])
        better = (value > 0) & (ratio > worst)
        worst, demand = np.where(better, ratio, worst), np.where(better, value, demand)
        K, l_b = np.where(better, lasting, K), np.where(better, lengths[n], l_b)
        row_of = np.where(better, row, row_of)
    if (worst < 0).any():
        return None
    Q_r = wood_bearing.bearing_resistance_near(
        phi=wood.PHI_COMPRESSION, F_cp=columns.F_cp * K, b=columns.b, l_b=l_b, K_Zcp=1.0
    )
    return Column(
        "bearing_near_support",
        "force",
        wood_bearing.NEAR_A_SUPPORT.at(asked.editions),
        demand,
        np.asarray(Q_r),
        block.combination_of[row_of],
        block.names,
    )
