"""Loads carried down to a wall line, against hand sums and an independent solution."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.clauses import US_DEFAULT
from structure.core.codes.us.loads import two_span_end, two_span_middle
from structure.core.errors import InputError
from structure.core.statics.model import BeamLine, Load
from structure.core.statics.solve import analyse
from structure.core.takedown import Layer, Level, Side, Wall, take_down
from structure.core.takedown_line import Point, beam_loads

FLOOR: dict[str, Any] = {
    "name": "second floor",
    "kind": "floor",
    "left": {"span": "14 ft", "support": "simple"},
    "right": {"span": "10 ft", "support": "simple"},
    "dead": "12 psf",
    "live": "40 psf",
}


def answer(*levels: dict[str, Any]) -> dict[str, Any]:
    return run_case({"kind": "takedown", "code": "us", "given": {"levels": list(levels)}})


def line(*levels: dict[str, Any]) -> dict[str, float]:
    result = answer(*levels)
    assert result["status"] == "ok", result
    return {case: held["value"] for case, held in result["line"].items()}


def test_half_of_each_simple_span() -> None:
    # (14 + 10) / 2 = 12 ft of load width: 12 x 12 = 144, 12 x 40 = 480 lbf/ft.
    assert line(FLOOR) == pytest.approx({"dead": 144, "live": 480})


def test_continuous_equal_spans_bring_a_quarter_more() -> None:
    both = {"span": "12 ft", "support": "continuous"}
    assert line(FLOOR | {"left": both, "right": both})["live"] == pytest.approx(1.25 * 12 * 40)


def test_continuous_unequal_spans_by_hand() -> None:
    # 40 (14 + 10)/2 + 40 (14^3 + 10^3)/(8 x 14 x 10) = 480 + 40 x 3744/1120 = 613.714 lbf/ft.
    sides = {
        "left": {"span": "14 ft", "support": "continuous"},
        "right": {"span": "10 ft", "support": "continuous"},
    }
    assert line(FLOOR | sides)["live"] == pytest.approx(480 + 40 * 3744 / 1120)


@given(st.floats(24, 400), st.floats(24, 400))
def test_continuous_reaction_is_that_of_the_beam_solver(left: float, right: float) -> None:
    beam = BeamLine((left, right))
    reactions = analyse(beam, [Load.uniform("live", 2.5, 0.0, left + right)]).reactions
    assert two_span_middle(2.5, left, right) == pytest.approx(reactions[1], rel=1e-9)
    assert two_span_end(2.5, left, right) == pytest.approx(reactions[0], rel=1e-6, abs=1e-6)


@given(st.floats(24, 400), st.floats(24, 400))
def test_continuous_brings_at_least_a_quarter_more_and_three_reactions_carry_all(
    left: float, right: float
) -> None:
    middle = two_span_middle(1.0, left, right)
    assert middle >= 1.25 * (left + right) / 2 * (1 - 1e-12)
    ends = two_span_end(1.0, left, right) + two_span_end(1.0, right, left)
    assert middle + ends == pytest.approx(left + right)


def test_continuous_on_one_side_alone_is_an_error() -> None:
    with pytest.raises(InputError) as caught:
        answer(FLOOR | {"left": {"span": "14 ft", "support": "continuous"}})
    assert caught.value.field == "given.levels[0].right.support"
    assert "on neither" in caught.value.accepted


def test_a_side_with_support_none_brings_nothing_and_needs_no_span() -> None:
    assert line(FLOOR | {"right": {"support": "none"}})["live"] == pytest.approx(7 * 40)


def test_a_simple_side_needs_its_span() -> None:
    with pytest.raises(InputError, match=r"left\.span"):
        answer(FLOOR | {"left": {"support": "simple"}})


def test_perpendicular_framing_needs_both_sides_said() -> None:
    with pytest.raises(InputError, match=r"levels\[0\].right"):
        answer({k: v for k, v in FLOOR.items() if k != "right"})


def test_parallel_brings_half_a_spacing_a_side_whatever_the_spans() -> None:
    # 16 in a side is the default: 8 in from each, 16/12 x 40 = 53.33 lbf/ft.
    assert line(FLOOR | {"framing": "parallel"})["live"] == pytest.approx(40 * 16 / 12)
    spaced = FLOOR | {"framing": "parallel", "spacing": "24 in", "right": {"support": "none"}}
    assert line(spaced)["live"] == pytest.approx(40 * 12 / 12)


def test_clear_trusses_bring_nothing_but_keep_their_cases() -> None:
    roof = {"kind": "roof", "framing": "truss_clear", "dead": "15 psf", "snow": "21 psf"}
    result = answer(roof)
    assert [held["value"] for held in result["line"].values()] == [0, 0]
    assert any("span clear" in remark for remark in result["remarks"])


@pytest.mark.parametrize(
    ("reaction", "expected"),
    [
        ({"dead": "150 lbf/ft", "snow": "210 lbf/ft"}, {"dead": 150, "snow": 210}),
        (
            [{"case": "dead", "value": "300 lbf"}, {"case": "snow", "value": "420 lbf"}],
            {"dead": 150, "snow": 210},
        ),
        ("360 lbf/ft", {"dead": 150, "snow": 210}),
    ],
)
def test_interior_trusses_bring_the_given_reaction(reaction: Any, expected: dict[str, float]) -> None:
    roof = {
        "kind": "roof",
        "framing": "truss_interior",
        "spacing": "24 in",
        "dead": "15 psf",
        "snow": "21 psf",
    }
    assert line(roof | {"reaction": reaction}) == pytest.approx(expected)


def test_a_truss_reaction_is_never_dropped_or_missing() -> None:
    with pytest.raises(InputError, match="reaction"):
        answer({"kind": "roof", "framing": "truss_interior", "dead": "15 psf"})
    with pytest.raises(InputError, match="reaction"):
        answer(FLOOR | {"reaction": "100 lbf/ft"})
    with pytest.raises(InputError, match="spacing"):
        answer({"kind": "roof", "framing": "truss_interior", "reaction": {"dead": "300 lbf"}})


def test_layers_add_and_a_wall_above_brings_its_weight() -> None:
    layers = [
        {"layer": "joists", "value": "3 psf"},
        {"layer": "subfloor", "value": "2.5 psf"},
        {"layer": "ceiling", "value": "2.5 psf"},
    ]
    level = FLOOR | {"dead": layers, "wall_above": {"height": "9 ft", "weight": "8 psf"}}
    assert line(level)["dead"] == pytest.approx(8 * 12 + 9 * 8)


def test_two_storeys_and_a_roof_add_up_level_by_level() -> None:
    roof = {
        "name": "roof",
        "kind": "roof",
        "left": {"span": "12 ft", "support": "simple"},
        "right": {"span": "12 ft", "support": "simple"},
        "dead": "15 psf",
        "snow": "21 psf",
    }
    result = answer(roof, FLOOR, FLOOR | {"name": "first floor"})
    assert result["line"]["dead"]["value"] == pytest.approx(180 + 144 + 144)
    assert result["line"]["live"]["value"] == pytest.approx(960)
    assert result["line"]["snow"]["value"] == pytest.approx(252)
    totals = [level["total"]["dead"]["value"] for level in result["by_level"]]
    assert totals == pytest.approx([180, 324, 468])


def test_points_keep_case_value_and_place() -> None:
    result = answer(FLOOR | {"points": [{"case": "snow", "value": "2400 lbf", "at": "7 ft 6 in"}]})
    point = result["points"][0]
    assert (point["case"], point["value"]["value"], point["at"]["value"]) == ("snow", 2400, 90)


def test_partial_extents_are_kept_and_the_line_is_the_largest_of_them() -> None:
    landing = FLOOR | {"name": "landing", "start": "4 ft", "end": "10 ft"}
    result = answer(FLOOR, landing)
    assert result["line"]["live"]["value"] == pytest.approx(960)
    pieces = [
        (piece["start"] and piece["start"]["value"], piece["line"]["live"]["value"])
        for piece in result["segments"]
    ]
    assert pieces == [(None, pytest.approx(480)), (48, pytest.approx(960)), (120, pytest.approx(480))]


def test_an_extent_that_ends_before_it_starts_is_an_error() -> None:
    with pytest.raises(InputError, match="end"):
        answer(FLOOR | {"start": "10 ft", "end": "4 ft"})


def test_a_beam_takes_what_lies_over_it_and_nothing_is_lost() -> None:
    levels = [
        Level("floor", "floor", left=Side("simple", 120), right=Side("simple", 120),
              dead=(Layer("floor", 0.1),), pressures={"live": 0.25},
              points=(Point("snow", 900.0, 60.0), Point("snow", 500.0, 300.0))),
        Level("landing", "floor", framing="parallel", dead=(Layer("floor", 0.1),), start=100.0),
    ]  # fmt: skip
    result = take_down(levels, US_DEFAULT)
    loads, beyond = beam_loads(result.segments, result.points, 40.0, 160.0)
    total = {
        case: sum(load.total for load in loads if load.case == case) for case in ("dead", "live", "snow")
    }
    assert total == pytest.approx(
        {"dead": 0.1 * 120 * 160 + 0.1 * 16 * 100, "live": 0.25 * 120 * 160, "snow": 900}
    )
    assert [load.start for load in loads if load.shape == "point"] == [20.0]
    assert [point.at for point in beyond] == [300.0]


def test_every_number_of_a_level_has_its_step() -> None:
    wall = Wall(96, 8 / 144)
    level = Level("floor", "floor", left=Side("simple", 168), right=Side("simple", 120),
                  dead=(Layer("floor", 12 / 144),), pressures={"live": 40 / 144}, wall_above=wall)  # fmt: skip
    found = take_down([level], US_DEFAULT).by_level[0]
    results = [step.result for step in found.steps]
    assert found.line["live"] in results
    assert found.line["dead"] == pytest.approx(results[2] + results[-1])  # both sides, and the wall
    assert all(str(step.clause) for step in found.steps)


def test_what_the_rules_do_not_cover_is_refused_with_its_clause() -> None:
    long = answer(FLOOR | {"left": {"span": "60 ft", "support": "simple"}})
    assert (long["status"], long["clause"]) == ("refused", "IRC 2021 R802.10.2.1")
    high = answer(*[FLOOR] * 4)
    assert (high["status"], high["clause"]) == ("refused", "IRC 2021 R101.2")
    lift = answer(FLOOR | {"points": [{"case": "dead", "value": "-300 lbf", "at": "1 ft"}]})
    assert (lift["status"], lift["clause"]) == ("refused", "IRC 2021 R301.1.3")


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("live", "-40 psf"),
        ("live", "40"),
        ("snow", "20 lbf"),
        ("spacing", "0 in"),
        ("rain", "5 psf"),
        ("kind", "shed"),
    ],
)
def test_bad_fields_are_named(field: str, value: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(FLOOR | {field: value})
    assert caught.value.field == f"given.levels[0].{field}"


def test_loads_nobody_gave_are_remarked_on() -> None:
    bare = {k: v for k, v in FLOOR.items() if k != "live"}
    assert any("no live load" in remark for remark in answer(bare)["remarks"])
    assert any("no snow" in remark for remark in answer(FLOOR | {"kind": "roof"})["remarks"])


def test_a_short_span_that_lifts_is_remarked_on() -> None:
    sides = {
        "left": {"span": "4 ft", "support": "continuous"},
        "right": {"span": "16 ft", "support": "continuous"},
    }
    assert any("lift" in remark for remark in answer(FLOOR | sides)["remarks"])


def test_a_level_without_its_dead_load_says_so() -> None:
    light = {key: value for key, value in FLOOR.items() if key != "dead"}
    assert any("second floor: no dead load was given" in remark for remark in answer(light)["remarks"])
    assert not any("no dead load" in remark for remark in answer(FLOOR)["remarks"])
