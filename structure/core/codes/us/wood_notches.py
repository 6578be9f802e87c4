"""Notches in bending members: NDS 3.2.3, 3.4.3.2, 4.4.3, 5.4.5 and 8.4.1.

Forces in lbf, lengths in inches, stresses in psi.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

NOTCHES = Clause("NDS", "3.2.3")
SAWN = Clause("NDS", "4.4.3")
GLULAM = Clause("NDS", "5.4.5")
COMPOSITE = Clause("NDS", "8.4.1")
TENSION_SHEAR = Clause("NDS", "3.4-3")
COMPRESSION_SHEAR = Clause("NDS", "3.4-5")

END_SAWN = 1 / 4  # 4.4.3.2: of the depth, at the ends
INSIDE_SAWN = 1 / 6  # 4.4.3.2: of the depth, outside the middle third
END_GLUED = 2 / 5  # 5.4.5.2 and 8.4.1: of the depth, compression side at the ends
MIDDLE_THIRD = 1 / 3


@formula(
    "V_r'",
    "2 / 3 * F_v * b * d_n * (d_n / d) ** 2",
    unit="lbf",
    clause=TENSION_SHEAR,
    F_v="psi",
    b="in",
    d_n="in",
    d="in",
)
def notched_tension(F_v: float, b: float, d_n: float, d: float) -> float:
    """Shear that a rectangle carries with a notch on its tension side at the end. NDS equation 3.4-3.

    F_v: adjusted [psi], b: breadth, d_n: depth left at the notch, d: depth [in]. [lbf].
    """
    value: float = 2 / 3 * F_v * b * d_n * (d_n / d) ** 2
    return value


@formula(
    "V_r'",
    "2 / 3 * F_v * b * (d - (d - d_n) / d_n * e)",
    unit="lbf",
    clause=COMPRESSION_SHEAR,
    F_v="psi",
    b="in",
    d="in",
    d_n="in",
    e="in",
)
def notched_compression(F_v: float, b: float, d: float, d_n: float, e: float) -> float:
    """Shear that a rectangle carries with a notch on its compression side at the end. NDS equation 3.4-5.

    F_v: adjusted [psi], b: breadth, d: depth, d_n: depth left, e: how far the notch reaches past the inner
    edge of the support, at most d_n [in]. [lbf].
    """
    return 2 / 3 * F_v * b * (d - (d - d_n) / d_n * e)
