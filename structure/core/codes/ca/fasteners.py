"""One nail loaded sideways. CSA O86:19 12.9.4. N, mm, MPa.

The yield modes a to g were recalled and held against a printed resistance of the nail selection tables
(0.707 kN for a 76 mm nail through 38 mm of S-P-F).
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

LATERAL = Clause("CSA O86", "12.9.4.1")
MODES = Clause("CSA O86", "12.9.4.2")
PENETRATION = Clause("CSA O86", "12.9.2.2")
PLACING = Clause("CSA O86", "12.9.2.1")
BOLTS = Clause("CSA O86", "12.4")
BUILT_UP_COLUMNS = Clause("NBC", "9.17.4.2.")

PHI = 0.8  # resistance factor, 12.9.4.1
F_SIDE, F_MAIN = 50.0, 110.0  # MPa, embedding
POWER_SIDE, POWER_MAIN = 1.0, 1.8
D_EMBED = 100.0  # mm
K_YIELD, D_YIELD = 50.0, 16.0  # MPa/mm, mm
LEAST_SIDE, LEAST_POINT, LEAST_MIDDLE = 3.0, 5.0, 8.0  # diameters, memory


@formula(
    "f", "f_0 * G ** p * (1 - d / d_0)", unit="MPa", clause=MODES, f_0="MPa", G="", p="", d="mm", d_0="mm"
)
def embedding(f_0: float, G: float, p: float, d: float, d_0: float = D_EMBED) -> float:
    """Embedding strength of lumber. CSA O86 12.9.4.2.

    f_0: 50 MPa with p 1 where the wood crushes, 110 MPa with p 1.8 where the nail yields; G: relative density,
    d: diameter, d_0: 100 mm. [MPa].
    """
    strength: float = f_0 * G**p * (1 - d / d_0)
    return strength


@formula("f_y", "k_y * (d_y - d)", unit="MPa", clause=MODES, d="mm", k_y="MPa/mm", d_y="mm")
def nail_yield(d: float, k_y: float = K_YIELD, d_y: float = D_YIELD) -> float:
    """Yield strength of a common nail. CSA O86 12.9.4.2. d: diameter; 50 MPa/mm and 16 mm. [MPa]."""
    return k_y * (d_y - d)


@formula("n_a", "f_1 * d * t_1", unit="N", clause=MODES, f_1="MPa", d="mm", t_1="mm")
def mode_a(f_1: float, d: float, t_1: float) -> float:
    """The side member crushes. f_1: its embedding strength [MPa], t_1: its thickness, d [mm]. [N]."""
    return f_1 * d * t_1


@formula("n_b", "f_2 * d * t_2", unit="N", clause=MODES, f_2="MPa", d="mm", t_2="mm")
def mode_b(f_2: float, d: float, t_2: float) -> float:
    """The main member crushes, one shear plane. f_2 [MPa], t_2: penetration, d [mm]. [N]."""
    return f_2 * d * t_2


@formula("n_c", "f_2 * d * t_2 / 2", unit="N", clause=MODES, f_2="MPa", d="mm", t_2="mm")
def mode_c(f_2: float, d: float, t_2: float) -> float:
    """The middle member crushes, two shear planes. f_2 [MPa], t_2: its thickness, d [mm]. [N] a plane."""
    return f_2 * d * t_2 / 2


@formula(
    "n_d",
    "f_1 * d ** 2 * (sqrt(f_3 / (f_1 + f_3) * f_y / (6 * f_1)) + t / (5 * d))",
    unit="N",
    clause=MODES,
    f_1="MPa",
    f_3="MPa",
    f_y="MPa",
    d="mm",
    t="mm",
)
def mode_hinge(f_1: float, f_3: float, f_y: float, d: float, t: float) -> float:
    """One hinge in the nail, modes d (t: side member) and e (t: penetration). CSA O86 12.9.4.2.

    f_1, f_3: embedding of side and main member, f_y: yield of the nail [MPa], d, t [mm]. [N].
    """
    resistance: float = f_1 * d**2 * ((f_3 / (f_1 + f_3) * f_y / (6 * f_1)) ** 0.5 + t / (5 * d))
    return resistance


@formula(
    "n_f",
    "f_1 * d ** 2 * (t_1 / d + f_2 / f_1 * t_2 / d) / 5",
    unit="N",
    clause=MODES,
    f_1="MPa",
    f_2="MPa",
    d="mm",
    t_1="mm",
    t_2="mm",
)
def mode_f(f_1: float, f_2: float, d: float, t_1: float, t_2: float) -> float:
    """The nail tilts in both members, one shear plane. f_1, f_2 [MPa], d, t_1, t_2 [mm]. [N]."""
    return f_1 * d**2 * (t_1 / d + f_2 / f_1 * t_2 / d) / 5


@formula(
    "n_g",
    "f_1 * d ** 2 * sqrt(2 * f_3 / (f_1 + f_3) * f_y / (3 * f_1))",
    unit="N",
    clause=MODES,
    f_1="MPa",
    f_3="MPa",
    f_y="MPa",
    d="mm",
)
def mode_g(f_1: float, f_3: float, f_y: float, d: float) -> float:
    """Two hinges in the nail. f_1, f_3, f_y [MPa], d [mm]. [N]."""
    resistance: float = f_1 * d**2 * (2 * f_3 / (f_1 + f_3) * f_y / (3 * f_1)) ** 0.5
    return resistance


@formula("N_r", "phi * n_u * K_D * n_s", unit="N", clause=LATERAL, phi="", n_u="N", K_D="", n_s="")
def lateral_resistance(phi: float, n_u: float, K_D: float, n_s: float) -> float:
    """Factored resistance of one nail in dry, untreated wood. CSA O86 12.9.4.1.

    phi: 0.8, n_u: least of the modes for one plane [N], K_D: load duration, n_s: shear planes. [N].
    """
    return phi * n_u * K_D * n_s
