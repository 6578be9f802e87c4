"""Starting guesses: an ordinary section for each house shape, every number of it to be corrected on site.

United States: live loads are IRC Table R301.5 (rooms 40 psf, sleeping rooms 30 psf, attics without storage 10 psf).
Dead loads are common practice: a roof of shingles 15 psf, a ceiling 5 psf, a floor of boards and joists
with a ceiling under it 12 psf, a stud wall with board on both faces 8 psf of wall. Spans are ordinary.
Canada: rooms 1.9 kPa and attics 0.5 kPa are NBC 9.4.2.4. and Table 4.1.5.3.; the dead loads are the same ones in
round kilopascals.
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
# The same guesses as they are said in Canada, in metric round numbers.
_CANADIAN = {
    "13 ft": "4 m",
    "24 in": "600 mm",
    "8 ft 1 in": "2440 mm",
    "15 psf": "0.7 kPa",
    "12 psf": "0.6 kPa",
    "8 psf": "0.4 kPa",
    "5 psf": "0.25 kPa",
    "10 psf": "0.5 kPa",
    "40 psf": "1.9 kPa",
    "roof: 10 psf; ceiling: 5 psf": "roof: 0.5 kPa; ceiling: 0.25 kPa",
}
_STOREYS = {"two_storey": 2, "two_storey_truss": 2, "upper": 2, "three_level": 3, "basement": 2}


def starter(shape: str, code: str = "us") -> dict[str, Any]:
    """Values for the section form and its levels. Raises KeyError for a shape without a guess.

    Ground snow and its source stay empty: nobody may guess the weather of a place.
    """
    levels = [dict(level) for level in LEVELS[shape]]
    if code == "ca":
        return {
            "section": {
                "shape": shape,
                "opening": "3.6 m",
                "ceiling_height": _CANADIAN["8 ft 1 in"],
                "below": _BELOW.get(shape, "basement"),
                "below_height": "" if _BELOW.get(shape) == "slab" else "2.3 m",
                "storeys": _STOREYS.get(shape, 1),
                "families": ["sawn"],
            },
            "levels": [{name: _CANADIAN.get(told, told) for name, told in level.items()} for level in levels],
        }
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
