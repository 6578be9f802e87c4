"""Plain concrete pads: strength in shear, bending and bearing. ACI 318-19 chapter 14.

Forces in lbf, lengths in inches, stresses in psi. ACI takes the root of f'c as a number of psi;
the kernels carry one psi as an argument, so that their dimensions hold.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

FOOTING_THICKNESS = Clause("ACI 318", "14.3.2.1")
CRITICAL_SECTION = Clause("ACI 318", "Table 14.4.3.2.1")
ONE_WAY_SECTION = Clause("ACI 318", "14.4.3.3.1")
TWO_WAY_SECTION = Clause("ACI 318", "14.4.3.4.1")
CAST_AGAINST_SOIL = Clause("ACI 318", "14.5.1.7")
FLEXURE = Clause("ACI 318", "14.5.2.1")
ONE_WAY_SHEAR = Clause("ACI 318", "14.5.5.1(a)")
TWO_WAY_SHEAR = Clause("ACI 318", "14.5.5.1(b)")
BEARING = Clause("ACI 318", "14.5.6.1")
STRENGTH_REDUCTION = Clause("ACI 318", "Table 21.2.1")
STRENGTH_RANGE = Clause("ACI 318", "Table 19.2.1.1")
DENSITY_RANGE = Clause("ACI 318", "19.2.2.1")
LIGHTWEIGHT = Clause("ACI 318", "Table 19.2.4.1(a)")
REINFORCED_FOOTING = Clause("ACI 318", "13.3")

PHI_PLAIN = 0.60  # Table 21.2.1, plain concrete elements
MIN_FOOTING_THICKNESS = 8.0  # in, 14.3.2.1
SOIL_FACE_LOSS = 2.0  # in, 14.5.1.7
MIN_STRENGTH = 2500.0  # psi, Table 19.2.1.1
MAX_STRENGTH = 10000.0  # psi; 22.5.3.1 holds the root of f'c to 100 psi in shear
MIN_DENSITY, MAX_DENSITY = 90.0, 160.0  # lbf/ft**3, 19.2.2.1


@formula("sqrt_fc", "(f_c * psi_1) ** 0.5", unit="psi", clause=ONE_WAY_SHEAR, f_c="psi", psi_1="psi")
def root_strength(f_c: float, psi_1: float = 1.0) -> float:
    """Root of the cylinder strength as a stress. ACI 318-19 19.2.4 and chapter 14.

    f_c: specified strength [psi], psi_1: one psi. Stress [psi].
    """
    root: float = (f_c * psi_1) ** 0.5
    return root


@formula(
    "lambda_c",
    "min(1, max(0.75, 0.0075 * w_c / w_1))",
    unit="",
    clause=LIGHTWEIGHT,
    w_c="lbf/ft**3",
    w_1="lbf/ft**3",
)
def lightweight_factor(w_c: float, w_1: float = 1.0) -> float:
    """Factor for light concrete by its equilibrium density. ACI 318-19 Table 19.2.4.1(a).

    w_c: density [lbf/ft**3], w_1: one lbf/ft**3. Between 0.75 at 100 and 1 from 135 on.
    """
    return min(1, max(0.75, 0.0075 * w_c / w_1))


@formula("h", "t - t_soil", unit="in", clause=CAST_AGAINST_SOIL, t="in", t_soil="in")
def effective_thickness(t: float, t_soil: float = SOIL_FACE_LOSS) -> float:
    """Thickness that counts where concrete is cast against soil: 2 in less. ACI 318-19 14.5.1.7."""
    return t - t_soil


@formula("q_u", "P_u / B ** 2", unit="psi", clause=CRITICAL_SECTION, P_u="lbf", B="in")
def factored_pressure(P_u: float, B: float) -> float:
    """Soil pressure that bends and shears the pad; its own weight does neither. Statics.

    P_u: factored post load [lbf], B: side of the square pad [in]. Pressure [psi].
    """
    return P_u / B**2


@formula("p", "(B - c) / 2", unit="in", clause=CRITICAL_SECTION, B="in", c="in")
def projection(B: float, c: float) -> float:
    """Pad beyond the critical section on each side. ACI 318-19 Table 14.4.3.2.1.

    B: side of the pad [in], c: width between the critical sections [in]. Length [in].
    """
    return (B - c) / 2


@formula("c", "(c_post + c_plate) / 2", unit="in", clause=CRITICAL_SECTION, c_post="in", c_plate="in")
def plate_section(c_post: float, c_plate: float) -> float:
    """Width between critical sections under a steel plate: halfway from post face to plate edge.

    ACI 318-19 Table 14.4.3.2.1. Lengths [in].
    """
    return (c_post + c_plate) / 2


@formula(
    "V_u",
    "q_u * B * max(p - h, 0 * p)",
    unit="lbf",
    clause=ONE_WAY_SECTION,
    q_u="psi",
    B="in",
    p="in",
    h="in",
)
def one_way_demand(q_u: float, B: float, p: float, h: float) -> float:
    """Shear across the pad at h from the critical section. ACI 318-19 14.4.3.3.1.

    q_u [psi], B, p, h [in]. Force [lbf].
    """
    return q_u * B * max(p - h, 0 * p)


@formula(
    "V_n",
    "4 / 3 * lambda_c * sqrt_fc * b_w * h",
    unit="lbf",
    clause=ONE_WAY_SHEAR,
    lambda_c="",
    sqrt_fc="psi",
    b_w="in",
    h="in",
)
def one_way_strength(lambda_c: float, sqrt_fc: float, b_w: float, h: float) -> float:
    """Nominal one-way shear strength of plain concrete. ACI 318-19 14.5.5.1(a).

    sqrt_fc [psi], b_w, h [in]. Force [lbf].
    """
    return 4 / 3 * lambda_c * sqrt_fc * b_w * h


@formula("b_o", "2 * ((c_1 + h) + (c_2 + h))", unit="in", clause=TWO_WAY_SECTION, c_1="in", c_2="in", h="in")
def punching_perimeter(c_1: float, c_2: float, h: float) -> float:
    """Perimeter at h/2 from the loaded area. ACI 318-19 14.4.3.4.1. Lengths [in]."""
    return 2 * ((c_1 + h) + (c_2 + h))


@formula(
    "V_u",
    "q_u * (B ** 2 - min(c_1 + h, B) * min(c_2 + h, B))",
    unit="lbf",
    clause=TWO_WAY_SECTION,
    q_u="psi",
    B="in",
    c_1="in",
    c_2="in",
    h="in",
)
def punching_demand(q_u: float, B: float, c_1: float, c_2: float, h: float) -> float:
    """Soil reaction outside the perimeter at h/2; none if that reaches past the pad. Statics.

    q_u [psi], lengths [in]. Force [lbf].
    """
    return q_u * (B**2 - min(c_1 + h, B) * min(c_2 + h, B))


@formula(
    "V_n",
    "min(1 + 2 / beta, 2) * 4 / 3 * lambda_c * sqrt_fc * b_o * h",
    unit="lbf",
    clause=TWO_WAY_SHEAR,
    beta="",
    lambda_c="",
    sqrt_fc="psi",
    b_o="in",
    h="in",
)
def punching_strength(beta: float, lambda_c: float, sqrt_fc: float, b_o: float, h: float) -> float:
    """Nominal two-way shear strength of plain concrete. ACI 318-19 14.5.5.1(b).

    beta: long over short side of the loaded area; sqrt_fc [psi], b_o, h [in]. Force [lbf].
    """
    return min(1 + 2 / beta, 2) * 4 / 3 * lambda_c * sqrt_fc * b_o * h


@formula("M_u", "q_u * B * p ** 2 / 2", unit="lbf*in", clause=CRITICAL_SECTION, q_u="psi", B="in", p="in")
def bending_demand(q_u: float, B: float, p: float) -> float:
    """Moment of the pad beyond the critical section. ACI 318-19 Table 14.4.3.2.1.

    q_u [psi], B, p [in]. Moment [lbf*in].
    """
    return q_u * B * p**2 / 2


@formula("S_m", "B * h ** 2 / 6", unit="in**3", clause=FLEXURE, B="in", h="in")
def pad_modulus(B: float, h: float) -> float:
    """Section modulus of the pad's cross section [in**3]."""
    return B * h**2 / 6


