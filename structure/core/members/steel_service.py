"""Bending, shear and deflection of a steel beam, each under every sum. AISC 360 chapters F, G and L."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from structure.core.clauses import Clause, Editions
from structure.core.codes.us import steel
from structure.core.codes.us import steel_bending as aisc
from structure.core.codes.us import steel_shear as webs
from structure.core.codes.us import wood_beams as stiffness
from structure.core.errors import OutOfScope
from structure.core.materials.steel import SteelSection
from structure.core.members.beam_demand import Block, Demands
from structure.core.members.beam_service import bay_name
from structure.core.members.steel_segments import Segments, quarter_moments, segments
from structure.core.members.steel_strength import Strength
from structure.core.statics.response import Extremes
from structure.core.trace import Check, Step

SERVICE = Clause("AISC 360", "L2")
NO_CREEP = 1.0  # steel does not go on bending under what stays


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
    block, held = demands.strength, segments(demands)
    rows = block.rows(weight)
    moments, L_b, C_b = held.moments[rows], held.L_b[rows], held.C_b[rows]
    loaded = moments > 1e-9 * max(float(moments.max()), 1e-9)
    if bool(np.logical_and(strength.beyond(L_b), loaded).any()):
        raise OutOfScope(
            aisc.TUBE_LATERAL.at(editions),
            f"{strength.section.label}: an unbraced length of {float(L_b[loaded].max()) / 12:.4g} ft is past "
            "the elastic limit of the tube; brace it more closely",
        )
    ratios = np.where(loaded, moments / strength.nominal(L_b, C_b), 0.0)
    row, place = (int(i) for i in np.unravel_index(int(ratios.argmax()), ratios.shape))
    factor = _gradient(demands, held, rows.start + row, place, editions)
    steps, M_n, clause = strength.sheet(float(L_b[row, place]), float(C_b[row, place]), editions)
    allowed = steel.allowable_moment.step(editions, M_n=M_n, Omega=steel.OMEGA_BENDING)
    segment = held.held[place]
    check = Check(
        "bending",
        float(moments[row, place]),
        allowed.result,
        "moment",
        block.names[int(block.combination_of[row])],
        clause.at(editions),
        (*factor, *steps, allowed),
        note=f"{'hogging' if segment.hogging else 'sagging'} in {bay_name(demands.question.line.bays[segment.bay])}, "
        f"{float(held.places[rows][row, place]) / 12:.2f} ft from the left end, "
        + _braced(float(L_b[row, place])),
    )
    return SteelBending(check, float(C_b[row, place]), float(L_b[row, place]))


def _braced(L_b: float) -> str:
    return f"unbraced {L_b / 12:.2f} ft" if L_b > 0 else "held sideways all along"


def _gradient(demands: Demands, held: Segments, row: int, place: int, editions: Editions) -> tuple[Step, ...]:
    """C_b as a line of the sheet, where it is not 1 by the clause itself."""
    if held.L_b[row, place] <= 0 or not held.held[place].gradient:
        return ()
    M_max, M_A, M_B, M_C = quarter_moments(demands, held.held[place], row)
    return (aisc.gradient_factor.step(editions, M_max=M_max, M_A=M_A, M_B=M_B, M_C=M_C),)


def shear(demands: Demands, weight: int, strength: Strength, editions: Editions) -> Check:
    """The largest shear of all sums and bays, at the support and not within d of it."""
    block = demands.strength
    rows = block.rows(weight)
    V = np.stack([np.abs(each.largest[rows]) for each in demands.shears], axis=-1)
    row, bay = (int(i) for i in np.unravel_index(int(V.argmax()), V.shape))
    steps, V_n, Omega, clause = shear_strength(
        strength, max(each.length for each in demands.question.line.bays), editions
    )
    allowed = steel.allowable_force.step(editions, R_n=V_n, Omega=Omega)
    return Check(
        "shear",
        float(V[row, bay]),
        allowed.result,
        "force",
        block.names[int(block.combination_of[row])],
        clause.at(editions),
        (*steps, allowed),
        note=f"{bay_name(demands.question.line.bays[bay])}, full shear at the support",
    )


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


def deflections(demands: Demands, weight: int, section: SteelSection, editions: Editions) -> list[Check]:
    """Live and total deflection, no creep; the worst bay of each. An overhang counts against twice its length."""
    limits = demands.question.deflection
    found = []
    if demands.live is not None:
        found.append(
            _deflection(
                "deflection_live", demands.live, 0, demands.live_deflections, limits.live, section, editions
            )
        )
    total = demands.total(NO_CREEP)
    if total.names:
        extremes = demands.total_deflections(NO_CREEP)
        found.append(
            _deflection("deflection_total", total, weight, extremes, limits.total, section, editions)
        )
    return found


def _deflection(
    name: str,
    block: Block,
    weight: int,
    extremes: tuple[Extremes, ...],
    limit: float,
    section: SteelSection,
    editions: Editions,
) -> Check:
    bays = block.response.line.bays
    rows = block.rows(weight)
    lengths = np.array([bay.length if bay.kind == "span" else 2 * bay.length for bay in bays])
    largest = np.stack([each.largest[rows] for each in extremes], axis=-1)
    ratios = np.abs(largest) / lengths
    row, bay = (int(i) for i in np.unravel_index(int(ratios.argmax()), ratios.shape))
    delta = stiffness.deflection.step(
        editions,
        EI_delta=float(abs(largest[row, bay])),
        E=section.reference.value("E"),
        I=section.inertia,
    )
    delta = replace(delta, clause=SERVICE.at(editions))
    allowed = stiffness.deflection_limit.step(editions, L=float(lengths[bay]), n=limit)
    way = "up" if largest[row, bay] < 0 else "down"
    return Check(
        name,
        delta.result,
        allowed.result,
        "length",
        block.names[int(block.combination_of[row])],
        SERVICE.at(editions),
        (delta, allowed),
        note=f"{way} in {bay_name(bays[bay])}, L/{float(lengths[bay]) / max(delta.result, 1e-12):.0f}",
    )


def classes(strength: Strength) -> Mapping[str, object]:
    """The local buckling class of each part, as plain data."""
    return {part.name: part.as_data() for part in strength.parts}
