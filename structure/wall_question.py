"""The question of the whole wall in the plain data of the case files, and who answers it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from structure.core.cases.registry import run_case
from structure.core.version import CORE_VERSION
from structure.data.loader import data_checksum
from structure.families import ENGINE
from structure.lumber import metric_size
from structure.models import HEADERS, SHORES, SILLS, PadKind, PostKind, TopEdge
from structure.products import product_sections
from structure.question import snow_case, takedown_given

__all__ = ["answer_wall", "core_version", "data_checksum", "wall_case"]
Row = Mapping[str, Any]
NO_LOAD = "0 psf"
ADJUSTABLE = "36 kN"
ADJUSTABLE_SOURCE = "NBC 9.17.3.4.: the most without a report of its own"
MOST_PLIES = 5  # side by side, as the engine counts on them to act together


def core_version() -> str:
    """Version of the engine of this process."""
    return CORE_VERSION


def wall_case(
    section: Row,
    levels: Sequence[Row],
    points: Sequence[Row],
    code: str,
    beam: Row | None = None,
    products: Sequence[Row] = (),
) -> dict[str, Any]:
    """The whole question as plain data. Raises InputError for a field that can not be read.

    `beam` is the section to design for, as a case writes it; `products` are those in hand, tried beside the
    families. A refusal of the snow stands in its place:
    `{"status": "refused", ...}`.
    """
    snow = run_case(snow_case(section, code))
    if snow["status"] != "ok":
        return snow
    given: dict[str, Any] = takedown_given(section, levels, points, snow) | {
        "opening": _opening(section),
        "soil": _soil(section),
        "below": _below(section, code),
        "search": _search(section, products, code),
        "posts": {
            "species": [section["post_species"]],
            "grade": section["post_grade"],
            "solid": section["post_solid"],
            "plate_species": section["post_species"],
        },
        "shoring": _shoring(section, code),
    }
    if section["post_kind"] != PostKind.WOOD:
        given["posts"]["steel"] = str(section["post_kind"])
    if section["pad_kind"] == PadKind.BARS:
        given["pad"] = {"reinforcement": {"bar": section["pad_bar"]}}
    if section.get("concrete"):
        given["pad"] = {**given.get("pad", {}), "fc": section["concrete"]}
    if code == "ca":
        given["house"] = _house(section)
    if beam is not None:
        given["beam"] = dict(beam)
    return {"kind": "wall", "code": code, "given": given}


def answer_wall(case: Row) -> dict[str, Any]:
    """What the engine says to a wall case; a refusal that is one already is passed on."""
    return dict(case) if case.get("status") == "refused" else run_case(case)


def _search(section: Row, products: Sequence[Row], code: str) -> dict[str, Any]:
    """What is tried: families in the engine's words, lumber on hand, products in hand."""
    asked = list(section["families"])
    species = [section["species"], *(section.get("more_species") or [])]
    search: dict[str, Any] = {
        "families": list(dict.fromkeys(ENGINE.get(key, key) for key in asked)),
        "species": list(dict.fromkeys(species)),
        "grades": [section["grade"]],
        "max_plies": min(section["max_plies"], MOST_PLIES),
    }
    forms = [key.removeprefix("steel_").upper() for key in asked if key in ENGINE]
    if forms:
        search["steel_forms"] = forms
    most = search["max_plies"]
    tried = [each for product in products for each in product_sections(product, most, code)]
    if tried:
        search["products"] = tried
    return search


def _opening(section: Row) -> dict[str, Any]:
    opening = {
        "clear_width": section["opening"],
        "ceiling_height": section["ceiling_height"],
        "end_bearing": section["end_bearing"],
        "mounting": section["mounting"],
        "joist_depth": section["joist_depth"],
    }
    if section["headroom"]:
        opening["headroom"] = section["headroom"]
    if section["top_edge"] == TopEdge.ENDS:
        opening["bracing"] = "ends"
    elif section["top_edge"] == TopEdge.EVERY:
        opening["bracing"] = section["top_edge_every"]
    return opening


def _soil(section: Row) -> dict[str, Any]:
    soil = {"source": section["soil_source"], "from": section["soil_from"]}
    if section["soil"]:
        soil["allowable"] = section["soil"]
    if section.get("soil_class"):
        soil["class"] = section["soil_class"]
    return soil


def _house(section: Row) -> dict[str, Any]:
    """What is known of the whole building, for whether Part 9 covers the wall."""
    named = {"storeys": section.get("storeys"), "building_area": section.get("building_area")}
    return {name: value for name, value in named.items() if value}


def _below(section: Row, code: str) -> dict[str, Any]:
    below: dict[str, Any] = {"ground": section["below"]}
    if section["below"] == "slab":
        return below
    below |= {"height": section["below_height"], "way": section["way"], "blocked": section["blocked"]}
    if section["way"] == "stated_post":
        own = bool(section["stated_capacity"]) or code == "us"
        below["stated"] = {
            "capacity": section["stated_capacity"] if own else ADJUSTABLE,
            "source": section["stated_source"] if own else ADJUSTABLE_SOURCE,
            "base_plate": section["stated_plate"],
        }
    return below


def _shoring(section: Row, code: str) -> dict[str, Any]:
    """Shoring as asked for; what is left out of its loads carries the recorded reason."""
    reasons: dict[str, str] = {}
    shoring: dict[str, Any] = {
        "stand_off": section["stand_off"],
        "construction": section["construction"],
        "every_level": section["every_level"],
        "header": _lumber(section, HEADERS[section["shoring_header"]], code),
        "shore": _lumber(section, SHORES[section["shoring_shore"]], code),
        "sill": _lumber(section, SILLS[section["shoring_sill"]], code),
    }
    if section["occupancy"]:
        shoring["occupancy"] = section["occupancy"]
    if section["cleared"]:
        shoring["cleared"] = True
        reasons["occupancy"] = section["cleared_reason"]
    if not section["snow_season"]:
        shoring["snow"] = NO_LOAD
        reasons["snow"] = section["snow_left_out_reason"]
    if reasons:
        shoring["reasons"] = reasons
    if section["joist_species"]:
        shoring["joists"] = {
            "section": {
                "family": "sawn",
                "species": section["joist_species"],
                "grade": section["joist_grade"],
                "plies": 1,
                "width": section["joist_width"],
                "depth": section["joist_depth"],
            },
            "spacing": section["joist_spacing"],
        }
    return shoring


def _lumber(section: Row, size: tuple[int, str, str], code: str) -> dict[str, Any]:
    plies, width, depth = size
    if code == "ca":
        width, depth = metric_size(width), metric_size(depth)
    return {
        "family": "sawn",
        "species": section["species"],
        "grade": section["grade"],
        "plies": plies,
        "width": width,
        "depth": depth,
    }
