"""The whole wall under the Canadian code."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from structure.core.cases.registry import run_case
from structure.core.errors import InputError

CASE: dict[str, Any] = {
    "levels": [
        {
            "name": "roof",
            "kind": "roof",
            "framing": "truss_clear",
            "left": {"span": "7.8 m", "support": "simple"},
            "right": {"support": "none"},
            "dead": "0.5 kPa",
            "snow": "1.5 kPa",
        },
        {
            "name": "ceiling",
            "kind": "attic",
            "left": {"span": "3.6 m", "support": "simple"},
            "right": {"span": "4.2 m", "support": "simple"},
            "spacing": "400 mm",
            "dead": "0.25 kPa",
            "live": "0.5 kPa",
        },
    ],
    "opening": {"clear_width": "3.6 m", "ceiling_height": "2440 mm"},
    "soil": {"from": "presumptive"},
    "below": {
        "ground": "basement",
        "height": "2.3 m",
        "way": "stated_post",
        "stated": {"capacity": "36 kN", "source": "label", "base_plate": "100 mm"},
    },
    "house": {"storeys": 1, "building_area": "110 m**2"},
    "shoring": {},
}
FLOOR = {
    "kind": "floor",
    "left": {"span": "3.6 m", "support": "simple"},
    "right": {"span": "4.2 m", "support": "simple"},
    "spacing": "400 mm",
    "dead": "0.5 kPa",
    "live": "1.9 kPa",
}
IMPERIAL = ("lbf", "psf", "psi", '"in"', '"ft"', " inch")


def wall(**changes: Any) -> dict[str, Any]:
    return run_case({"kind": "wall", "code": "ca", "given": copy.deepcopy(CASE) | changes})


def units(data: Any) -> set[str]:
    if isinstance(data, dict):
        own = {data["unit"]} if set(data) >= {"value", "unit"} else set()
        return own.union(*(units(value) for value in data.values()))
    return set().union(*(units(each) for each in data)) if isinstance(data, list) else set()


@pytest.fixture(scope="module")
def bungalow() -> dict[str, Any]:
    return wall()


def test_it_is_whole_and_everything_in_it_is_metric(bungalow: dict[str, Any]) -> None:
    assert bungalow["status"] == "ok"
    assert bungalow["blocks"] == []
    imperial = {
        u for u in units(bungalow) if any(part in u for part in ("lbf", "in", "ft", "ps")) and u != "min"
    }
    assert not imperial
    for remark in bungalow["remarks"]:
        assert not any(word in remark for word in IMPERIAL), remark
    assert bungalow["versions"]["editions"]["NBC"] == "2020"


def test_the_load_is_followed_to_the_soil(bungalow: dict[str, Any]) -> None:
    for chain in bungalow["loadpath"]:
        assert chain["state"] == "passes"
        assert chain["clause"] == "NBC 2020 9.4.1.1."
        assert [link["kind"] for link in chain["links"]][-2:] == ["pad", "soil"]


def test_a_beam_has_89_mm_on_its_post(bungalow: dict[str, Any]) -> None:
    assert all(row["length"]["value"] >= 89 for row in bungalow["bearing"])
    narrow = [row["why"] for row in bungalow["posts"][0]["candidates"] if "9.23.8.1." in row["why"]]
    assert narrow, "two plies give 76 mm and are told so"


def test_candidates_are_sections_of_the_canadian_code(bungalow: dict[str, Any]) -> None:
    labels = [row["section"] for row in bungalow["beam"]["candidates"]]
    assert any(label.startswith("2-38x") for label in labels)
    assert bungalow["beam"]["chosen"]["checks"]["bending"]["clause"].startswith("CSA O86:19")


def test_a_presumed_soil_is_75_kPa_and_a_class_says_its_own(bungalow: dict[str, Any]) -> None:
    soil = bungalow["footings"][0]["result"]["checks"]["soil"]["capacity"]
    assert soil == {"value": pytest.approx(75.0), "unit": "kPa"}
    stiff = wall(soil={"class": "stiff_clay"})
    assert stiff["footings"][0]["result"]["checks"]["soil"]["capacity"]["value"] == pytest.approx(150.0)
    with pytest.raises(InputError) as caught:
        wall(soil={})
    assert caught.value.field == "given.soil.allowable"


def test_the_table_of_part_9_stands_beside_the_pad() -> None:
    found = wall(levels=[FLOOR], below={"ground": "slab"})
    part9 = found["footings"][0]["result"]["part9"]
    assert part9["area"]["value"] == pytest.approx(0.40e6 * 3714 / 3000)
    assert found["footings"][0]["result"]["side"]["value"] ** 2 >= part9["area"]["value"]
    assert any(remark.startswith("F1: ") for remark in found["remarks"])
    assert found["scope"]["limits"]["floors"]["value"] == 1


def test_no_floor_no_row_of_the_table(bungalow: dict[str, Any]) -> None:
    assert bungalow["footings"][0]["result"]["part9"]["area"] is None


def test_scope_counts_the_column_of_the_basement(bungalow: dict[str, Any]) -> None:
    limit = bungalow["scope"]["limits"]["adjustable_column"]
    total = sum(value["value"] for value in bungalow["posts"][0]["loads"].values())
    assert limit["value"]["value"] == pytest.approx(total)
    assert limit["inside"] is True
    assert bungalow["scope"]["inside"] is True


def test_heavier_loads_leave_the_scope_and_the_engineer_is_named() -> None:
    heavy = FLOOR | {
        "left": {"span": "6 m", "support": "simple"},
        "right": {"span": "6 m", "support": "simple"},
    }
    found = wall(levels=[heavy], below={"ground": "slab"}, search={"families": ["steel"]})
    assert "supported_length" in found["scope"]["outside"]
    assert any("engineer" in remark and "9.17.1.1." in remark for remark in found["remarks"])


def test_short_end_bearing_stops_the_package() -> None:
    opening = CASE["opening"] | {"end_bearing": "76 mm"}
    found = wall(opening=opening)
    assert found["blocks_package"] is True
    assert any("89 mm" in block for block in found["blocks"])


def test_feet_and_inches_are_read_as_well() -> None:
    found = wall(opening={"clear_width": "12 ft", "ceiling_height": "8 ft", "mounting": "flush"})
    assert found["beam"]["span"]["value"] == pytest.approx(3657.6 + 114)
    assert found["beam"]["hangers"] == 20
    assert found["beam"]["hangers_data"]["required"]["unit"] == "kN"


def test_a_flush_beam_that_cuts_ties_asks_by_the_canadian_clause() -> None:
    rafters = FLOOR | {"kind": "roof", "snow": "1.5 kPa"}
    del rafters["live"]
    found = wall(levels=[rafters, CASE["levels"][1]], opening=CASE["opening"] | {"mounting": "flush"})
    assert any("9.23.14." in remark for remark in found["remarks"])


def test_steel_posts_come_in_metric_sizes() -> None:
    found = wall(posts={"steel": "hss"}, below={"ground": "slab"})
    assert found["posts"][0]["result"]["section"].startswith("HSS")
    assert "x89x" in found["posts"][0]["result"]["section"]


def test_pipe_posts_too() -> None:
    found = wall(levels=[FLOOR], posts={"steel": "pipe"}, below={"ground": "slab"})
    assert found["posts"][0]["result"]["section"].startswith("Pipe80STD")


@pytest.mark.parametrize("way", ["new_post", "existing_wall", "existing_beam", "unknown"])
def test_every_way_down_is_followed_or_asked_about(way: str) -> None:
    found = wall(below={"ground": "basement", "height": "2.3 m", "way": way})
    states = {chain["state"] for chain in found["loadpath"]}
    wanted = {"new_post": "passes", "unknown": "missing"}.get(way, "question")
    assert states == {wanted}
    for question in found["loadpath"][0]["questions"]:
        assert " kN" in question


def test_words_of_the_rows_are_metric_too() -> None:
    found = wall(
        beam={
            "family": "sawn",
            "species": "SPF",
            "grade": "No.2",
            "plies": 4,
            "width": "38 mm",
            "depth": "235 mm",
        }
    )
    whys = [row["why"] for row in found["posts"][0]["candidates"]]
    assert any("152 mm wide" in why for why in whys)
    assert not any(" in wide" in why for why in whys)


def test_an_adjustable_column_without_a_report_carries_36_kN() -> None:
    plain = {
        "ground": "basement",
        "height": "2.3 m",
        "way": "stated_post",
        "stated": {"base_plate": "100 mm"},
    }
    found = wall(below=plain)
    check = found["posts"][1]["result"]["checks"]["stated"]
    assert check["capacity"] == {"value": pytest.approx(36.0), "unit": "kN"}
    assert check["clause"] == "NBC 2020 9.17.3.4."
    reported = {**plain, "stated": {"base_plate": "100 mm", "capacity": "50 kN"}}
    with pytest.raises(InputError) as caught:
        wall(below=reported)
    assert caught.value.field == "given.below.stated.source"


def test_a_column_over_36_kN_is_the_engineers() -> None:
    levels = [FLOOR | {"name": "third"}, FLOOR]
    opening = {"clear_width": "5 m", "ceiling_height": "2440 mm"}
    below = {
        "ground": "basement",
        "height": "2.3 m",
        "way": "stated_post",
        "stated": {"base_plate": "100 mm"},
    }
    found = wall(levels=levels, opening=opening, below=below, search={"families": ["steel"]})
    assert found["posts"][1]["result"]["passes"] is False
    assert "adjustable_column" in found["scope"]["outside"]
    assert found["loadpath"][0]["state"] == "fails"
    assert found["blocks_package"] is True


@pytest.mark.parametrize(
    ("plies", "left", "bearing", "enough"),
    [
        (3, "4.2 m", "113 mm", True),
        (3, "4.21 m", "113 mm", False),
        (3, "4.21 m", "114 mm", True),
        (4, "4.21 m", "113 mm", True),
        (4, "4.21 m", "88 mm", False),
    ],
)
def test_three_plies_under_long_joists_need_114_mm(plies: int, left: str, bearing: str, enough: bool) -> None:
    ceiling = CASE["levels"][1] | {"left": {"span": left, "support": "simple"}}
    beam = {
        "family": "sawn",
        "species": "SPF",
        "grade": "No.2",
        "plies": plies,
        "width": "38 mm",
        "depth": "286 mm",
    }
    found = wall(levels=[ceiling], beam=beam, opening=CASE["opening"] | {"end_bearing": bearing})
    assert ("bearing" not in {each["part"] for each in found["refusals"]}) is enough
