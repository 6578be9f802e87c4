"""Bending and shear of a steel beam, each under every sum. AISC 360 chapters F and G."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from structure.core.clauses import Clause, Editions
from structure.core.codes.us import steel
from structure.core.codes.us import steel_bending as aisc
from structure.core.codes.us import steel_shear as webs
from structure.core.errors import OutOfScope
from structure.core.members.beam_demand import Demands
from structure.core.members.steel_demand import largest_shear, loaded, worst_segment
from structure.core.members.steel_segments import segments
from structure.core.members.steel_strength import Strength
from structure.core.trace import Check, Step


@dataclass(frozen=True, slots=True)
class SteelBending:
    """The bending check with C_b and the unbraced length of its governing segment."""

    check: Check
    C_b: float
    L_b: float


def bending(demands: Demands, weight: int, strength: Strength, editions: Editions) -> SteelBending:
    """The worst ratio over sums and unbraced segments.

    Raises OutOfScope for a tube whose unbraced length is past L_r.
    """
    held = segments(demands)
    rows = demands.strength.rows(weight)
    L_b, bent = held.L_b[rows], loaded(held.moments[rows])
    if bool(np.logical_and(strength.beyond(L_b), bent).any()):
        raise OutOfScope(
            aisc.TUBE_LATERAL.at(editions),
            f"{strength.section.label}: an unbraced length of {float(L_b[bent].max()) / 12:.4g} ft is past "
            "the elastic limit of the tube; brace it more closely",
        )
    worst = worst_segment(demands, weight, strength.nominal, editions)
    steps, M_n, clause = strength.sheet(worst.L_b, worst.C_b, editions)
    allowed = steel.allowable_moment.step(editions, M_n=M_n, Omega=steel.OMEGA_BENDING)
    check = Check(
        "bending", worst.M, allowed.result, "moment", worst.combination, clause.at(editions),
        (*worst.gradient, *steps, allowed), note=worst.note,
    )  # fmt: skip
    return SteelBending(check, worst.C_b, worst.L_b)


def shear(demands: Demands, weight: int, strength: Strength, editions: Editions) -> Check:
    """The largest shear of all sums and bays, at the support and not within d of it."""
    V, name, note = largest_shear(demands, weight)
    steps, V_n, Omega, clause = shear_strength(
        strength, max(each.length for each in demands.question.line.bays), editions
    )
    allowed = steel.allowable_force.step(editions, R_n=V_n, Omega=Omega)
    return Check("shear", V, allowed.result, "force", name, clause.at(editions), (*steps, allowed), note=note)


def shear_strength(
    strength: Strength, L_v: float, editions: Editions
) -> tuple[tuple[Step, ...], float, float, Clause]:
    """Steps, nominal shear [lbf], safety factor and clause; `L_v` counts for round tubes only."""
    shape, F_y, E = strength.section.rolled, strength.F_y, strength.E
    if shape.form == "round":
        F_cr = webs.round_shear_stress.step(editions, E=E, L_v=L_v, D=shape.d, s=shape.web, F_y=F_y)
        V_n = webs.round_shear_strength.step(editions, F_cr=F_cr.result, A=shape.A)
        return (F_cr, V_n), V_n.result, steel.OMEGA_SHEAR, webs.ROUND
    tube = shape.form == "HSS"
    area = (
        webs.tube_web_area.step(editions, H=shape.d, t=shape.t_w)
        if tube
        else webs.web_area.step(editions, d=shape.d, t_w=shape.t_w)
    )
    stocky = steel.plate_limit(n=webs.STOCKY_WEB, E=E, F_y=F_y)
    rolled = shape.form == "W" and shape.web <= stocky
    coefficient = _coefficient(strength, webs.K_V_TUBE if tube else webs.K_V_WEB, tube, editions)
    C_v = coefficient[-1].result if coefficient else 1.0
    V_n = webs.shear_strength.step(editions, F_y=F_y, A_w=area.result, C_v=C_v, note=f"h/t {shape.web:.1f}")
    Omega = steel.OMEGA_SHEAR_ROLLED_WEB if rolled else steel.OMEGA_SHEAR
    return (area, *coefficient, V_n), V_n.result, Omega, webs.TUBE if tube else webs.WEB


def _coefficient(strength: Strength, k_v: float, tube: bool, editions: Editions) -> tuple[Step, ...]:
    """C_v where it is under 1. A web past the inelastic range holds C_v1 (G2-4) or C_v2 (G2-11)."""
    s, F_y, E = strength.section.rolled.web, strength.F_y, strength.E
    yields = webs.shear_limit.step(editions, n=webs.YIELDS, k_v=k_v, E=E, F_y=F_y)
    if s <= yields.result:
        return ()
    if tube and s > webs.shear_limit(n=webs.BUCKLES, k_v=k_v, E=E, F_y=F_y):
        return (webs.elastic_shear_coefficient.step(editions, k_v=k_v, E=E, s=s, F_y=F_y),)
    return (yields, webs.shear_coefficient.step(editions, s_1=yields.result, s=s))


def classes(strength: Strength) -> Mapping[str, object]:
    """The local buckling class of each part, as plain data."""
    return {part.name: part.as_data() for part in strength.parts}
