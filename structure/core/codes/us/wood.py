"""Adjustment of reference design values by the NDS, for sawn lumber and structural composite lumber.

Stresses in psi, lengths in inches, weights in lbf.
"""

from __future__ import annotations

from structure.core.clauses import COMMON_PRACTICE, Clause
from structure.core.trace import formula

ADJUSTED_SAWN = Clause("NDS", "Table 4.3.1")
ADJUSTED_SCL = Clause("NDS", "Table 8.3.1")
LOAD_DURATION = Clause("NDS", "2.3.2")
SIZE_FACTOR = Clause("NDS", "4.3.6")
FLAT_USE = Clause("NDS", "4.3.7")
REPETITIVE_SAWN = Clause("NDS", "4.3.9")
REPETITIVE_SCL = Clause("NDS", "8.3.7")
VOLUME_SCL = Clause("NDS", "8.3.6")
DRY_SCL = Clause("NDS", "8.1.4")
WET_SAWN = Clause("NDS", "4.3.3")
TREATED = Clause("NDS", "2.3.4")
INCISED = Clause("NDS", "4.3.8")
NOT_WITH_STABILITY = VOLUME_SCL
DENSITY = Clause("NDS", "Supplement 3.1.3")
DEPTH_EXPONENT = Clause(COMMON_PRACTICE.document, "depth factor of generic LVL, (12/d)^(1/9)")

REPETITIVE_SAWN_FACTOR = 1.15  # 4.3.9, dimension lumber only
REPETITIVE_SCL_FACTOR = 1.04  # 8.3.7
STANDARD_DEPTH = 12.0  # in


@formula("C_F", "min(1, (d_0 / d) ** (1 / 9))", unit="", clause=SIZE_FACTOR, d_0="in", d="in")
def timber_size_factor(d_0: float, d: float) -> float:
    """Size factor on F_b of timbers over 12 in deep. NDS 4.3.6.3.

    d_0: 12 in, d: depth [in]. Plain number, 1 up to 12 in.
    """
    factor: float = min(1, (d_0 / d) ** (1 / 9))
    return factor


@formula("C_V", "(d_0 / d) ** (1 / 9)", unit="", clause=DEPTH_EXPONENT, d_0="in", d="in")
def depth_factor(d_0: float, d: float) -> float:
    """Volume factor of generic LVL, from the depth alone. NDS 8.3.6 leaves it to the maker; common practice.

    d_0: 12 in, d: depth [in]. Plain number.
    """
    factor: float = (d_0 / d) ** (1 / 9)
    return factor


@formula(
    "w_d",
    "w_w * G / (1 + G * 0.009 * m) * (1 + m / 100)",
    unit="lbf/ft**3",
    clause=DENSITY,
    w_w="lbf/ft**3",
    G="",
    m="",
)
def density(w_w: float, G: float, m: float) -> float:
    """Weight of wood from its specific gravity. NDS Supplement 3.1.3.

    w_w: weight of water [lbf/ft**3], G: oven-dry specific gravity, m: moisture [%]. [lbf/ft**3].
    """
    return w_w * G / (1 + G * 0.009 * m) * (1 + m / 100)


@formula(
    "w_self",
    "w_d * b * d",
    unit="lbf/in",
    clause=Clause("statics", "own weight"),
    w_d="lbf/in**3",
    b="in",
    d="in",
)
def own_weight(w_d: float, b: float, d: float) -> float:
    """Weight per length of a member.

    w_d: density [lbf/in**3], b and d [in]. [lbf/in].
    """
    return w_d * b * d


@formula(
    "F_b*",
    "F_b * C_D * C_M * C_F * C_r",
    unit="psi",
    clause=ADJUSTED_SAWN,
    F_b="psi",
    C_D="",
    C_M="",
    C_F="",
    C_r="",
)
def bending_value_sawn(F_b: float, C_D: float, C_M: float, C_F: float, C_r: float) -> float:
    """Bending value of sawn lumber with every factor but C_L. NDS table 4.3.1.

    F_b [psi], factors plain. [psi].
    """
    return F_b * C_D * C_M * C_F * C_r


@formula("F_i", "F * C_i", unit="psi", clause=INCISED, F="psi", C_i="")
def incised_value(F: float, C_i: float) -> float:
    """Reference value of incised dimension lumber. NDS 4.3.8.

    F [psi], C_i: 0.80 in strength, 0.95 in stiffness, 1 across the grain, plain. [psi].
    """
    return F * C_i


@formula("F_b*", "F_b * C_D * C_r", unit="psi", clause=ADJUSTED_SCL, F_b="psi", C_D="", C_r="")
def bending_value_scl(F_b: float, C_D: float, C_r: float) -> float:
    """Bending value of composite lumber with every factor but C_V and C_L. NDS table 8.3.1, dry service.

    F_b [psi], factors plain. [psi].
    """
    return F_b * C_D * C_r


@formula(
    "F_b*",
    "F_b * C_D * C_r * C_V",
    unit="psi",
    clause=VOLUME_SCL,
    F_b="psi",
    C_D="",
    C_r="",
    C_V="",
)
def bending_value_shallow_scl(F_b: float, C_D: float, C_r: float, C_V: float) -> float:
    """Bending value of composite lumber whose C_V is over 1, with every factor but C_L. NDS 8.3.6.

    A C_V over 1 is in F_b* before C_L is found, as the American Wood Council answers to the question.
    F_b [psi], factors plain. [psi].
    """
    return F_b * C_D * C_r * C_V


@formula("F_b'", "F_b * C_L", unit="psi", clause=ADJUSTED_SAWN, F_b="psi", C_L="")
def with_stability(F_b: float, C_L: float) -> float:
    """Adjusted bending value of sawn lumber. NDS table 4.3.1.

    F_b: with every factor but C_L [psi]. [psi].
    """
    return F_b * C_L


@formula("F_b'", "F_b * min(C_L, C_V)", unit="psi", clause=NOT_WITH_STABILITY, F_b="psi", C_L="", C_V="")
def with_lesser_of_volume(F_b: float, C_L: float, C_V: float) -> float:
    """Adjusted bending value of composite lumber where C_V is 1 or less: the lesser counts. NDS 8.3.6.

    F_b: with every factor but C_V and C_L [psi]. [psi].
    """
    return F_b * min(C_L, C_V)


@formula("F'", "F * C_D * C_M", unit="psi", clause=ADJUSTED_SAWN, F="psi", C_D="", C_M="")
def shear_value(F: float, C_D: float, C_M: float) -> float:
    """Adjusted value in shear. NDS tables 4.3.1 and 8.3.1.

    F: reference value [psi]. [psi].
    """
    return F * C_D * C_M


@formula("F'", "F * C_M", unit="psi", clause=ADJUSTED_SAWN, F="psi", C_M="")
def stiffness_value(F: float, C_M: float) -> float:
    """Adjusted E, E_min or F_c_perp: no load duration. NDS tables 4.3.1 and 8.3.1.

    F: reference value [psi]. [psi].
    """
    return F * C_M
