"""Temporary support of joists on both sides of a wall: statics of the overhang, spread, bracing.

Joists that end over the old wall hang over the shore by its stand-off. Loads per length of wall in
lbf/in, lengths in inches, forces in lbf, pressures in psi.
"""

from __future__ import annotations

from structure.core.clauses import COMMON_PRACTICE, Clause
from structure.core.trace import formula

OVERHANG = Clause("statics", "beam with an overhang")
SPREAD = Clause(COMMON_PRACTICE.document, "spread at 45 degrees")
SIDEWAYS = Clause(COMMON_PRACTICE.document, "2 % of the load sideways")
STACKED_WALL = Clause(COMMON_PRACTICE.document, "wall above between the shore lines")
WHERE_SHORES_HOLD = Clause(COMMON_PRACTICE.document, "what a shoring wall can pick up")
LEFT_OUT = Clause(COMMON_PRACTICE.document, "a load left out needs its reason")
TRIBUTARY = Clause("statics", "tributary length")
HELD_DOWN = Clause("ASCE 7", "2.4.1")
SLAB = Clause("IRC", "R506.1")

SLAB_THICKNESS = 3.5  # in, least slab on ground, R506.1
DEAD_AGAINST_UPLIFT = 0.6  # ASCE 7 2.4.1: dead load that resists


@formula("R", "w * L ** 2 / (2 * (L - a))", unit="lbf/in", clause=OVERHANG, w="lbf/in**2", L="in", a="in")
def overhang_reaction(w: float, L: float, a: float) -> float:
    """What an even load brings to a shore that stands a from the joists' free end. Statics.

    w: pressure on the joists [psi], L: span from the far support to the old wall, a: stand-off [in],
    less than L. Line load [lbf/in].
    """
    return w * L**2 / (2 * (L - a))


@formula(
    "R_far",
    "w * L * (L - 2 * a) / (2 * (L - a))",
    unit="lbf/in",
    clause=OVERHANG,
    w="lbf/in**2",
    L="in",
    a="in",
)
def overhang_far_reaction(w: float, L: float, a: float) -> float:
    """What the far support of the same joists keeps. Statics. w [psi], L and a [in]. Line load [lbf/in]."""
    return w * L * (L - 2 * a) / (2 * (L - a))


@formula("R", "P * L / (L - a)", unit="lbf/in", clause=OVERHANG, P="lbf/in", L="in", a="in")
def overhang_end_load(P: float, L: float, a: float) -> float:
    """What a line load on the joists' free ends brings to the shore. Statics.

    P [lbf/in], L and a [in]. Line load [lbf/in].
    """
    return P * L / (L - a)


@formula("U", "P * a / (L - a)", unit="lbf/in", clause=OVERHANG, P="lbf/in", L="in", a="in")
def overhang_uplift(P: float, L: float, a: float) -> float:
    """How hard the same line load pries up the far end of the joists. P [lbf/in], L and a [in]; [lbf/in]."""
    return P * a / (L - a)


@formula("U", "q * a ** 2 / (2 * (L - a))", unit="lbf/in", clause=OVERHANG, q="lbf/in**2", L="in", a="in")
def overhang_strip_uplift(q: float, L: float, a: float) -> float:
    """How hard people on the free end alone pry up the far end. q [psi], L and a [in]; [lbf/in]."""
    return q * a**2 / (2 * (L - a))


@formula("R_D", "0.6 * R_far", unit="lbf/in", clause=HELD_DOWN, R_far="lbf/in")
def holding_down(R_far: float) -> float:
    """Dead load that may be counted on to hold an end down. ASCE 7 2.4.1. R_far [lbf/in]; [lbf/in]."""
    return 0.6 * R_far


@formula("H", "0.02 * w", unit="lbf/in", clause=SIDEWAYS, w="lbf/in")
def sideways(w: float) -> float:
    """Sideways push that the bracing takes, each way: 2 % of the load. Common practice. w [lbf/in]; [lbf/in]."""
    return 0.02 * w


@formula(
    "l",
    "min(b + 2 * t_sill + 2 * t_slab, s)",
    unit="in",
    clause=SPREAD,
    b="in",
    t_sill="in",
    t_slab="in",
    s="in",
)
def spread_along(b: float, t_sill: float, t_slab: float, s: float) -> float:
    """Length of ground that one shore presses: 45 degrees through sill and slab, no more than the spacing.

    b: shore along the sill, t_sill, t_slab, s: spacing [in]. Length [in]. Common practice.
    """
    return min(b + 2 * t_sill + 2 * t_slab, s)


@formula("B", "b_sill + 2 * t_slab", unit="in", clause=SPREAD, b_sill="in", t_slab="in")
def spread_across(b_sill: float, t_slab: float) -> float:
    """Width of ground that a sill presses through a slab [in]. Common practice."""
    return b_sill + 2 * t_slab


@formula("q", "P / (l * B)", unit="psi", clause=SPREAD, P="lbf", l="in", B="in")
def ground_pressure(P: float, l: float, B: float) -> float:  # noqa: E741 - the length that is pressed
    """Pressure under one shore [psi]. P [lbf], l and B [in]."""
    return P / (l * B)


@formula("l_s", "H - d_header - t_sill", unit="in", clause=TRIBUTARY, H="in", d_header="in", t_sill="in")
def shore_length(H: float, d_header: float, t_sill: float) -> float:
    """Length of a shore between header and sill [in]."""
    return H - d_header - t_sill


@formula("L_s", "l_o + 2 * l_p", unit="in", clause=TRIBUTARY, l_o="in", l_p="in")
def wall_length(l_o: float, l_p: float) -> float:
    """Length of a shoring wall: the opening and what it runs past either end of it [in]."""
    return l_o + 2 * l_p
