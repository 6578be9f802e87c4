"""Reinforced pads: shear, bending, least steel, bar layout and development. CSA A23.3:19 clauses 7, 10 to 13, 15.

Forces in N, lengths in mm, stresses in MPa. Straight, uncoated bars near the bottom; no stirrups.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

LEAST_DEPTH = Clause("CSA A23.3", "15.7")
BAND = Clause("CSA A23.3", "15.4.4.2")
COVER = Clause("CSA A23.3", "7.9.2")
STRENGTH_RANGE = Clause("CSA A23.3", "8.6.1.1")
YIELD_RANGE = Clause("CSA A23.3", "8.5.1")
STRESS_BLOCK = Clause("CSA A23.3", "10.1.7")
FLEXURE = Clause("CSA A23.3", "10.1")
YIELDING = Clause("CSA A23.3", "10.5.2")
SHEAR_DEPTH = Clause("CSA A23.3", "2.2")
ONE_WAY_SHEAR = Clause("CSA A23.3", "11.3.4")
BETA = Clause("CSA A23.3", "11.3.6.3")
TWO_WAY_SHEAR = Clause("CSA A23.3", "13.3.4.1")
DEEP_PAD = Clause("CSA A23.3", "13.3.4.3")
LEAST_STEEL = Clause("CSA A23.3", "7.8.1")
WIDEST_SPACING = Clause("CSA A23.3", "7.4.1.2")
CLEAR_SPACING = Clause("CSA A23.3", "7.4.1.1")
DEVELOPMENT = Clause("CSA A23.3", "12.2.3")
LEAST_DEVELOPMENT = Clause("CSA A23.3", "12.2.1")
EXCESS_STEEL = Clause("CSA A23.3", "12.2.5")

PHI_S = 0.85  # 8.4.3
MIN_STRENGTH = 20.0  # MPa, 8.6.1.1
EARTH_COVER = 75.0  # mm: cast against and in contact with earth
BOTTOM_DEPTH = 150.0  # mm, 15.7: on soil, above the bars
MOST_SPACING = 500.0  # mm, 7.4.1.2
LEAST_CLEAR = 30.0  # mm, 7.4.1.1, with aggregate up to 20 mm
LEAST_LENGTH = 300.0  # mm, 12.2.1
MIN_YIELD, MAX_YIELD = 300.0, 500.0  # MPa, 8.5.1: to 500
THIN = 350.0  # mm, 11.3.6.2: beta is 0.21 up to here
DEEP, SHORT = 300.0, 3.0  # mm and depths, 13.3.4.3
SMALL_BAR = 300.0  # mm2, 12.2.4: 20M and smaller
K4_SMALL, K4_LARGE = 0.8, 1.0  # 12.2.4
CLOSE, WIDE = 0.6, 0.45  # Table 12.1
ALL_ROUND, TWO_SIDES = 4.0, 2.0  # alpha_s, 13.3.4.1


@formula("d_v", "max(0.9 * d, 0.72 * t)", unit="mm", clause=SHEAR_DEPTH, d="mm", t="mm")
def shear_depth(d: float, t: float) -> float:
    """Effective shear depth. CSA A23.3:19 2.2. d: effective depth, t: thickness [mm]."""
    return max(0.9 * d, 0.72 * t)


@formula(
    "beta",
    "0.21 if t <= t_350 else 230 / (1000 + d_v / mm_1)",
    unit="",
    clause=BETA,
    t="mm",
    t_350="mm",
    d_v="mm",
    mm_1="mm",
)
def shear_factor(t: float, t_350: float, d_v: float, mm_1: float = 1.0) -> float:
    """What of the root of f'c a pad without stirrups carries in shear. CSA A23.3:19 11.3.6.2(a) and 11.3.6.3.

    t: thickness, t_350: 350 mm, d_v, mm_1: one millimetre [mm]. That 11.3.6.2 also spares thick footings with
    a short projection was not read and is not used: a thick pad comes out on the safe side.
    """
    return 0.21 if t <= t_350 else 230 / (1000 + d_v / mm_1)


@formula(
    "V_c",
    "phi_c * beta * sqrt_fc * b * d_v",
    unit="N",
    clause=ONE_WAY_SHEAR,
    phi_c="",
    beta="",
    sqrt_fc="MPa",
    b="mm",
    d_v="mm",
)
def one_way_resistance(phi_c: float, beta: float, sqrt_fc: float, b: float, d_v: float) -> float:
    """Factored one-way shear resistance without stirrups. CSA A23.3:19 11.3.4. sqrt_fc [MPa], b, d_v [mm]; [N]."""
    return phi_c * beta * sqrt_fc * b * d_v


@formula(
    "v_c",
    "min((1 + 2 / beta_c) * 0.19, alpha_s * d / b_o + 0.19, 0.38) * phi_c * sqrt_fc",
    unit="MPa",
    clause=TWO_WAY_SHEAR,
    beta_c="",
    alpha_s="",
    d="mm",
    b_o="mm",
    phi_c="",
    sqrt_fc="MPa",
)
def punching_stress(
    beta_c: float, alpha_s: float, d: float, b_o: float, phi_c: float, sqrt_fc: float
) -> float:
    """Factored two-way shear stress that the concrete carries, the least of three. CSA A23.3:19 13.3.4.1.

    beta_c: long over short side of the loaded area; alpha_s: 4 with four sides of perimeter in the pad;
    d, b_o [mm], sqrt_fc [MPa]. Stress [MPa].
    """
    return min((1 + 2 / beta_c) * 0.19, alpha_s * d / b_o + 0.19, 0.38) * phi_c * sqrt_fc


@formula("k_d", "1300 / (1000 + d / mm_1)", unit="", clause=DEEP_PAD, d="mm", mm_1="mm")
def deep_pad_factor(d: float, mm_1: float = 1.0) -> float:
    """Loss of two-way shear in deep pads. CSA A23.3:19 13.3.4.3. d: effective depth over 300 mm, mm_1: 1 mm [mm]."""
    return 1300 / (1000 + d / mm_1)


def loses_by_depth(d: float, p: float) -> bool:
    """Whether `deep_pad_factor` counts: d over 300 mm, and p, from the post to where the shear is zero, 3 d or more.

    CSA A23.3:19 13.3.4.3, which spares short footings. d, p [mm].
    """
    return d > DEEP and p >= SHORT * d


@formula("V_r", "k_d * v_c * b_o * d", unit="N", clause=TWO_WAY_SHEAR, k_d="", v_c="MPa", b_o="mm", d="mm")
def punching_resistance(k_d: float, v_c: float, b_o: float, d: float) -> float:
    """Factored two-way shear resistance. CSA A23.3:19 13.3.4. v_c [MPa], b_o, d [mm]. Force [N]."""
    return k_d * v_c * b_o * d


@formula("alpha_1", "0.85 - 0.0015 * f_c / MPa_1", unit="", clause=STRESS_BLOCK, f_c="MPa", MPa_1="MPa")
def block_stress(f_c: float, MPa_1: float = 1.0) -> float:
    """Stress of the rectangular block over f'c; its floor of 0.67 is past 64 MPa. CSA A23.3:19 10.1.7. f_c [MPa]."""
    return 0.85 - 0.0015 * f_c / MPa_1


