"""From the section as typed to the question the engine is asked, in the plain data of the case files."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from structure.core.cases.registry import run_case
from structure.core.errors import InputError
from structure.core.units import quantity
from structure.dead_loads import read_dead
from structure.shown import value_in

IMPORTANCE = 1.0  # ASCE 7-16 Table 1.5-2: dwellings are risk category II
PSF = "psf"


def snow_case(section: Mapping[str, Any], code: str) -> dict[str, Any]:
    """The question of roof snow from ground snow."""
    if code == "ca":
        return {"kind": "snow", "code": code, "given": _snow_canadian(section)}
    given: dict[str, Any] = {
        "ground": section["ground_snow"],
        "Ce": float(section["exposure"]),
        "Ct": float(section["thermal"]),
        "Is": IMPORTANCE,
    }
    if section.get("roof_slope"):
        given["slope"] = _slope(section)
    return {"kind": "snow", "code": code, "given": given}


def _slope(section: Mapping[str, Any]) -> str:
    return f"{math.degrees(math.atan(float(section['roof_slope']) / 12)):.4f} deg"


def _snow_canadian(section: Mapping[str, Any]) -> dict[str, Any]:
    """S_s and S_r with their source, by Part 9 or by Part 4."""
    given: dict[str, Any] = {
        "Ss": section["ground_snow"],
        "Sr": section["rain"],
        "climate_source": section["ground_snow_source"],
        "rule": section["snow_rule"],
    }
    if section.get("roof_width"):
        given["roof_width"] = section["roof_width"]
    if section.get("roof_slope") and section["snow_rule"] == "part4":
        given["slope"] = _slope(section)
    return given


def as_text(value: Mapping[str, Any]) -> str:
    """A quantity of a result as the case grammar writes it."""
    return f"{value['value']!r} {value['unit']}"


def level_given(level: Mapping[str, Any], roof: Mapping[str, str]) -> dict[str, Any]:
    """One level in the takedown grammar; `roof` holds roof snow and roof live load for roofs."""
    name = str(level["name"])
    given: dict[str, Any] = {
        "name": name,
        "kind": level["kind"],
        "framing": level["framing"],
        "dead": read_dead(level["dead"], f"{name}, dead load"),
    }
    for side in ("left", "right"):
        given[side] = {"support": level[f"{side}_support"]}
        if level.get(f"{side}_span"):
            given[side]["span"] = level[f"{side}_span"]
    if level.get("spacing"):
        given["spacing"] = level["spacing"]
    if level["kind"] == "roof":
        given |= roof
    elif level.get("live"):
        given["live"] = level["live"]
    if level.get("wall_height") or level.get("wall_weight"):
        for key, told in (("wall_height", "height"), ("wall_weight", "weight")):
            if not level.get(key):
                raise InputError(f"{name}, {told} of the wall on it", None, "both its height and its weight")
        given["wall_above"] = {"height": level["wall_height"], "weight": level["wall_weight"]}
    if level["framing"] == "truss_interior":
        given["reaction"] = _reaction(level, name)
    return given


def _reaction(level: Mapping[str, Any], name: str) -> dict[str, str]:
    if not level.get("reaction_dead"):
        raise InputError(f"{name}, truss reaction", None, "the reaction of the trusses from their drawing")
    reaction = {"dead": level["reaction_dead"]}
    if level.get("reaction_snow"):
        reaction["snow" if level["kind"] == "roof" else "live"] = level["reaction_snow"]
    return reaction


def takedown_given(
    section: Mapping[str, Any],
    levels: Sequence[Mapping[str, Any]],
    points: Iterable[Mapping[str, Any]],
    snow: Mapping[str, Any],
) -> dict[str, Any]:
    """The `given` of the takedown: the levels from the top down, point loads with the lowest one."""
    roof = {"snow": as_text(snow["roof"]), "roof_live": section["roof_live"]}
    made = [level_given(level, roof) for level in levels]
    placed = [{"case": p["case"], "value": p["value"], "at": p["at"]} for p in points]
    if placed and made:
        made[-1]["points"] = placed
    return {"levels": made}


def takedown_of(
    section: Mapping[str, Any],
    levels: Sequence[Mapping[str, Any]],
    points: Iterable[Mapping[str, Any]],
    code: str,
) -> dict[str, Any]:
    """Roof snow and the takedown of a section: `{"snow": ..., "takedown": ...}` or a refusal in either.

    Raises InputError with the field that can not be used.
    """
    snow = run_case(snow_case(section, code))
    if snow["status"] != "ok":
        return {"snow": snow, "takedown": snow}
    given = takedown_given(section, levels, points, snow)
    result = run_case({"kind": "takedown", "code": code, "given": given})
    return {"snow": snow, "takedown": result, "given": given}


def service_total(line: Mapping[str, Mapping[str, Any]]) -> float:
    """Dead, live and the larger roof load of a line load by case [lbf/ft]."""
    by_case = {case: value_in(held, "lbf/ft") for case, held in line.items()}
    roof = max(by_case.get("roof_live", 0.0), by_case.get("snow", 0.0))
    return by_case.get("dead", 0.0) + by_case.get("live", 0.0) + roof


def shown(value: float, dimension: str, code: str) -> dict[str, Any]:
    """A value of the engine as a quantity."""
    return quantity(value, dimension, code)
