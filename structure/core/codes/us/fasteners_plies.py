"""Plies that bend together: what passes from one to the next, and what a pattern of fasteners carries.

US: lbf, inches. Plies of one size and stiffness bend alike only if each carries the same share.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

EQUAL_PLIES = Clause("statics", "plies that bend alike carry alike")
PATTERN = Clause("statics", "fasteners in a row share alike")


@formula(
    "T",
    "abs(w_1 * (n - i) / n - w_2 * i / n)",
    unit="lbf/inch",
    clause=EQUAL_PLIES,
    w_1="lbf/inch",
    w_2="lbf/inch",
    n="",
    i="",
)
def ply_transfer(w_1: float, w_2: float, n: float, i: float) -> float:
    """Load that passes between ply i and the next one, counted from the first side. Statics.

    Of the load on the first side the plies beyond take (n - i) / n; of that on the other side the i plies
    before take i / n, and the two run against each other. w_1, w_2: load on the first and the last ply
    [lbf/in], n: plies, i: joint from 1 to n - 1. [lbf/in].
    """
    return abs(w_1 * (n - i) / n - w_2 * i / n)


@formula("N", "T / Z", unit="1/inch", clause=PATTERN, T="lbf/inch", Z="lbf")
def fasteners_per_length(T: float, Z: float) -> float:
    """Fasteners that a joint needs per length. T [lbf/in], Z: adjusted value of one [lbf]. [1/in]."""
    return T / Z


@formula("q", "r * Z / s", unit="lbf/inch", clause=PATTERN, r="", Z="lbf", s="inch")
def pattern_capacity(r: float, Z: float, s: float) -> float:
    """Load per length that a pattern passes on. r: rows, Z: adjusted value of one [lbf], s [in]. [lbf/in]."""
    return r * Z / s
