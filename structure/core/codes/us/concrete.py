"""Plain concrete pads: strength in shear, bending and bearing. ACI 318-19 chapter 14.

Forces in lbf, lengths in inches, stresses in psi. ACI takes the root of f'c as a number of psi;
the kernels carry one psi as an argument, so that their dimensions hold.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

FOOTING_THICKNESS = Clause("ACI 318", "14.3.2.1")
CRITICAL_SECTION = Clause("ACI 318", "Table 14.4.3.2.1")
CAST_AGAINST_SOIL = Clause("ACI 318", "14.5.1.7")
FLEXURE = Clause("ACI 318", "14.5.2.1")
ONE_WAY_SHEAR = Clause("ACI 318", "14.5.5.1(a)")
TWO_WAY_SHEAR = Clause("ACI 318", "14.5.5.1(b)")
BEARING = Clause("ACI 318", "14.5.6.1")
STRENGTH_RANGE = Clause("ACI 318", "Table 19.2.1.1")
DENSITY_RANGE = Clause("ACI 318", "19.2.2.1")
LIGHTWEIGHT = Clause("ACI 318", "Table 19.2.4.1(a)")
FOUNDATIONS = Clause("ACI 318", "13.3")

PHI_PLAIN = 0.60  # Table 21.2.1, plain concrete elements
MIN_FOOTING_THICKNESS = 8.0  # in, 14.3.2.1
SOIL_FACE_LOSS = 2.0  # in, 14.5.1.7
MIN_STRENGTH = 2500.0  # psi, Table 19.2.1.1
MAX_STRENGTH = 10000.0  # psi; 22.5.3.1 holds the root of f'c to 100 psi in shear
MIN_DENSITY, MAX_DENSITY = 90.0, 160.0  # lbf/ft**3, 19.2.2.1


@formula("sqrt_fc", "(f_c * psi_1) ** 0.5", unit="psi", clause=ONE_WAY_SHEAR, f_c="psi", psi_1="psi")
def root_strength(f_c: float, psi_1: float = 1.0) -> float:
    """Root of the cylinder strength as a stress. ACI 318-19 19.2.4 and chapters 14 and 22.

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


@formula("S_m", "b * h ** 2 / 6", unit="in**3", clause=FLEXURE, b="in", h="in")
def pad_modulus(b: float, h: float) -> float:
    """Section modulus of the pad's cross section [in**3]."""
    return b * h**2 / 6


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
    """Nominal bearing strength under the post or plate. ACI 318-19 Table 14.5.6.1, as Table 22.8.3.2.

    f_c [psi], A_1: loaded area, A_2: base of the frustum inside the pad, sides 1 down to 2 out
    [in**2]. Force [lbf].
    """
    strength: float = 0.85 * f_c * A_1 * min((A_2 / A_1) ** 0.5, 2)
    return strength