@formula(
    "M_n",
    "min(5 * lambda_c * sqrt_fc, 0.85 * f_c) * S_m",
    unit="lbf*in",
    clause=FLEXURE,
    lambda_c="",
    sqrt_fc="psi",
    f_c="psi",
    S_m="in**3",
)
def bending_strength(lambda_c: float, sqrt_fc: float, f_c: float, S_m: float) -> float:
    """Nominal bending strength: tension face, or compression face if less. ACI 318-19 14.5.2.1.

    sqrt_fc, f_c [psi], S_m [in**3]. Moment [lbf*in].
    """
    return min(5 * lambda_c * sqrt_fc, 0.85 * f_c) * S_m


@formula(
    "B_n",
    "0.85 * f_c * A_1 * min((A_2 / A_1) ** 0.5, 2)",
    unit="lbf",
    clause=BEARING,
    f_c="psi",
    A_1="in**2",
    A_2="in**2",
)
def bearing_strength(f_c: float, A_1: float, A_2: float) -> float:
    """Nominal bearing strength under the post or plate. ACI 318-19 Table 14.5.6.1.

    f_c [psi], A_1: loaded area, A_2: base of the frustum inside the pad, sides 1 down to 2 out
    [in**2]. Force [lbf].
    """
    strength: float = 0.85 * f_c * A_1 * min((A_2 / A_1) ** 0.5, 2)
    return strength


