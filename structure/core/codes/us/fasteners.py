"""Dowel fasteners loaded sideways (nails, bolts): NDS chapter 12, yield limit equations.

Forces in lbf, lengths in inches, stresses in psi. `m` is the main member (it holds the point, or is the
middle one), `s` the side member. Kernels are plain arithmetic, so that quantities with units can pass.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

BEARING_STRENGTH = Clause("NDS", "Table 12.3.3")
ANGLE = Clause("NDS", "12.3.4")
YIELD = Clause("NDS", "Table 12.3.1A")
REDUCTION = Clause("NDS", "Table 12.3.1B")
PLANES = Clause("NDS", "12.3.9")
NAIL_PENETRATION = Clause("NDS", "12.1.6.4")
BOLT_PLACING = Clause("NDS", "12.5.1")
NAIL_PLACING = Clause("NDS", "12.1.6.6")
ADJUSTED = Clause("NDS", "Table 11.3.1")
GROUP = Clause("NDS", "11.3.6")
STEEL_SIDE = Clause("NDS", "12.3.3.3")

SMALL_DOWEL = 0.25  # in: under it F_e has no grain angle, R_d is K_D and C_g is 1
LARGEST_DOWEL = 1.0  # in, 12.1.3.1
FULL_PENETRATION = 10.0  # diameters
LEAST_PENETRATION = 6.0  # diameters, 12.1.6.4
R_D_CRUSHING, R_D_TILTING, R_D_BENDING = 4.0, 3.6, 3.2  # modes I, II, III and IV


@formula("F_e", "F_0 * G ** 1.84", unit="psi", clause=BEARING_STRENGTH, F_0="psi", G="")
def small_dowel_bearing(F_0: float, G: float) -> float:
    """Dowel bearing strength under dowels thinner than 1/4 in, in any direction. NDS table 12.3.3.

    F_0: 16,600 [psi], G: specific gravity, plain. [psi].
    """
    value: float = F_0 * G**1.84
    return value


@formula("F_e_par", "F_0 * G", unit="psi", clause=BEARING_STRENGTH, F_0="psi", G="")
def bearing_along(F_0: float, G: float) -> float:
    """Dowel bearing strength along the grain, dowels of 1/4 in and more. NDS table 12.3.3.

    F_0: 11,200 [psi], G: specific gravity, plain. [psi].
    """
    return F_0 * G


@formula(
    "F_e_perp",
    "F_0 * G ** 1.45 / D ** 0.5",
    unit="psi",
    clause=BEARING_STRENGTH,
    F_0="psi*in**0.5",
    G="",
    D="in",
)
def bearing_across(F_0: float, G: float, D: float) -> float:
    """Dowel bearing strength across the grain, dowels of 1/4 in and more. NDS table 12.3.3.

    F_0: 6,100 [psi*in**0.5], G: specific gravity, plain, D: diameter [in]. [psi].
    """
    value: float = F_0 * G**1.45 / D**0.5
    return value


@formula(
    "F_e_theta",
    "F_par * F_perp / (F_par * s + F_perp * (1 - s))",
    unit="psi",
    clause=ANGLE,
    F_par="psi",
    F_perp="psi",
    s="",
)
def bearing_at_angle(F_par: float, F_perp: float, s: float) -> float:
    """Dowel bearing strength at an angle to the grain. NDS equation 12.3-11.

    F_par, F_perp [psi], s: square of the sine of the angle, 0 to 1. [psi].
    """
    return F_par * F_perp / (F_par * s + F_perp * (1 - s))


@formula("F_e", "k * F_u / 1.6", unit="psi", clause=STEEL_SIDE, k="", F_u="psi")
def steel_bearing(k: float, F_u: float) -> float:
    """Dowel bearing strength of a steel plate. NDS 12.3.3.3 and appendix I.2.

    k: 2.4 for hot-rolled plate of 1/4 in or more, 2.2 for thinner; F_u: tensile strength [psi]. [psi].
    """
    return k * F_u / 1.6


@formula("R_e", "F_em / F_es", unit="", clause=YIELD, F_em="psi", F_es="psi")
def strength_ratio(F_em: float, F_es: float) -> float:
    """Bearing strength of the main member over that of the side member. NDS table 12.3.1A.

    F_em, F_es [psi]. Plain number.
    """
    return F_em / F_es


@formula("R_t", "l_m / l_s", unit="", clause=YIELD, l_m="in", l_s="in")
def length_ratio(l_m: float, l_s: float) -> float:
    """Bearing length in the main member over that in the side member. NDS table 12.3.1A.

    l_m, l_s [in]. Plain number.
    """
    return l_m / l_s


@formula("K_D", "max(2.2, k * D + 0.5)", unit="", clause=REDUCTION, k="1/in", D="in")
def small_dowel_reduction(k: float, D: float) -> float:
    """Reduction term of a dowel thinner than 1/4 in, the same in every mode. NDS table 12.3.1B.

    k: 10 [1/in], D: diameter [in]; 2.2 up to 0.17 in. Plain number.
    """
    return max(2.2, k * D + 0.5)


@formula("K_theta", "1 + 0.25 * theta / 90", unit="", clause=REDUCTION, theta="")
def angle_term(theta: float) -> float:
    """What the angle of the load to the grain adds to the reduction term. NDS table 12.3.1B.

    theta: largest angle in any member [degrees], 0 to 90. Plain number.
    """
    return 1 + 0.25 * theta / 90


@formula("R_d", "c * K_theta", unit="", clause=REDUCTION, c="", K_theta="")
def large_dowel_reduction(c: float, K_theta: float) -> float:
    """Reduction term of a dowel of 1/4 to 1 in. NDS table 12.3.1B.

    c: 4 in mode I, 3.6 in mode II, 3.2 in modes III and IV; K_theta plain. Plain number.
    """
    return c * K_theta


@formula(
    "k_1",
    "((R_e + 2 * R_e ** 2 * (1 + R_t + R_t ** 2) + R_t ** 2 * R_e ** 3) ** 0.5 - R_e * (1 + R_t)) / (1 + R_e)",
    unit="",
    clause=YIELD,
    R_e="",
    R_t="",
)
def k1(R_e: float, R_t: float) -> float:
    """Term of mode II. NDS table 12.3.1A. R_e, R_t plain. Plain number."""
    root = (R_e + 2 * R_e**2 * (1 + R_t + R_t**2) + R_t**2 * R_e**3) ** 0.5
    value: float = (root - R_e * (1 + R_t)) / (1 + R_e)
    return value


@formula(
    "k_2",
    "(2 * (1 + R_e) + 2 * F_yb * (1 + 2 * R_e) * D ** 2 / (3 * F_em * l_m ** 2)) ** 0.5 - 1",
    unit="",
    clause=YIELD,
    R_e="",
    F_yb="psi",
    D="in",
    F_em="psi",
    l_m="in",
)
def k2(R_e: float, F_yb: float, D: float, F_em: float, l_m: float) -> float:
    """Term of mode IIIm. NDS table 12.3.1A.

    R_e plain, F_yb: bending yield of the fastener [psi], D [in], F_em [psi], l_m [in]. Plain number.
    """
    value: float = (2 * (1 + R_e) + 2 * F_yb * (1 + 2 * R_e) * D**2 / (3 * F_em * l_m**2)) ** 0.5 - 1
    return value


@formula(
    "k_3",
    "(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D ** 2 / (3 * F_em * l_s ** 2)) ** 0.5 - 1",
    unit="",
    clause=YIELD,
    R_e="",
    F_yb="psi",
    D="in",
    F_em="psi",
    l_s="in",
)
def k3(R_e: float, F_yb: float, D: float, F_em: float, l_s: float) -> float:
    """Term of mode IIIs. NDS table 12.3.1A.

    R_e plain, F_yb: bending yield of the fastener [psi], D [in], F_em [psi], l_s [in]. Plain number.
    """
    value: float = (2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D**2 / (3 * F_em * l_s**2)) ** 0.5 - 1
    return value


@formula(
    "Z_Im",
    "D * l_m * F_em / R_d",
    unit="lbf",
    clause=Clause("NDS", "12.3-1"),
    D="in",
    l_m="in",
    F_em="psi",
    R_d="",
)
def mode_Im(D: float, l_m: float, F_em: float, R_d: float) -> float:
    """Crushing of the main member, single or double shear. NDS equations 12.3-1 and 12.3-7.

    D, l_m [in], F_em [psi], R_d plain. [lbf].
    """
    return D * l_m * F_em / R_d


@formula(
    "Z_Is",
    "n * D * l_s * F_es / R_d",
    unit="lbf",
    clause=Clause("NDS", "12.3-2"),
    n="",
    D="in",
    l_s="in",
    F_es="psi",
    R_d="",
)
def mode_Is(n: float, D: float, l_s: float, F_es: float, R_d: float) -> float:
    """Crushing of the side members. NDS equations 12.3-2 and 12.3-8.

    n: 1 in single, 2 in double shear; D, l_s [in], F_es [psi], R_d plain. [lbf].
    """
    return n * D * l_s * F_es / R_d


@formula(
    "Z_II",
    "k_1 * D * l_s * F_es / R_d",
    unit="lbf",
    clause=Clause("NDS", "12.3-3"),
    k_1="",
    D="in",
    l_s="in",
    F_es="psi",
    R_d="",
)
def mode_II(k_1: float, D: float, l_s: float, F_es: float, R_d: float) -> float:
    """The dowel tilts as a stiff piece; single shear only. NDS equation 12.3-3.

    k_1 plain, D, l_s [in], F_es [psi], R_d plain. [lbf].
    """
    return k_1 * D * l_s * F_es / R_d


@formula(
    "Z_IIIm",
    "k_2 * D * l_m * F_em / ((1 + 2 * R_e) * R_d)",
    unit="lbf",
    clause=Clause("NDS", "12.3-4"),
    k_2="",
    D="in",
    l_m="in",
    F_em="psi",
    R_e="",
    R_d="",
)
def mode_IIIm(k_2: float, D: float, l_m: float, F_em: float, R_e: float, R_d: float) -> float:
    """The dowel yields once, main member crushes; single shear only. NDS equation 12.3-4.

    k_2 plain, D, l_m [in], F_em [psi], R_e, R_d plain. [lbf].
    """
    return k_2 * D * l_m * F_em / ((1 + 2 * R_e) * R_d)


@formula(
    "Z_IIIs",
    "n * k_3 * D * l_s * F_em / ((2 + R_e) * R_d)",
    unit="lbf",
    clause=Clause("NDS", "12.3-5"),
    n="",
    k_3="",
    D="in",
    l_s="in",
    F_em="psi",
    R_e="",
    R_d="",
)
def mode_IIIs(n: float, k_3: float, D: float, l_s: float, F_em: float, R_e: float, R_d: float) -> float:
    """The dowel yields once in each shear plane, side members crush. NDS equations 12.3-5 and 12.3-9.

    n: 1 in single, 2 in double shear; k_3 plain, D, l_s [in], F_em [psi], R_e, R_d plain. [lbf].
    """
    return n * k_3 * D * l_s * F_em / ((2 + R_e) * R_d)


@formula(
    "Z_IV",
    "n * D ** 2 / R_d * (2 * F_em * F_yb / (3 * (1 + R_e))) ** 0.5",
    unit="lbf",
    clause=Clause("NDS", "12.3-6"),
    n="",
    D="in",
    R_d="",
    F_em="psi",
    F_yb="psi",
    R_e="",
)
def mode_IV(n: float, D: float, R_d: float, F_em: float, F_yb: float, R_e: float) -> float:
    """The dowel yields twice in each shear plane. NDS equations 12.3-6 and 12.3-10.

    n: 1 in single, 2 in double shear; D [in], R_d plain, F_em, F_yb [psi], R_e plain. [lbf].
    """
    value: float = n * D**2 / R_d * (2 * F_em * F_yb / (3 * (1 + R_e))) ** 0.5
    return value


@formula("C_p", "min(1, p / (10 * D))", unit="", clause=NAIL_PENETRATION, p="in", D="in")
def penetration_factor(p: float, D: float) -> float:
    """Share of the value that a nail keeps where it reaches less than 10 D into the piece that holds it.

    NDS table 12N, footnote; 6 D is the least (12.1.6.4). p, D [in]. Plain number.
    """
    return min(1, p / (10 * D))


@formula("gamma", "g * D ** 1.5", unit="lbf/in", clause=GROUP, g="lbf/in**2.5", D="in")
def slip_modulus(g: float, D: float) -> float:
    """Load to slip of one dowel of 1/4 in or more. NDS 11.3.6.

    g: 180,000 wood to wood, 270,000 wood to metal [lbf/in**2.5]; D [in]. [lbf/in].
    """
    value: float = g * D**1.5
    return value


@formula(
    "u",
    "1 + gamma * s / 2 * (1 / EA_m + 1 / EA_s)",
    unit="",
    clause=GROUP,
    gamma="lbf/in",
    s="in",
    EA_m="lbf",
    EA_s="lbf",
)
def group_term(gamma: float, s: float, EA_m: float, EA_s: float) -> float:
    """Term of the group action factor. NDS equation 11.3-1.

    gamma [lbf/in], s: spacing in the row [in], EA: stiffness of each member in the row's direction [lbf].
    Plain number over 1.
    """
    return 1 + gamma * s / 2 * (1 / EA_m + 1 / EA_s)


@formula("m", "u - (u ** 2 - 1) ** 0.5", unit="", clause=GROUP, u="")
def group_root(u: float) -> float:
    """Second term of the group action factor. NDS equation 11.3-1. u: over 1. Plain number, 0 to 1."""
    value: float = u - (u**2 - 1) ** 0.5
    return value


@formula(
    "C_g",
    "m * (1 - m ** (2 * n)) / (n * ((1 + R_EA * m ** n) * (1 + m) - 1 + m ** (2 * n))) * (1 + R_EA) / (1 - m)",
    unit="",
    clause=GROUP,
    m="",
    n="",
    R_EA="",
)
def group_factor(m: float, n: float, R_EA: float) -> float:
    """Share of the sum of single values that a row of n dowels carries. NDS equation 11.3-1.

    m: from `group_root`, n: dowels in the row, R_EA: lesser stiffness over greater, at most 1. Plain number.
    """
    value: float = (
        m * (1 - m ** (2 * n)) / (n * ((1 + R_EA * m**n) * (1 + m) - 1 + m ** (2 * n))) * (1 + R_EA) / (1 - m)
    )
    return value


@formula(
    "Z'",
    "Z * C_D * C_p * C_g",
    unit="lbf",
    clause=ADJUSTED,
    Z="lbf",
    C_D="",
    C_p="",
    C_g="",
)
def adjusted_value(Z: float, C_D: float, C_p: float, C_g: float) -> float:
    """What one fastener may carry in one shear plane, dry and full distances. NDS table 11.3.1.

    Z [lbf], C_D: load duration, C_p: penetration of nails, C_g: group action, plain. [lbf].
    """
    return Z * C_D * C_p * C_g
