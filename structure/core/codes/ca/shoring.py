"""Temporary support under the Canadian code: what its factored sums ask beside the statics of the overhang."""

from __future__ import annotations

from structure.core.codes.ca.nbc import UPLIFT
from structure.core.trace import formula


@formula("R_D", "0.9 * R_far", unit="N/mm", clause=UPLIFT, R_far="N/mm")
def light_dead(R_far: float) -> float:
    """Dead load that may be counted on to hold an end down against factored prying. NBC 2020 4.1.3.2. [N/mm]."""
    return 0.9 * R_far
