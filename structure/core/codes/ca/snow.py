"""Snow on a roof from snow and rain on the ground. NBC 2020 9.4.2.2. and 4.1.6.2. Pressures in MPa."""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

PART_9 = Clause("NBC", "9.4.2.2.")
PART_4 = Clause("NBC", "4.1.6.2.")
ROOF_LIVE = Clause("NBC", "4.1.5.3.")
ACCUMULATION = Clause("NBC", "4.1.6.2.(8)")

WIDE_ROOF = 4_300.0  # mm, 9.4.2.2.: the entire width of the roof
C_B_WIDE, C_B_NARROW = 0.55, 0.45  # 9.4.2.2.
C_B_PART_4 = 0.8  # 4.1.6.2.(2), roofs with a characteristic length up to 70 m
LEAST = 0.001  # MPa, 9.4.2.2.(2) and the roof live load of 4.1.5.3.
ROUGH = (30.0, 70.0)  # degree, 4.1.6.2.(5): all snow up to, none beyond
SLIPPERY = (15.0, 60.0)  # degree, 4.1.6.2.(6)


@formula(
    "S",
    "max(C_b * S_s + S_r, S_least)",
    unit="MPa",
    clause=PART_9,
    C_b="",
    S_s="MPa",
    S_r="MPa",
    S_least="MPa",
)
def part_9(C_b: float, S_s: float, S_r: float, S_least: float = LEAST) -> float:
    """Specified snow of a small building. NBC 2020 9.4.2.2.

    C_b: 0.45 where the entire roof is at most 4.3 m wide, else 0.55; S_s: snow on the ground, S_r: rain with it,
    once in 50 years, S_least: 1 kPa [MPa]. Pressure on the horizontal projection [MPa].
    """
    return max(C_b * S_s + S_r, S_least)


@formula(
    "C_s",
    "max(0, min(1, (bare - slope) / (bare - full)))",
    unit="",
    clause=PART_4,
    slope="degree",
    full="degree",
    bare="degree",
)
def slope_factor(slope: float, full: float, bare: float) -> float:
    """Slope factor. NBC 2020 4.1.6.2.(5) and (6).

    slope: of the roof, full: up to which all snow stays, bare: from which none does [degree].
    """
    return max(0, min(1, (bare - slope) / (bare - full)))


@formula(
    "S_b", "S_s * C_b * C_w * C_s * C_a", unit="MPa", clause=PART_4, S_s="MPa", C_b="", C_w="", C_s="", C_a=""
)
def snow_part(S_s: float, C_b: float, C_w: float, C_s: float, C_a: float) -> float:
    """The snow of a specified load, without its rain. NBC 2020 4.1.6.2.(1). S_s [MPa]; [MPa]."""
    return S_s * C_b * C_w * C_s * C_a


@formula("S_r'", "min(S_r, S_b)", unit="MPa", clause=PART_4, S_r="MPa", S_b="MPa")
def rain_part(S_r: float, S_b: float) -> float:
    """The rain that the snow can hold, no more than the snow. NBC 2020 4.1.6.2.(1). [MPa]."""
    return min(S_r, S_b)


@formula("S", "I_s * (S_b + S_rain)", unit="MPa", clause=PART_4, I_s="", S_b="MPa", S_rain="MPa")
def part_4(I_s: float, S_b: float, S_rain: float) -> float:
    """Specified snow. NBC 2020 4.1.6.2.(1).

    I_s: importance, 1.0 for a house in strength, S_b: its snow, S_rain: its rain [MPa]. [MPa].
    """
    return I_s * (S_b + S_rain)
