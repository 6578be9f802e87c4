"""Compression across the grain by NDS 3.10: beams on supports, plates under posts.

Forces in lbf, lengths in inches, stresses in psi.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

ACROSS_THE_GRAIN = Clause("NDS", "3.10.2")
AREA_FACTOR = Clause("NDS", "3.10.4")

END_DISTANCE = 3.0  # in: nearer the end C_b is 1
LONGEST = 6.0  # in: at this bearing length and over C_b is 1
ADDED_LENGTH = 0.375  # in: what C_b adds to the length


@formula("C_b", "(l_b + l_a) / l_b", unit="", clause=AREA_FACTOR, l_b="in", l_a="in")
def bearing_area_factor(l_b: float, l_a: float) -> float:
    """Bearing area factor. NDS 3.10.4.

    l_b: bearing length along the grain, under 6 in and 3 in or more from the end of the member,
    l_a: 3/8 in [in]. Plain number.
    """
    return (l_b + l_a) / l_b


@formula(
    "P'", "F_cp * C_b * b * l_b", unit="lbf", clause=ACROSS_THE_GRAIN, F_cp="psi", C_b="", b="in", l_b="in"
)
def bearing_capacity(F_cp: float, C_b: float, b: float, l_b: float) -> float:
    """What a bearing carries across the grain; no C_D. NDS 3.10.2.

    F_cp: reference value [psi], C_b [-], b: width, l_b: length along the grain [in]. Force [lbf].
    """
    return F_cp * C_b * b * l_b


@formula("l_b", "R / (F_cp * b)", unit="in", clause=ACROSS_THE_GRAIN, R="lbf", F_cp="psi", b="in")
def required_bearing(R: float, F_cp: float, b: float) -> float:
    """Length whose bearing is just used up, without C_b. NDS 3.10.2.

    R [lbf], F_cp [psi], b: width [in]. Length [in].
    """
    return R / (F_cp * b)


@formula("l_b", "R / (F_cp * b) - l_a", unit="in", clause=AREA_FACTOR, R="lbf", F_cp="psi", b="in", l_a="in")
def required_bearing_inside(R: float, F_cp: float, b: float, l_a: float) -> float:
    """Length whose bearing is just used up where C_b counts. NDS 3.10.2, 3.10.4.

    R [lbf], F_cp [psi], b: width, l_a: 3/8 in [in]. Length [in]; holds while it is under 6 in.
    """
    return R / (F_cp * b) - l_a
