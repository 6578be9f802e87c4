"""Steel columns by CSA S16:19: buckling (13.3.1), class 4 parts (13.3.5), load off centre (13.8).

Forces in N, lengths in mm, stresses in MPa.
"""

from __future__ import annotations

from math import pi

from structure.core.clauses import Clause
from structure.core.trace import formula

EFFECTIVE_LENGTH = Clause("CSA S16", "10.4.2.1")
BUCKLING = Clause("CSA S16", "13.3.1")
TORSION = Clause("CSA S16", "13.3.2")
SLENDER = Clause("CSA S16", "13.3.5")
COMBINED_I = Clause("CSA S16", "13.8.2")
COMBINED = Clause("CSA S16", "13.8.3")
SECOND_ORDER = Clause("CSA S16", "13.8.4")

MOST_SLENDER = 200.0  # 10.4.2.1
I_STRONG = 0.85  # 13.8.2: on the strong axis moment of a class 1 or 2 I shape
I_WEAK, I_WEAK_SLOPE = 0.6, 0.4  # 13.8.2: beta = 0.6 + 0.4 lambda_y, at most 0.85


@formula("L_e", "K * L", unit="mm", clause=EFFECTIVE_LENGTH, K="", L="mm")
def effective_length(K: float, L: float) -> float:
    """Effective length. CSA S16 10.3. K: end factor, L: between braces [mm]. [mm]."""
    return K * L


@formula("KL/r", "L_e / r", unit="", clause=EFFECTIVE_LENGTH, L_e="mm", r="mm")
def slenderness(L_e: float, r: float) -> float:
    """Slenderness about one axis, at most 200. CSA S16 10.4.2.1. L_e, r [mm]. Plain number."""
    return L_e / r


@formula("lambda", "s / pi * (F_y / E) ** 0.5", unit="", clause=BUCKLING, s="", F_y="MPa", E="MPa")
def column_lambda(s: float, F_y: float, E: float) -> float:
    """Slenderness parameter, the root of F_y over the Euler stress. CSA S16 13.3.1. s: KL/r. Plain number."""
    value: float = s / pi * (F_y / E) ** 0.5
    return value


@formula(
    "C_r", "phi * A * F_y * (1 + l ** (2 * n)) ** (-1 / n)", unit="N", clause=BUCKLING,
    phi="", A="mm**2", F_y="MPa", l="", n="",
)  # fmt: skip
def compression_resistance(phi: float, A: float, F_y: float, l: float, n: float) -> float:  # noqa: E741 - lambda
    """Factored compressive resistance. CSA S16 13.3.1, and 13.3.5(a) with the effective area.

    phi: 0.9, A [mm**2], F_y [MPa], l: lambda, n: 1.34, 2.24 where relieved of stress. [N].
    """
    force: float = phi * A * F_y * (1 + l ** (2 * n)) ** (-1 / n)
    return force


@formula(
    "A_e", "A - m * (s - s_lim) * t ** 2", unit="mm**2", clause=SLENDER,
    A="mm**2", m="", s="", s_lim="", t="mm",
)  # fmt: skip
def effective_area(A: float, m: float, s: float, s_lim: float, t: float) -> float:
    """Area less what m like class 4 parts have over their limit of table 1. CSA S16 13.3.5(a).

    A [mm**2], s: width over thickness, s_lim: its limit, t: thickness [mm]. [mm**2].
    """
    return A - m * (s - s_lim) * t**2


@formula("C_e", "pi ** 2 * E * I / L ** 2", unit="N", clause=SECOND_ORDER, E="MPa", I="mm**4", L="mm")
def euler_load(E: float, I: float, L: float) -> float:  # noqa: E741 - the symbol of the clause
    """Euler load in the plane of bending, with the actual length. CSA S16 13.8.4. [MPa], [mm**4], [mm]. [N]."""
    return pi**2 * E * I / L**2


@formula("U_1", "omega_1 / (1 - C_f / C_e)", unit="", clause=SECOND_ORDER, omega_1="", C_f="N", C_e="N")
def moment_amplifier(omega_1: float, C_f: float, C_e: float) -> float:
    """Growth of the moment by the bow of the column. CSA S16 13.8.4.

    omega_1: 1 for the same moment at both ends, C_f under C_e [N]. Plain number.
    """
    return omega_1 / (1 - C_f / C_e)


@formula("M_f", "C_f * e", unit="N*mm", clause=SECOND_ORDER, C_f="N", e="mm")
def eccentric_moment(C_f: float, e: float) -> float:
    """Factored moment of a load off centre. C_f [N], e [mm]. [N*mm]."""
    return C_f * e


@formula("beta", "min(0.85, b_0 + b_1 * l_y)", unit="", clause=COMBINED_I, b_0="", b_1="", l_y="")
def weak_factor(b_0: float, b_1: float, l_y: float) -> float:
    """Factor on the weak axis moment of a class 1 or 2 I shape. CSA S16 13.8.2. l_y: lambda about it."""
    return min(0.85, b_0 + b_1 * l_y)


@formula(
    "u", "C_f / C_r + k * U_1 * M_f / M_r", unit="", clause=COMBINED,
    C_f="N", C_r="N", k="", U_1="", M_f="N*mm", M_r="N*mm",
)  # fmt: skip
def interaction(C_f: float, C_r: float, k: float, U_1: float, M_f: float, M_r: float) -> float:
    """Axial load and bending about one axis: at most 1. CSA S16 13.8.2, 13.8.3.

    k: 0.85 or beta of a class 1 or 2 I shape, else 1. C_f, C_r [N], M_f, M_r [N*mm]. Plain number.
    """
    return C_f / C_r + k * U_1 * M_f / M_r
