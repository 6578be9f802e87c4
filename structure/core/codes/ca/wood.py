"""Wood by CSA O86:19: resistance factors, load duration, and what every family has in common.

Stresses in MPa, lengths in mm, forces in N. Kernels are plain arithmetic, so that arrays and quantities with
units can pass through them.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

DURATION = Clause("CSA O86", "5.3.2.2")
LONG_TERM = Clause("CSA O86", "5.3.2.3")
SERVICE = Clause("CSA O86", "6.4.2")
TREATMENT = Clause("CSA O86", "6.4.3")
SYSTEM = Clause("CSA O86", "6.4.4")
SIZE = Clause("CSA O86", "6.4.5")
SIZES = Clause("CSA O86", "6.5.2")

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
