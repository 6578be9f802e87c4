"""Plain concrete pads: resistance in shear, bending and bearing. CSA A23.3:19 clause 22.6, 10.8 and 8.

Forces in N, lengths in mm, stresses in MPa. A23.3 takes the root of f'c as a number of MPa; the kernels carry
one MPa as an argument, so that their dimensions hold. Concrete of normal density only: lambda is 1 (8.6.5)
and left out.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

FOOTINGS = Clause("CSA A23.3", "15")
BASE_AREA = Clause("CSA A23.3", "15.2")
CRITICAL_SECTION = Clause("CSA A23.3", "15.4.3")
CRITICAL_PERIMETER = Clause("CSA A23.3", "13.3.3")
UNBALANCED = Clause("CSA A23.3", "13.3.5.5")
SHARE_BY_SHEAR = Clause("CSA A23.3", "13.3.5.3")
BEARING = Clause("CSA A23.3", "10.8.1")
PLAIN = Clause("CSA A23.3", "22.6")
PLAIN_FLEXURE = Clause("CSA A23.3", "22.6.5")
PLAIN_SHEAR = Clause("CSA A23.3", "22.6.6")
FACTORED_STRENGTH = Clause("CSA A23.3", "8.4.2")
DENSITY = Clause("CSA A23.3", "8.6.5")
ROOT_LIMIT = Clause("CSA A23.3", "11.3.4")

PHI_C = 0.65  # 8.4.2
SOIL_FACE_LOSS = 50.0  # mm, 22.6: memory; the same as the 2 in of ACI 318
MAX_STRENGTH = 64.0  # MPa: the root of f'c counts to 8 MPa in shear (11.3.4) and development (12.1.2)
# N/mm3: normal density is 2,150 to 2,500 kg/m3; with bars a little more.
MIN_DENSITY, MAX_DENSITY = 21.0e-6, 26.0e-6


@formula("sqrt_fc", "(f_c * MPa_1) ** 0.5", unit="MPa", clause=ROOT_LIMIT, f_c="MPa", MPa_1="MPa")
def root_strength(f_c: float, MPa_1: float = 1.0) -> float:
    """Root of the cylinder strength as a stress. CSA A23.3:19 11.3.4, 13.3.4, 22.6.

    f_c: specified strength, to 64 MPa, MPa_1: one MPa. Stress [MPa].
    """
    root: float = (f_c * MPa_1) ** 0.5
    return root


@formula("h", "t - t_soil", unit="mm", clause=PLAIN, t="mm", t_soil="mm")
def effective_thickness(t: float, t_soil: float = SOIL_FACE_LOSS) -> float:
    """Thickness that counts where concrete is cast against soil: 50 mm less. CSA A23.3:19 22.6. [mm]"""
    return t - t_soil


@formula(
    "V_r",
    "2 / 3 * 0.18 * phi_c * sqrt_fc * b * h",
    unit="N",
    clause=PLAIN_SHEAR,
    phi_c="",
    sqrt_fc="MPa",
    b="mm",
    h="mm",
)
def plain_one_way(phi_c: float, sqrt_fc: float, b: float, h: float) -> float:
    """Factored one-way shear resistance of plain concrete. CSA A23.3:19 22.6.6.

    The stress is taken at the top of its parabola, 1.5 V / (b h), which is the safe reading. sqrt_fc [MPa],
    b, h [mm]. Force [N].
    """
    return 2 / 3 * 0.18 * phi_c * sqrt_fc * b * h


@formula(
    "V_r",
    "2 / 3 * min(1 + 2 / beta_c, 2) * 0.18 * phi_c * sqrt_fc * b_o * h",
    unit="N",
    clause=PLAIN_SHEAR,
    beta_c="",
    phi_c="",
    sqrt_fc="MPa",
    b_o="mm",
    h="mm",
)
def plain_punching(beta_c: float, phi_c: float, sqrt_fc: float, b_o: float, h: float) -> float:
    """Factored two-way shear resistance of plain concrete. CSA A23.3:19 22.6.6, read as in `plain_one_way`.

    beta_c: long over short side of the loaded area; sqrt_fc [MPa], b_o, h [mm]. Force [N].
    """
    return 2 / 3 * min(1 + 2 / beta_c, 2) * 0.18 * phi_c * sqrt_fc * b_o * h


@formula("S", "b * h ** 2 / 6", unit="mm**3", clause=PLAIN_FLEXURE, b="mm", h="mm")
def pad_modulus(b: float, h: float) -> float:
    """Section modulus of the pad's cross section [mm**3]."""
    return b * h**2 / 6


@formula(
    "M_r",
    "0.37 * phi_c * sqrt_fc * S",
    unit="N*mm",
    clause=PLAIN_FLEXURE,
    phi_c="",
    sqrt_fc="MPa",
    S="mm**3",
)
def plain_bending(phi_c: float, sqrt_fc: float, S: float) -> float:
    """Factored bending resistance of plain concrete, by its tension face. CSA A23.3:19 22.6.5.

    The compression face has 0.75 phi_c f'c, which is more for any concrete of a footing. sqrt_fc [MPa], S [mm**3].
    Moment [N*mm].
    """
    return 0.37 * phi_c * sqrt_fc * S


@formula(
    "B_r",
    "0.85 * phi_c * f_c * A_1 * min((A_2 / A_1) ** 0.5, 2)",
    unit="N",
    clause=BEARING,
    phi_c="",
    f_c="MPa",
    A_1="mm**2",
    A_2="mm**2",
)
def bearing_resistance(phi_c: float, f_c: float, A_1: float, A_2: float) -> float:
    """Factored bearing resistance under the post or plate. CSA A23.3:19 10.8.1.

    f_c [MPa], A_1: loaded area, A_2: base of the frustum inside the pad, sides 1 down to 2 out [mm**2].
    Force [N].
    """
    resistance: float = 0.85 * phi_c * f_c * A_1 * min((A_2 / A_1) ** 0.5, 2)
    return resistance
