"""Glued laminated timber by NDS chapter 5: volume factor, bending value, camber.

Stresses in psi, lengths in inches.
"""

from __future__ import annotations

from structure.core.clauses import COMMON_PRACTICE, Clause
from structure.core.trace import formula

ADJUSTED = Clause("NDS", "Table 5.3.1")
VOLUME = Clause("NDS", "5.3.6")
TENSION_SIDE = Clause("NDS", "5.2.3")
STABILITY_MODULUS = Clause("NDS", "3.3.3.8")
SHEAR_REDUCTION = Clause("NDS", "5.3.10")
CAMBER = Clause(COMMON_PRACTICE.document, "camber of 1.5 times the deflection under dead load")

LENGTH, DEPTH, WIDTH = 252.0, 12.0, 5.125  # in, 5.3.6: 21 ft by 12 in by 5 1/8 in
WIDEST = 10.75  # in, 5.3.6: the most that b counts
CAMBER_TIMES = 1.5


@formula(
    "C_V",
    "(L_0 / L * d_0 / d * b_0 / b) ** (1 / x)",
    unit="",
    clause=VOLUME,
    L_0="in",
    L="in",
    d_0="in",
    d="in",
    b_0="in",
    b="in",
    x="",
)
def volume_factor(L_0: float, L: float, d_0: float, d: float, b_0: float, b: float, x: float) -> float:
    """Volume factor before its limit of 1. NDS equation 5.3-1.

    L: between points of zero moment, d: depth, b: width, at most 10 3/4 in [in]; L_0, d_0, b_0: 21 ft, 12 in
    and 5 1/8 in [in]; x: 20 for Southern Pine, else 10. Plain number.
    """
    factor: float = (L_0 / L * d_0 / d * b_0 / b) ** (1 / x)
    return factor


@formula("F_b*", "F_b * C_D * C_M", unit="psi", clause=ADJUSTED, F_b="psi", C_D="", C_M="")
def bending_value(F_b: float, C_D: float, C_M: float) -> float:
    """Bending value of glued laminated timber with every factor but C_V and C_L. NDS table 5.3.1.

    F_b: of the side that is in tension [psi], factors plain. [psi].
    """
    return F_b * C_D * C_M


@formula("F_b'", "F_b * min(C_L, C_V)", unit="psi", clause=VOLUME, F_b="psi", C_L="", C_V="")
def with_lesser_of_volume(F_b: float, C_L: float, C_V: float) -> float:
    """Adjusted bending value of glued laminated timber: the lesser of the two factors counts. NDS 5.3.6.

    F_b: with every factor but C_V and C_L [psi], factors plain. [psi].
    """
    return F_b * min(C_L, C_V)


@formula("F_v'", "F_v * C_vr", unit="psi", clause=SHEAR_REDUCTION, F_v="psi", C_vr="")
def reduced_shear_value(F_v: float, C_vr: float) -> float:
    """Shear value of glued laminated timber at a notch. NDS 5.3.10.

    F_v: with every other factor [psi], C_vr: 0.72, plain. [psi].
    """
    return F_v * C_vr


@formula("camber", "k * delta", unit="in", clause=CAMBER, k="", delta="in")
def camber(k: float, delta: float) -> float:
    """Camber to ask the laminator for. Common practice.

    k: 1.5, delta: deflection under dead load, at once [in]. [in].
    """
    return k * delta
