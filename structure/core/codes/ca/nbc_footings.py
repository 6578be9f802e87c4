"""Footing sizes of Part 9: least areas under columns, least widths of strips, thickness. NBC 2020 9.15.3.

Lengths in mm, areas in mm2. The table values are in `data/ca/footings.toml`.
"""

from __future__ import annotations

from structure.core.clauses import Clause
from structure.core.trace import formula

SCOPE = Clause("NBC", "9.15.1.1.")
AREAS = Clause("NBC", "9.15.3.4.")
TABLE = Clause("NBC", "Table 9.15.3.4.")
LONG_JOISTS = Clause("NBC", "9.15.3.4.(2)")
WATER = Clause("NBC", "9.15.3.4.(3)")
EXTERIOR = Clause("NBC", "9.15.3.5.")
INTERIOR = Clause("NBC", "9.15.3.6.")
COLUMNS = Clause("NBC", "9.15.3.7.")
THICKNESS = Clause("NBC", "9.15.3.8.")
SOIL_TABLE = Clause("NBC", "Table 9.4.4.1.")
DEEP = Clause("NBC", "9.4.4.1.(3)")
FROST = Clause("NBC", "9.12.2.2.")
STRENGTH = Clause("NBC", "9.3.1.6.")

LEAST_THICKNESS = 100.0  # mm, 9.15.3.8.
TABLE_SPACING = 3000.0  # mm, Table 9.15.3.4.
TABLE_JOIST = 4900.0  # mm, 9.15.3.4.
MIN_STRENGTH = 15.0  # MPa, 9.3.1.6.


@formula(
    "k_j",
    "max(l_sum / (n * l_49), 1)",
    unit="",
    clause=LONG_JOISTS,
    l_sum="mm",
    n="",
    l_49="mm",
)
def joist_factor(l_sum: float, n: float, l_49: float = TABLE_JOIST) -> float:
    """Growth of a footing by supported joists past 4.9 m. NBC 2020 9.15.3.4.(2).

    l_sum: supported joist lengths of every storey added up [mm], n: storeys. The sentence speaks of widths; the
    area under a column is taken to grow as much, since its load does.
    """
    return max(l_sum / (n * l_49), 1)


@formula(
    "A_9",
    "k_w * A_t * s / s_3 * k_j",
    unit="mm**2",
    clause=AREAS,
    k_w="",
    A_t="mm**2",
    s="mm",
    s_3="mm",
    k_j="",
)
def column_area(k_w: float, A_t: float, s: float, s_3: float, k_j: float) -> float:
    """Least area of a pad under a column. NBC 2020 9.15.3.4. and 9.15.3.7.

    k_w: 2 where the water table is near (9.15.3.4.(3)), A_t: of the table for columns 3 m apart [mm**2], s:
    spacing of the columns, s_3: 3 m [mm], k_j: by long joists. Area [mm**2].
    """
    return k_w * A_t * s / s_3 * k_j


@formula("b_9", "A_9 ** 0.5", unit="mm", clause=AREAS, A_9="mm**2")
def square_side(A_9: float) -> float:
    """Side of a square pad of that area [mm]."""
    side: float = A_9**0.5
    return side


@formula("t_9", "max(p, t_100)", unit="mm", clause=THICKNESS, p="mm", t_100="mm")
def least_thickness(p: float, t_100: float = LEAST_THICKNESS) -> float:
    """Thickness of a plain footing: its projection beyond post or plate, 100 mm. NBC 2020 9.15.3.8. [mm]"""
    return max(p, t_100)


@formula(
    "w_9",
    "k_w * (w_t * k_j + n_v * a_v + n_m * a_m)",
    unit="mm",
    clause=AREAS,
    k_w="",
    w_t="mm",
    k_j="",
    n_v="",
    a_v="mm",
    n_m="",
    a_m="mm",
)
def strip_width(k_w: float, w_t: float, k_j: float, n_v: float, a_v: float, n_m: float, a_m: float) -> float:
    """Least width of a strip footing. NBC 2020 9.15.3.4. to 9.15.3.6.

    k_w: 2 where the water table is near, w_t: of the table [mm], k_j: by long joists, n_v and n_m: storeys of
    masonry veneer and of masonry, a_v and a_m: what each adds [mm]. Width [mm].
    """
    return k_w * (w_t * k_j + n_v * a_v + n_m * a_m)
