"""Soil under a pad: service pressure against what the soil may carry.

Forces in lbf, lengths in inches, pressures in psi, densities in lbf per cubic inch.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

BASE_AREA = Clause("ACI 318", "13.3.1.1")
PLAIN_BASE_AREA = Clause("ACI 318", "14.3.2.2")
PRESUMPTIVE = Clause("IRC", "Table R401.4.1")
INVESTIGATION = Clause("IRC", "R401.4.1")

PSF = 1.0 / 144.0  # psi
PRESUMPTIVE_FLOOR = 1500.0 * PSF  # below this the value must come from an investigation
PRESUMPTIVE_CEILING = 12000.0 * PSF  # crystalline bedrock, the last row of the table


@formula("q", "P / (L * W)", unit="psi", clause=BASE_AREA, P="lbf", L="in", W="in")
def post_pressure(P: float, L: float, W: float) -> float:
    """Mean service pressure that the post adds to the soil. ACI 318-19 13.3.1.1; plain pads 14.3.2.2.

    P: post load [lbf], L, W: sides of the pad [in]. Pressure [psi].
    """
    return P / (L * W)


@formula("q_max", "q * (1 + k)", unit="psi", clause=BASE_AREA, q="psi", k="")
def edge_pressure(q: float, k: float) -> float:
    """Pressure at the corner towards which the post stands off the middle. Statics of a stiff pad.

    q: mean pressure [psi], k: sum of 6 e / L of both ways, at most 1. Pressure [psi].
    """
    return q * (1 + k)


@formula("q_min", "q * (1 - k)", unit="psi", clause=BASE_AREA, q="psi", k="")
def least_pressure(q: float, k: float) -> float:
    """Pressure at the corner away from the post. Statics of a stiff pad. Pressure [psi]."""
    return q * (1 - k)


@formula("q_gross", "q + gamma * t", unit="psi", clause=BASE_AREA, q="psi", gamma="lbf/in**3", t="in")
def gross_pressure(q: float, gamma: float, t: float) -> float:
    """Service pressure with the pad's own weight. ACI 318-19 13.3.1.1; plain pads 14.3.2.2.

    q: pressure by the post [psi], gamma: density of the pad [lbf/in**3], t: thickness [in]. Pressure [psi].
    """
    return q + gamma * t


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
    """Side of a square pad under its middle whose soil pressure is just what is allowed. ACI 318-19 13.3.1.1.

    P [lbf], q_a: allowable pressure [psi], gamma: density, 0 for a net pressure [lbf/in**3],
    t: thickness [in]. Length [in]. Needs q_a > gamma t.
    """
    side: float = (P / (q_a - gamma * t)) ** 0.5
    return side


@formula(
    "L_req",
    "P / (W * (q_a - gamma * t))",
    unit="in",
    clause=BASE_AREA,
    P="lbf",
    W="in",
    q_a="psi",
    gamma="lbf/in**3",
    t="in",
)
def required_length(P: float, W: float, q_a: float, gamma: float, t: float) -> float:
    """Other side of a pad whose width is given, for a post on its middle. ACI 318-19 13.3.1.1.

    P [lbf], W [in], q_a [psi], gamma [lbf/in**3], t [in]. Length [in]. Needs q_a > gamma t.
    """
    return P / (W * (q_a - gamma * t))
