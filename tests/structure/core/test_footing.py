"""Plain concrete pads: ACI 318-19 chapter 14, soil, and the sizes of IRC R403.1.1, by hand sums."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.clauses import US_DEFAULT
from structure.core.errors import InputError
from structure.core.members.footing import size_pad
from structure.core.members.footing_pad import Base
from structure.core.members.footing_question import FootingQuestion

LOADS = [{"case": "dead", "value": "5000 lbf"}, {"case": "live", "value": "7000 lbf"}]
PAD: dict[str, Any] = {"loads": LOADS, "soil": "1500 psf", "post": "5.5 in", "plain": True}


def answer(**given: Any) -> dict[str, Any]:
    return run_case({"kind": "footing", "code": "us", "given": PAD | given})


def check(name: str, **given: Any) -> dict[str, Any]:
    found: dict[str, Any] = answer(**given)["checks"][name]
    return found


def test_the_side_is_solved_from_gross_pressure_and_rounded_up() -> None:
    # 12,000 / (1500 - 150) = 8.889 sq ft, 35.78 in; gross at 36 in: 12,000/9 + 150 = 1,483 psf.
    result = answer(thickness="12 in")
    assert result["required_side"]["value"] == pytest.approx(35.777, abs=0.001)
    assert result["side"]["value"] == 36
    assert result["pressure"]["value"] == pytest.approx(12000 / 9 + 150)
    assert result["volume"]["value"] == pytest.approx(9)


def test_net_soil_leaves_the_pad_out() -> None:
    result = answer(thickness="12 in", net=True)
    assert result["required_side"]["value"] == pytest.approx((12000 / 1500) ** 0.5 * 12)
    assert result["pressure"]["value"] == pytest.approx(12000 / (34 / 12) ** 2)


@pytest.mark.parametrize(
    ("name", "demand", "capacity"),
    [
        # h = 10 in, q_u = 17,200/1,296 = 13.272 psi, root of f'c = 50 psi, phi 0.60
        ("punching", 17200 * (1296 - 15.5**2) / 1296, 0.6 * 2 * 4 / 3 * 50 * 62 * 10),
        ("one_way_shear", 17200 / 36 * (15.25 - 10), 0.6 * 4 / 3 * 50 * 36 * 10),
        ("flexure", 17200 / 36 * 15.25**2 / 2 / 12, 0.6 * 5 * 50 * 36 * 100 / 6 / 12),
        ("bearing", 17200, 0.6 * 0.85 * 2500 * 5.5**2 * 2),
        ("projection", 15.25, 12),
        ("projection_least", 2, 15.25),
        ("thickness", 6, 12),
        ("thickness_plain", 8, 12),
    ],
)
def test_each_check_by_hand(name: str, demand: float, capacity: float) -> None:
    found = check(name, thickness="12 in")
    assert found["demand"]["value"] == pytest.approx(demand)
    assert found["capacity"]["value"] == pytest.approx(capacity)
    assert found["passes"] is (demand <= capacity)


def test_the_projection_rule_fails_a_pad_that_the_concrete_checks_would_pass() -> None:
    result = answer(thickness="12 in")
    assert [name for name, held in result["checks"].items() if not held["passes"]] == ["projection"]
    assert (result["passes"], result["governing"]) == (False, "projection")


def test_both_sizes_are_solved_to_the_thinnest_pad_that_passes() -> None:
    result = answer()
    assert result["passes"] is True
    assert (result["side"]["value"], result["thickness"]["value"]) == (38, 18)
    assert result["solved"] == ["side", "thickness"]
    assert answer(thickness="16 in")["passes"] is False


def test_a_step_is_kept() -> None:
    result = answer(step="6 in")
    assert result["side"]["value"] % 6 == 0
    assert result["thickness"]["value"] % 6 == 0


def test_a_given_side_that_the_soil_fails_is_told_and_not_refused() -> None:
    result = answer(side="2 ft", thickness="12 in")
    assert result["status"] == "ok"
    assert result["checks"]["soil"]["ratio"] == pytest.approx((12000 / 4 + 150) / 1500)
    assert result["passes"] is False
    thickness = answer(side="2 ft")["thickness"]["value"]
    assert thickness == 10  # projection 9.25 in; no thickness mends the soil


def test_a_plate_takes_its_sections_halfway_to_the_post() -> None:
    # 8 x 6 plate, 3.5 post: c 5.75 and 4.75; longer projection (24 - 4.75)/2 = 9.625.
    plate = {"length": "8 in", "width": "6 in", "column": "3.5 in"}
    given = {"post": plate, "side": "24 in", "thickness": "10 in"}
    q_u, h = 17200 / 576, 8
    assert check("flexure", **given)["demand"]["value"] == pytest.approx(q_u * 24 * 9.625**2 / 2 / 12)
    demand = q_u * (576 - (5.75 + h) * (4.75 + h))
    assert check("punching", **given)["demand"]["value"] == pytest.approx(demand)
    assert check("projection_least", **given)["capacity"]["value"] == pytest.approx(8)
    assert check("bearing", **given)["capacity"]["value"] == pytest.approx(0.6 * 0.85 * 2500 * 48 * 2)


def test_a_plate_without_its_post_is_taken_for_the_worse_and_said() -> None:
    given = {"side": "24 in", "thickness": "10 in"}
    bare, known = ({"length": "8 in", "width": "8 in"} | extra for extra in ({}, {"column": "4 in"}))
    assert (
        check("flexure", post=bare, **given)["demand"]["value"]
        > check("flexure", post=known, **given)["demand"]["value"]
    )
    assert any("no width" in remark for remark in answer(post=bare, **given)["remarks"])


def test_a_long_plate_lowers_two_way_strength() -> None:
    # beta 4: 1 + 2/4 = 1.5 in place of 2. c = 8 and 2 with no post known: halves of 16 and 4.
    given = {"post": {"length": "16 in", "width": "4 in"}, "side": "40 in", "thickness": "12 in"}
    b_o = 2 * (8 + 10 + 2 + 10)
    assert check("punching", **given)["capacity"]["value"] == pytest.approx(0.6 * 1.5 * 4 / 3 * 50 * b_o * 10)


def test_light_concrete_loses_strength() -> None:
    given = {"side": "36 in", "thickness": "12 in"}
    light = {"fc": "2500 psi", "density": "120 lbf/ft**3"}
    ratio = check("flexure", concrete=light, **given)["ratio"] / check("flexure", **given)["ratio"]
    assert ratio == pytest.approx(1 / 0.9)  # 0.0075 x 120
    assert answer(concrete=light, **given)["pressure"]["value"] == pytest.approx(12000 / 9 + 120)


def test_the_combination_that_governs_is_named_for_each() -> None:
    loads = [*LOADS, {"case": "snow", "value": "9000 lbf"}]
    result = answer(loads=loads, side="6 ft", thickness="36 in")
    # soil: 5,000 + 0.75 (7,000 + 9,000) = 17,000 over D+S 14,000; concrete: 6,000 + 14,400 + 7,000
    assert result["checks"]["soil"]["combination"] == "D+0.75L+0.75S"
    assert result["pressure"]["value"] == pytest.approx(17000 / 36 + 450)
    assert result["checks"]["bearing"]["combination"] == "1.2D+1.6S+1.0L"
    assert result["checks"]["bearing"]["demand"]["value"] == pytest.approx(27400)


def test_dead_alone_takes_one_point_four() -> None:
    found = check("bearing", loads=[{"case": "dead", "value": "10 kip"}], thickness="18 in")
    assert (found["combination"], found["demand"]["value"]) == ("1.4D", pytest.approx(14000))


def test_a_ratio_of_exactly_one_passes() -> None:
    # 13,500 lbf on 9 sq ft is 1,500 psf net.
    result = answer(
        loads=[{"case": "dead", "value": "13500 lbf"}], net=True, side="3 ft", thickness="20 in", post="7 in"
    )
    assert (result["checks"]["soil"]["ratio"], result["checks"]["soil"]["passes"]) == (1.0, True)


def test_an_existing_pad_needs_both_measured_sizes_and_stays_a_question() -> None:
    result = answer(existing=True, side="30 in", thickness="8 in")
    assert any("engineer to confirm" in remark for remark in result["remarks"])
    with pytest.raises(InputError, match="thickness"):
        answer(existing=True, side="30 in")


def test_a_six_inch_pad_meets_the_irc_and_not_aci() -> None:
    result = answer(loads=[{"case": "dead", "value": "1 kip"}], side="16 in", thickness="6 in")
    assert (result["checks"]["thickness"]["passes"], result["checks"]["thickness_plain"]["passes"]) == (
        True,
        False,
    )


@pytest.mark.parametrize(
    ("given", "clause"),
    [
        ({"soil": "1000 psf", "soil_from": "presumptive"}, "IRC 2021 R401.4.1"),
        ({"soil": "13000 psf"}, "IRC 2021 Table R401.4.1"),
        ({"concrete": {"fc": "2000 psi"}}, "ACI 318-19 Table 19.2.1.1"),
        ({"concrete": {"density": "80 lbf/ft**3"}}, "ACI 318-19 19.2.2.1"),
        ({"loads": [{"case": "dead", "value": "-100 lbf"}]}, "ASCE 7-16 2.4.1"),
        ({"loads": [{"case": "dead", "value": "200 kip"}]}, "ACI 318-19 13.3"),
        ({"side": "36 in", "eccentricity": "6.1 in"}, "ACI 318-19 13.3.1.1"),
    ],
)
def test_what_is_out_of_reach_is_refused_with_its_clause(given: dict[str, Any], clause: str) -> None:
    result = answer(**given)
    assert (result["status"], result["clause"]) == ("refused", clause)


def test_poor_soil_from_an_investigation_is_worked() -> None:
    result = answer(soil="1000 psf", soil_from="investigation")
    assert result["passes"] is True
    assert not any("soils investigation" in remark for remark in result["remarks"])


def test_poor_soil_of_unsaid_origin_is_worked_and_asks_for_the_investigation() -> None:
    result = answer(soil="1000 psf")
    assert result["passes"] is True
    assert any("soils investigation" in remark for remark in result["remarks"])


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"side": "5 in"}, "given.side"),
        ({"thickness": "2 in"}, "given.thickness"),
        ({"thickness": "13 ft"}, "given.thickness"),
        ({"step": "0.01 in"}, "given.step"),
        ({"post": "0 in"}, "given.post"),
        ({"post": {"length": "4 in", "width": "4 in", "column": "6 in"}}, "given.post.column"),
        ({"loads": []}, "given.loads"),
        ({"loads": [{"case": "dead", "value": "0 lbf"}]}, "given.loads"),
        ({"plain": False}, "given.plain"),
        ({"reinforcement": {"bar": "#4", "count": 4, "fy": "60 ksi"}}, "given.plain"),
        ({"width": "3 ft"}, "given.width"),
    ],
)
def test_bad_fields_are_named(given: dict[str, Any], field: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(**given)
    assert caught.value.field == field


def test_every_check_of_strength_unfolds_to_its_last_number() -> None:
    checks = answer()["checks"]
    for name in ("soil", "punching", "one_way_shear", "flexure", "bearing"):
        steps = checks[name]["steps"]
        assert steps
        results = {(step["symbol"], step["result"]) for step in steps}
        if name != "soil":
            assert any(symbol.startswith("phi") for symbol, _ in results)


@settings(max_examples=60)
@given(st.floats(500, 14000), st.floats(0, 14000), st.sampled_from([1500, 2000, 3000, 4000]))
def test_a_solved_pad_passes_and_a_step_less_in_side_does_not(dead: float, live: float, psf: int) -> None:
    question = FootingQuestion({"dead": dead, "live": live}, psf / 144, Base(5.5, 5.5))
    found = size_pad(question, US_DEFAULT)
    assert found.passes
    least = found.pad.base.length + 4
    if found.pad.side - 2 >= least:
        smaller = size_pad(
            FootingQuestion(
                question.loads,
                question.soil,
                question.base,
                side=found.pad.side - 2,
                thickness=found.pad.thickness,
            ),
            US_DEFAULT,
        )
        assert not smaller.checks[0].passes


@settings(max_examples=40)
@given(st.floats(1000, 20000), st.floats(1.01, 1.6))
def test_more_load_never_means_a_smaller_pad(load: float, more: float) -> None:
    one, other = (
        size_pad(FootingQuestion({"dead": value}, 1500 / 144, Base(5.5, 5.5)), US_DEFAULT)
        for value in (load, load * more)
    )
    assert other.pad.side >= one.pad.side
    assert other.volume >= one.volume
