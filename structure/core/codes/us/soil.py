"""Soil under a pad: service pressure against what the soil may carry.

Forces in lbf, lengths in inches, pressures in psi, densities in lbf per cubic inch.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

BASE_AREA = Clause("ACI 318", "14.3.2.2")
PRESUMPTIVE = Clause("IRC", "Table R401.4.1")
INVESTIGATION = Clause("IRC", "R401.4.1")

PSF = 1.0 / 144.0  # psi
PRESUMPTIVE_FLOOR = 1500.0 * PSF  # below this the value must come from an investigation
PRESUMPTIVE_CEILING = 12000.0 * PSF  # crystalline bedrock, the last row of the table


@formula(
    "q", "P / B ** 2 + gamma * t", unit="psi", clause=BASE_AREA, P="lbf", B="in", gamma="lbf/in**3", t="in"
)
def gross_pressure(P: float, B: float, gamma: float, t: float) -> float:
    """Service pressure under a square pad with the pad's own weight. ACI 318-19 14.3.2.2.

    P: post load [lbf], B: side [in], gamma: density [lbf/in**3], t: thickness [in]. Pressure [psi].
    """
    return P / B**2 + gamma * t


@formula("q", "P / B ** 2", unit="psi", clause=BASE_AREA, P="lbf", B="in")
def net_pressure(P: float, B: float) -> float:
    """Service pressure that the post adds to the soil; the pad's weight left out. ACI 318-19 14.3.2.2.

    P [lbf], B [in]. Pressure [psi].
    """
    return P / B**2


@formula(
    "B_req",
    "(P / (q_a - gamma * t)) ** 0.5",
    unit="in",
    clause=BASE_AREA,
    P="lbf",
    q_a="psi",
    gamma="lbf/in**3",
    t="in",
)
def required_side(P: float, q_a: float, gamma: float, t: float) -> float:
    """Side of a square pad whose soil pressure is just what is allowed. ACI 318-19 14.3.2.2.

    P [lbf], q_a: allowable pressure [psi], gamma: density, 0 for a net pressure [lbf/in**3],
    t: thickness [in]. Length [in]. Needs q_a > gamma t.
    """
    side: float = (P / (q_a - gamma * t)) ** 0.5
    return side
