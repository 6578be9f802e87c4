"""Shear of steel beams and forces on their webs by AISC 360 chapters G and J10, and the plate under them.

Forces in lbf, lengths in inches, stresses in psi.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

WEB = Clause("AISC 360", "G2.1")
TUBE = Clause("AISC 360", "G4")
ROUND = Clause("AISC 360", "G5")
WEB_COEFFICIENT = Clause("AISC 360", "G2.1(b)")
TUBE_COEFFICIENT = Clause("AISC 360", "G2.2")
WEB_YIELDING = Clause("AISC 360", "J10.2")
WEB_CRIPPLING = Clause("AISC 360", "J10.3")
TUBE_FORCES = Clause("AISC 360", "K2")
PLATE_BENDING = Clause("AISC 360", "F11.1")
PLATE = Clause("AISC Manual", "Part 14")

STOCKY_WEB = 2.24  # G2.1(a), times (E / F_y)**0.5
HELD, HELD_ROUND = 0.95, 0.80  # Manual part 14: share of a post that holds the plate under it
K_V_WEB, K_V_TUBE = 5.34, 5.0  # G2.1(b), G4: no stiffeners
YIELDS, BUCKLES = 1.10, 1.37  # G2.1(b) and G2.2, times (k_v E / F_y)**0.5
INSIDE_YIELDING, END_YIELDING = 5.0, 2.5  # J10.2: number of k that the force spreads over
INSIDE_CRIPPLING, END_CRIPPLING = 0.80, 0.40  # J10.3
LONG_BEARING = 0.2  # J10.3(b), l_b / d


@formula("A_w", "d * t_w", unit="in**2", clause=WEB, d="in", t_w="in")
def web_area(d: float, t_w: float) -> float:
    """Web area of a W shape or channel: full depth. AISC 360 G2.1. d, t_w [in]. [in**2]."""
    return d * t_w


@formula("A_w", "2 * (H - 3 * t) * t", unit="in**2", clause=TUBE, H="in", t="in")
def tube_web_area(H: float, t: float) -> float:
    """Area of both webs of a rectangular tube, their flat height only. AISC 360 G4.

    H: depth, t: design wall thickness [in]. [in**2].
    """
    return 2 * (H - 3 * t) * t


@formula(
    "s_1", "n * (k_v * E / F_y) ** 0.5", unit="", clause=WEB_COEFFICIENT, n="", k_v="", E="psi", F_y="psi"
)
def shear_limit(n: float, k_v: float, E: float, F_y: float) -> float:
    """Web slenderness up to which it yields (n 1.10) or buckles inelastically (1.37). AISC 360 G2.

    n, k_v plain, E, F_y [psi]. Plain number.
    """
    limit: float = n * (k_v * E / F_y) ** 0.5
    return limit


@formula("C_v", "s_1 / s", unit="", clause=TUBE_COEFFICIENT, s_1="", s="")
def shear_coefficient(s_1: float, s: float) -> float:
    """Web shear coefficient past the yield limit. AISC 360 equations G2-4 and G2-10.

    s_1: 1.10 (k_v E / F_y)**0.5, s: h / t_w. Plain number.
    """
    return s_1 / s


@formula(
    "C_v2",
    "1.51 * k_v * E / (s ** 2 * F_y)",
    unit="",
    clause=TUBE_COEFFICIENT,
    k_v="",
    E="psi",
    s="",
    F_y="psi",
)
def elastic_shear_coefficient(k_v: float, E: float, s: float, F_y: float) -> float:
    """Web shear buckling coefficient of a slender web. AISC 360 equation G2-11.

    k_v plain, E, F_y [psi], s: h / t. Plain number.
    """
    return 1.51 * k_v * E / (s**2 * F_y)


@formula("V_n", "0.6 * F_y * A_w * C_v", unit="lbf", clause=WEB, F_y="psi", A_w="in**2", C_v="")
def shear_strength(F_y: float, A_w: float, C_v: float) -> float:
    """Nominal shear strength of webs. AISC 360 equations G2-1 and G4-1.

    F_y [psi], A_w [in**2], C_v plain. [lbf].
    """
    return 0.6 * F_y * A_w * C_v


@formula(
    "F_cr",
    "min(max(1.60 * E / ((L_v / D) ** 0.5 * s ** 1.25), 0.78 * E / s ** 1.5), 0.6 * F_y)",
    unit="psi",
    clause=ROUND,
    E="psi",
    L_v="in",
    D="in",
    s="",
    F_y="psi",
)
def round_shear_stress(E: float, L_v: float, D: float, s: float, F_y: float) -> float:
    """Shear stress at which a round tube buckles or yields. AISC 360 equations G5-2.

    E, F_y [psi], L_v: from the largest shear to none, D: diameter [in], s: D / t. [psi].
    """
    stress: float = min(max(1.60 * E / ((L_v / D) ** 0.5 * s**1.25), 0.78 * E / s**1.5), 0.6 * F_y)
    return stress


@formula("V_n", "F_cr * A / 2", unit="lbf", clause=ROUND, F_cr="psi", A="in**2")
def round_shear_strength(F_cr: float, A: float) -> float:
    """Nominal shear strength of a round tube. AISC 360 equation G5-1. F_cr [psi], A [in**2]. [lbf]."""
    return F_cr * A / 2


@formula(
    "R_n", "m * F_y * t_w * (n * k + l_b)", unit="lbf", clause=WEB_YIELDING,
    m="", F_y="psi", t_w="in", n="", k="in", l_b="in",
)  # fmt: skip
def web_yielding(m: float, F_y: float, t_w: float, n: float, k: float, l_b: float) -> float:
    """Web local yielding. AISC 360 equations J10-2 (n 5) and J10-3 (n 2.5, within d of the end).

    m: webs, F_y [psi], t_w, k: outer face to web toe of the fillet, l_b: bearing length [in]. [lbf].
    """
    return m * F_y * t_w * (n * k + l_b)


@formula(
    "R_n",
    "m * n * t_w ** 2 * (1 + 3 * l_b / d * (t_w / t_f) ** 1.5) * (E * F_y * t_f / t_w) ** 0.5",
    unit="lbf",
    clause=WEB_CRIPPLING,
    m="",
    n="",
    t_w="in",
    l_b="in",
    d="in",
    t_f="in",
    E="psi",
    F_y="psi",
)
def web_crippling(
    m: float, n: float, t_w: float, l_b: float, d: float, t_f: float, E: float, F_y: float
) -> float:
    """Web local crippling. AISC 360 J10-4 (n 0.80) and J10-5a (n 0.40, within d/2 of the end, l_b/d <= 0.2).

    m: webs, t_w, l_b, d, t_f [in], E, F_y [psi]. [lbf].
    """
    force: float = m * n * t_w**2 * (1 + 3 * l_b / d * (t_w / t_f) ** 1.5) * (E * F_y * t_f / t_w) ** 0.5
    return force


@formula(
    "R_n",
    "m * n * t_w ** 2 * (1 + (4 * l_b / d - 0.2) * (t_w / t_f) ** 1.5) * (E * F_y * t_f / t_w) ** 0.5",
    unit="lbf",
    clause=WEB_CRIPPLING,
    m="",
    n="",
    t_w="in",
    l_b="in",
    d="in",
    t_f="in",
    E="psi",
    F_y="psi",
)
def web_crippling_long(
    m: float, n: float, t_w: float, l_b: float, d: float, t_f: float, E: float, F_y: float
) -> float:
    """Web local crippling within d/2 of the end where l_b/d is over 0.2. AISC 360 equation J10-5b.

    m: webs, n: 0.40, t_w, l_b, d, t_f [in], E, F_y [psi]. [lbf].
    """
    force: float = (
        m * n * t_w**2 * (1 + (4 * l_b / d - 0.2) * (t_w / t_f) ** 1.5) * (E * F_y * t_f / t_w) ** 0.5
    )
    return force


@formula("f_p", "R / (N * B)", unit="psi", clause=PLATE, R="lbf", N="in", B="in")
def plate_pressure(R: float, N: float, B: float) -> float:
    """Pressure under a plate, spread evenly. R [lbf], N: along the beam, B: across it [in]. [psi]."""
    return R / (N * B)


@formula("n", "B / 2 - k", unit="in", clause=PLATE, B="in", k="in")
def plate_cantilever(B: float, k: float) -> float:
    """How far a plate sticks out past the web fillet of the beam on it. B: width, k [in]. [in]."""
    return B / 2 - k


@formula("t", "n * (3.34 * f_p / F_y) ** 0.5", unit="in", clause=PLATE_BENDING, n="in", f_p="psi", F_y="psi")
def plate_thickness(n: float, f_p: float, F_y: float) -> float:
    """Thickness at which a cantilever strip is just plastic, Omega 1.67. AISC 360 F11.1.

    f_p n**2 / 2 = F_y t**2 / 4 / 1.67; n: cantilever [in], f_p: pressure, F_y: of the plate [psi]. [in].
    """
    thickness: float = n * (3.34 * f_p / F_y) ** 0.5
    return thickness


@formula("m", "(N - f * d) / 2", unit="in", clause=PLATE, N="in", f="", d="in")
def base_cantilever(N: float, f: float, d: float) -> float:
    """How far a plate sticks out past the post on it, by what of the post holds it. AISC Manual part 14.

    N: plate, d: post in that direction [in]; f: 0.95 along a W shape and for tubes, 0.8 across it and for
    pipe. [in].
    """
    return (N - f * d) / 2


@formula("n'", "(d * b) ** 0.5 / 4", unit="in", clause=PLATE, d="in", b="in")
def yield_line_cantilever(d: float, b: float) -> float:
    """Cantilever that stands for the plate between the flanges of a W post. AISC Manual part 14. [in]."""
    length: float = (d * b) ** 0.5 / 4
    return length
