"""Bending of a wood beam by CSA O86: every strength sum, every bay, both edges. 6.5.3, 7.5.6, 15.3.3."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from structure.core.clauses import Editions
from structure.core.codes.ca import wood
from structure.core.codes.ca import wood_beams as o86
from structure.core.errors import OutOfScope
from structure.core.materials.ca_wood import CaWoodSection
from structure.core.members import beam_stability as rows_of_table
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_lengths import zero_moment_lengths
from structure.core.members.beam_service import bay_name
from structure.core.members.beam_stability import Row, Unbraced, unbraced
from structure.core.members.ca_wood_values import CaValues, Duration
from structure.core.trace import Check, Step
from structure.core.units import in_words

Array = npt.NDArray[np.float64]

# Effective length over unbraced length by table 7.4. The loads are told apart as for the table of the NDS, which
# lists the same ones; any other load takes the row of any loading.
ANY_LOADING = 1.92
EFFECTIVE: Mapping[Row, float] = {
    rows_of_table.UNIFORM: 1.92,
    rows_of_table.CENTRE: 1.61,
    rows_of_table.CENTRE_BRACED: 1.11,
    **{
        rows_of_table.EQUAL_POINTS[count]: k
        for count, k in {2: 1.68, 3: 1.54, 4: 1.68, 5: 1.73, 6: 1.78}.items()
    },
    rows_of_table.MANY_POINTS: 1.84,
    rows_of_table.OVERHANG_UNIFORM: 1.23,
    rows_of_table.OVERHANG_TIP: 1.69,
}


@dataclass(frozen=True, slots=True)
class CaBending:
    """The bending check with the factors of its governing sum, F_b of it, and the largest C_B."""

    check: Check
    factors: Mapping[str, float]
    value: float
    slender: float


def refuse_shape(section: CaWoodSection, editions: Editions) -> None:
    """Raise OutOfScope for a piece laid flat, and for one deeper than nine times its width."""
    if section.width > section.depth * (1 + 1e-9):
        raise OutOfScope(
            o86.BENDING.at(editions),
            f"{section.label} is {section.width:g} mm wide and {section.depth:g} mm deep: laid flat, not covered",
        )
    if section.depth > o86.DEEPEST * section.breadth:
        raise OutOfScope(
            o86.HELD_SIDEWAYS.at(editions),
            f"{section.label} is more than {o86.DEEPEST:g} times as deep as wide",
        )


def bending(
    demands: Demands, weight: int, values: CaValues, lasting: tuple[Duration, ...], editions: Editions
) -> CaBending:
    """The worst ratio over sums, bays and edges for one section.

    Raises OutOfScope where a loaded length has C_B over 50 (7.5.6.4.3).
    """
    block, section = demands.strength, values.section
    rows, edges = block.rows(weight), unbraced(demands)
    which = block.combination_of
    K_D = np.array([each.K_D for each in lasting])[which]
    names = ("fb", section.hogging_value)
    # Axes: edge (sagging, hogging), row, bay.
    F_b = np.stack([values.strength(name, K_D) for name in names])[:, :, None]
    moments = np.stack(
        (
            np.stack([np.maximum(each.max[rows], 0.0) for each in demands.moments], axis=-1),
            np.stack([np.maximum(-each.min[rows], 0.0) for each in demands.moments], axis=-1),
        )
    )
    slender = np.stack([_slenderness(edge, which, rows, section) for edge in edges])
    loaded = moments > 1e-9 * max(float(moments.max()), 1e-9)
    slender = np.where(loaded, slender, 0.0)
    if float(slender.max()) > o86.MOST_SLENDER:
        raise OutOfScope(
            o86.SLENDER.at(editions),
            f"{section.label}: slenderness C_B {float(slender.max()):.1f} is over {o86.MOST_SLENDER:g}; "
            "hold the edge that is pressed more closely",
        )
    K_L = stability(slender, _modulus(values), F_b)
    K_Z: Array | float = section.size_factors["fb"]
    if section.family == "glulam":
        lengths = zero_moment_lengths(demands)[:, rows]
        # The lesser of the two counts, 7.5.6.5; the kernel of that is for single numbers.
        K_Z, K_L = np.minimum(_volume(section, lengths), K_L), np.ones(K_L.shape)
    S = section.section_modulus
    M_r = o86.moment_resistance.function(phi=wood.PHI_BENDING, F_b=F_b, S=S, K_Zb=K_Z, K_L=K_L)
    ratios = moments / M_r
    edge, row, bay = (int(i) for i in np.unravel_index(int(ratios.argmax()), ratios.shape))
    at = (edge, int(which[row]), rows.start + row, bay)
    steps, factors = _sheet(
        demands, edges[edge], at, float(moments[edge, row, bay]), lasting, values, editions
    )
    last = steps[-1]
    place = demands.moments[bay].at_min if edge else demands.moments[bay].at_max
    where = in_words(float(place[rows][row]), "length", editions.code)
    check = Check(
        "bending",
        float(moments[edge, row, bay]),
        last.result,
        "moment",
        block.names[int(which[row])],
        last.clause,
        tuple(steps),
        note=f"{'hogging' if edge else 'sagging'} in {bay_name(demands.question.line.bays[bay])}, "
        f"{where} from the left end",
    )
    return CaBending(check, factors, float(F_b[edge, row, 0]), float(slender[edge, row, bay]))


def stability(C_B: Array, E: Array | float, F_b: Array) -> Array:
    """K_L for each slenderness; E and F_b in the same shape or one that spreads to it. CSA O86 7.5.6.4.4."""
    K_L = np.ones(C_B.shape)
    bent = C_B > o86.SHORT
    if not bent.any():
        return K_L
    F = np.broadcast_to(F_b, C_B.shape)[bent]
    E = np.broadcast_to(np.asarray(E), C_B.shape)[bent]
    C_K = o86.slenderness_limit(E=E, F_b=F)
    K_L[bent] = np.where(
        C_B[bent] <= C_K,
        o86.stability_middle(C_B=C_B[bent], C_K=C_K),
        o86.stability_long(E=E, C_B=C_B[bent], F_b=F),
    )
    return K_L


def _slenderness(edge: Unbraced, which: npt.NDArray[np.intp], rows: slice, section: CaWoodSection) -> Array:
    """C_B by row and bay; 0 where the edge is held all along or the beam is too stocky for it to matter."""
    l_u = edge.lengths[rows]
    free = (l_u > 0) & (section.depth > section.breadth * _most(l_u, section))
    factors = np.array([[EFFECTIVE.get(row, ANY_LOADING) for row in by_bay] for by_bay in edge.rows])[which]
    L_e = o86.effective_length(k=factors, l_u=np.where(free, l_u, 0.0))
    return np.asarray(o86.slenderness(L_e=L_e, d=section.depth, b=section.breadth))


def _most(l_u: Array, section: CaWoodSection) -> Array:
    """Depth over width up to which no K_L is needed."""
    if section.family != "sawn":
        return np.full(l_u.shape, o86.DEEP_GLUED)
    return sawn_limit(l_u)


def sawn_limit(l_u: Array) -> Array:
    """Depth over width of sawn lumber up to which K_L is 1, by unbraced length. CSA O86 6.5.3.2."""
    return np.where(l_u <= o86.CLOSE, o86.DEEP_HELD, o86.DEEP_ALONE)


def _modulus(values: CaValues) -> float:
    return float(
        o86.stability_modulus(E_05=values.specified("E05"), K_SE=values.K_S["E05"], K_T=values.K_T["E05"])
    )


def _volume(section: CaWoodSection, lengths: Array) -> Array:
    return np.asarray(o86.glulam_size(**_standard(section), L=lengths))


def _standard(section: CaWoodSection) -> dict[str, Any]:
    """Width and depth of glued laminated timber beside those of the standard beam."""
    return {
        "b_0": o86.GLULAM_WIDTH,
        "b": section.width,
        "d_0": o86.GLULAM_DEPTH,
        "d": section.depth,
        "L_0": o86.GLULAM_LENGTH,
    }


def _sheet(
    demands: Demands,
    edge: Unbraced,
    place: tuple[int, int, int, int],
    M: float,
    lasting: tuple[Duration, ...],
    values: CaValues,
    editions: Editions,
) -> tuple[list[Step], dict[str, float]]:
    """The steps of the governing sum, M_r last, and its factors."""
    section = values.section
    side, combination, row, bay = place
    K_D = lasting[combination].K_D
    name = section.hogging_value if side else "fb"
    F_b = values.strength_step(name, K_D, editions)
    steps = [*lasting[combination].steps(editions), F_b]
    l_u = edge.lengths[row, bay]
    C_B = (
        float(_slenderness(edge, np.array([combination]), slice(row, row + 1), section)[0, bay])
        if M > 0
        else 0.0
    )
    K_L = 1.0
    if C_B > 0:
        table_row = edge.rows[combination][bay]
        known = table_row in EFFECTIVE
        L_e = o86.effective_length.step(
            editions,
            note=table_row.text if known else "any loading",
            k=EFFECTIVE.get(table_row, ANY_LOADING),
            l_u=float(l_u),
        )
        slender = o86.slenderness.step(editions, L_e=L_e.result, d=section.depth, b=section.breadth)
        E = o86.stability_modulus.step(
            editions, E_05=values.specified("E05"), K_SE=values.K_S["E05"], K_T=values.K_T["E05"]
        )
        steps += [L_e, slender, E]
        if slender.result > o86.SHORT:
            limit = o86.slenderness_limit.step(editions, E=E.result, F_b=F_b.result)
            if slender.result <= limit.result:
                stable = o86.stability_middle.step(editions, C_B=slender.result, C_K=limit.result)
            else:
                stable = o86.stability_long.step(editions, E=E.result, C_B=slender.result, F_b=F_b.result)
            steps += [limit, stable]
            K_L = stable.result
    factors = {"KD": K_D, "KH": values.K_H["fb"], "KSb": values.K_S["fb"], "KT": values.K_T["fb"], "KL": K_L}
    held: dict[str, Any] = {
        "phi": wood.PHI_BENDING,
        "F_b": F_b.result,
        "S": section.section_modulus,
        "K_L": K_L,
    }
    if section.family == "glulam":
        L = float(zero_moment_lengths(demands)[side, row, bay])
        size = o86.glulam_size.step(editions, **_standard(section), L=L)
        factors["KZbg"] = size.result
        return [*steps, size, o86.moment_resistance_glulam.step(editions, K_Zbg=size.result, **held)], factors
    factors["KZb"] = section.size_factors["fb"]
    clause = o86.BENDING if section.family == "sawn" else o86.BENDING_SCL
    last = o86.moment_resistance.under(clause).step(editions, K_Zb=factors["KZb"], **held)
    return [*steps, last], factors
