"""Balanced snow on a roof from snow on the ground. ASCE 7-16 7.3 and 7.4. Pressures in psi."""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

FLAT_ROOF = Clause("ASCE 7", "7.3-1")
LOW_SLOPE_MINIMUM = Clause("ASCE 7", "7.3.4")
SLOPED_ROOF = Clause("ASCE 7", "7.4-1")
SLOPE_FACTOR = Clause("ASCE 7", "Figure 7.4-1")
PARTIAL = Clause("ASCE 7", "7.5")
UNBALANCED = Clause("ASCE 7", "7.6")
DRIFT = Clause("ASCE 7", "7.7")
SLIDING = Clause("ASCE 7", "7.9")
RAIN = Clause("ASCE 7", "7.10")

MINIMUM_CEILING = 20.0 / 144.0  # psi, 7.3.4
LOW_SLOPE = 15.0  # degree, 7.3.4, hip, gable and monoslope roofs
BARE_SLOPE = 70.0  # degree, from which every curve of Figure 7.4-1 is zero


@formula(
    "p_f", "0.7 * C_e * C_t * I_s * p_g", unit="psi", clause=FLAT_ROOF, C_e="", C_t="", I_s="", p_g="psi"
)
def flat_roof(C_e: float, C_t: float, I_s: float, p_g: float) -> float:
    """Snow on a flat roof. ASCE 7-16 (7.3-1). p_g: ground snow [psi]. Pressure [psi]."""
    return 0.7 * C_e * C_t * I_s * p_g


@formula("p_m", "I_s * min(p_g, p_20)", unit="psi", clause=LOW_SLOPE_MINIMUM, I_s="", p_g="psi", p_20="psi")
def low_slope_minimum(I_s: float, p_g: float, p_20: float = MINIMUM_CEILING) -> float:
    """Least uniform snow on a low-slope roof, a load case of its own. ASCE 7-16 7.3.4.

    p_g: ground snow [psi], p_20: 20 psf [psi]. Pressure [psi].
    """
    return I_s * min(p_g, p_20)


@formula(
    "C_s",
    "max(0, min(1, (bare - slope) / (bare - full)))",
    unit="",
    clause=SLOPE_FACTOR,
    slope="degree",
    full="degree",
    bare="degree",
)
def slope_factor(slope: float, full: float, bare: float = BARE_SLOPE) -> float:
    """Slope factor of roofs that are not an unobstructed slippery surface. ASCE 7-16 Figure 7.4-1.

    slope: angle of the roof, full: slope up to which the snow stays whole, bare: slope from which
    none stays [degree].
    """
    return max(0, min(1, (bare - slope) / (bare - full)))


@formula("p_s", "C_s * p_f", unit="psi", clause=SLOPED_ROOF, C_s="", p_f="psi")
def sloped_roof(C_s: float, p_f: float) -> float:
    """Balanced snow on the horizontal projection of a sloped roof. ASCE 7-16 (7.4-1).

    p_f: flat roof snow [psi]. Pressure [psi].
    """
    return C_s * p_f


def full_snow_slope(C_t: float) -> float:
    """Slope up to which a rough roof keeps all its snow: 30, 37.5 or 45 degrees by C_t.

    ASCE 7-16 Figure 7.4-1: (a) warm roofs, C_t up to 1.0; (b) C_t 1.1; (c) C_t 1.2 and more. A C_t
    in between takes the colder curve, which keeps more snow.
    """
    if C_t <= 1.0:
        return 30.0
    return 37.5 if C_t <= 1.1 else 45.0
