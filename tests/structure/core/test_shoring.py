"""Shoring walls: statics by hand, loads that count or are left out, refusals, and what must always hold."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.cases.registry import KINDS, run_case
from structure.core.errors import InputError

SPF = {"family": "sawn", "species": "SPF", "grade": "No.2"}
FLOOR: dict[str, Any] = {
    "name": "second floor",
    "kind": "floor",
    "left": {"span": "12 ft", "support": "simple"},
    "right": {"span": "14 ft", "support": "simple"},
    "dead": "12 psf",
    "live": "40 psf",
}
ROOF: dict[str, Any] = {
    "name": "roof",
    "kind": "roof",
    "framing": "truss_clear",
    "dead": "15 psf",
    "snow": "25 psf",
}
ATTIC: dict[str, Any] = FLOOR | {"name": "attic", "kind": "attic", "dead": "10 psf", "live": "10 psf"}
WALL = {"wall_above": {"height": "8 ft", "weight": "10 psf"}}
JOISTS = {"section": SPF | {"width": "1.5 in", "depth": "9.25 in"}, "spacing": "16 in"}
ROOM: dict[str, Any] = {
    "levels": [FLOOR],
    "construction": "20 psf",
    "occupancy": "40 psf",
    "clear_opening": "12 ft",
    "stand_off": "3 ft",
    "height": "8 ft",
    "header": SPF | {"plies": 2, "width": "1.5 in", "depth": "9.25 in"},
    "shore": SPF | {"width": "3.5 in", "depth": "3.5 in"},
    "sill": SPF | {"width": "1.5 in", "depth": "9.25 in"},
    "floor_below": {"kind": "slab", "thickness": "4 in", "soil": "1500 psf"},
}


def answer(**given: Any) -> dict[str, Any]:
    held = {name: value for name, value in (ROOM | given).items() if value is not None}
    return run_case({"kind": "shoring", "code": "us", "given": held})


def line(result: dict[str, Any], side: str = "left", case: str = "") -> float:
    held = result[side]["line"]
    value: float = (held[case] if case else held)["value"]
    return value


def test_overhang_rule_by_hand() -> None:
    # 52 psf x 12 ft^2 / (2 x 9 ft) = 416 lb/ft; 52 x 14^2 / 22 = 463.27
    result = answer()
    assert line(result) == pytest.approx(416)
    assert line(result, "right") == pytest.approx(52 * 14**2 / 22)
    assert result["sides"]["left"]["line"]["value"] == pytest.approx(416)


def test_one_stand_off_each_side() -> None:
    result = answer(stand_off={"left": "2 ft", "right": "4 ft"})
    assert line(result) == pytest.approx(52 * 144 / 20)
    assert line(result, "right") == pytest.approx(52 * 196 / 20)


def test_no_shoring_where_no_joists_land() -> None:
    result = answer(levels=[FLOOR | {"right": {"support": "none"}}])
    assert result["right"] == {"needed": False}
    assert result["left"]["needed"] is True
    assert any("No joists land on the wall from the right" in remark for remark in result["remarks"])


def test_joists_unbroken_over_the_wall_by_the_three_moment_equation() -> None:
    both = {"span": "12 ft", "support": "continuous"}
    result = answer(levels=[FLOOR | {"left": both, "right": both}])
    # Spans 9, 6, 9 ft: (2 (9 + 6) + 6) M = (9^3 + 6^3) w / 4, M = 6.5625 w; R = 4.5 w + M/9 + 3 w
    moment = (9**3 + 6**3) / 4 / (2 * (9 + 6) + 6)
    assert line(result) == pytest.approx(52 * (4.5 + moment / 9 + 3))
    # People only on the two spans beside a shore load it more than people everywhere.
    load = result["left"]["shore_load"]["value"] / (result["left"]["spacing"]["value"] / 12)
    plain = answer()
    assert load / line(result) > plain["left"]["shore_load"]["value"] / (
        plain["left"]["spacing"]["value"] / 12
    ) / line(plain)


@pytest.mark.parametrize(
    ("given", "expected"),
    [
        ({"construction": "50 psf"}, {"dead": 12, "construction": 50}),
        ({"construction": None}, {"dead": 12, "live": 40}),
        ({"occupancy": None}, {"dead": 12, "live": 40}),
        ({"occupancy": "15 psf"}, {"dead": 12, "construction": 20}),
        ({"cleared": True}, {"dead": 12, "construction": 20}),
        ({"cleared": True, "construction": None, "occupancy": None}, {"dead": 12}),
        ({"snow": "25 psf"}, {"dead": 12, "live": 40, "snow": 25}),
        ({"reasons": {"occupancy": "family away, room empty"}}, {"dead": 12, "construction": 20}),
    ],
)
def test_dead_and_the_larger_of_people_and_materials_and_snow(
    given: dict[str, Any], expected: dict[str, float]
) -> None:
    held = answer(**given)["left"]["line"]
    found = {case: value["value"] for case, value in held.items() if case not in ("value", "unit")}
    assert found == pytest.approx({case: pressure * 8 for case, pressure in expected.items()})
    assert held["value"] == pytest.approx(sum(found.values()))


def test_an_attic_keeps_its_own_live_load() -> None:
    assert line(answer(levels=[ATTIC], construction="5 psf"), case="live") == pytest.approx(10 * 8)
    bare = {name: value for name, value in ATTIC.items() if name != "live"}
    assert line(answer(levels=[bare]), case="live") == pytest.approx(40 * 8)


@pytest.mark.parametrize("load", ["construction", "occupancy"])
def test_a_load_of_nothing_needs_its_reason(load: str) -> None:
    with pytest.raises(InputError, match="recorded reason") as caught:
        answer(**{load: "0 psf"})
    assert caught.value.field == f"given.{load}"
    told = answer(**{load: "0 psf"}, reasons={load: "agreed on site"})["loads"]
    assert any(
        row["load"] == load and not row["counted"] and row["reason"] == "agreed on site" for row in told
    )


def test_snow_out_of_season_needs_its_reason_and_says_it() -> None:
    both = {"left": {"span": "12 ft", "support": "simple"}, "right": {"span": "14 ft", "support": "simple"}}
    levels = [ROOF | both | {"framing": "perpendicular"}, FLOOR]
    with pytest.raises(InputError, match=r"reasons\.snow"):
        answer(levels=levels, snow="0 psf")
    winter = answer(levels=levels)
    summer = answer(levels=levels, reasons={"snow": "booked for July"})
    # 25 psf on 13 ft of half spans, carried to the shore by 12/9.
    assert line(winter, case="snow") == pytest.approx(25 * 13 * 12 / 9)
    assert "snow" not in summer["left"]["line"]
    assert any(row["reason"] == "booked for July" for row in summer["loads"])


def test_everything_at_once_where_snow_meets_people() -> None:
    result = answer(snow="25 psf")
    assert result["left"]["checks"]["shore_buckling"]["combination"] == "D+L+S"
    assert answer()["left"]["checks"]["shore_buckling"]["combination"] == "D+L"


def test_a_wall_on_the_joists_ends_is_refused_while_the_joists_are_unknown() -> None:
    result = answer(levels=[FLOOR | WALL])
    assert result["status"] == "refused"
    assert result["passes"] is False
    for way in ("joists", "needles", "higher"):
        assert way in result["reason"]
    # 416 + 80 x 12 / 9
    assert line(result) == pytest.approx(416 + 80 * 12 / 9)


def test_a_wall_on_known_joists_is_checked_for_bending_and_prying() -> None:
    checks = answer(levels=[FLOOR | WALL], joists=JOISTS)["left"]["checks"]
    pried = checks["far_end_uplift"]
    # P a / (L - a) = 26.67, people on the free end 40 x 9 / 18 = 20, dead load there 12 x 12 x 6 / 18 = 48 lb/ft
    assert pried["demand"]["value"] == pytest.approx(80 * 3 / 9 + 20)
    assert pried["capacity"]["value"] == pytest.approx(48)
    # Hogging of one joist over the shore: 1.333 x (52 x 9 / 2 + 80 x 3) lb*ft at least.
    stress = 16 / 12 * (52 * 9 / 2 + 80 * 3) * 12 / (1.5 * 9.25**2 / 6)
    assert checks["joist_bending"]["demand"]["value"] == pytest.approx(stress, rel=0.05)
    heavy = answer(levels=[FLOOR | {"wall_above": {"height": "8 ft", "weight": "40 psf"}}], joists=JOISTS)
    assert heavy["passes"] is False
    assert heavy["left"]["checks"]["far_end_uplift"]["passes"] is False


def test_levels_above_may_be_picked_up_where_they_are() -> None:
    levels = [ROOF, ATTIC, FLOOR | WALL]
    resting = answer(levels=levels, joists=JOISTS)
    shored = answer(levels=levels, joists=JOISTS, every_level=True)
    assert resting["passes"] is False
    assert shored["left"]["checks"]["far_end_uplift"]["passes"]
    # Attic 10 + 20 psf and floor 52 psf by the overhang rule, wall 80 lb/ft by 12/9.
    assert line(shored) == pytest.approx((10 + 20 + 12 + 40) * 8 + 80 * 12 / 9)


def test_more_than_one_floor_is_an_engineers_item() -> None:
    floors = [FLOOR | {"name": "third floor"}, FLOOR | WALL]
    result = answer(levels=floors, joists=JOISTS, every_level=True)
    assert any("engineer" in remark and "More than one floor" in remark for remark in result["remarks"])
    assert not any("More than one floor" in remark for remark in answer()["remarks"])


@pytest.mark.parametrize(
    ("level", "word"),
    [
        ({"framing": "parallel"}, "along the wall"),
        ({"framing": "truss_clear"}, "truss"),
        ({"framing": "truss_interior", "reaction": "300 lbf/ft"}, "truss"),
        ({"kind": "roof", "snow": "20 psf"}, "rafters"),
        ({"points": [{"case": "dead", "value": "3000 lbf", "at": "5 ft"}]}, "3,000 lbf"),
        ({"left": {"support": "none"}, "right": {"support": "none"}}, "no joists land"),
        ({"left": {"span": "40 ft", "support": "simple"}}, "40 ft"),
    ],
)
def test_what_a_shoring_wall_cannot_hold_is_refused(level: dict[str, Any], word: str) -> None:
    result = answer(levels=[FLOOR | level])
    assert result["status"] == "refused"
    assert word in result["reason"]


def test_spacing_is_the_largest_stock_spacing_that_passes_and_says_why_wider_fails() -> None:
    side = answer(snow="30 psf")["right"]
    assert side["spacing"]["value"] == 32
    assert [wider["spacing"]["value"] for wider in side["wider_spacings"]] == [48]
    assert "ground" in side["wider_spacings"][0]["why"]
    given = answer(snow="30 psf", spacing="48 in")["right"]
    assert given["passes"] is False
    assert given["spacing"]["value"] == 48


def test_plan_length_and_number_of_shores() -> None:
    side = answer(spacing="24 in")["left"]
    # 144 + 2 x 16 in: one joist spacing past either end; 176 / 24 = 7.33, so 8 bays.
    assert side["length"]["value"] == 176
    assert side["shores"] == 9
    assert answer(spacing="24 in", past_end="2 ft")["left"]["length"]["value"] == 192


def test_takeoff_reads_the_side_in_inches() -> None:
    read = answer(spacing="24 in")["left"]["schedule"]
    # 96 in less a 9.25 in header and a 1.5 in sill
    assert (read["length_in"], read["shores"], read["height_in"], read["reshore"]) == (176, 9, 85.25, False)
    assert read["header"]["label"] == "2-2x10 SPF No.2"
    assert (read["header"]["plies"], read["header"]["ply_width_in"], read["header"]["depth_in"]) == (
        2,
        1.5,
        9.25,
    )


def test_ground_under_a_shore_by_hand() -> None:
    check = answer(spacing="24 in")["left"]["checks"]["ground"]
    load = answer(spacing="24 in")["left"]["shore_load"]["value"]
    # 3.5 + 2 x 1.5 + 2 x 4 = 14.5 in along, 9.25 + 8 = 17.25 in across
    assert check["demand"]["value"] == pytest.approx(load / (14.5 * 17.25) * 144)
    assert check["capacity"]["value"] == pytest.approx(1500)
    soil = answer(spacing="24 in", floor_below="soil")["left"]["checks"]["ground"]
    assert soil["demand"]["value"] == pytest.approx(load / (6.5 * 9.25) * 144)


def test_header_and_shore_reactions_hold_the_whole_line() -> None:
    side = answer(spacing="48 in")["left"]
    # Five bays of a continuous header: the worst inner support takes 1.132 w s, joists being points a little off.
    assert side["shore_load"]["value"] == pytest.approx(1.132 * 416 * 4, rel=0.06)


def test_framed_floors_are_shored_again_down_to_the_ground() -> None:
    open_end = answer(floor_below="joists")
    assert open_end["left"]["reshore"] is True
    assert open_end["passes"] is False
    assert any("shored again" in block for block in open_end["left"]["blocks"])
    closed = answer(
        floor_below=[{"kind": "framed", "name": "main floor", "height": "7 ft"}, {"kind": "slab"}]
    )
    assert closed["passes"] is True
    assert closed["left"]["checks"]["reshore_buckling"]["passes"]
    assert any("every level below" in remark for remark in closed["remarks"])
    unknown = answer(floor_below=None)
    assert unknown["left"]["reshore"] is True
    assert unknown["passes"] is False
    with pytest.raises(InputError, match=r"floor_below\[0\]\.kind"):
        answer(floor_below=["slab", "framed"])


def test_slender_shores_stop_the_plan_and_say_what_helps() -> None:
    stud = SPF | {"width": "1.5 in", "depth": "3.5 in"}
    bare = answer(shore=stud)
    assert bare["passes"] is False
    assert any("over 50" in block and "shore_braced" in block for block in bare["left"]["blocks"])
    assert bare["left"]["checks"]["shore_buckling"]["ratio"] > 0
    braced = answer(shore=stud, shore_braced={"weak": "3 ft 6 in"})
    assert braced["left"]["blocks"] == []
    assert braced["left"]["checks"]["shore_buckling"]["passes"]


def test_what_was_not_given_is_told() -> None:
    given = {"levels": [FLOOR], "clear_opening": "12 ft"}
    result = run_case({"kind": "shoring", "code": "us", "given": given})
    assert line(result) == pytest.approx(416)
    for word in ("header", "shore", "sill", "height", "stand-off"):
        assert any(f"The {word} was not given" in remark for remark in result["remarks"])
    assert result["passes"] is False


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"clear_opening": None}, "given.clear_opening"),
        ({"clear_opening": "-3 ft"}, "given.clear_opening"),
        ({"stand_off": "7 ft"}, "given.stand_off.left"),
        ({"spacing": "12 ft"}, "given.spacing"),
        ({"height": "1 ft"}, "given.height"),
        ({"levels": []}, "given.levels"),
        (
            {"levels": [FLOOR | {"left": {"span": "12 ft", "support": "continuous"}}]},
            "given.levels[0].right.support",
        ),
        ({"floor_below": "marsh"}, "given.floor_below"),
        ({"reason": "none"}, "given.reason"),
    ],
)
def test_bad_input_names_its_field(given: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(**given)
    assert caught.value.field == field


def test_the_crews_part_is_marked_common_practice() -> None:
    result = answer()
    for part in ("bracing", "raising", "lowering", "stop_work"):
        assert result[part]
        assert all(rule["basis"] == "common practice" for rule in result[part])
    assert result["jacking"]["basis"] == "common practice"
    assert result["jacking"]["limit"]["value"] == 0.125
    assert any("stud" in rule["text"] for rule in result["raising"][-1:])
    assert result["left"]["bracing"]["sideways"]["value"] == pytest.approx(0.02 * 416)


def test_result_is_plain_data_and_every_check_keeps_its_steps() -> None:
    result = answer(levels=[FLOOR | WALL], joists=JOISTS)
    assert json.loads(json.dumps(result, allow_nan=False)) == result
    for side in ("left", "right"):
        for name, check in result[side]["checks"].items():
            assert check["steps"], name


def test_the_schema_explains_every_field() -> None:
    schema = KINDS["shoring"].schema()
    assert {
        "levels",
        "construction",
        "occupancy",
        "cleared",
        "snow",
        "clear_opening",
        "stand_off",
        "header",
        "shore",
        "sill",
        "spacing",
        "floor_below",
    } <= set(schema["fields"])
    assert json.loads(json.dumps(schema)) == schema


@settings(max_examples=25, deadline=None)
@given(span=st.floats(8, 20), stand_off=st.floats(1, 3.9), wall=st.floats(0.5, 30))
def test_shore_and_far_end_together_hold_what_is_on_the_joists(
    span: float, stand_off: float, wall: float
) -> None:
    side = {"span": f"{span} ft", "support": "simple"}
    level = FLOOR | {"left": side, "right": side, "wall_above": {"height": "8 ft", "weight": f"{wall} psf"}}
    result = answer(levels=[level], stand_off=f"{stand_off} ft")
    R = line(result)
    far = 52 * span * (span - 2 * stand_off) / (2 * (span - stand_off)) - wall * 8 * stand_off / (
        span - stand_off
    )
    assert R + far == pytest.approx(52 * span + wall * 8)


@settings(max_examples=25, deadline=None)
@given(near=st.floats(1.5, 3), farther=st.floats(0.2, 1.5), dead=st.floats(8, 25))
def test_farther_from_the_wall_or_heavier_is_never_lighter(near: float, farther: float, dead: float) -> None:
    first = answer(stand_off=f"{near} ft", levels=[FLOOR | {"dead": f"{dead} psf"}], spacing="24 in")
    second = answer(
        stand_off=f"{near + farther} ft", levels=[FLOOR | {"dead": f"{dead + 1} psf"}], spacing="24 in"
    )
    assert line(second) > line(first)
    for name, check in first["left"]["checks"].items():
        if name != "far_end_uplift":
            assert second["left"]["checks"][name]["ratio"] >= check["ratio"] - 1e-9
