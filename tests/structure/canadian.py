"""A Canadian house for tests: an invented bungalow in metric, as the form hands it over."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from structure.models import HouseSection
from structure.services.sections import section_save
from structure.starters import starter
from tests import factories


def bungalow(company: Any, **changes: Any) -> Any:
    """A job in a Canadian house."""
    house = factories.make_property(company, code="ca", region="SK", **{"units": "metric", **changes})
    return factories.make_job(company, property=house)


def section_values(**changes: Any) -> dict[str, Any]:
    """Every value of the section form under the Canadian code, cleaned."""
    values: dict[str, Any] = {
        "shape": "bungalow",
        "opening": "3.6 m",
        "wall_length": "",
        "wall_thickness": "114 mm",
        "ceiling_height": "2440 mm",
        "joist_depth": "184 mm",
        "mounting": "dropped",
        "end_bearing": "114 mm",
        "headroom": "",
        "roof_slope": Decimal(4),
        "ground_snow": "1.4 kPa",
        "rain": "0.1 kPa",
        "ground_snow_source": "invented for tests",
        "snow_rule": "part9",
        "roof_width": "",
        "roof_live": "1 kPa",
        "below": "basement",
        "below_height": "2.3 m",
        "way": "stated_post",
        "blocked": True,
        "stated_capacity": "",
        "stated_source": "",
        "stated_plate": "100 mm",
        "soil": "75 kPa",
        "soil_class": "",
        "soil_from": "presumptive",
        "soil_source": "invented for tests",
        "concrete": "20 MPa",
        "storeys": 1,
        "building_area": "110 m^2",
        "top_edge": "framed",
        "top_edge_every": "",
        "pad_kind": "plain",
        "pad_bar": "10M",
        "families": ["sawn"],
        "species": "SPF",
        "grade": "No.1/No.2",
        "more_species": [],
        "max_plies": 5,
        "post_kind": "wood",
        "post_species": "SPF",
        "post_grade": "No.1/No.2",
        "post_solid": False,
        "stand_off": "600 mm",
        "shoring_header": "2-2x10",
        "shoring_shore": "4x4",
        "shoring_sill": "2x10",
        "joist_species": "SPF",
        "joist_grade": "No.1/No.2",
        "joist_width": "38 mm",
        "joist_spacing": "400 mm",
        "every_level": False,
        "occupancy": "",
        "construction": "1 kPa",
        "cleared": False,
        "cleared_reason": "",
        "snow_season": True,
        "snow_left_out_reason": "",
    }
    return values | changes


def level_rows(shape: str = "bungalow") -> list[dict[str, Any]]:
    """Levels of that shape as the form hands them over."""
    empty = dict.fromkeys(
        ("spacing", "live", "wall_height", "wall_weight", "reaction_dead", "reaction_snow"), ""
    )
    return [{**empty, **level} for level in starter(shape, "ca")["levels"]]


def stored_section(job: Any, actor: Any, **changes: Any) -> HouseSection:
    """The bungalow stored through the service that the page calls."""
    return section_save(job=job, actor=actor, values=section_values(**changes), levels=level_rows())
