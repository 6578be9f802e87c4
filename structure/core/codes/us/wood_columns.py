"""Wood columns by NDS: stability, built-up columns, bearing on end grain, eccentric load.

Stresses in psi, lengths in inches, forces in lbf, moments in lbf*in.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

EFFECTIVE_LENGTH = Clause("NDS", "3.7.1.2")
SLENDERNESS = Clause("NDS", "3.7.1.4")
STABILITY = Clause("NDS", "3.7.1.5")
COMPRESSION = Clause("NDS", "3.6.3")
END_GRAIN = Clause("NDS", "3.10.1")
BUILT_UP = Clause("NDS", "15.3.1")
BUILT_UP_STABILITY = Clause("NDS", "15.3.2")
NAILED = Clause("NDS", "15.3.3")
BOLTED = Clause("NDS", "15.3.4")
SIDE_AND_END = Clause("NDS", "15.4.1")
ADJUSTMENTS = Clause("NDS", "4.3.1")
GEOMETRY = Clause("statics", "section")

MAX_SLENDERNESS = 50.0  # 3.7.1.4, in service
MAX_SLENDERNESS_CONSTRUCTION = 75.0  # 3.7.1.4, until the building is complete
MIN_LAMINATION = 1.5  # in, 15.3.1
LAMINATIONS = (2, 5)  # 15.3.1
PLATE_ABOVE = 0.75  # 3.10.1.3: share of F_c* above which the ends bear on metal
C_BY_FAMILY = {"sawn": 0.8, "lvl": 0.9, "glulam": 0.9, "psl": 0.9, "lsl": 0.9}  # 3.7.1.5
K_F_ACROSS_THE_PLIES = {"nailed": 0.6, "bolted": 0.75}  # 15.3.2.4
K_F_ACROSS_THE_DEPTH = 1.0  # 15.3.2.4


@formula("l_e", "K_e * l", unit="in", clause=EFFECTIVE_LENGTH, K_e="", l="in")
def effective_length(K_e: float, l: float) -> float:  # noqa: E741 - the symbol of the clause
    """Effective column length. NDS 3.7.1.2.

    K_e: end factor [-], l: distance between points held sideways [in]. Length [in].
    """
    return K_e * l


@formula("l_e/d", "l_e / d", unit="", clause=SLENDERNESS, l_e="in", d="in")
def slenderness(l_e: float, d: float) -> float:
    """Slenderness ratio about one axis. NDS 3.7.1.3; not over 50, 75 during construction (3.7.1.4).

    l_e [in], d: dimension in the direction of buckling [in]. Plain number.
    """
    return l_e / d


@formula("F_c*", "F_c * C_D * C_F", unit="psi", clause=ADJUSTMENTS, F_c="psi", C_D="", C_F="")
def crushing_value(F_c: float, C_D: float, C_F: float) -> float:
    """Compression value with every factor but C_P: dry, ordinary temperature, not incised. NDS 4.3.1, 8.3.1.

    F_c: reference value [psi], C_D and C_F [-]. Stress [psi].
    """
    return F_c * C_D * C_F


@formula("F_cE", "0.822 * E_min / s ** 2", unit="psi", clause=STABILITY, E_min="psi", s="")
def critical_buckling(E_min: float, s: float) -> float:
    """Critical buckling design value. NDS 3.7.1.5.

    E_min: adjusted [psi], s: slenderness l_e/d [-], more than zero. Stress [psi].
    """
    return 0.822 * E_min / s**2


@formula(
    "C_P",
    "K_f * ((1 + F_cE / F_c) / (2 * c) - (((1 + F_cE / F_c) / (2 * c)) ** 2 - (F_cE / F_c) / c) ** 0.5)",
    unit="",
    clause=BUILT_UP_STABILITY,
    F_cE="psi",
    F_c="psi",
    c="",
    K_f="",
)
def stability_factor(F_cE: float, F_c: float, c: float, K_f: float) -> float:
    """Column stability factor. NDS 3.7.1.5 (K_f = 1) and 15.3.2.4 for built-up columns.

    F_cE, F_c: critical buckling value and F_c* [psi]; c 0.8 sawn, 0.9 structural composite lumber and
    glulam; K_f 0.6 nailed, 0.75 bolted across the plies, else 1 [-]. Plain number, 1 at most.
    """
    ratio = F_cE / F_c
    middle = (1 + ratio) / (2 * c)
    factor: float = K_f * (middle - (middle**2 - ratio / c) ** 0.5)
    return factor


@formula("P'", "F_c * C_P * A", unit="lbf", clause=COMPRESSION, F_c="psi", C_P="", A="in**2")
def column_capacity(F_c: float, C_P: float, A: float) -> float:
    """What a column carries when it buckles about one axis. NDS 3.6.3, 3.7.1.

    F_c: F_c* [psi], C_P with K_f [-], A: gross area [in**2]. Force [lbf].
    """
    return F_c * C_P * A


@formula("A", "n * b * d", unit="in**2", clause=GEOMETRY, n="", b="in", d="in")
def area(n: int, b: float, d: float) -> float:
    """Gross area of n plies b wide and d deep [in**2]."""
    return n * b * d


@formula("f_c", "P / A", unit="psi", clause=COMPRESSION, P="lbf", A="in**2")
def compression_stress(P: float, A: float) -> float:
    """Stress of a load spread evenly over an area. NDS 3.6.3. P [lbf], A [in**2]. Stress [psi]."""
    return P / A


@formula("P_b", "F_c * A", unit="lbf", clause=END_GRAIN, F_c="psi", A="in**2")
def end_grain_capacity(F_c: float, A: float) -> float:
    """Bearing of the end grain: f_c <= F_c*. NDS 3.10.1.1. F_c: F_c* [psi], A [in**2]. Force [lbf]."""
    return F_c * A


@formula("f_b", "6 * P * e / (b * d ** 2)", unit="psi", clause=SIDE_AND_END, P="lbf", e="in", b="in", d="in")
def eccentric_bending(P: float, e: float, b: float, d: float) -> float:
    """Bending stress of an end load off centre. NDS 15.4.1.

    P [lbf], e: eccentricity [in], d: dimension along the eccentricity, b: across it [in]. Stress [psi].
    """
    return 6 * P * e / (b * d**2)


@formula(
    "u",
    "(f_c / F_cp) ** 2 + f_b * (1 + 0.234 * (f_c / F_cE)) / (F_b * (1 - f_c / F_cE))",
    unit="",
    clause=SIDE_AND_END,
    f_c="psi",
    F_cp="psi",
    f_b="psi",
    F_b="psi",
    F_cE="psi",
)
def eccentric_interaction(f_c: float, F_cp: float, f_b: float, F_b: float, F_cE: float) -> float:
    """End load off centre in one direction, no side load: at most 1. NDS equation 15.4-1 reduced.

    f_c, f_b: stresses, F_cp: F_c' with C_P, F_b: bending value about that axis, F_cE: about the same
    axis [psi]. Plain number. Needs f_c < F_cE.
    """
    return (f_c / F_cp) ** 2 + f_b * (1 + 0.234 * (f_c / F_cE)) / (F_b * (1 - f_c / F_cE))