@formula("beta_1", "0.97 - 0.0025 * f_c / MPa_1", unit="", clause=STRESS_BLOCK, f_c="MPa", MPa_1="MPa")
def block_factor(f_c: float, MPa_1: float = 1.0) -> float:
    """Depth of the block over that of the neutral axis; floor as above. CSA A23.3:19 10.1.7. f_c [MPa]."""
    return 0.97 - 0.0025 * f_c / MPa_1


@formula(
    "a",
    "phi_s * A_s * f_y / (alpha_1 * phi_c * f_c * b)",
    unit="mm",
    clause=STRESS_BLOCK,
    phi_s="",
    A_s="mm**2",
    f_y="MPa",
    alpha_1="",
    phi_c="",
    f_c="MPa",
    b="mm",
)
def block_depth(
    phi_s: float, A_s: float, f_y: float, alpha_1: float, phi_c: float, f_c: float, b: float
) -> float:
    """Depth of the stress block that balances the bars. CSA A23.3:19 10.1.7. Length [mm]."""
    return phi_s * A_s * f_y / (alpha_1 * phi_c * f_c * b)


@formula("c/d", "a / (beta_1 * d)", unit="", clause=YIELDING, a="mm", beta_1="", d="mm")
def axis_ratio(a: float, beta_1: float, d: float) -> float:
    """Depth of the neutral axis over that of the bars. CSA A23.3:19 10.5.2. a, d [mm]."""
    return a / (beta_1 * d)


@formula("c/d_max", "MPa_700 / (MPa_700 + f_y)", unit="", clause=YIELDING, MPa_700="MPa", f_y="MPa")
def axis_limit(MPa_700: float, f_y: float) -> float:
    """The most of c / d with which the bars yield before the concrete crushes. CSA A23.3:19 10.5.2. f_y [MPa]."""
    return MPa_700 / (MPa_700 + f_y)


