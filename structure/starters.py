"""Starting guesses: an ordinary section for each house shape, every number of it to be corrected on site.

Live loads are IRC Table R301.5 (rooms 40 psf, sleeping rooms 30 psf, attics without storage 10 psf).
Dead loads are common practice: a roof of shingles 15 psf, a ceiling 5 psf, a floor of boards and joists
with a ceiling under it 12 psf, a stud wall with board on both faces 8 psf of wall. Spans are ordinary.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

Level = Mapping[str, str]

ROOF: Level = MappingProxyType(
    {
        "name": "Roof",
        "kind": "roof",
        "framing": "perpendicular",
        "left_span": "13 ft",
        "left_support": "simple",
        "right_span": "13 ft",
        "right_support": "simple",
        "dead": "15 psf",
    }
)
TRUSSES: Level = MappingProxyType(
    {
        "name": "Roof trusses",
        "kind": "roof",
        "framing": "truss_clear",
        "left_span": "13 ft",
        "left_support": "none",
        "right_span": "13 ft",
        "right_support": "none",
        "spacing": "24 in",
        "dead": "roof: 10 psf; ceiling: 5 psf",
    }
)
CEILING: Level = MappingProxyType(
    {
        "name": "Attic",
        "kind": "attic",
        "framing": "perpendicular",
        "left_span": "13 ft",
        "left_support": "simple",
        "right_span": "13 ft",
        "right_support": "simple",
        "dead": "5 psf",
        "live": "10 psf",
    }
)
FLOOR: Level = MappingProxyType(
    {
        "name": "Second floor",
        "kind": "floor",
        "framing": "perpendicular",
        "left_span": "13 ft",
        "left_support": "simple",
        "right_span": "13 ft",
        "right_support": "simple",
        "dead": "12 psf",
        "live": "40 psf",
    }
)
WALL: Level = MappingProxyType({"wall_height": "8 ft 1 in", "wall_weight": "8 psf"})


def _floor(name: str, *, wall: bool) -> dict[str, str]:
    return {**FLOOR, "name": name, **(WALL if wall else {})}


LEVELS: Mapping[str, tuple[Level, ...]] = MappingProxyType(
    {
        "bungalow": (ROOF, CEILING),
        "bungalow_truss": (TRUSSES,),
        "two_storey": (ROOF, CEILING, _floor("Second floor", wall=True)),
        "two_storey_truss": (TRUSSES, _floor("Second floor", wall=False)),
        "upper": (ROOF, CEILING),
        "three_level": (ROOF, CEILING, _floor("Third floor", wall=True), _floor("Second floor", wall=True)),
        "basement": (ROOF, CEILING, _floor("Second floor", wall=True), _floor("Ground floor", wall=True)),
    }
)
_BELOW = {"basement": "slab", "upper": "crawl"}


def starter(shape: str) -> dict[str, Any]:
    """Values for the section form and its levels. Raises KeyError for a shape without a guess.

    Ground snow and its source stay empty: nobody may guess the weather of a place.
    """
    levels = [dict(level) for level in LEVELS[shape]]
    return {
        "section": {
            "shape": shape,
            "opening": "12 ft",
            "ceiling_height": "8 ft 1 in",
            "below": _BELOW.get(shape, "crawl"),
            "families": ["sawn", "lvl"],
        },
        "levels": levels,
    }
