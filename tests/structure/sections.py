"""Sections for tests: an invented two-storey house, as the form hands it over."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from structure.models import HouseSection
from structure.services.sections import section_save
from structure.starters import starter


def section_values(**changes: Any) -> dict[str, Any]:
    """Every value of the section form, cleaned."""
    values: dict[str, Any] = {
        "shape": "two_storey",
        "opening": "12 ft",
        "wall_length": "",
        "wall_thickness": "4 1/2 in",
        "ceiling_height": "8 ft 1 in",
        "joist_depth": "9 1/4 in",
        "mounting": "dropped",
        "end_bearing": "4 1/2 in",
        "headroom": "",
        "roof_slope": Decimal(6),
        "ground_snow": "30 psf",
        "ground_snow_source": "invented for tests",
        "exposure": Decimal("1.00"),
        "thermal": Decimal("1.00"),
        "roof_live": "20 psf",
        "below": "crawl",
        "below_height": "3 ft",
        "way": "new_post",
        "blocked": True,
        "stated_capacity": "",
        "stated_source": "",
        "stated_plate": "",
        "soil": "1500 psf",
        "soil_from": "presumptive",
        "soil_source": "invented for tests",
        "top_edge": "framed",
        "top_edge_every": "",
        "pad_kind": "plain",
        "pad_bar": "#4",
        "families": ["sawn", "lvl"],
        "species": "SPF",
        "grade": "No.2",
        "more_species": [],
        "max_plies": 4,
        "post_kind": "wood",
        "post_species": "SPF",
        "post_grade": "Stud",
        "post_solid": False,
        "stand_off": "30 in",
        "shoring_header": "2-2x10",
        "shoring_shore": "4x4",
        "shoring_sill": "2x10",
        "joist_species": "DF-L",
        "joist_grade": "No.2",
        "joist_width": "1 1/2 in",
        "joist_spacing": "16 in",
        "every_level": False,
        "occupancy": "",
        "construction": "20 psf",
        "cleared": False,
        "cleared_reason": "",
        "snow_season": True,
        "snow_left_out_reason": "",
    }
    return values | changes


def product_values(**changes: Any) -> dict[str, Any]:
    """An invented piece of PSL as the form hands it over."""
    values = {
        "family": "psl",
        "name": "2.0E as stamped",
        "source": "sheet 7 of an invented maker, 2026",
        "width": "3 1/2 in",
        "depths": "11 7/8 in; 14 in; 18 in",
        "plies": 2,
        "Fb": "2900 psi",
        "Fv": "290 psi",
        "Fc_perp": "625 psi",
        "E": "2,000,000 psi",
        "Emin": "",
    }
    return values | changes


def level_rows(shape: str = "two_storey") -> list[dict[str, Any]]:
    """The levels of a starting guess."""
    return starter(shape)["levels"]


def stored_section(job: Any, actor: Any, *, shape: str = "two_storey", **changes: Any) -> HouseSection:
    """A section saved through the service."""
    points = changes.pop("points", ())
    return section_save(
        job=job, actor=actor, values=section_values(**changes), levels=level_rows(shape), points=points
    )


def posted(
    values: dict[str, Any], levels: list[dict[str, Any]], points: list[dict[str, Any]] = (), **more: Any
) -> dict[str, Any]:
    """The same as a browser posts it."""
    data: dict[str, Any] = {}
    for name, value in values.items():
        if value is True:
            data[name] = "on"
        elif value not in (False, None):
            data[name] = value
    for prefix, rows in (("levels", levels), ("points", points)):
        data |= {f"{prefix}-TOTAL_FORMS": len(rows), f"{prefix}-INITIAL_FORMS": 0}
        for n, row in enumerate(rows):
            defaults = {"ORDER": n + 1} if prefix == "levels" else {}
            data |= {f"{prefix}-{n}-{name}": value for name, value in {**defaults, **row}.items()}
    return data | {"action": "save"} | more
