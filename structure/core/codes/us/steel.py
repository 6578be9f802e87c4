"""Steel by AISC 360, allowable strength: safety factors, limits of slender parts, elastic constants.

Forces in lbf, lengths in inches, stresses in psi.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

ASD = Clause("AISC 360", "B3.2")
LOCAL_BUCKLING_COLUMN = Clause("AISC 360", "Table B4.1a")
LOCAL_BUCKLING_BEAM = Clause("AISC 360", "Table B4.1b")
WALLS = Clause("AISC 360", "B4.1b")

OMEGA_BENDING = 1.67  # F1
OMEGA_COMPRESSION = 1.67  # E1
OMEGA_SHEAR = 1.67  # G1
OMEGA_SHEAR_ROLLED_WEB = 1.50  # G2.1(a)
OMEGA_WEB_YIELDING = 1.50  # J10.2
OMEGA_WEB_CRIPPLING = 2.00  # J10.3

# Limits of width to thickness as numbers times (E / F_y)**0.5, but round tubes times E / F_y.
FLANGE_COMPACT, FLANGE_NONCOMPACT = 0.38, 1.0  # B4.1b case 10
WEB_COMPACT = 3.76  # B4.1b case 15
WALL_COMPACT, WALL_NONCOMPACT = 1.12, 1.40  # B4.1b case 17
HSS_WEB_COMPACT, HSS_WEB_NONCOMPACT = 2.42, 5.70  # B4.1b case 19
ROUND_COMPACT, ROUND_NONCOMPACT = 0.07, 0.31  # B4.1b case 20
ROUND_MOST = 0.45  # E7.2 and F8
COLUMN_FLANGE, COLUMN_WEB, COLUMN_WALL = 0.56, 1.49, 1.40  # B4.1a cases 1, 5, 6
COLUMN_ROUND = 0.11  # B4.1a case 9


@formula("R_a", "R_n / Omega", unit="lbf", clause=ASD, R_n="lbf", Omega="")
def allowable_force(R_n: float, Omega: float) -> float:
    """Allowable strength. AISC 360 B3.2. R_n: nominal [lbf], Omega: safety factor. Force [lbf]."""
    return R_n / Omega


@formula("M_a", "M_n / Omega", unit="lbf*in", clause=ASD, M_n="lbf*in", Omega="")
def allowable_moment(M_n: float, Omega: float) -> float:
    """Allowable bending strength. AISC 360 B3.2. M_n [lbf*in], Omega: safety factor. [lbf*in]."""
    return M_n / Omega


@formula("lambda", "b / t", unit="", clause=WALLS, b="in", t="in")
def width_to_thickness(b: float, t: float) -> float:
    """Slenderness of a part of a section. AISC 360 B4.1. b, t [in]. Plain number."""
    return b / t


@formula("lambda", "(H - 3 * t) / t", unit="", clause=WALLS, H="in", t="in")
def wall_slenderness(H: float, t: float) -> float:
    """Flat width over thickness of the wall of a rectangular tube, corners unknown. AISC 360 B4.1b(d).

    H: outside width, t: design wall thickness [in]. Plain number.
    """
    return (H - 3 * t) / t


@formula("lambda_lim", "n * (E / F_y) ** 0.5", unit="", clause=LOCAL_BUCKLING_BEAM, n="", E="psi", F_y="psi")
def plate_limit(n: float, E: float, F_y: float) -> float:
    """Limit of width to thickness of a flat part in bending. AISC 360 table B4.1b.

    n: number of the case, E, F_y [psi]. Plain number.
    """
    limit: float = n * (E / F_y) ** 0.5
    return limit


@formula("lambda_r", "n * (E / F_y) ** 0.5", unit="", clause=LOCAL_BUCKLING_COLUMN, n="", E="psi", F_y="psi")
def column_plate_limit(n: float, E: float, F_y: float) -> float:
    """Limit of width to thickness of a flat part in compression. AISC 360 table B4.1a.

    n: number of the case, E, F_y [psi]. Plain number.
    """
    limit: float = n * (E / F_y) ** 0.5
    return limit


@formula("lambda_lim", "n * E / F_y", unit="", clause=LOCAL_BUCKLING_BEAM, n="", E="psi", F_y="psi")
def round_limit(n: float, E: float, F_y: float) -> float:
    """Limit of diameter to thickness of a round tube in bending. AISC 360 table B4.1b.

    n: number of the case, E, F_y [psi]. Plain number.
    """
    return n * E / F_y


@formula("lambda_r", "n * E / F_y", unit="", clause=LOCAL_BUCKLING_COLUMN, n="", E="psi", F_y="psi")
def column_round_limit(n: float, E: float, F_y: float) -> float:
    """Limit of diameter to thickness of a round tube in compression. AISC 360 table B4.1a and E7.2.

    n: number of the case, E, F_y [psi]. Plain number.
    """
    return n * E / F_y
