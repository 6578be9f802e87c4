"""The whole wall at once, on the wall that the trade builds with four plies, and on walls that go wrong."""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest

from structure.core.cases import run_case
from structure.core.cases.plain import to_json
from structure.core.errors import InputError

JOIST = {
    "family": "sawn",
    "species": "SPF",
    "grade": "No.2",
    "plies": 1,
    "width": "1.5 in",
    "depth": "9.25 in",
}
BOTH = {
    "left": {"span": "10 ft", "support": "simple"},
    "right": {"span": "10 ft", "support": "simple"},
}
# Common practice: two storeys and a roof with 10 ft of load width each, opened 20 ft between centres of bearing.
# On the line: 550 dead, 800 live, 200 snow lbf/ft.
GIVEN: dict[str, Any] = {
    "levels": [
        {"name": "Roof", "kind": "roof", **BOTH, "dead": "15 psf", "snow": "20 psf"},
        {
            "name": "Third floor",
            "kind": "floor",
            **BOTH,
            "dead": "12 psf",
            "live": "40 psf",
            "wall_above": {"height": "8 ft", "weight": "10 psf"},
        },
        {
            "name": "Second floor",
            "kind": "floor",
            **BOTH,
            "dead": "12 psf",
            "live": "40 psf",
            "wall_above": {"height": "8 ft", "weight": "10 psf"},
        },
    ],
    "opening": {"clear_width": "19 ft 7 1/2 in", "ceiling_height": "8 ft 6 in", "headroom": "6 ft 8 in"},
    "soil": {"allowable": "2000 psf", "from": "presumptive"},
    "below": {"ground": "basement", "height": "7 ft 6 in"},
    "search": {"families": ["lvl"], "lvl_grades": ["2.0E-2900F"], "max_depth": "18 in"},
    "posts": {"grade": "No.2", "solid": True},
    "shoring": {"joists": {"section": JOIST, "spacing": "16 in"}},
}


def _given(**changes: Any) -> dict[str, Any]:
    given = copy.deepcopy(GIVEN)
    for key, value in changes.items():
        if isinstance(value, dict) and isinstance(given.get(key), dict):
            given[key] |= value
        elif value is None:
            given.pop(key, None)
        else:
            given[key] = value
    return given


def _run(**changes: Any) -> dict[str, Any]:
    return run_case({"kind": "wall", "code": "us", "given": _given(**changes)})


@pytest.fixture(scope="module")
def built() -> dict[str, Any]:
    return _run()


def test_four_plies_are_what_gets_built(built: dict[str, Any]) -> None:
    line = {case: held["value"] for case, held in built["takedown"]["line"].items()}
    assert line == pytest.approx({"dead": 550.0, "live": 800.0, "snow": 200.0})
    assert built["beam"]["span"] == {"value": pytest.approx(240.0), "unit": "in"}
    assert built["beam"]["length"]["value"] == pytest.approx(244.5)
    assert built["beam"]["chosen"]["section"] == "4-ply 1 3/4 x 18 LVL 2.0E-2900F"
    assert built["beam"]["chosen_by"] == "lightest"
    assert built["beam"]["chosen"]["passes"]


def test_each_lighter_beam_says_why_it_fails(built: dict[str, Any]) -> None:
    rows = built["beam"]["candidates"]
    labels = [row["section"] for row in rows]
    lighter = rows[: labels.index("4-ply 1 3/4 x 18 LVL 2.0E-2900F")]
    assert "3-ply 1 3/4 x 18 LVL 2.0E-2900F" in [row["section"] for row in lighter]
    for row in lighter:
        assert not row["passes"]
        assert row["fails"], row["section"]
        for fail in row["fails"]:
            assert fail["why"].endswith(".")
            assert fail["clause"]


def test_both_ends_go_to_the_ground(built: dict[str, Any]) -> None:
    assert [post["mark"] for post in built["posts"]] == ["P1", "P1B", "P2", "P2B"]
    assert [pad["mark"] for pad in built["footings"]] == ["F1", "F2"]
    for post in built["posts"]:
        assert post["result"]["passes"]
        assert post["member"]["label"]
    for end in built["loadpath"]:
        kinds = [link["kind"] for link in end["links"]]
        assert kinds == ["beam", "bearing", "post", "plate", "floor_cavity", "post_below", "pad", "soil"]
        assert end["state"] == "passes"
        assert not end["blocks_package"]
    assert all(pad["result"]["passes"] for pad in built["footings"])


