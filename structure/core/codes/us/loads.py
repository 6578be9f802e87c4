"""How a floor, roof or wall becomes load per length on the wall line below it.

All of it is statics: pressures on the horizontal projection in psi, lengths in inches, line loads
in lbf per inch. The same arithmetic holds in newtons and millimetres.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

HALF_SPAN = Clause("statics", "simple span")
THREE_MOMENT = Clause("statics", "three-moment equation")
OWN_WEIGHT = Clause("statics", "own weight")
PARALLEL_STRIP = Clause("common practice", "half a joist space a side")

DEFAULT_JOIST_SPACING = 16.0  # in; common practice
LAYERS = Clause("statics", "sum of layers")


@formula("w", "q * L / 2", unit="lbf/in", clause=HALF_SPAN, q="psi", L="in")
def half_span(q: float, L: float) -> float:
    """What one simple span brings to each of its supports: half of it. Statics.

    q: pressure [psi], L: span to the wall line [in]. Line load [lbf/in].
    """
    return q * L / 2


@formula(
    "w",
    "q * (L_1 + L_2) / 2 + q * (L_1 ** 3 + L_2 ** 3) / (8 * L_1 * L_2)",
    unit="lbf/in",
    clause=THREE_MOMENT,
    q="psi",
    L_1="in",
    L_2="in",
)
def two_span_middle(q: float, L_1: float, L_2: float) -> float:
    """Middle reaction of joists that run unbroken over two spans, both fully loaded.

    The three-moment equation gives the support moment q (L_1^3 + L_2^3) / (8 (L_1 + L_2)), and
    that moment adds its share to each half span. Equal spans bring 1.25 times two simple ones.
    q: pressure [psi], spans [in]. Line load [lbf/in]. Same stiffness over both spans.
    """
    return q * (L_1 + L_2) / 2 + q * (L_1**3 + L_2**3) / (8 * L_1 * L_2)


@formula(
    "w_end",
    "q * L / 2 - q * (L ** 3 + L_far ** 3) / (8 * L * (L + L_far))",
    unit="lbf/in",
    clause=THREE_MOMENT,
    q="psi",
    L="in",
    L_far="in",
)
def two_span_end(q: float, L: float, L_far: float) -> float:
    """Reaction at the outer end of span L of joists unbroken over L and L_far. Statics.

    Negative where the far span is so much the longer that the near end wants to lift.
    q: pressure [psi], spans [in]. Line load [lbf/in].
    """
    return q * L / 2 - q * (L**3 + L_far**3) / (8 * L * (L + L_far))


@formula("w", "q * s / 2", unit="lbf/in", clause=PARALLEL_STRIP, q="psi", s="in")
def parallel_strip(q: float, s: float) -> float:
    """What framing along the wall brings from one side: the strip to the middle of the first space.

    Common practice. q: pressure [psi], s: joist spacing [in]. Line load [lbf/in].
    """
    return q * s / 2


@formula("w", "q * H", unit="lbf/in", clause=OWN_WEIGHT, q="psi", H="in")
def wall_weight(q: float, H: float) -> float:
    """Weight per length of a wall that stands on the line.

    q: weight per area of wall [psi], H: height [in]. Line load [lbf/in].
    """
    return q * H


@formula("w", "R / s", unit="lbf/in", clause=OWN_WEIGHT, R="lbf", s="in")
def spread_reaction(R: float, s: float) -> float:
    """A reaction of each truss taken as load per length.

    R: reaction of one truss [lbf], s: truss spacing [in]. Line load [lbf/in].
    """
    return R / s


@formula("w", "w_left + w_right", unit="lbf/in", clause=HALF_SPAN, w_left="lbf/in", w_right="lbf/in")
def both_sides(w_left: float, w_right: float) -> float:
    """What the two sides bring together [lbf/in]."""
    return w_left + w_right
