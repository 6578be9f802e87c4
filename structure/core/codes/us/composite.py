"""Values of composite lumber that follow from others: NDS appendix D.4.

Stresses in psi.
"""

from __future__ import annotations

from structure.core.clauses import COMMON_PRACTICE, Clause
from structure.core.trace import formula

STABILITY_MODULUS = Clause("NDS", "D.4")
MAKERS_VALUES = Clause("NDS", "8.2")
SIZES = Clause(COMMON_PRACTICE.document, "sizes of composite lumber")

COV_E = 0.10  # appendix F: structural composite lumber


@formula(
    "E_min",
    "E * (1 - 1.645 * COV_E) / 1.66",
    unit="psi",
    clause=STABILITY_MODULUS,
    E="psi",
    COV_E="",
)
def stability_modulus(E: float, COV_E: float) -> float:
    """E_min of composite lumber from its E. NDS equation D-4, the factor 1.03 to pure bending left out: safe.

    E [psi], COV_E: 0.10 for composite lumber, plain. [psi].
    """
    return E * (1 - 1.645 * COV_E) / 1.66
