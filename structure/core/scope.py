"""The facts that decide whether Part 9 covers a wall, gathered from the levels it carries. N, mm, MPa."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from structure.core.codes.ca.scope import Facts
from structure.core.takedown import Level


@dataclass(frozen=True, slots=True)
class House:
    """What is known of the whole building: storeys, and building area [mm2]. None: nobody has said."""

    storeys: int | None = None
    building_area: float | None = None


def facts_of(
    levels: Sequence[Level],
    house: House,
    *,
    beam_span: float | None = None,
    soil: float | None = None,
    column_load: float | None = None,
    adjustable: bool = False,
) -> Facts:
    """Facts from the levels above a wall line, from the top down."""
    carried = [level for level in levels if level.framing != "truss_clear"]
    spans = [
        side.span
        for level in levels
        for side in (level.left, level.right)
        if side is not None and side.support != "none" and side.span is not None
    ]
    lowest = levels[-1]
    return Facts(
        storeys=house.storeys,
        building_area=house.building_area,
        spans=(*spans, beam_span) if beam_span is not None else tuple(spans),
        joists=(_landing(lowest, "left"), _landing(lowest, "right")),
        spacing=max((level.spacing for level in levels if level.spacing is not None), default=None),
        live=max((level.pressures["live"] for level in levels if "live" in level.pressures), default=None),
        floors=sum(level.kind == "floor" for level in carried),
        carries_roof=any(level.kind == "roof" for level in carried),
        points=sum(len(level.points) for level in levels),
        soil=soil,
        column_load=column_load,
        adjustable=adjustable,
    )


def _landing(level: Level, name: str) -> float:
    """Span of the joists that land on the line from one side; nothing where none do."""
    side = level.left if name == "left" else level.right
    if level.framing != "perpendicular" or side is None or side.support == "none" or side.span is None:
        return 0.0
    return side.span