@formula("phi V_n", "phi * V_n", unit="lbf", clause=STRENGTH_REDUCTION, phi="", V_n="lbf")
def design_shear(phi: float, V_n: float) -> float:
    """Design shear strength [lbf]. ACI 318-19 Table 21.2.1."""
    return phi * V_n


@formula("phi M_n", "phi * M_n", unit="lbf*in", clause=STRENGTH_REDUCTION, phi="", M_n="lbf*in")
def design_moment(phi: float, M_n: float) -> float:
    """Design bending strength [lbf*in]. ACI 318-19 Table 21.2.1."""
    return phi * M_n


@formula("phi B_n", "phi * B_n", unit="lbf", clause=STRENGTH_REDUCTION, phi="", B_n="lbf")
def design_bearing(phi: float, B_n: float) -> float:
    """Design bearing strength [lbf]. ACI 318-19 Table 21.2.1."""
    return phi * B_n


@formula(
    "x",
    "min((B - max(c_1, c_2)) / 2, 2 * t)",
    unit="in",
    clause=BEARING,
    B="in",
    c_1="in",
    c_2="in",
    t="in",
)
def frustum_reach(B: float, c_1: float, c_2: float, t: float) -> float:
    """How far the bearing frustum spreads to each side inside the pad: 2 out for 1 down.

    ACI 318-19 14.5.6.1. Lengths [in].
    """
    return min((B - max(c_1, c_2)) / 2, 2 * t)


@formula("A_1", "c_1 * c_2", unit="in**2", clause=BEARING, c_1="in", c_2="in")
def loaded_area(c_1: float, c_2: float) -> float:
    """Area under the post or plate [in**2]. ACI 318-19 14.5.6.1."""
    return c_1 * c_2


@formula("A_2", "(c_1 + 2 * x) * (c_2 + 2 * x)", unit="in**2", clause=BEARING, c_1="in", c_2="in", x="in")
def frustum_area(c_1: float, c_2: float, x: float) -> float:
    """Base of the bearing frustum [in**2]. ACI 318-19 14.5.6.1."""
    return (c_1 + 2 * x) * (c_2 + 2 * x)


@formula("beta", "max(c_1, c_2) / min(c_1, c_2)", unit="", clause=TWO_WAY_SHEAR, c_1="in", c_2="in")
def loaded_ratio(c_1: float, c_2: float) -> float:
    """Long over short side of the loaded area. ACI 318-19 14.5.5.1(b)."""
    return max(c_1, c_2) / min(c_1, c_2)
