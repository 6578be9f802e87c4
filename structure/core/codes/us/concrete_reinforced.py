"""Reinforced pads: shear, bending, least steel, bar layout and development. ACI 318-19 chapters 13, 22, 25.

Forces in lbf, lengths in inches, stresses in psi. Straight, uncoated bars near the bottom; no stirrups.
The size effect factor is left out of both shear strengths, as 13.2.6.2 permits for isolated footings.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

SIZE_EFFECT = Clause("ACI 318", "13.2.6.2")
LEAST_DEPTH = Clause("ACI 318", "13.3.1.2")
BAND = Clause("ACI 318", "13.3.3.3")
COVER = Clause("ACI 318", "20.5.1.3.1")
YIELD_RANGE = Clause("ACI 318", "Table 20.2.2.4(a)")
STRESS_BLOCK = Clause("ACI 318", "22.2.2.4.1")
BLOCK_FACTOR = Clause("ACI 318", "Table 22.2.2.4.3")
STRAIN = Clause("ACI 318", "22.2.1.2")
FLEXURE = Clause("ACI 318", "22.3.1.1")
TENSION_CONTROLLED = Clause("ACI 318", "8.3.3.1")
TENSION_LIMIT = Clause("ACI 318", "Table 21.2.2")
ONE_WAY_SHEAR = Clause("ACI 318", "Table 22.5.5.1(c)")
TWO_WAY_SHEAR = Clause("ACI 318", "Table 22.6.5.2")
BEARING = Clause("ACI 318", "Table 22.8.3.2")
LEAST_STEEL = Clause("ACI 318", "8.6.1.1")
PUNCHING_STEEL = Clause("ACI 318", "8.6.1.2")
WIDEST_SPACING = Clause("ACI 318", "8.7.2.2")
CLEAR_SPACING = Clause("ACI 318", "25.2.1")
DEVELOPMENT = Clause("ACI 318", "25.4.2.4(a)")
LEAST_DEVELOPMENT = Clause("ACI 318", "25.4.2.1")
EXCESS_STEEL = Clause("ACI 318", "25.4.10.1")

PHI_SHEAR = 0.75  # Table 21.2.1(b)
PHI_FLEXURE = 0.90  # Table 21.2.2, tension-controlled
PHI_BEARING = 0.65  # Table 21.2.1(d)
EARTH_COVER = 3.0  # in, Table 20.5.1.3.1: cast against and in contact with ground
BOTTOM_DEPTH = 6.0  # in, 13.3.1.2: effective depth of bottom reinforcement
MOST_SPACING = 18.0  # in, 8.7.2.2
LEAST_CLEAR = 1.0  # in, 25.2.1, with aggregate up to 3/4 in
LEAST_LENGTH = 12.0  # in, 25.4.2.1(b)
MIN_YIELD, MAX_YIELD = 40000.0, 60000.0  # psi: the grades 40 and 60, for which psi_g of 25.4.2.5 is 1
E_S = 29.0e6  # psi, 20.2.2.2
SMALL_BAR = 0.75  # in, Table 25.4.2.5: No. 6 and smaller
PSI_SMALL, PSI_LARGE = 0.8, 1.0  # Table 25.4.2.5
ALL_ROUND, TWO_SIDES = 40.0, 20.0  # alpha_s, 22.6.5.3


@formula("d", "t - cover - d_b", unit="in", clause=LEAST_DEPTH, t="in", cover="in", d_b="in")
def mean_depth(t: float, cover: float, d_b: float) -> float:
    """Effective depth, mean of the two layers that lie on each other: one bar above the cover. Geometry.

    t: thickness, cover: clear, below, d_b: bar [in]. Length [in].
    """
    return t - cover - d_b


@formula("d_top", "t - cover - 1.5 * d_b", unit="in", clause=LEAST_DEPTH, t="in", cover="in", d_b="in")
def upper_depth(t: float, cover: float, d_b: float) -> float:
    """Effective depth of the upper of the two layers, which 13.3.1.2 asks for at least 6 in. [in]"""
    return t - cover - 1.5 * d_b


@formula("A_s", "n * A_b", unit="in**2", clause=FLEXURE, n="", A_b="in**2")
def steel_area(n: float, A_b: float) -> float:
    """Area of the bars one way [in**2]."""
    return n * A_b


@formula("rho_w", "A_s / (b_w * d)", unit="", clause=ONE_WAY_SHEAR, A_s="in**2", b_w="in", d="in")
def steel_ratio(A_s: float, b_w: float, d: float) -> float:
    """Bars to concrete. ACI 318-19 Table 22.5.5.1. A_s [in**2], b_w, d [in]."""
    return A_s / (b_w * d)


@formula(
    "V_n",
    "min(8 * rho_w ** (1 / 3), 5) * lambda_c * sqrt_fc * b_w * d",
    unit="lbf",
    clause=ONE_WAY_SHEAR,
    rho_w="",
    lambda_c="",
    sqrt_fc="psi",
    b_w="in",
    d="in",
)
def one_way_strength(rho_w: float, lambda_c: float, sqrt_fc: float, b_w: float, d: float) -> float:
    """Nominal one-way shear strength without stirrups. ACI 318-19 Table 22.5.5.1(c), cap of 22.5.5.1.1.

    A pad has no stirrups (A_v under A_v,min), so row (c) governs for any steel ratio, also one under the
    least; rows (a) and (b) are for members with stirrups. sqrt_fc [psi], b_w, d [in]. Force [lbf].
    """
    strength: float = min(8 * rho_w ** (1 / 3), 5) * lambda_c * sqrt_fc * b_w * d
    return strength


@formula(
    "V_n",
    "min(4, 2 + 4 / beta, 2 + alpha_s * d / b_o) * lambda_c * sqrt_fc * b_o * d",
    unit="lbf",
    clause=TWO_WAY_SHEAR,
    beta="",
    alpha_s="",
    d="in",
    b_o="in",
    lambda_c="",
    sqrt_fc="psi",
)
def punching_strength(
    beta: float, alpha_s: float, d: float, b_o: float, lambda_c: float, sqrt_fc: float
) -> float:
    """Nominal two-way shear strength, the least of three. ACI 318-19 Table 22.6.5.2.

    beta: long over short side of the loaded area; alpha_s: 40 with four sides of perimeter in the pad;
    d, b_o [in], sqrt_fc [psi]. Force [lbf].
    """
    return min(4, 2 + 4 / beta, 2 + alpha_s * d / b_o) * lambda_c * sqrt_fc * b_o * d


@formula(
    "a",
    "A_s * f_y / (0.85 * f_c * b)",
    unit="in",
    clause=STRESS_BLOCK,
    A_s="in**2",
    f_y="psi",
    f_c="psi",
    b="in",
)
def block_depth(A_s: float, f_y: float, f_c: float, b: float) -> float:
    """Depth of the stress block that balances the bars. ACI 318-19 22.2.2.4.1. Length [in]."""
    return A_s * f_y / (0.85 * f_c * b)


@formula(
    "beta_1",
    "min(0.85, max(0.65, 0.85 - 0.05 * (f_c / psi_1 - 4000) / 1000))",
    unit="",
    clause=BLOCK_FACTOR,
    f_c="psi",
    psi_1="psi",
)
def block_factor(f_c: float, psi_1: float = 1.0) -> float:
    """Depth of the stress block over that of the neutral axis. ACI 318-19 Table 22.2.2.4.3. f_c [psi]."""
    return min(0.85, max(0.65, 0.85 - 0.05 * (f_c / psi_1 - 4000) / 1000))


@formula("eps_t", "0.003 * (beta_1 * d / a - 1)", unit="", clause=STRAIN, beta_1="", d="in", a="in")
def steel_strain(beta_1: float, d: float, a: float) -> float:
    """Strain of the bars when the concrete reaches 0.003. ACI 318-19 22.2.1.2, 22.2.2.1. d, a [in]."""
    return 0.003 * (beta_1 * d / a - 1)


@formula("eps_tc", "f_y / E_s + 0.003", unit="", clause=TENSION_LIMIT, f_y="psi", E_s="psi")
def tension_limit(f_y: float, E_s: float = E_S) -> float:
    """Strain from which a section is tension-controlled. ACI 318-19 Table 21.2.2. f_y, E_s [psi]."""
    return f_y / E_s + 0.003


@formula(
    "M_n", "A_s * f_y * (d - a / 2)", unit="lbf*in", clause=FLEXURE, A_s="in**2", f_y="psi", d="in", a="in"
)
def bending_strength(A_s: float, f_y: float, d: float, a: float) -> float:
    """Nominal bending strength. ACI 318-19 22.3.1.1 with 22.2. A_s [in**2], f_y [psi], d, a [in]; [lbf*in]."""
    return A_s * f_y * (d - a / 2)


@formula(
    "A_req",
    "0.85 * f_c * b * d / f_y * (1 - max(1 - 2 * M_u / (phi * 0.85 * f_c * b * d ** 2), 0) ** 0.5)",
    unit="in**2",
    clause=FLEXURE,
    f_c="psi",
    b="in",
    d="in",
    f_y="psi",
    M_u="lbf*in",
    phi="",
)
def required_steel(f_c: float, b: float, d: float, f_y: float, M_u: float, phi: float) -> float:
    """Bars that the moment asks for, 22.3.1.1 solved for the area; all that can work where none do.

    f_c, f_y [psi], b, d [in], M_u [lbf*in]. Area [in**2].
    """
    inner: float = max(1 - 2 * M_u / (phi * 0.85 * f_c * b * d**2), 0) ** 0.5
    return 0.85 * f_c * b * d / f_y * (1 - inner)


@formula("A_min", "0.0018 * b * t", unit="in**2", clause=LEAST_STEEL, b="in", t="in")
def least_steel(b: float, t: float) -> float:
    """Least bars near the tension face, which are temperature steel as well. ACI 318-19 8.6.1.1, 24.4.3.2.

    b: width, t: thickness [in]. Area [in**2].
    """
    return 0.0018 * b * t


@formula("b_slab", "min(c + 3 * t, b)", unit="in", clause=PUNCHING_STEEL, c="in", t="in", b="in")
def slab_width(c: float, t: float, b: float) -> float:
    """Width at the post over which 8.6.1.2 asks for bars: 1.5 t to each side. ACI 318-19 8.4.2.2.3. [in]"""
    return min(c + 3 * t, b)


@formula("v_uv", "V_u / (b_o * d)", unit="psi", clause=PUNCHING_STEEL, V_u="lbf", b_o="in", d="in")
def punching_stress(V_u: float, b_o: float, d: float) -> float:
    """Two-way shear stress. ACI 318-19 8.6.1.2. V_u [lbf], b_o, d [in]. Stress [psi]."""
    return V_u / (b_o * d)


@formula(
    "v_lim",
    "phi * 2 * lambda_c * sqrt_fc",
    unit="psi",
    clause=PUNCHING_STEEL,
    phi="",
    lambda_c="",
    sqrt_fc="psi",
)
def punching_steel_limit(phi: float, lambda_c: float, sqrt_fc: float) -> float:
    """Two-way shear stress from which 8.6.1.2 asks for bars of its own [psi]."""
    return phi * 2 * lambda_c * sqrt_fc


@formula(
    "A_punch",
    "5 * v_uv * b_slab * b_o / (phi * alpha_s * f_y)",
    unit="in**2",
    clause=PUNCHING_STEEL,
    v_uv="psi",
    b_slab="in",
    b_o="in",
    phi="",
    alpha_s="",
    f_y="psi",
)
def punching_steel(v_uv: float, b_slab: float, b_o: float, phi: float, alpha_s: float, f_y: float) -> float:
    """Bars over b_slab that keep a punching crack closed. ACI 318-19 8.6.1.2. Area [in**2]."""
    return 5 * v_uv * b_slab * b_o / (phi * alpha_s * f_y)


@formula("A_in", "A_s * b_slab / b", unit="in**2", clause=PUNCHING_STEEL, A_s="in**2", b_slab="in", b="in")
def steel_within(A_s: float, b_slab: float, b: float) -> float:
    """Bars of an even spacing that lie within b_slab [in**2]."""
    return A_s * b_slab / b


@formula("gamma_s", "2 / (L / W + 1)", unit="", clause=BAND, L="in", W="in")
def band_share(L: float, W: float) -> float:
    """Part of the short bars that belongs in a band as wide as the short side. ACI 318-19 13.3.3.3.

    L: long side, W: short side [in].
    """
    return 2 / (L / W + 1)


@formula(
    "s",
    "(b - 2 * cover - d_b) / (n - 1)",
    unit="in",
    clause=WIDEST_SPACING,
    b="in",
    cover="in",
    d_b="in",
    n="",
)
def bar_spacing(b: float, cover: float, d_b: float, n: float) -> float:
    """Centre to centre, the outer bars with the cover from the sides. Geometry. n: bars, 2 or more. [in]"""
    return (b - 2 * cover - d_b) / (n - 1)


@formula(
    "s_out",
    "((L - W) / 2 - cover - d_b / 2) / n",
    unit="in",
    clause=BAND,
    L="in",
    W="in",
    cover="in",
    d_b="in",
    n="",
)
def outer_spacing(L: float, W: float, cover: float, d_b: float, n: float) -> float:
    """Centre to centre beyond the band, from its edge to the last bar. Geometry.

    L: long side, W: short side and band [in], n: bars beyond the band on one side. [in]
    """
    return ((L - W) / 2 - cover - d_b / 2) / n


@formula("s_max", "min(2 * t, s_18)", unit="in", clause=WIDEST_SPACING, t="in", s_18="in")
def widest_spacing(t: float, s_18: float = MOST_SPACING) -> float:
    """Widest spacing at the critical sections: twice the thickness, 18 in. ACI 318-19 8.7.2.2. [in]"""
    return min(2 * t, s_18)


@formula("s_min", "d_b + max(s_1, d_b)", unit="in", clause=CLEAR_SPACING, d_b="in", s_1="in")
def closest_spacing(d_b: float, s_1: float = LEAST_CLEAR) -> float:
    """Closest spacing, centre to centre: clear one bar and 1 in, aggregate up to 3/4 in. ACI 318-19 25.2.1. [in]"""
    return d_b + max(s_1, d_b)


@formula("c_b", "min(cover + d_b / 2, s / 2)", unit="in", clause=DEVELOPMENT, cover="in", d_b="in", s="in")
def splitting_cover(cover: float, d_b: float, s: float) -> float:
    """Least of the distance to the nearest face and half the spacing, from the bar's centre. 25.4.2.4. [in]"""
    return min(cover + d_b / 2, s / 2)


