"""A post set on a footing that is there: how its load spreads along a strip. lbf, inches.

Common practice: sound plain concrete spreads a load at 45 degrees, one out for one down, through the
foundation wall and the footing under it.
"""

from __future__ import annotations

from structure.core.clauses import COMMON_PRACTICE, Clause
from structure.core.trace import formula

SPREAD = Clause(COMMON_PRACTICE.document, "a post load spreads at 45 degrees through wall and footing")


@formula("L", "min(c + 2 * (h_w + t), 2 * x_e)", unit="in", clause=SPREAD, c="in", h_w="in", t="in", x_e="in")
def spread_length(c: float, h_w: float, t: float, x_e: float) -> float:
    """Length of strip that carries a post. Common practice.

    c: post or plate along the strip, h_w: concrete wall between post and footing, 0 without, t: thickness
    of the footing, x_e: middle of the post to the end of the strip; past it nothing spreads, and the other
    half counts as much, so that the pressure stays even. Length [in].
    """
    return min(c + 2 * (h_w + t), 2 * x_e)


@formula("c_w", "min(c + 2 * h_w, 2 * x_e)", unit="in", clause=SPREAD, c="in", h_w="in", x_e="in")
def spread_on_footing(c: float, h_w: float, x_e: float) -> float:
    """Length over which the post load comes out of the wall onto the footing. Common practice. [in]"""
    return min(c + 2 * h_w, 2 * x_e)


@formula("P_line", "w * L", unit="lbf", clause=SPREAD, w="lbf/in", L="in")
def line_on_length(w: float, L: float) -> float:
    """What a strip carries already over the length that the post load spreads to. [lbf]"""
    return w * L