def test_the_ends_together_carry_what_stands_on_the_beam(built: dict[str, Any]) -> None:
    length = built["beam"]["length"]["value"] / 12
    weight = built["beam"]["chosen"]["self_weight"]["total"]["value"]
    ends = [post["loads"] for post in built["posts"] if post["storey"] == "wall"]
    for case, line in (("dead", 550.0), ("live", 800.0), ("snow", 200.0)):
        own = weight if case == "dead" else 0.0
        assert sum(end[case]["value"] for end in ends) == pytest.approx(line * length + own, rel=1e-9)


def test_a_beam_as_wide_as_its_post(built: dict[str, Any]) -> None:
    for post in built["posts"]:
        if post["storey"] == "wall":
            assert post["seat"]["across"]["value"] >= 7.0
    assert all(row["result"]["passes"] for row in built["bearing"])


def test_every_check_keeps_its_steps(built: dict[str, Any]) -> None:
    members = [
        built["beam"]["chosen"],
        *(post["result"] for post in built["posts"]),
        *(pad["result"] for pad in built["footings"]),
    ]
    for member in members:
        for name, check in member["checks"].items():
            # A least size that a rule asks for has nothing to substitute: demand and capacity are lengths.
            assert check["steps"] or check["demand"]["unit"] == "in", name
            assert check["clause"], name


def test_the_answer_is_plain_data_and_the_same_twice(built: dict[str, Any]) -> None:
    again = _run()
    assert to_json(again) == to_json(built)
    assert json.loads(to_json(built))["versions"]["core"]
    assert len(built["versions"]["data"]) == 64


def test_a_section_of_the_user_is_checked_even_where_it_fails() -> None:
    beam = {"family": "lvl", "grade": "2.0E-2900F", "plies": 3, "width": "1.75 in", "depth": "18 in"}
    result = _run(beam=beam)
    assert result["beam"]["chosen_by"] == "user"
    assert result["beam"]["chosen"]["section"].startswith("3-ply")
    assert not result["beam"]["chosen"]["passes"]
    assert result["blocks_package"]
    assert any("Beam B1" in block for block in result["blocks"])
    assert result["posts"][0]["mark"] == "P1"


def test_headroom_is_a_reason_of_its_own() -> None:
    result = _run(opening={"headroom": "7 ft 2 in"})
    tall = [row for row in result["beam"]["candidates"] if row["size"]["depth"]["value"] > 16.0]
    assert tall
    for row in tall:
        assert not row["passes"]
        assert row["fails"][0]["check"] == "headroom"
        assert "102" not in row["fails"][0]["why"]


def test_no_beam_passes_and_says_so() -> None:
    result = _run(search={"max_plies": 2, "max_depth": "14 in"})
    assert result["status"] == "refused"
    assert "no stock size passes" in result["reason"]
    assert result["beam"]["chosen"] is None
    assert all(row["fails"] for row in result["beam"]["candidates"])
    assert result["posts"] == []


def test_nobody_has_looked_below_breaks_the_path() -> None:
    result = _run(below={"way": "unknown"})
    for end in result["loadpath"]:
        assert end["state"] == "missing"
        assert end["blocks_package"]
    assert result["blocks_package"]
    assert _run(below=None)["loadpath"][0]["state"] == "missing"


def test_no_blocking_in_the_floor_breaks_the_path() -> None:
    result = _run(below={"blocked": False})
    assert any("blocking" in missing for missing in result["loadpath"][0]["missing"])


@pytest.mark.parametrize("way", ["existing_wall", "existing_beam"])
def test_what_stands_below_already_is_a_question_to_the_engineer(way: str) -> None:
    result = _run(below={"way": way})
    for end in result["loadpath"]:
        assert end["state"] == "question"
        assert end["questions"]
        assert not end["missing"]
    assert result["footings"] == []


def test_on_a_slab_each_post_has_its_own_pad() -> None:
    result = _run(below={"ground": "slab", "height": "1 ft"})
    assert [post["mark"] for post in result["posts"]] == ["P1", "P2"]
    for end in result["loadpath"]:
        kinds = [link["kind"] for link in end["links"]]
        assert kinds == ["beam", "bearing", "post", "plate", "pad", "soil"]
        assert "slab" not in kinds


