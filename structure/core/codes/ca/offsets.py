"""How far a bearing wall across the joists may stand off its support. NBC 2020 9.23.9.8. Lengths in mm."""

from __future__ import annotations

from structure.core.codes.ca.nbc import OFFSET_BEARING_WALL
from structure.core.trace import formula

WITH_FLOOR, WITHOUT = 600.0, 900.0  # mm


@formula("e_limit", "e_rule", unit="mm", clause=OFFSET_BEARING_WALL, e_rule="mm")
def offset_limit(e_rule: float) -> float:
    """Limit of a bearing wall at right angles to the joists. NBC 2020 9.23.9.8.

    e_rule: 600 mm where the wall carries a floor, 900 mm where it does not [mm]. [mm].
    """
    return e_rule
