"""Steel columns by AISC 360: buckling (E3), slender parts (E7), load off centre (H1 and appendix 8).

Forces in lbf, lengths in inches, stresses in psi.
"""

from __future__ import annotations

from math import pi

from structure.core.clauses import Clause
from structure.core.trace import formula

EFFECTIVE_LENGTH = Clause("AISC 360", "E2")
BUCKLING = Clause("AISC 360", "E3")
TORSION = Clause("AISC 360", "E4")
SLENDER = Clause("AISC 360", "E7")
SLENDER_ROUND = Clause("AISC 360", "E7.2")
COMBINED = Clause("AISC 360", "H1.1")
SECOND_ORDER = Clause("AISC 360", "Appendix 8.2.1")

MOST_SLENDER = 200.0  # E2, user note
INELASTIC = 2.25  # E3: F_y / F_e up to which the column buckles inelastically
ALPHA_ASD = 1.6  # appendix 8: second-order effects at 1.6 times the ASD loads
LARGE_AXIAL = 0.2  # H1.1
# E7-2, E7-3 and table E7.1: c1 and c2 of the effective width.
STIFFENED, WALL = (0.18, 1.31), (0.20, 1.38)


@formula("L_c", "K * L", unit="in", clause=EFFECTIVE_LENGTH, K="", L="in")
def effective_length(K: float, L: float) -> float:
    """Effective length. AISC 360 E2. K: end factor, L: between braces [in]. [in]."""
    return K * L


@formula("L_c/r", "L_c / r", unit="", clause=EFFECTIVE_LENGTH, L_c="in", r="in")
def slenderness(L_c: float, r: float) -> float:
    """Slenderness about one axis, preferably at most 200. AISC 360 E2. L_c, r [in]. Plain number."""
    return L_c / r


@formula("F_e", "pi ** 2 * E / s ** 2", unit="psi", clause=BUCKLING, E="psi", s="")
def euler_stress(E: float, s: float) -> float:
    """Elastic buckling stress. AISC 360 equation E3-4. E [psi], s: L_c / r. [psi]."""
    return pi**2 * E / s**2


@formula("F_cr", "0.658 ** (F_y / F_e) * F_y", unit="psi", clause=BUCKLING, F_y="psi", F_e="psi")
def inelastic_stress(F_y: float, F_e: float) -> float:
    """Critical stress where F_y / F_e is 2.25 or less. AISC 360 equation E3-2. [psi]."""
    stress: float = 0.658 ** (F_y / F_e) * F_y
    return stress


@formula("F_cr", "0.877 * F_e", unit="psi", clause=BUCKLING, F_e="psi")
def elastic_stress(F_e: float) -> float:
    """Critical stress where F_y / F_e is over 2.25. AISC 360 equation E3-3. [psi]."""
    return 0.877 * F_e


@formula("P_n", "F_cr * A_e", unit="lbf", clause=BUCKLING, F_cr="psi", A_e="in**2")
def compression_strength(F_cr: float, A_e: float) -> float:
    """Nominal compressive strength. AISC 360 equations E3-1 and E7-1.

    F_cr [psi], A_e: gross area, or the effective one of a section with slender parts [in**2]. [lbf].
    """
    return F_cr * A_e


@formula("F_el", "(c_2 * s_r / s) ** 2 * F_y", unit="psi", clause=SLENDER, c_2="", s_r="", s="", F_y="psi")
def local_buckling_stress(c_2: float, s_r: float, s: float, F_y: float) -> float:
    """Elastic local buckling stress of a slender part. AISC 360 equation E7-5.

    c_2: table E7.1, s_r: its limit in table B4.1a, s: width over thickness, F_y [psi]. [psi].
    """
    return (c_2 * s_r / s) ** 2 * F_y


@formula(
    "b_e",
    "b * (1 - c_1 * (F_el / F_cr) ** 0.5) * (F_el / F_cr) ** 0.5",
    unit="in",
    clause=SLENDER,
    b="in",
    c_1="",
    F_el="psi",
    F_cr="psi",
)
def effective_width(b: float, c_1: float, F_el: float, F_cr: float) -> float:
    """Effective width of a slender part. AISC 360 equation E7-3.

    b [in], c_1: table E7.1, F_el, F_cr [psi]; where width over thickness is over s_r (F_y / F_cr)**0.5. [in].
    """
    root = (F_el / F_cr) ** 0.5
    width: float = b * (1 - c_1 * root) * root
    return width


@formula(
    "A_e", "A - n * (b - b_e) * t", unit="in**2", clause=SLENDER, A="in**2", n="", b="in", b_e="in", t="in"
)
def effective_area(A: float, n: float, b: float, b_e: float, t: float) -> float:
    """Area less the idle part of n like slender parts. AISC 360 E7. A [in**2], b, b_e, t [in]. [in**2]."""
    return A - n * (b - b_e) * t


@formula("P_e1", "pi ** 2 * E * I / L_c ** 2", unit="lbf", clause=SECOND_ORDER, E="psi", I="in**4", L_c="in")
def critical_load(E: float, I: float, L_c: float) -> float:  # noqa: E741 - the symbol of the clause
    """Elastic buckling load in the plane of bending. AISC 360 equation A-8-5.

    E [psi], I [in**4], L_c [in]. [lbf].
    """
    return pi**2 * E * I / L_c**2


@formula(
    "B_1", "C_m / (1 - alpha * P / P_e1)", unit="", clause=SECOND_ORDER, C_m="", alpha="", P="lbf", P_e1="lbf"
)
def moment_amplifier(C_m: float, alpha: float, P: float, P_e1: float) -> float:
    """Growth of the moment by the bow of the column, never under 1. AISC 360 equation A-8-3.

    C_m: 1 for the same moment at both ends, alpha: 1.6 in ASD, P, P_e1 [lbf]; needs alpha P < P_e1.
    Plain number.
    """
    return C_m / (1 - alpha * P / P_e1)


@formula("M_r", "B_1 * P * e", unit="lbf*in", clause=SECOND_ORDER, B_1="", P="lbf", e="in")
def eccentric_moment(B_1: float, P: float, e: float) -> float:
    """Required bending strength of a load off centre. AISC 360 appendix 8. P [lbf], e [in]. [lbf*in]."""
    return B_1 * P * e


@formula(
    "u", "P / P_c + 8 / 9 * M / M_c", unit="", clause=COMBINED, P="lbf", P_c="lbf", M="lbf*in", M_c="lbf*in"
)
def large_axial_interaction(P: float, P_c: float, M: float, M_c: float) -> float:
    """Axial load and bending about one axis, P / P_c 0.2 or more: at most 1. AISC 360 equation H1-1a.

    P, P_c: required and allowable [lbf], M, M_c likewise [lbf*in]. Plain number.
    """
    return P / P_c + 8 / 9 * M / M_c


@formula(
    "u", "P / (2 * P_c) + M / M_c", unit="", clause=COMBINED, P="lbf", P_c="lbf", M="lbf*in", M_c="lbf*in"
)
def small_axial_interaction(P: float, P_c: float, M: float, M_c: float) -> float:
    """Axial load and bending about one axis, P / P_c under 0.2: at most 1. AISC 360 equation H1-1b.

    P, P_c: required and allowable [lbf], M, M_c likewise [lbf*in]. Plain number.
    """
    return P / (2 * P_c) + M / M_c
