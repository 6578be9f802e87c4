"""Wood by CSA O86:19: resistance factors, load duration, and what every family has in common.

Stresses in MPa, lengths in mm, forces in N. Kernels are plain arithmetic, so that arrays and quantities with
units can pass through them.
"""

from __future__ import annotations

import numpy as np

from structure.core.clauses import Clause
from structure.core.trace import formula

DURATION = Clause("CSA O86", "5.3.2.2")
LONG_TERM = Clause("CSA O86", "5.3.2.3")
SERVICE = Clause("CSA O86", "6.4.2")
TREATMENT = Clause("CSA O86", "6.4.3")
SYSTEM = Clause("CSA O86", "6.4.4")
SIZE = Clause("CSA O86", "6.4.5")
SIZES = Clause("CSA O86", "6.5.2")
FACTORS = Clause("CSA O86", "6.4")
STIFFNESS = Clause("CSA O86", "5.4.1")

PHI_BENDING = 0.9
PHI_SHEAR = 0.9
PHI_COMPRESSION = 0.8
SHORT_TERM, STANDARD_TERM, LONG_TERM_LEAST = 1.15, 1.0, 0.65  # K_D, table 5.1


@formula(
    "w_self",
    "w_d * b * d",
    unit="N/mm",
    clause=Clause("statics", "own weight"),
    w_d="N/mm**3",
    b="mm",
    d="mm",
)
def own_weight(w_d: float, b: float, d: float) -> float:
    """Weight per length of a member.

    w_d: weight per volume [N/mm**3], b and d [mm]. [N/mm].
    """
    return w_d * b * d


@formula("K_D", "1 - 0.5 * log10(P_L / P_S)", unit="", clause=LONG_TERM, P_L="N", P_S="N")
def long_term_duration(P_L: float, P_S: float) -> float:
    """Load duration factor where the long-term load is the greater part, before its least value of 0.65.

    CSA O86 5.3.2.3. P_L: specified long-term load, P_S: specified standard-term load, S and L with the lesser one
    halved [N, or moments N*mm]; P_L over P_S. Plain number.
    """
    factor: float = 1 - 0.5 * np.log10(P_L / P_S)
    return factor


@formula(
    "F",
    "f * K_D * K_H * K_S * K_T",
    unit="MPa",
    clause=FACTORS,
    f="MPa",
    K_D="",
    K_H="",
    K_S="",
    K_T="",
)
def strength(f: float, K_D: float, K_H: float, K_S: float, K_T: float) -> float:
    """Strength with every factor but size and stability. CSA O86 6.5.3, 6.5.4, 6.5.5, 6.5.6.

    f: specified strength [MPa], factors plain; K_H is 1 across the grain. [MPa].
    """
    return f * K_D * K_H * K_S * K_T


@formula("E_S", "E * K_SE * K_T", unit="MPa", clause=STIFFNESS, E="MPa", K_SE="", K_T="")
def stiffness(E: float, K_SE: float, K_T: float) -> float:
    """Modulus of elasticity for deflection. CSA O86 5.4.1.

    E: specified [MPa], factors plain. [MPa].
    """
    return E * K_SE * K_T