def test_an_adjustable_post_stands_on_its_pad_by_its_maker_s_capacity() -> None:
    stated = {"capacity": "20 kip", "source": "invented paper", "base_plate": "8 in", "longest": "8 ft"}
    result = _run(below={"way": "stated_post", "stated": stated})
    below = next(post for post in result["posts"] if post["mark"] == "P1B")
    assert below["result"]["passes"]
    assert [pad["mark"] for pad in result["footings"]] == ["F1", "F2"]
    weak = _run(below={"way": "stated_post", "stated": stated | {"capacity": "5 kip"}})
    assert weak["loadpath"][0]["state"] == "fails"
    tall = _run(below={"way": "stated_post", "height": "9 ft", "stated": stated})
    assert {each["part"] for each in tall["refusals"]} >= {"P1B", "P2B"}
    assert tall["loadpath"][0]["state"] == "missing"


def test_a_stacked_wall_on_unknown_joists_refuses_the_shoring_alone() -> None:
    result = _run(shoring={"joists": None})
    assert result["status"] == "ok"
    assert result["shoring"]["status"] == "refused"
    refusal = next(each for each in result["refusals"] if each["part"] == "shoring")
    assert refusal["clause"]
    assert result["beam"]["chosen"]["passes"]
    assert result["blocks_package"]


def test_a_point_load_keeps_its_place_and_one_beyond_the_beam_stays_out() -> None:
    levels = copy.deepcopy(GIVEN["levels"])
    levels[0]["points"] = [
        {"case": "snow", "value": "2000 lbf", "at": "5 ft"},
        {"case": "dead", "value": "900 lbf", "at": "25 ft"},
    ]
    result = _run(levels=levels, search={"max_depth": "24 in", "max_plies": 5})
    points = [load for load in result["beam"]["loads"] if load["shape"] == "point"]
    assert [(load["case"], load["value"]["value"]) for load in points] == [("snow", 2000.0)]
    assert points[0]["at"]["value"] == pytest.approx(60 + 2.25)
    assert any("900 lbf" in remark for remark in result["remarks"])
    left, right = (post["loads"] for post in result["posts"] if post["storey"] == "wall")
    assert left["snow"]["value"] > right["snow"]["value"]


def test_a_flush_beam_gains_height_and_may_cut_a_tie() -> None:
    ceiling = {
        "name": "Ceiling",
        "kind": "attic",
        **BOTH,
        "dead": "10 psf",
        "live": "10 psf",
        "spacing": "16 in",
    }
    result = _run(
        levels=[GIVEN["levels"][0], ceiling],
        opening={"mounting": "flush", "joist_depth": "9 1/4 in", "headroom": None},
    )
    depth = result["beam"]["chosen"]["size"]["depth"]["value"]
    assert result["beam"]["chosen"]["headroom"]["clear"]["value"] == pytest.approx(102 + 9.25 - depth)
    assert result["beam"]["hangers"] == 2 * 15
    assert result["beam"]["rafter_tie"]
    assert any("R802.5.2" in remark for remark in result["remarks"])


def test_too_many_floors_are_refused_with_the_clause() -> None:
    floors = [copy.deepcopy(GIVEN["levels"][2]) for _ in range(5)]
    result = _run(levels=floors)
    assert result["status"] == "refused"
    assert result["clause"].startswith("IRC")
    assert result["beam"]["chosen"] is None


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"opening": {"clear_width": "19"}}, "given.opening.clear_width"),
        ({"opening": {"clear_width": "0 ft"}}, "given.opening.clear_width"),
        ({"opening": {"ceiling_height": "1 ft"}}, "given"),
        ({"below": {"height": None}}, "given.below.height"),
        ({"below": {"way": "stated_post"}}, "given.below.stated"),
        ({"soil": {"allowable": "2000 plf"}}, "given.soil.allowable"),
        ({"posts": {"species": ["Oak"]}}, "given.posts.species[0]"),
        ({"levels": []}, "given.levels"),
        ({"levels": [{"name": "x", "kind": "floor", "left": {"support": "simple"}}]}, "given."),
        ({"shoring": {"stand_off": "20 ft"}}, "given.shoring."),
        ({"sol": {}}, "given.sol"),
    ],
)
def test_bad_input_names_its_field(changes: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        _run(**changes)
    assert caught.value.field.startswith(field)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("span", ["6 ft", "12 ft", "16 ft"])
def test_a_wider_opening_never_gets_a_lighter_beam(span: str) -> None:
    narrow = _run(opening={"clear_width": span})
    wide = _run(opening={"clear_width": "19 ft"})
    weights = [each["beam"]["chosen"]["self_weight"]["line"]["value"] for each in (narrow, wide)]
    assert weights[0] <= weights[1]
