"""From typed values and engine results to drawings. Where a value can not be read the drawing says so."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from structure.core.errors import InputError
from structure.core.units import read_quantity
from structure.diagrams.house_section import HouseDrawing, Level, house_section
from structure.diagrams.offset import OffsetDrawing, offset_drawing
from structure.fields import inches_of
from structure.question import service_total
from structure.shown import inches

Row = Mapping[str, Any]
BELOW_DRAWN = {"existing_wall": "wall", "existing_beam": "beam", "new_post": "post", "stated_post": "post"}


def section_picture(
    values: Row,
    levels: Sequence[Row],
    takedown: Row | None,
    *,
    beam: Row | None = None,
    name: str = "section",
) -> str:
    """The house section as SVG; `takedown` gives the loads, `beam` its width, depth (in) and label."""
    found = takedown["by_level"] if takedown and takedown.get("status") == "ok" else []
    drawn = [_level(level, found[n] if n < len(found) else None) for n, level in enumerate(levels)]
    ceiling = inches_of(values, "ceiling_height", 97.0)
    depth = float(beam["depth"]) if beam else 0.0
    flush = values.get("mounting") == "flush"
    joist = inches_of(values, "joist_depth", 9.25)
    headroom = ceiling - (max(depth - joist, 0.0) if flush else depth) if beam else None
    slope = values.get("roof_slope")
    house = HouseDrawing(
        code="us",
        levels=drawn,
        ceiling_height=ceiling,
        joist_depth=joist,
        opening=inches_of(values, "opening"),
        mounting=str(values.get("mounting") or "dropped"),
        beam_width=float(beam["width"]) if beam else 0.0,
        beam_depth=depth,
        beam_label=str(beam["label"]) if beam else "",
        headroom=headroom,
        below=str(values.get("below") or "slab"),
        below_height=inches_of(values, "below_height"),
        below_support=BELOW_DRAWN.get(str(values.get("way")), "none"),
        rise=_slope(slope),
        rise_given=slope not in (None, ""),
        name=name,
    )
    return house_section(house)


def _slope(slope: Any) -> float:
    try:
        return min(max(float(slope), 0.5), 18.0)
    except (TypeError, ValueError):
        return 4.0


def _level(level: Row, found: Row | None) -> Level:
    brought = total = None
    if found is not None:
        brought = service_total(found["line"]) / 12
        total = service_total(found["total"]) / 12
    return Level(
        name=str(level.get("name") or "Level"),
        kind=str(level.get("kind") or "floor"),
        left=inches_of(level, "left_span"),
        right=inches_of(level, "right_span"),
        left_support=str(level.get("left_support") or "none"),
        right_support=str(level.get("right_support") or "none"),
        framing=str(level.get("framing") or "perpendicular"),
        wall_height=inches_of(level, "wall_height"),
        brought=brought,
        total=total,
    )


def offset_picture(values: Row, result: Row, name: str = "offset") -> str:
    """Both levels with the tolerance band, from typed values and the engine's answer (us)."""
    shift = _signed(values, "wall_shift")
    above = _centre(values, "above")
    below = _centre(values, "below") + shift
    limit = result.get("limit")
    return offset_drawing(
        OffsetDrawing(
            above=above,
            above_thickness=inches_of(values, "above_thickness", 4.5),
            below=below,
            below_thickness=inches_of(values, "below_thickness", 4.5),
            tolerance=inches(result["tolerance"]),
            limit=None if limit is None else inches(limit),
            wall_shift=shift,
            name=name,
        )
    )


def _centre(values: Row, part: str) -> float:
    at = inches_of(values, f"{part}_distance")
    if values[f"{part}_to"] == "near_face":
        at += inches_of(values, f"{part}_thickness", 4.5) / 2
    return at


def _signed(values: Row, name: str) -> float:
    try:
        return read_quantity(values.get(name) or "0 in", "length", name)
    except InputError:
        return 0.0
