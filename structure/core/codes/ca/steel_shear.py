"""Shear of steel beams and forces on their webs by CSA S16:19 13.4 and 14.3.2, and the plate under them.

Forces in N, lengths in mm, stresses in MPa.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

WEB = Clause("CSA S16", "13.4.1.1")
ROUND = Clause("CSA S16", "13.4.1.3")
BEARING = Clause("CSA S16", "14.3.2")
STIFFENERS = Clause("CSA S16", "14.4.1")
PLATE = Clause("CSA S16", "13.5")

YIELDS, BUCKLES = 1014.0, 1435.0  # h/w over F_y**0.5 up to which the web yields, buckles inelastically
INELASTIC, ELASTIC = 670.0, 961_200.0  # numbers of F_s
INSIDE_SPREAD, END_SPREAD = 10.0, 4.0  # flange thicknesses that a force spreads over
INSIDE_CRIPPLING, END_CRIPPLING = 1.45, 0.60
MOST_SLENDER = 1100.0  # h/w over F_y**0.5 from which a web at a bearing needs stiffeners


@formula("A_w", "d * w", unit="mm**2", clause=WEB, d="mm", w="mm")
def web_area(d: float, w: float) -> float:
    """Shear area of a rolled shape: full depth. CSA S16 13.4.1.1. d, w [mm]. [mm**2]."""
    return d * w


@formula("A_w", "2 * (d - 4 * t) * t", unit="mm**2", clause=WEB, d="mm", t="mm")
def tube_web_area(d: float, t: float) -> float:
    """Shear area of a rectangular tube: the flat height of both webs. CSA S16 13.4.1.1. d, t [mm]. [mm**2]."""
    return 2 * (d - 4 * t) * t


@formula("F_s", "0.66 * F_y", unit="MPa", clause=WEB, F_y="MPa")
def shear_stress(F_y: float) -> float:
    """Shear stress of a web that yields, h/w up to 1014 / F_y**0.5. CSA S16 13.4.1.1(a)(i). [MPa]."""
    return 0.66 * F_y


@formula("F_s", "n * F_y ** 0.5 / s", unit="MPa", clause=WEB, n="MPa**0.5", F_y="MPa", s="")
def inelastic_shear_stress(n: float, F_y: float, s: float) -> float:
    """Shear stress of a web up to 1435 / F_y**0.5. CSA S16 13.4.1.1(a)(ii).

    n: 670 [MPa**0.5], F_y [MPa], s: h/w. [MPa].
    """
    stress: float = n * F_y**0.5 / s
    return stress


@formula("F_s", "n / s ** 2", unit="MPa", clause=WEB, n="MPa", s="")
def elastic_shear_stress(n: float, s: float) -> float:
    """Shear stress at which a slender web buckles. CSA S16 13.4.1.1(a)(iii). n: 961 200 [MPa], s: h/w. [MPa]."""
    return n / s**2


@formula("V_r", "phi * A_w * F_s", unit="N", clause=WEB, phi="", A_w="mm**2", F_s="MPa")
def shear_resistance(phi: float, A_w: float, F_s: float) -> float:
    """Factored shear resistance. CSA S16 13.4.1.1. phi: 0.9, A_w [mm**2], F_s [MPa]. [N]."""
    return phi * A_w * F_s


@formula("V_r", "0.66 * phi * A / 2 * F_y", unit="N", clause=ROUND, phi="", A="mm**2", F_y="MPa")
def round_shear_resistance(phi: float, A: float, F_y: float) -> float:
    """Factored shear resistance of a round tube. CSA S16 13.4.1.3. phi: 0.9, A [mm**2], F_y [MPa]. [N]."""
    return 0.66 * phi * A / 2 * F_y


@formula(
    "B_r", "phi * m * w * (N + n * t) * F_y", unit="N", clause=BEARING,
    phi="", m="", w="mm", N="mm", n="", t="mm", F_y="MPa",
)  # fmt: skip
def web_yielding(phi: float, m: float, w: float, N: float, n: float, t: float, F_y: float) -> float:
    """Web yielding over a bearing. CSA S16 14.3.2(a)(i) (phi_bi, n 10) and (b)(i) (phi_be, n 4).

    m: webs, w: web, N: bearing length, t: flange [mm], F_y [MPa]. [N].
    """
    return phi * m * w * (N + n * t) * F_y


@formula(
    "B_r", "n * phi * m * w ** 2 * (F_y * E) ** 0.5", unit="N", clause=BEARING,
    n="", phi="", m="", w="mm", F_y="MPa", E="MPa",
)  # fmt: skip
def web_crippling(n: float, phi: float, m: float, w: float, F_y: float, E: float) -> float:
    """Web crippling over a bearing, whatever its length. CSA S16 14.3.2(a)(ii) (1.45) and (b)(ii) (0.60).

    m: webs, w: web [mm], F_y, E [MPa]. [N].
    """
    force: float = n * phi * m * w**2 * (F_y * E) ** 0.5
    return force


@formula(
    "t", "n * (2 * f_p / (phi * F_y)) ** 0.5", unit="mm", clause=PLATE, n="mm", f_p="MPa", phi="", F_y="MPa"
)
def plate_thickness(n: float, f_p: float, phi: float, F_y: float) -> float:
    """Thickness at which a cantilever strip is just plastic. CSA S16 13.5 on a strip.

    f_p n**2 / 2 = phi F_y t**2 / 4; n: cantilever [mm], f_p: factored pressure, F_y: of the plate [MPa]. [mm].
    """
    thickness: float = n * (2 * f_p / (phi * F_y)) ** 0.5
    return thickness