@formula(
    "M_r",
    "phi_s * A_s * f_y * (d - a / 2)",
    unit="N*mm",
    clause=FLEXURE,
    phi_s="",
    A_s="mm**2",
    f_y="MPa",
    d="mm",
    a="mm",
)
def bending_resistance(phi_s: float, A_s: float, f_y: float, d: float, a: float) -> float:
    """Factored bending resistance. CSA A23.3:19 10.1. A_s [mm**2], f_y [MPa], d, a [mm]; [N*mm]."""
    return phi_s * A_s * f_y * (d - a / 2)


@formula(
    "A_req",
    "alpha_1 * phi_c * f_c * b * d / (phi_s * f_y)"
    " * (1 - max(1 - 2 * M_f / (alpha_1 * phi_c * f_c * b * d ** 2), 0) ** 0.5)",
    unit="mm**2",
    clause=FLEXURE,
    alpha_1="",
    phi_c="",
    f_c="MPa",
    b="mm",
    d="mm",
    phi_s="",
    f_y="MPa",
    M_f="N*mm",
)
def required_steel(
    alpha_1: float, phi_c: float, f_c: float, b: float, d: float, phi_s: float, f_y: float, M_f: float
) -> float:
    """Bars that the moment asks for, 10.1 solved for the area; all that can work where none do.

    f_c, f_y [MPa], b, d [mm], M_f [N*mm]. Area [mm**2].
    """
    inner: float = max(1 - 2 * M_f / (alpha_1 * phi_c * f_c * b * d**2), 0) ** 0.5
    return alpha_1 * phi_c * f_c * b * d / (phi_s * f_y) * (1 - inner)


@formula("A_min", "0.002 * b * t", unit="mm**2", clause=LEAST_STEEL, b="mm", t="mm")
def least_steel(b: float, t: float) -> float:
    """Least bars each way in slabs and footings. CSA A23.3:19 7.8.1. b: width, t: thickness [mm]. [mm**2]"""
    return 0.002 * b * t


@formula("s_max", "min(3 * t, s_500)", unit="mm", clause=WIDEST_SPACING, t="mm", s_500="mm")
def widest_spacing(t: float, s_500: float = MOST_SPACING) -> float:
    """Widest spacing of principal bars: three times the thickness, 500 mm. CSA A23.3:19 7.4.1.2. [mm]"""
    return min(3 * t, s_500)


@formula("s_min", "d_b + max(1.4 * d_b, s_30)", unit="mm", clause=CLEAR_SPACING, d_b="mm", s_30="mm")
def closest_spacing(d_b: float, s_30: float = LEAST_CLEAR) -> float:
    """Closest spacing, centre to centre: clear 1.4 bars and 30 mm (aggregate to 20 mm). A23.3:19 7.4.1.1. [mm]"""
    return d_b + max(1.4 * d_b, s_30)


def confinement(cover: float, d_b: float, s: float) -> float:
    """0.45 with a cover of a bar and two bars clear between them, else 0.6. CSA A23.3:19 Table 12.1.

    cover: clear, d_b: bar, s: centre to centre [mm].
    """
    return WIDE if cover >= d_b and s >= 3 * d_b else CLOSE


@formula(
    "l_d",
    "k * k_4 * f_y / sqrt_fc * d_b",
    unit="mm",
    clause=DEVELOPMENT,
    k="",
    k_4="",
    f_y="MPa",
    sqrt_fc="MPa",
    d_b="mm",
)
def development_length(k: float, k_4: float, f_y: float, sqrt_fc: float, d_b: float) -> float:
    """Length that develops a straight bottom bar. CSA A23.3:19 12.2.3 and Table 12.1.

    k_1, k_2 and k_3 are 1: less than 300 mm of concrete below, no coating, normal density. k_4: 0.8 to 20M,
    else 1 (12.2.4). f_y, sqrt_fc [MPa], d_b [mm]. Length [mm].
    """
    return k * k_4 * f_y / sqrt_fc * d_b


@formula(
    "l_req",
    "max(l_d * min(A_req / A_s, 1), l_300)",
    unit="mm",
    clause=EXCESS_STEEL,
    l_d="mm",
    A_req="mm**2",
    A_s="mm**2",
    l_300="mm",
)
def needed_length(l_d: float, A_req: float, A_s: float, l_300: float = LEAST_LENGTH) -> float:
    """Development with more bars than the moment asks for, never under 300 mm. CSA A23.3:19 12.2.5, 12.2.1.

    l_d [mm], A_req, A_s [mm**2]. Length [mm].
    """
    return max(l_d * min(A_req / A_s, 1), l_300)
