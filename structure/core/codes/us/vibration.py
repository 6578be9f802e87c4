"""How lively a floor beam is: no clause of the US codes, common practice.

Lengths in inches, time in seconds.
"""

from __future__ import annotations

from structure.core.clauses import COMMON_PRACTICE, Clause
from structure.core.trace import formula

FREQUENCY = Clause(COMMON_PRACTICE.document, "first frequency of a floor beam, 0.18 (g / delta)^0.5")

GRAVITY = 386.1  # in/s**2
LONG_SPAN = 180.0  # in: over 15 ft a limit on deflection alone does not keep a floor from being felt
LIVELY = 8.0  # 1/s: under it many designers look closer


@formula("f_1", "0.18 * (g / delta) ** 0.5", unit="1/s", clause=FREQUENCY, g="in/s**2", delta="in")
def first_frequency(g: float, delta: float) -> float:
    """First natural frequency of a beam that carries its dead load. Common practice.

    g: gravity [in/s**2], delta: deflection under dead load, at once [in]. [1/s].
    """
    frequency: float = 0.18 * (g / delta) ** 0.5
    return frequency
