"""Reduced live load of floors: ASCE 7 section 4.7.

Areas in square feet, as the clause has them.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

REDUCTION = Clause("ASCE 7", "4.7.2")
HEAVY = Clause("ASCE 7", "4.7.3")
GARAGES = Clause("ASCE 7", "4.7.4")
ASSEMBLY = Clause("ASCE 7", "4.7.5")
ELEMENT = Clause("ASCE 7", "Table 4.7-1")

ROOT = 15.0  # ft, 4.7.2
LEAST_AREA = 400.0  # ft**2 of K_LL A_T
LEAST_FACTOR = {1: 0.5, 2: 0.4}  # by floors carried, 4.7.2: two stands for two or more
HEAVIEST = 100.0  # psf, 4.7.3


@formula("L/L_0", "0.25 + c / (K_LL * A_T) ** 0.5", unit="", clause=REDUCTION, c="ft", K_LL="", A_T="ft**2")
def live_load_factor(c: float, K_LL: float, A_T: float) -> float:
    """Share of the live load that stays, before its limits. ASCE 7 equation 4.7-1.

    c: 15 [ft], K_LL: of table 4.7-1, A_T: tributary area [ft**2]; K_LL A_T of 400 ft**2 or more. Plain number.
    """
    factor: float = 0.25 + c / (K_LL * A_T) ** 0.5
    return factor
