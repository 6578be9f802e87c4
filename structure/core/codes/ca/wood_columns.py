"""Wood columns by CSA O86:19 6.5.5, 7.5.8 and 6.5.9: buckling, size, built-up columns, an end load off centre.

Stresses in MPa, lengths in mm, forces in N, moments in N*mm.
"""

from __future__ import annotations

import math

from structure.core.clauses import Clause
from structure.core.trace import formula

EFFECTIVE_LENGTH = Clause("CSA O86", "A.6.5.5.1")
SLENDERNESS = Clause("CSA O86", "6.5.5.2.2")
SIZE = Clause("CSA O86", "6.5.5.2.3")
COMPRESSION = Clause("CSA O86", "6.5.5.2.4")
STABILITY = Clause("CSA O86", "6.5.5.2.5")
GLULAM = Clause("CSA O86", "7.5.8.5")
GLULAM_SIZE = Clause("CSA O86", "7.5.8.4")
END_GRAIN = Clause("CSA O86", "6.5.7")
BUILT_UP = Clause("CSA O86", "6.5.5.4")
COMBINED = Clause("CSA O86", "6.5.9")
GEOMETRY = Clause("statics", "section")

MOST_SLENDER = 50.0  # 6.5.5.2.2
PLIES = (2, 5)  # 6.5.5.4
LEAST_PLY = 38.0  # mm, 6.5.5.4
# Part of what a solid column of the same size carries across the plies, 6.5.5.4.
OF_SOLID = {"nailed": 0.60, "bolted": 0.75, "shear_plates": 0.80}


@formula("L_e", "K_e * L", unit="mm", clause=EFFECTIVE_LENGTH, K_e="", L="mm")
def effective_length(K_e: float, L: float) -> float:
    """Effective length of a column. CSA O86 A.6.5.5.1.

    K_e: of the ends [-], L: between points held sideways [mm]. [mm].
    """
    return K_e * L


@formula("C_c", "L_e / d", unit="", clause=SLENDERNESS, L_e="mm", d="mm")
def slenderness(L_e: float, d: float) -> float:
    """Slenderness of a column one way, at most 50. CSA O86 6.5.5.2.2.

    L_e: effective length, d: dimension in the direction of buckling [mm]. Plain number.
    """
    return L_e / d


@formula(
    "K_Zc", "min(1.3, 6.3 * (d / d_1 * L / d_1) ** -0.13)", unit="", clause=SIZE, d="mm", L="mm", d_1="mm"
)
def size_factor(d: float, L: float, d_1: float) -> float:
    """Size factor of sawn lumber in compression along the grain, at most 1.3. CSA O86 6.5.5.2.3.

    d: dimension in the direction of buckling, L: unsupported length that goes with it, d_1: 1 mm [mm]. Plain.
    """
    factor: float = min(1.3, 6.3 * (d / d_1 * L / d_1) ** -0.13)
    return factor


@formula("K_Zcg", "min(1, 0.68 * (Z / Z_1) ** -0.13)", unit="", clause=GLULAM_SIZE, Z="mm**3", Z_1="mm**3")
def glulam_size_factor(Z: float, Z_1: float) -> float:
    """Size factor of glued laminated timber in compression, at most 1. CSA O86 7.5.8.4.

    Z: volume of the member, Z_1: 1 m**3 [mm**3]. Plain number.
    """
    factor: float = min(1, 0.68 * (Z / Z_1) ** -0.13)
    return factor


@formula(
    "K_C",
    "1 / (1 + F_c * K_Zc * C_c ** 3 / (35 * E_05))",
    unit="",
    clause=STABILITY,
    F_c="MPa",
    K_Zc="",
    C_c="",
    E_05="MPa",
)
def stability_factor(F_c: float, K_Zc: float, C_c: float, E_05: float) -> float:
    """Slenderness factor of a column. CSA O86 6.5.5.2.5; glued laminated timber 7.5.8.6.

    F_c: with its factors [MPa], K_Zc or K_Zcg [-], C_c [-], E_05: with K_SE and K_T [MPa]. Plain number.
    """
    return 1 / (1 + F_c * K_Zc * C_c**3 / (35 * E_05))


