"""Reinforced pads: ACI 318-19 chapters 13, 22 and 25 by hand sums, layout of the bars, solving."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.clauses import US_DEFAULT
from structure.core.errors import InputError, OutOfScope
from structure.core.members.footing import FootingResult, size_pad
from structure.core.members.footing_pad import Base, bar_sizes, find_bar
from structure.core.members.footing_question import FootingQuestion, Reinforcement

LOADS = [{"case": "dead", "value": "5000 lbf"}, {"case": "live", "value": "7000 lbf"}]
PAD: dict[str, Any] = {
    "loads": LOADS,
    "soil": "1500 psf",
    "post": "5.5 in",
    "side": "36 in",
    "thickness": "12 in",
    "reinforcement": {"bar": "#4", "count": 4},
}
NUMBER_4 = find_bar("#4")


def answer(**given: Any) -> dict[str, Any]:
    return run_case({"kind": "footing", "code": "us", "given": PAD | given})


def check(name: str, **given: Any) -> dict[str, Any]:
    found: dict[str, Any] = answer(**given)["checks"][name]
    return found


@pytest.mark.parametrize(
    ("name", "demand", "capacity"),
    [
        # d = 12 - 3 - 0.5 = 8.5 in, q_u = 17,200 / 1,296 = 13.272 psi, A_s = 0.80, rho = 0.80 / 306
        ("punching", 17200 * (1296 - 14**2) / 1296, 0.75 * 4 * 50 * 56 * 8.5),
        ("one_way_shear", 17200 / 36 * (15.25 - 8.5), 0.75 * 8 * (0.8 / 306) ** (1 / 3) * 50 * 306),
        ("flexure", 17200 / 36 * 15.25**2 / 2 / 12, 0.9 * 0.8 * 60000 * (8.5 - 0.8 / 2.55) / 12),
        ("bearing", 17200, 0.65 * 0.85 * 2500 * 5.5**2 * 2),
        ("minimum_steel", 0.0018 * 36 * 12, 0.8),
        ("cover", 3, 3),
        ("depth", 6, 12 - 3 - 0.75),
        ("spacing", (36 - 6 - 0.5) / 3, 18),
        ("spacing_least", 1.5, (36 - 6 - 0.5) / 3),
        ("development", 12, 15.25 - 3),
        ("projection_least", 2, 15.25),
        ("thickness", 6, 12),
    ],
)
def test_each_check_by_hand(name: str, demand: float, capacity: float) -> None:
    found = check(name)
    assert found["demand"]["value"] == pytest.approx(demand)
    assert found["capacity"]["value"] == pytest.approx(capacity)
    assert found["passes"] is (demand <= capacity)


def test_the_strain_of_a_tension_controlled_section() -> None:
    # a = 0.8 x 60,000 / (0.85 x 2,500 x 36) = 0.6275 in, c = a / 0.85
    c = 0.8 * 60000 / (0.85 * 2500 * 36) / 0.85
    found = check("tension_controlled")
    assert found["capacity"] == pytest.approx(0.003 * (8.5 - c) / c)
    assert found["demand"] == pytest.approx(60000 / 29e6 + 0.003)


def test_too_much_steel_is_not_tension_controlled() -> None:
    found = answer(thickness="10 in", reinforcement={"bar": "#8", "count": 10}, concrete={"fc": "2500 psi"})
    assert found["checks"]["tension_controlled"]["passes"] is False


def test_the_limit_of_a_plain_projection_is_not_asked_of_bars() -> None:
    plain = answer(reinforcement=None, plain=True)
    assert plain["checks"]["projection"]["passes"] is False
    assert "projection" not in answer()["checks"]
    assert answer()["passes"] is True


def test_less_than_the_least_steel_still_takes_the_shear_of_its_ratio() -> None:
    # Row (c) of Table 22.5.5.1 holds for any ratio without stirrups; the least steel fails by itself.
    two, four = (check("one_way_shear", reinforcement={"bar": "#4", "count": n}) for n in (2, 4))
    assert two["capacity"]["value"] == pytest.approx(four["capacity"]["value"] / 2 ** (1 / 3))
    assert check("minimum_steel", reinforcement={"bar": "#4", "count": 2})["passes"] is False


def test_heavy_steel_meets_the_cap_of_one_way_shear() -> None:
    # rho above (5/8)**3 = 0.244: 5 root f'c
    given = {"side": "24 in", "thickness": "10 in", "reinforcement": {"bar": "#11", "count": 22}}
    d = 10 - 3 - 1.41
    assert check("one_way_shear", **given)["capacity"]["value"] == pytest.approx(0.75 * 5 * 50 * 24 * d)


@pytest.mark.parametrize(
    ("post", "factor"),
    [
        # three expressions of Table 22.6.5.2, d 8.5: 4; 2 + 4/beta with beta 5; 2 + 40 d / b_o
        ({"length": "5.5 in", "width": "5.5 in", "plate": False}, 4.0),
        ({"length": "20 in", "width": "4 in", "plate": False}, 2.8),
        ({"length": "46 in", "width": "46 in", "plate": False}, 2 + 40 * 8.5 / (4 * 54.5)),
    ],
)
def test_the_least_of_three_expressions_of_punching(post: dict[str, Any], factor: float) -> None:
    c_1, c_2 = (float(str(post[name]).split()[0]) for name in ("length", "width"))
    b_o = 2 * (c_1 + 8.5 + c_2 + 8.5)
    found = check("punching", post=post, side="10 ft", reinforcement={"bar": "#4", "count": 14})
    assert found["capacity"]["value"] == pytest.approx(0.75 * factor * 50 * b_o * 8.5)


def test_no_punching_where_the_perimeter_runs_past_the_pad() -> None:
    found = check("punching", side="24 in", post="10 in", thickness="20 in")
    assert (found["demand"]["value"], found["passes"]) == (0, True)
    assert "no punching" in found["note"]


def test_a_large_bar_takes_the_longer_development() -> None:
    # No. 7 and larger psi_s 1, smaller 0.8: No. 6 0.75 in, No. 7 0.875 in; both c_b / d_b over 2.5
    lengths = [
        next(
            step["result"]
            for step in check("development", side="60 in", reinforcement={"bar": bar, "count": 5})["steps"]
            if step["symbol"] == "l_d"
        )
        for bar in ("#6", "#7")
    ]
    assert lengths == pytest.approx([3 / 40 * 1200 * 0.8 / 2.5 * 0.75, 3 / 40 * 1200 / 2.5 * 0.875])


def test_light_concrete_needs_longer_bars_and_carries_less() -> None:
    light = {"fc": "2500 psi", "density": "120 lbf/ft**3"}
    factor = 0.9
    for name in ("punching", "one_way_shear"):
        assert check(name, concrete=light)["capacity"]["value"] == pytest.approx(
            factor * check(name)["capacity"]["value"]
        )


def test_bars_of_a_rectangle_crowd_under_the_post() -> None:
    # L/W 2: 2/3 of 6 short bars are 4, in the middle 36 in; 14.69 in from the band to the last one.
    found = answer(
        soil="2000 psf",
        side={"length": "72 in", "width": "36 in"},
        thickness="14 in",
        reinforcement={"bar": "#5", "count": {"length": 4, "width": 6}},
    )["bars"]
    across = found["along_width"]
    assert (across["count"], across["in_band"], across["band"]["value"]) == (6, 4, 36)
    assert across["spacing"]["value"] == pytest.approx(12)
    assert across["spacing_outside"]["value"] == pytest.approx(18 - 3 - 0.3125)
    assert across["length"]["value"] == 30
    assert (found["along_length"]["count"], found["along_length"]["in_band"]) == (4, 4)
    assert found["total"] == 10


def test_bars_beyond_the_band_keep_both_sides_alike() -> None:
    found = answer(
        side={"length": "60 in", "width": "40 in"},
        reinforcement={"bar": "#4", "count": {"length": 4, "width": 6}},
    )["bars"]["along_width"]
    # 2 / 2.5 of 6 is 4.8: five would leave one bar for two sides.
    assert found["in_band"] == 6


def test_a_band_never_runs_into_the_cover() -> None:
    found = answer(side={"length": "38 in", "width": "36 in"})["bars"]["along_width"]
    assert found["in_band"] == 4
    assert found["spacing"]["value"] == pytest.approx((38 - 6 - 0.5) / 3)


def test_weight_is_that_of_all_bars() -> None:
    bars = answer()["bars"]
    assert bars["weight"]["value"] == pytest.approx(8 * 2.5 * 0.668)
    assert bars["spacing"]["value"] == pytest.approx(29.5 / 3)


def test_nothing_given_but_the_bar_is_solved() -> None:
    result = answer(side=None, thickness=None, reinforcement={"bar": "#4"})
    assert result["passes"] is True
    assert (result["side"]["value"], result["thickness"]["value"], result["bars"]["count"]) == (36, 10, 4)
    assert result["solved"] == ["side", "thickness", "bars"]
    assert result["governing"] == "development"


def test_a_small_load_gets_the_width_that_straight_bars_need() -> None:
    result = answer(
        loads=[{"case": "dead", "value": "1 kip"}], side=None, thickness=None, reinforcement={"bar": "#4"}
    )
    assert (result["side"]["value"], result["passes"]) == (36, True)  # 5.5 + 2 (12 + 3) = 35.5 in
    assert any("Wider than the soil" in remark for remark in result["remarks"])


def test_a_width_that_is_given_is_kept_and_the_length_solved() -> None:
    result = answer(soil="2000 psf", side={"width": "36 in"}, thickness=None, reinforcement={"bar": "#4"})
    assert result["passes"] is True
    assert (result["width"]["value"], result["solved"]) == (36, ["length", "thickness", "bars"])


def test_a_thickness_that_no_count_helps_answers_with_what_fails() -> None:
    result = answer(side="24 in", reinforcement={"bar": "#4"})
    assert (result["status"], result["passes"]) == ("ok", False)
    assert result["checks"]["development"]["passes"] is False
    assert result["bars"]["count"] == 3  # the fewest; more do not help


@pytest.mark.parametrize(
    ("given", "clause"),
    [
        ({"reinforcement": {"bar": "#4", "count": 4, "fy": "80 ksi"}}, "ACI 318-19 Table 20.2.2.4(a)"),
        ({"reinforcement": {"bar": "#4", "count": 4, "fy": "33 ksi"}}, "ACI 318-19 Table 20.2.2.4(a)"),
        (
            {"side": {"width": "24 in"}, "thickness": None, "reinforcement": {"bar": "#4"}},
            "ACI 318-19 13.3",
        ),
        ({"eccentricity": "6.01 in"}, "ACI 318-19 13.3.1.1"),
        (
            {"eccentricity": "5 in", "side": "40 in", "thickness": "30 in"},
            "ACI 318-19 22.6.4.1",
        ),
    ],
)
def test_what_is_out_of_reach_is_refused_with_its_clause(given: dict[str, Any], clause: str) -> None:
    result = answer(**given)
    assert (result["status"], result["clause"]) == ("refused", clause)


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"reinforcement": {"bar": "15M", "count": 4}}, "given.reinforcement.bar"),
        ({"reinforcement": {"bar": "#4", "count": 1}}, "given.reinforcement.count"),
        ({"reinforcement": {"bar": "#4", "count": 4}, "plain": True}, "given.plain"),
        ({"thickness": "3.5 in"}, "given.thickness"),
        ({"side": "6.4 in", "reinforcement": {"bar": "#8"}}, "given.side"),
        ({"side": {"length": "5 in", "width": "36 in"}}, "given.side.length"),
        ({"side": {"length": "36 in", "width": "5 in"}}, "given.side.width"),
        ({"side": {"depth": "36 in"}}, "given.side.depth"),
        (
            {"post": {"length": "6 in", "width": "4 in", "column": "3 in", "plate": False}},
            "given.post.column",
        ),
        ({"eccentricity": "-1 in"}, "given.eccentricity"),
    ],
)
def test_bad_fields_are_named(given: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(**given)
    assert caught.value.field == field


def test_bars_are_those_of_the_standard() -> None:
    assert bar_sizes() == tuple(f"#{n}" for n in range(3, 12))
    for name in bar_sizes():
        bar = find_bar(name)
        # 490 lb a cubic foot, areas rounded to the hundredth
        assert bar.area == pytest.approx(3.1416 * bar.diameter**2 / 4, abs=0.006)
        assert bar.weight == pytest.approx(bar.area * 490 / 1728, rel=0.03)


def solved(question: FootingQuestion) -> FootingResult | None:
    try:
        return size_pad(question, US_DEFAULT)
    except OutOfScope:
        return None


questions = st.builds(
    FootingQuestion,
    loads=st.builds(lambda d, v: {"dead": d, "live": v}, st.floats(500, 12000), st.floats(0, 11000)),
    soil=st.sampled_from([1500, 2000, 3000, 4000]).map(lambda psf: psf / 144),
    base=st.sampled_from([Base(3.5, 3.5), Base(5.5, 5.5), Base(5.5, 3.5), Base(8, 8, True, 3.5)]),
    f_c=st.sampled_from([2500.0, 3000.0, 4000.0]),
    net=st.booleans(),
    reinforcement=st.sampled_from(["#4", "#5", "#6"]).map(lambda name: Reinforcement(find_bar(name))),
)


@settings(max_examples=60, deadline=None)
@given(questions)
def test_a_solved_pad_passes_and_one_step_less_of_anything_fails(question: FootingQuestion) -> None:
    found = solved(question)
    assert found is not None
    assert found.passes
    pad, mat = found.pad, found.pad.bars
    assert mat is not None
    fixed = replace(
        question,
        side=pad.side,
        thickness=pad.thickness,
        reinforcement=Reinforcement(mat.bar, mat.along_length, mat.along_width),
    )
    assert size_pad(fixed, US_DEFAULT).passes
    for smaller in (
        replace(fixed, side=pad.side - question.step),
        replace(fixed, thickness=pad.thickness - question.step),
        replace(
            fixed,
            reinforcement=Reinforcement(mat.bar, max(mat.along_length - 1, 2), max(mat.along_width - 1, 2)),
        ),
    ):
        assert not size_pad(smaller, US_DEFAULT).passes


@settings(max_examples=40, deadline=None)
@given(questions, st.floats(1.02, 1.5))
def test_more_load_never_raises_what_is_left(question: FootingQuestion, more: float) -> None:
    """On the same pad every ratio grows or stays; nothing gets better by loading it."""
    found = solved(question)
    assert found is not None
    mat = found.pad.bars
    assert mat is not None
    fixed = replace(
        question,
        side=found.pad.side,
        thickness=found.pad.thickness,
        reinforcement=Reinforcement(mat.bar, mat.along_length, mat.along_width),
    )
    heavier = replace(fixed, loads={case: value * more for case, value in question.loads.items()})
    before = {each.name: each.ratio for each in size_pad(fixed, US_DEFAULT).checks}
    after = {each.name: each.ratio for each in size_pad(heavier, US_DEFAULT).checks}
    assert all(after[name] >= before[name] * (1 - 1e-9) for name in before)
    bigger = solved(replace(question, loads=heavier.loads))
    assert bigger is None or bigger.pad.side >= found.pad.side


@settings(max_examples=40, deadline=None)
@given(
    st.floats(40, 90),
    st.floats(40, 90),
    st.sampled_from([(5.5, 3.5), (8.0, 4.0), (6.0, 6.0)]),
    st.floats(0, 2),
    st.floats(0, 2),
    st.integers(3, 9),
    st.integers(3, 9),
    st.booleans(),
)
def test_a_pad_turned_round_has_the_same_ratios(
    L: float,
    W: float,
    post: tuple[float, float],
    e_1: float,
    e_2: float,
    n_1: int,
    n_2: int,
    with_bars: bool,
) -> None:
    def ratios(turned: bool) -> dict[str, float]:
        sides, offs, counts, base = (L, W), (e_1, e_2), (n_1, n_2), post
        if turned:
            sides, offs, counts, base = sides[::-1], offs[::-1], counts[::-1], base[::-1]
        question = FootingQuestion(
            {"dead": 9000.0, "live": 9000.0},
            2000 / 144,
            Base(*base),
            thickness=16.0,
            length=sides[0],
            width=sides[1],
            off_length=offs[0],
            off_width=offs[1],
            reinforcement=Reinforcement(NUMBER_4, *counts) if with_bars else None,
        )
        return {each.name: each.ratio for each in size_pad(question, US_DEFAULT).checks}

    assert ratios(True) == pytest.approx(ratios(False), rel=1e-9)
