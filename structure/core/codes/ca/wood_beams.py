"""Beams of wood by CSA O86:19: bending with lateral stability, shear, notches, deflection.

Forces in N, lengths in mm, stresses in MPa. Kernels are plain arithmetic, so that arrays and quantities with
units can pass through them.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

BENDING = Clause("CSA O86", "6.5.3")
BENDING_GLULAM = Clause("CSA O86", "7.5.6.5")
BENDING_SCL = Clause("CSA O86", "15.3.3")
HELD_SIDEWAYS = Clause("CSA O86", "6.5.3.2")
STABILITY = Clause("CSA O86", "7.5.6.4")
EFFECTIVE_LENGTH = Clause("CSA O86", "Table 7.4")
SLENDER = Clause("CSA O86", "7.5.6.4.3")
GLULAM_SIZE = Clause("CSA O86", "7.5.6.5.1")
SCL_SIZE = Clause("CSA O86", "15.3.2")
SHEAR = Clause("CSA O86", "6.5.4")
GLULAM_SHEAR = Clause("CSA O86", "7.5.7.3")
SCL_SHEAR = Clause("CSA O86", "15.3.4")
NOTCH = Clause("CSA O86", "6.5.4")
DEFLECTION = Clause("CSA O86", "5.4.2")
PERMANENT = Clause("CSA O86", "5.4.3")

MOST_SLENDER = 50.0  # C_B, 7.5.6.4.3
SHORT = 10.0  # C_B up to which K_L is 1, 7.5.6.4.4
# Depth over width up to which sawn lumber held at its supports needs no K_L, 6.5.3.2: alone, and with its
# pressed edge held at 610 mm or closer.
DEEP_ALONE, DEEP_HELD, CLOSE = 4.0, 6.5, 610.0
DEEP_BLOCKED, DEEPEST = 7.6, 9.0  # 7.5 with bridging (38 x 286 counts as that), 9 with both edges held
DEEP_GLUED = 2.5  # 7.5.6.3: depth over width of glued laminated timber that needs no K_L
LEAST_VOLUME = 2.0e9  # mm**3: smaller glued laminated beams may be checked for shear by 7.5.7.3(b)
MOST_NOTCH = 0.25  # of the depth, 6.5.4
GLULAM_WIDTH, GLULAM_DEPTH, GLULAM_LENGTH = 130.0, 610.0, 9100.0  # mm, 7.5.6.5.1
NOTCH_DEPTH = 0.006  # 1/mm, 6.5.4
FRACTURE = 0.5  # MPa: specified strength in fracture shear at a notch, 6.5.4
MOST_PERMANENT = 360.0  # span over deflection under long-term load, 5.4.3
PERMANENT_SHARE = 0.5  # 5.4.3: of the whole load


@formula("C_B", "(L_e * d / b ** 2) ** 0.5", unit="", clause=SLENDER, L_e="mm", d="mm", b="mm")
def slenderness(L_e: float, d: float, b: float) -> float:
    """Slenderness of a beam, at most 50. CSA O86 7.5.6.4.3.

    L_e: effective length, d: depth, b: width [mm]. Plain number.
    """
    ratio: float = (L_e * d / b**2) ** 0.5
    return ratio


@formula("L_e", "k * l_u", unit="mm", clause=EFFECTIVE_LENGTH, k="", l_u="mm")
def effective_length(k: float, l_u: float) -> float:
    """Effective length of a beam. CSA O86 table 7.4.

    k: of the table for the loads, l_u: between points that hold the pressed edge [mm]. [mm].
    """
    return k * l_u


@formula("E_K", "E_05 / 0.87 * K_SE * K_T", unit="MPa", clause=STABILITY, E_05="MPa", K_SE="", K_T="")
def stability_modulus(E_05: float, K_SE: float, K_T: float) -> float:
    """Modulus in K_L: that of glued laminated timber whose fifth percentile is E_05. CSA O86 7.5.6.4.

    The clause is written for glued laminated timber, where E_05 is 0.87 E. E_05 [MPa], factors plain. [MPa].
    """
    return E_05 / 0.87 * K_SE * K_T


@formula("C_K", "(0.97 * E / F_b) ** 0.5", unit="", clause=STABILITY, E="MPa", F_b="MPa")
def slenderness_limit(E: float, F_b: float) -> float:
    """Slenderness at which a beam buckles before it yields. CSA O86 7.5.6.4.4.

    E: with K_SE and K_T, F_b [MPa]. Plain number.
    """
    ratio: float = (0.97 * E / F_b) ** 0.5
    return ratio


@formula("K_L", "1 - 1 / 3 * (C_B / C_K) ** 4", unit="", clause=STABILITY, C_B="", C_K="")
def stability_middle(C_B: float, C_K: float) -> float:
    """Lateral stability factor, C_B over 10 and not over C_K. CSA O86 7.5.6.4.4. Plain numbers."""
    return 1 - 1 / 3 * (C_B / C_K) ** 4


@formula("K_L", "0.65 * E / (C_B ** 2 * F_b)", unit="", clause=STABILITY, E="MPa", C_B="", F_b="MPa")
def stability_long(E: float, C_B: float, F_b: float) -> float:
    """Lateral stability factor, C_B over C_K and not over 50. CSA O86 7.5.6.4.4.

    E: with K_SE and K_T, F_b [MPa]. Plain number.
    """
    return 0.65 * E / (C_B**2 * F_b)


@formula(
    "K_Zbg",
    "(b_0 / b * d_0 / d * L_0 / L) ** 0.1",
    unit="",
    clause=GLULAM_SIZE,
    b_0="mm",
    b="mm",
    d_0="mm",
    d="mm",
    L_0="mm",
    L="mm",
)
def glulam_size(b_0: float, b: float, d_0: float, d: float, L_0: float, L: float) -> float:
    """Size factor of glued laminated timber in bending before its limit of 1.3. CSA O86 7.5.6.5.1.

    b: width, d: depth, L: between points of zero moment; b_0, d_0, L_0: 130, 610 and 9100 mm [mm]. Plain number.
    Of this and K_L the lesser counts, so the limit never does.
    """
    factor: float = (b_0 / b * d_0 / d * L_0 / L) ** 0.1
    return factor


@formula("K_Zb", "min(1, (d_0 / d) ** (1 / 9))", unit="", clause=SCL_SIZE, d_0="mm", d="mm")
def scl_size(d_0: float, d: float) -> float:
    """Size factor of composite lumber in bending where its maker's is not entered. CSA O86 15.3.2.

    d_0: 305 mm, d: depth [mm]. The exponent 1/9 is common practice; the maker's governs. Plain number.
    """
    factor: float = min(1, (d_0 / d) ** (1 / 9))
    return factor


@formula(
    "M_r",
    "phi * F_b * S * K_Zb * K_L",
    unit="N*mm",
    clause=BENDING,
    phi="",
    F_b="MPa",
    S="mm**3",
    K_Zb="",
    K_L="",
)
def moment_resistance(phi: float, F_b: float, S: float, K_Zb: float, K_L: float) -> float:
    """Factored bending resistance of sawn lumber. CSA O86 6.5.3.1; composite lumber 15.3.3.

    phi: 0.9, F_b [MPa], S: section modulus [mm**3], factors plain. [N*mm].
    """
    return phi * F_b * S * K_Zb * K_L


@formula(
    "M_r",
    "phi * F_b * S * min(K_Zbg, K_L)",
    unit="N*mm",
    clause=BENDING_GLULAM,
    phi="",
    F_b="MPa",
    S="mm**3",
    K_Zbg="",
    K_L="",
)
def moment_resistance_glulam(phi: float, F_b: float, S: float, K_Zbg: float, K_L: float) -> float:
    """Factored bending resistance of straight glued laminated timber: the lesser of two. CSA O86 7.5.6.5.

    phi: 0.9, F_b [MPa], S: section modulus [mm**3], factors plain. [N*mm].
    """
    return phi * F_b * S * min(K_Zbg, K_L)


@formula(
    "V_r",
    "phi * F_v * 2 / 3 * A_n * K_Zv",
    unit="N",
    clause=SHEAR,
    phi="",
    F_v="MPa",
    A_n="mm**2",
    K_Zv="",
)
def shear_resistance(phi: float, F_v: float, A_n: float, K_Zv: float) -> float:
    """Factored shear resistance of a rectangle. CSA O86 6.5.4; glued laminated timber under 2 m3 7.5.7.3(b).

    phi: 0.9, F_v [MPa], A_n: net area [mm**2], K_Zv: size factor, plain. [N].
    """
    return phi * F_v * 2 / 3 * A_n * K_Zv


@formula(
    "K_N",
    "(k * d * (1.6 * (1 / a - 1) + n ** 2 * (1 / a ** 3 - 1))) ** -0.5",
    unit="",
    clause=NOTCH,
    k="1/mm",
    d="mm",
    a="",
    n="",
)
def notch_factor(k: float, d: float, a: float, n: float) -> float:
    """Notch factor of sawn lumber cut on its tension side at a support. CSA O86 6.5.4.

    k: 0.006 [1/mm], d: depth [mm], a: depth left over depth, n: length of the notch from the inner edge of the
    support over depth. Plain number.
    """
    factor: float = (k * d * (1.6 * (1 / a - 1) + n**2 * (1 / a**3 - 1))) ** -0.5
    return factor


@formula("F_r", "phi * F_f * A * K_N", unit="N", clause=NOTCH, phi="", F_f="MPa", A="mm**2", K_N="")
def fracture_resistance(phi: float, F_f: float, A: float, K_N: float) -> float:
    """Factored resistance to fracture from the corner of a notch. CSA O86 6.5.4.

    phi: 0.9, F_f: 0.5 MPa with its factors, A: whole area [mm**2], K_N plain. [N].
    """
    return phi * F_f * A * K_N