@formula("A", "n * b * d", unit="mm**2", clause=GEOMETRY, n="", b="mm", d="mm")
def area(n: int, b: float, d: float) -> float:
    """Area of n plies b wide and d deep [mm**2]."""
    return n * b * d


@formula(
    "P_r",
    "phi * F_c * A * K_Zc * K_C",
    unit="N",
    clause=COMPRESSION,
    phi="",
    F_c="MPa",
    A="mm**2",
    K_Zc="",
    K_C="",
)
def column_resistance(phi: float, F_c: float, A: float, K_Zc: float, K_C: float) -> float:
    """Factored resistance of a column that buckles one way. CSA O86 6.5.5.2.4.

    phi: 0.8, F_c [MPa], A [mm**2], K_Zc and K_C plain. [N].
    """
    return phi * F_c * A * K_Zc * K_C


@formula("P_r", "k * P_solid", unit="N", clause=BUILT_UP, k="", P_solid="N")
def built_up_resistance(k: float, P_solid: float) -> float:
    """A built-up column across its plies as a part of a solid one. CSA O86 6.5.5.4.

    k: 0.60 nailed, 0.75 bolted, 0.80 with shear plates or split rings [-], P_solid [N]. [N].
    """
    return k * P_solid


@formula(
    "P_r",
    "phi * F_c * A * K_Zc",
    unit="N",
    clause=END_GRAIN,
    phi="",
    F_c="MPa",
    A="mm**2",
    K_Zc="",
)
def end_resistance(phi: float, F_c: float, A: float, K_Zc: float) -> float:
    """Bearing of the end grain: what the column carries with K_C of 1. CSA O86 6.5.7.

    phi: 0.8, F_c [MPa], A [mm**2], K_Zc or K_Zcg plain. [N].
    """
    return phi * F_c * A * K_Zc


@formula("P_E", "pi ** 2 * E_05 * I / L_e ** 2", unit="N", clause=COMBINED, E_05="MPa", I="mm**4", L_e="mm")
def euler_load(E_05: float, I: float, L_e: float) -> float:  # noqa: E741 - the symbol of the clause
    """Euler load in the plane of the moment. CSA O86 6.5.9.

    E_05: with K_SE and K_T [MPa], I [mm**4], L_e [mm]. [N].
    """
    return math.pi**2 * E_05 * I / L_e**2


@formula(
    "u_top",
    "(P_f / P_r) ** 2 + P_f * e / M_r",
    unit="",
    clause=COMBINED,
    P_f="N",
    P_r="N",
    e="mm",
    M_r="N*mm",
)
def interaction_at_the_top(P_f: float, P_r: float, e: float, M_r: float) -> float:
    """A column under an end load off centre, at its top, where it does not bend further: at most 1. CSA O86 6.5.9.

    P_f: factored load, P_r: of the way that buckles first [N], e: off centre [mm], M_r: bending resistance that
    way [N*mm]. Plain number.
    """
    return (P_f / P_r) ** 2 + P_f * e / M_r


@formula(
    "u_mid",
    "(P_f / P_r) ** 2 + P_f * e / 2 / M_r / (1 - P_f / P_E)",
    unit="",
    clause=COMBINED,
    P_f="N",
    P_r="N",
    e="mm",
    M_r="N*mm",
    P_E="N",
)
def interaction_at_the_middle(P_f: float, P_r: float, e: float, M_r: float, P_E: float) -> float:
    """The same half way down, where half the moment is left and grows as the column bends: at most 1. CSA O86 6.5.9.

    As before; P_E: Euler load in the plane of the moment [N]. Plain number. Needs P_f under P_E.
    """
    return (P_f / P_r) ** 2 + P_f * e / 2 / M_r / (1 - P_f / P_E)
