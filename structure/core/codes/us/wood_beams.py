"""Beams of wood by the NDS: bending, lateral stability, shear, deflection.

Forces in lbf, lengths in inches, stresses in psi. Kernels are plain arithmetic, so that arrays and
quantities with units can pass through them.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

FLEXURE = Clause("NDS", "3.3.2")
STABILITY = Clause("NDS", "3.3.3")
NO_BRACING_NEEDED = Clause("NDS", "3.3.3.1")
CONTINUOUS_SUPPORT = Clause("NDS", "3.3.3.3")
EFFECTIVE_LENGTH = Clause("NDS", "Table 3.3.3")
SLENDERNESS_LIMIT = Clause("NDS", "3.3.3.7")
SHEAR = Clause("NDS", "3.4.2")
SHEAR_AT_D = Clause("NDS", "3.4.3.1")
DEFLECTION = Clause("NDS", "3.5.1")
CREEP = Clause("NDS", "3.5.2")

MOST_SLENDER = 50.0  # 3.3.3.7
CREEP_DRY = 1.5  # 3.5.2: seasoned lumber and composite lumber in dry service
CREEP_WET = 2.0  # 3.5.2: unseasoned lumber, or wet service


@formula("f_b", "M / S", unit="psi", clause=FLEXURE, M="lbf*in", S="in**3")
def bending_stress(M: float, S: float) -> float:
    """Bending stress. NDS 3.3.2.

    M [lbf*in], S: section modulus [in**3]. [psi].
    """
    return M / S


@formula("l_e", "k * l_u", unit="in", clause=EFFECTIVE_LENGTH, k="", l_u="in")
def effective_length_plain(k: float, l_u: float) -> float:
    """Effective length in proportion to the unbraced length. NDS table 3.3.3.

    k: number of the table, l_u: unbraced length [in]. [in].
    """
    return k * l_u


@formula("l_e", "k * l_u + 3 * d", unit="in", clause=EFFECTIVE_LENGTH, k="", l_u="in", d="in")
def effective_length_deep(k: float, l_u: float, d: float) -> float:
    """Effective length of a beam whose l_u / d is 7 or more. NDS table 3.3.3.

    k: number of the table, l_u: unbraced length, d: depth [in]. [in].
    """
    return k * l_u + 3 * d


@formula("R_B", "(l_e * d / b ** 2) ** 0.5", unit="", clause=Clause("NDS", "3.3-5"), l_e="in", d="in", b="in")
def beam_slenderness(l_e: float, d: float, b: float) -> float:
    """Slenderness ratio of a bending member. NDS equation 3.3-5; at most 50.

    l_e: effective length, d: depth, b: breadth [in]. Plain number.
    """
    ratio: float = (l_e * d / b**2) ** 0.5
    return ratio


@formula("F_bE", "1.20 * E_min / R_B ** 2", unit="psi", clause=Clause("NDS", "3.3-6"), E_min="psi", R_B="")
def critical_bending(E_min: float, R_B: float) -> float:
    """Critical buckling value of a bending member. NDS equation 3.3-6.

    E_min: adjusted [psi], R_B: slenderness. [psi].
    """
    return 1.20 * E_min / R_B**2


@formula(
    "C_L",
    "(1 + F_bE / F_b) / 1.9 - (((1 + F_bE / F_b) / 1.9) ** 2 - F_bE / F_b / 0.95) ** 0.5",
    unit="",
    clause=Clause("NDS", "3.3-6"),
    F_bE="psi",
    F_b="psi",
)
def stability_factor(F_bE: float, F_b: float) -> float:
    """Beam stability factor. NDS equation 3.3-6.

    F_bE [psi], F_b: with every factor but C_fu, C_V and C_L [psi]. Plain number.
    """
    half = (1 + F_bE / F_b) / 1.9
    factor: float = half - (half**2 - F_bE / F_b / 0.95) ** 0.5
    return factor


@formula("f_v", "3 * V / (2 * b * d)", unit="psi", clause=SHEAR, V="lbf", b="in", d="in")
def shear_stress(V: float, b: float, d: float) -> float:
    """Shear stress of a rectangle. NDS 3.4.2.

    V [lbf], b: breadth of all plies, d: depth [in]. [psi].
    """
    return 3 * V / (2 * b * d)


@formula(
    "delta", "EI_delta / (E * I)", unit="in", clause=DEFLECTION, EI_delta="lbf*in**3", E="psi", I="in**4"
)
def deflection(EI_delta: float, E: float, I: float) -> float:  # noqa: E741 - the symbol of the clause
    """Deflection from what statics gives for a stiffness of one. NDS 3.5.1.

    EI_delta: deflection times stiffness [lbf*in**3], E: adjusted [psi], I [in**4]. [in].
    """
    return EI_delta / (E * I)


@formula("limit", "L / n", unit="in", clause=Clause("IRC", "Table R301.7"), L="in", n="")
def deflection_limit(L: float, n: float) -> float:
    """Allowed deflection: a part of the span, or of twice the length of an overhang. IRC table R301.7.

    L [in], n: such as 360. [in].
    """
    return L / n


@formula("f_cp", "R / (b * l_b)", unit="psi", clause=Clause("NDS", "3.10.2"), R="lbf", b="in", l_b="in")
def bearing_stress(R: float, b: float, l_b: float) -> float:
    """Stress across the grain at a support. NDS 3.10.2.

    R: reaction [lbf], b: breadth, l_b: bearing length [in]. [psi].
    """
    return R / (b * l_b)


@formula("F_cp'", "F_cp * C_M * C_b", unit="psi", clause=Clause("NDS", "3.10.2"), F_cp="psi", C_M="", C_b="")
def bearing_value(F_cp: float, C_M: float, C_b: float) -> float:
    """Adjusted value across the grain; no load duration. NDS 3.10.2 and 3.10.4.

    F_cp [psi], C_M and C_b plain. [psi].
    """
    return F_cp * C_M * C_b
