"""Steel by CSA S16:19, limit states: resistance factors, elastic constants, limits of the section classes.

Forces in N, lengths in mm, stresses in MPa. Kernels are plain arithmetic, so that arrays and quantities with
units can pass through them.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

CLASSES = Clause("CSA S16", "Table 2")
COLUMN_CLASSES = Clause("CSA S16", "Table 1")
DEFLECTION = Clause("CSA S16", "6.2.1")

PHI = 0.90  # 13.1
PHI_BEARING_INSIDE, PHI_BEARING_END = 0.80, 0.75  # 13.1: phi_bi, phi_be
G = 77_000.0  # MPa

# Table 2, width over thickness of parts in bending: numbers over F_y**0.5, for class 1, 2 and 3.
FLANGE = (145.0, 170.0, 200.0)
FLANGE_MINOR = (145.0, 170.0, 340.0)  # flanges of an I shape bent about its minor axis
WEB = (1100.0, 1700.0, 1900.0)
WEB_AXIAL = (0.39, 0.61, 0.65)  # what compression takes off each
HSS_FLANGE = (420.0, 525.0, 670.0)
ROUND = (13_000.0, 18_000.0, 66_000.0)  # over F_y
# Table 1, parts in compression: up to these the whole section counts.
COLUMN_FLANGE, COLUMN_WALL = 200.0, 670.0
COLUMN_ROUND = 23_000.0  # over F_y


@formula("s_lim", "n / F_y ** 0.5", unit="", clause=CLASSES, n="MPa**0.5", F_y="MPa")
def class_limit(n: float, F_y: float) -> float:
    """Limit of width to thickness of a flat part in bending. CSA S16 table 2.

    n: number of the class [MPa**0.5], F_y [MPa]. Plain number.
    """
    limit: float = n / F_y**0.5
    return limit


@formula(
    "s_lim", "n / F_y ** 0.5 * (1 - c * C_f / (phi * C_y))", unit="", clause=CLASSES,
    n="MPa**0.5", F_y="MPa", c="", C_f="N", phi="", C_y="N",
)  # fmt: skip
def axial_class_limit(n: float, F_y: float, c: float, C_f: float, phi: float, C_y: float) -> float:
    """Limit of a web in bending and compression. CSA S16 table 2.

    n: number of the class [MPa**0.5], F_y [MPa], c: 0.39, 0.61, 0.65, C_f: factored compression, C_y: A F_y [N].
    Plain number.
    """
    limit: float = n / F_y**0.5 * (1 - c * C_f / (phi * C_y))
    return limit


@formula("s_lim", "n / F_y", unit="", clause=CLASSES, n="MPa", F_y="MPa")
def round_class_limit(n: float, F_y: float) -> float:
    """Limit of diameter to thickness of a round tube in bending. CSA S16 table 2. n, F_y [MPa]. Plain number."""
    return n / F_y


@formula("s_lim", "n / F_y ** 0.5", unit="", clause=COLUMN_CLASSES, n="MPa**0.5", F_y="MPa")
def column_limit(n: float, F_y: float) -> float:
    """Limit of width to thickness of a flat part in compression. CSA S16 table 1.

    n: number of the part [MPa**0.5], F_y [MPa]. Plain number.
    """
    limit: float = n / F_y**0.5
    return limit


@formula("s_lim", "n / F_y", unit="", clause=COLUMN_CLASSES, n="MPa", F_y="MPa")
def column_round_limit(n: float, F_y: float) -> float:
    """Limit of diameter to thickness of a round tube in compression. CSA S16 table 1. [MPa] in, plain number."""
    return n / F_y