@formula(
    "l_d",
    "3 / 40 * f_y / (lambda_c * sqrt_fc) * psi_s / min(c_b / d_b, 2.5) * d_b",
    unit="in",
    clause=DEVELOPMENT,
    f_y="psi",
    lambda_c="",
    sqrt_fc="psi",
    psi_s="",
    c_b="in",
    d_b="in",
)
def development_length(
    f_y: float, lambda_c: float, sqrt_fc: float, psi_s: float, c_b: float, d_b: float
) -> float:
    """Length that develops a straight bottom bar. ACI 318-19 25.4.2.4(a), no cross bars counted (K_tr 0).

    psi_t, psi_e and psi_g are 1: less than 12 in of concrete below, no coating, grade 60 or lower.
    psi_s: 0.8 to No. 6, else 1. f_y, sqrt_fc [psi], c_b, d_b [in]. Length [in].
    """
    return 3 / 40 * f_y / (lambda_c * sqrt_fc) * psi_s / min(c_b / d_b, 2.5) * d_b


@formula(
    "l_req",
    "max(l_d * min(A_req / A_s, 1), l_12)",
    unit="in",
    clause=EXCESS_STEEL,
    l_d="in",
    A_req="in**2",
    A_s="in**2",
    l_12="in",
)
def needed_length(l_d: float, A_req: float, A_s: float, l_12: float = LEAST_LENGTH) -> float:
    """Development with more bars than the moment asks for, never under 12 in. ACI 318-19 25.4.10.1, 25.4.2.1.

    l_d [in], A_req, A_s [in**2]. Length [in].
    """
    return max(l_d * min(A_req / A_s, 1), l_12)


@formula("l_have", "p - cover", unit="in", clause=LEAST_DEVELOPMENT, p="in", cover="in")
def available_length(p: float, cover: float) -> float:
    """Bar beyond the critical section: the projection less the cover at its end. [in]"""
    return p - cover


@formula("l", "b - 2 * cover", unit="in", clause=COVER, b="in", cover="in")
def bar_length(b: float, cover: float) -> float:
    """Length of a straight bar across the pad. [in]"""
    return b - 2 * cover


@formula(
    "w",
    "(n_1 * l_1 + n_2 * l_2) * w_b",
    unit="lbf",
    clause=COVER,
    n_1="",
    l_1="in",
    n_2="",
    l_2="in",
    w_b="lbf/in",
)
def bar_weight(n_1: float, l_1: float, n_2: float, l_2: float, w_b: float) -> float:
    """Weight of the bars both ways, no laps and no waste. w_b: of a bar [lbf/in]. [lbf]"""
    return (n_1 * l_1 + n_2 * l_2) * w_b
