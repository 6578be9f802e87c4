"""Properties of tubes worked out from their sides and wall, where no table prints them. mm and their powers.

A wall to ASTM A500 or A53 counts 0.9 times: CSA S16 5.1.3. Corners of a rectangular tube are round, outside
with twice the wall, inside with one.
"""

from __future__ import annotations

from math import pi

from structure.core.clauses import Clause
from structure.core.trace import formula

MECHANICS = Clause("mechanics", "section properties")
DESIGN_WALL = Clause("CSA S16", "5.1.3")

OUTER_CORNER = 2.0  # walls: the radius of a corner; inside it is one; CSA G40.20
DENSITY = 7.698e-5  # N/mm3: 7850 kg/m3


@formula("t", "n * t_nom", unit="mm", clause=DESIGN_WALL, n="", t_nom="mm")
def design_wall(n: float, t_nom: float) -> float:
    """Wall that counts. n: 0.9 of ASTM A500 and A53, 1 of CSA G40.20, t_nom [mm]. [mm]."""
    return n * t_nom


@formula("A", "pi * (D - t) * t", unit="mm**2", clause=MECHANICS, D="mm", t="mm")
def round_area(D: float, t: float) -> float:
    """Area of a round tube. D: outside, t: wall [mm]. [mm**2]."""
    return pi * (D - t) * t


@formula("I", "pi / 64 * (D ** 4 - (D - 2 * t) ** 4)", unit="mm**4", clause=MECHANICS, D="mm", t="mm")
def round_inertia(D: float, t: float) -> float:
    """Second moment of area of a round tube. D: outside, t: wall [mm]. [mm**4]."""
    return pi / 64 * (D**4 - (D - 2 * t) ** 4)


@formula("Z", "(D ** 3 - (D - 2 * t) ** 3) / 6", unit="mm**3", clause=MECHANICS, D="mm", t="mm")
def round_plastic_modulus(D: float, t: float) -> float:
    """Plastic section modulus of a round tube. D: outside, t: wall [mm]. [mm**3]."""
    return (D**3 - (D - 2 * t) ** 3) / 6


@formula(
    "A", "2 * t * (H + B - 2 * t) - 3 * (4 - pi) * t ** 2",
    unit="mm**2", clause=MECHANICS, H="mm", B="mm", t="mm",
)  # fmt: skip
def tube_area(H: float, B: float, t: float) -> float:
    """Area of a rectangular tube whose corners have radii of 2 t and t. H, B: sides, t: wall [mm]. [mm**2]."""
    return 2 * t * (H + B - 2 * t) - 3 * (4 - pi) * t**2


@formula(
    "I",
    "(B * H ** 3 - (B - 2 * t) * (H - 2 * t) ** 3) / 12"
    " - (4 - pi) * t ** 2 * (4 * (H / 2 - 0.4468 * t) ** 2 - (H / 2 - 1.2234 * t) ** 2)",
    unit="mm**4", clause=MECHANICS, H="mm", B="mm", t="mm",
)  # fmt: skip
def tube_inertia(H: float, B: float, t: float) -> float:
    """Second moment of area of a rectangular tube about the axis across H. [mm] in, [mm**4].

    0.2234 r: from the edge to the centre of what a round corner lacks; outside r is 2 t, inside t.
    """
    full = (B * H**3 - (B - 2 * t) * (H - 2 * t) ** 3) / 12
    return full - (4 - pi) * t**2 * (4 * (H / 2 - 0.4468 * t) ** 2 - (H / 2 - 1.2234 * t) ** 2)


@formula(
    "Z",
    "(B * H ** 2 - (B - 2 * t) * (H - 2 * t) ** 2) / 4"
    " - (4 - pi) * t ** 2 * (4 * (H / 2 - 0.4468 * t) - (H / 2 - 1.2234 * t))",
    unit="mm**3", clause=MECHANICS, H="mm", B="mm", t="mm",
)  # fmt: skip
def tube_plastic_modulus(H: float, B: float, t: float) -> float:
    """Plastic section modulus of a rectangular tube about the axis across H. [mm] in, [mm**3]."""
    full = (B * H**2 - (B - 2 * t) * (H - 2 * t) ** 2) / 4
    return full - (4 - pi) * t**2 * (4 * (H / 2 - 0.4468 * t) - (H / 2 - 1.2234 * t))


@formula(
    "J", "2 * t * (H - t) ** 2 * (B - t) ** 2 / (H + B - 2 * t)",
    unit="mm**4", clause=MECHANICS, H="mm", B="mm", t="mm",
)  # fmt: skip
def tube_torsion(H: float, B: float, t: float) -> float:
    """Torsion constant of a rectangular tube, its corners left square: a little high. [mm] in, [mm**4]."""
    return 2 * t * (H - t) ** 2 * (B - t) ** 2 / (H + B - 2 * t)


@formula("W", "A * gamma", unit="N/mm", clause=MECHANICS, A="mm**2", gamma="N/mm**3")
def steel_weight(A: float, gamma: float) -> float:
    """Weight per length. A [mm**2], gamma [N/mm**3]. [N/mm]."""
    return A * gamma
