"""Statics of a pad under one post: soil pressure, shear, bending and punching both ways.

A stiff pad on soil: the pressure is a plane, so every force here is exact for a post that stands on the
middle of the pad or off it within the kern. Forces in lbf, lengths in inches, stresses in psi. The same
sums serve plain pads (h the thickness that counts) and reinforced ones (h the effective depth).
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

STIFF_PAD = Clause("statics", "soil pressure under a stiff pad")
CUT = Clause("statics", "free body of the pad beyond the section")
CRITICAL_SECTION = Clause("ACI 318", "Table 13.2.7.1")
CRITICAL_PERIMETER = Clause("ACI 318", "22.6.4.1")
UNBALANCED = Clause("ACI 318", "8.4.4.2")
SHARE_BY_SHEAR = Clause("ACI 318", "8.4.4.2.2")
FRUSTUM = Clause("ACI 318", "22.8.3.2")


@formula("q_u", "P_u / (L * W)", unit="psi", clause=STIFF_PAD, P_u="lbf", L="in", W="in")
def factored_pressure(P_u: float, L: float, W: float) -> float:
    """Mean soil pressure that bends and shears the pad; its own weight does neither. Statics.

    P_u: factored post load [lbf], L, W: sides of the pad [in]. Pressure [psi].
    """
    return P_u / (L * W)


@formula(
    "q_x", "q_u * (1 + 12 * e * x / L ** 2)", unit="psi", clause=STIFF_PAD, q_u="psi", e="in", x="in", L="in"
)
def pressure_at(q_u: float, e: float, x: float, L: float) -> float:
    """Soil pressure at x from the middle, mean over the other way, for a post at e from it. Statics.

    q_u: mean pressure [psi], e, x: positive to the same side [in], L: side of the pad that way [in].
    Pressure [psi]. Holds while no corner lifts: the sum of 6 e / L of both ways at most 1.
    """
    return q_u * (1 + 12 * e * x / L**2)


@formula("k", "6 * e_1 / L + 6 * e_2 / W", unit="", clause=STIFF_PAD, e_1="in", e_2="in", L="in", W="in")
def kern_ratio(e_1: float, e_2: float, L: float, W: float) -> float:
    """How far out in the kern of the pad the post stands; at 1 a corner is about to lift. Statics.

    e_1 along L, e_2 along W [in].
    """
    return 6 * e_1 / L + 6 * e_2 / W


@formula("p", "L / 2 - e - c / 2", unit="in", clause=CRITICAL_SECTION, L="in", c="in", e="in")
def projection(L: float, c: float, e: float) -> float:
    """Pad beyond the critical section. ACI 318-19 Table 13.2.7.1; plain pads Table 14.4.3.2.1.

    L: side of the pad, c: width between the critical sections, e: how far the post stands off the middle
    towards this edge, negative away from it [in]. Length [in].
    """
    return L / 2 - e - c / 2


@formula("c", "(c_post + c_plate) / 2", unit="in", clause=CRITICAL_SECTION, c_post="in", c_plate="in")
def plate_section(c_post: float, c_plate: float) -> float:
    """Width between critical sections under a steel plate: halfway from post face to plate edge.

    ACI 318-19 Table 13.2.7.1, plain pads Table 14.4.3.2.1. Lengths [in].
    """
    return (c_post + c_plate) / 2


@formula(
    "V_u",
    "b * max(p - h, 0 * p) * (q_e + q_c) / 2",
    unit="lbf",
    clause=CUT,
    b="in",
    p="in",
    h="in",
    q_e="psi",
    q_c="psi",
)
def one_way_demand(b: float, p: float, h: float, q_e: float, q_c: float) -> float:
    """Shear across the pad at h from the critical section, by the soil beyond it. Statics.

    b: width of the pad, p: projection, h: depth [in], q_e: pressure at the edge, q_c at the cut [psi].
    Force [lbf]. Zero where the cut lies outside the pad.
    """
    return b * max(p - h, 0 * p) * (q_e + q_c) / 2


@formula(
    "M_u",
    "b * p ** 2 * (2 * q_e + q_c) / 6",
    unit="lbf*in",
    clause=CUT,
    b="in",
    p="in",
    q_e="psi",
    q_c="psi",
)
def bending_demand(b: float, p: float, q_e: float, q_c: float) -> float:
    """Moment of the soil beyond the critical section. Statics.

    b, p [in], q_e: pressure at the edge, q_c at the section [psi]. Moment [lbf*in].
    """
    return b * p**2 * (2 * q_e + q_c) / 6


@formula(
    "b_o",
    "2 * ((min(c_1 + h, L) if c_2 + h < W else 0 * L) + (min(c_2 + h, W) if c_1 + h < L else 0 * W))",
    unit="in",
    clause=CRITICAL_PERIMETER,
    c_1="in",
    c_2="in",
    h="in",
    L="in",
    W="in",
)
def punching_perimeter(c_1: float, c_2: float, h: float, L: float, W: float) -> float:
    """Perimeter at h/2 from the loaded area, of which only what lies inside the pad counts.

    ACI 318-19 22.6.4.1; plain pads 14.4.3.4.1. c_1 along L, c_2 along W. Lengths [in].
    """
    along = min(c_1 + h, L) if c_2 + h < W else 0 * L
    across = min(c_2 + h, W) if c_1 + h < L else 0 * W
    return 2 * (along + across)


@formula(
    "V_u",
    "P_u - q_p * min(c_1 + h, L) * min(c_2 + h, W)",
    unit="lbf",
    clause=CUT,
    P_u="lbf",
    q_p="psi",
    c_1="in",
    c_2="in",
    h="in",
    L="in",
    W="in",
)
def punching_demand(P_u: float, q_p: float, c_1: float, c_2: float, h: float, L: float, W: float) -> float:
    """Post load less the soil inside the perimeter at h/2. Statics.

    P_u: factored load [lbf], q_p: pressure under the post's middle [psi], lengths [in]. Force [lbf].
    """
    return P_u - q_p * min(c_1 + h, L) * min(c_2 + h, W)


@formula(
    "M_sc",
    "q_u * e * b_1 ** 3 * b_2 / L ** 2",
    unit="lbf*in",
    clause=UNBALANCED,
    q_u="psi",
    e="in",
    b_1="in",
    b_2="in",
    L="in",
)
def unbalanced_moment(q_u: float, e: float, b_1: float, b_2: float, L: float) -> float:
    """Moment that the slope of the pressure inside the perimeter brings to it; the post brings none. Statics.

    q_u: mean pressure [psi], e: post off the middle, b_1: perimeter that way, b_2 across, L: side of the
    pad that way [in]. Moment [lbf*in].
    """
    return q_u * e * b_1**3 * b_2 / L**2


@formula(
    "gamma_v",
    "1 - 1 / (1 + 2 / 3 * (b_1 / b_2) ** 0.5)",
    unit="",
    clause=SHARE_BY_SHEAR,
    b_1="in",
    b_2="in",
)
def share_by_shear(b_1: float, b_2: float) -> float:
    """Part of the unbalanced moment that goes through shear. ACI 318-19 8.4.4.2.2 with 8.4.2.2.2.

    b_1: perimeter the way of the moment, b_2 across [in].
    """
    share: float = 1 - 1 / (1 + 2 / 3 * (b_1 / b_2) ** 0.5)
    return share


@formula(
    "J_c",
    "h * b_1 ** 3 / 6 + b_1 * h ** 3 / 6 + h * b_2 * b_1 ** 2 / 2",
    unit="in**4",
    clause=UNBALANCED,
    b_1="in",
    b_2="in",
    h="in",
)
def perimeter_inertia(b_1: float, b_2: float, h: float) -> float:
    """Property of the closed perimeter like a polar moment. ACI 318-19 R8.4.4.2.3. Lengths [in]."""
    return h * b_1**3 / 6 + b_1 * h**3 / 6 + h * b_2 * b_1**2 / 2


@formula(
    "V_M",
    "gamma_v * M_sc * b_1 / 2 * b_o * h / J_c",
    unit="lbf",
    clause=UNBALANCED,
    gamma_v="",
    M_sc="lbf*in",
    b_1="in",
    b_o="in",
    h="in",
    J_c="in**4",
)
def moment_as_shear(gamma_v: float, M_sc: float, b_1: float, b_o: float, h: float, J_c: float) -> float:
    """The stress of the unbalanced moment at the worst side, as a force on the whole perimeter.

    ACI 318-19 8.4.4.2.3. Force [lbf], to be added to the punching force.
    """
    return gamma_v * M_sc * b_1 / 2 * b_o * h / J_c


@formula("beta", "max(c_1, c_2) / min(c_1, c_2)", unit="", clause=CRITICAL_PERIMETER, c_1="in", c_2="in")
def loaded_ratio(c_1: float, c_2: float) -> float:
    """Long over short side of the loaded area. ACI 318-19 22.6.5.2; plain pads 14.5.5.1(b)."""
    return max(c_1, c_2) / min(c_1, c_2)


@formula(
    "x",
    "min(L / 2 - e_1 - c_1 / 2, W / 2 - e_2 - c_2 / 2, 2 * t)",
    unit="in",
    clause=FRUSTUM,
    L="in",
    W="in",
    c_1="in",
    c_2="in",
    e_1="in",
    e_2="in",
    t="in",
)
def frustum_reach(L: float, W: float, c_1: float, c_2: float, e_1: float, e_2: float, t: float) -> float:
    """How far the bearing frustum spreads to each side inside the pad: 2 out for 1 down.

    ACI 318-19 Table 22.8.3.2; plain pads 14.5.6.1. Lengths [in].
    """
    return min(L / 2 - e_1 - c_1 / 2, W / 2 - e_2 - c_2 / 2, 2 * t)


@formula("A_1", "c_1 * c_2", unit="in**2", clause=FRUSTUM, c_1="in", c_2="in")
def loaded_area(c_1: float, c_2: float) -> float:
    """Area under the post or plate [in**2]. ACI 318-19 Table 22.8.3.2."""
    return c_1 * c_2


@formula("A_2", "(c_1 + 2 * x) * (c_2 + 2 * x)", unit="in**2", clause=FRUSTUM, c_1="in", c_2="in", x="in")
def frustum_area(c_1: float, c_2: float, x: float) -> float:
    """Base of the bearing frustum [in**2]. ACI 318-19 Table 22.8.3.2."""
    return (c_1 + 2 * x) * (c_2 + 2 * x)


@formula("phi V_n", "phi * V_n", unit="lbf", clause=Clause("ACI 318", "Table 21.2.1"), phi="", V_n="lbf")
def design_shear(phi: float, V_n: float) -> float:
    """Design shear strength [lbf]. ACI 318-19 Table 21.2.1."""
    return phi * V_n


@formula(
    "phi M_n", "phi * M_n", unit="lbf*in", clause=Clause("ACI 318", "Table 21.2.1"), phi="", M_n="lbf*in"
)
def design_moment(phi: float, M_n: float) -> float:
    """Design bending strength [lbf*in]. ACI 318-19 Table 21.2.1."""
    return phi * M_n


@formula("phi B_n", "phi * B_n", unit="lbf", clause=Clause("ACI 318", "Table 21.2.1"), phi="", B_n="lbf")
def design_bearing(phi: float, B_n: float) -> float:
    """Design bearing strength [lbf]. ACI 318-19 Table 21.2.1."""
    return phi * B_n
