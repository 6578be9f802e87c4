"""Pads under the Canadian code: CSA A23.3 by hand sums, soil classes of the NBC, and what any pad obeys."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.cases.registry import KINDS, run_case
from structure.core.clauses import CA_DEFAULT, US_DEFAULT
from structure.core.codes.ca import concrete_reinforced as code
from structure.core.errors import InputError
from structure.core.members.ca_footing_remarks import frost_remark
from structure.core.members.ca_footing_scope import soil_classes
from structure.core.members.footing_pad import bar_sizes, find_bar

LOADS = [{"case": "dead", "value": "20 kN"}, {"case": "live", "value": "40 kN"}]
PAD: dict[str, Any] = {"loads": LOADS, "soil": "100 kPa", "post": "140 mm"}
BARS = {"bar": "15M", "count": 8}


def answer(**given: Any) -> dict[str, Any]:
    return run_case({"kind": "footing", "code": "ca", "given": PAD | given})


def check(name: str, **given: Any) -> dict[str, Any]:
    found: dict[str, Any] = answer(**given)["checks"][name]
    return found


def value(held: Any) -> float:
    return float(held["value"] if isinstance(held, dict) else held)


# 85 kN factored on 0.81 m2, h 350 mm, root of 20 MPa, phi_c 0.65.
ROOT = math.sqrt(20)
Q = 85.0 / 0.81


@pytest.mark.parametrize(
    ("name", "demand", "capacity"),
    [
        ("soil", 60 / 0.81 + 24 * 0.4, 100),
        ("punching", 85 - Q * 0.49**2, 2 / 3 * 2 * 0.18 * 0.65 * ROOT * 4 * 490 * 350 / 1e3),
        ("one_way_shear", Q * 0.9 * 0.03, 2 / 3 * 0.18 * 0.65 * ROOT * 900 * 350 / 1e3),
        ("flexure", Q * 0.9 * 0.38**2 / 2, 0.37 * 0.65 * ROOT * 900 * 350**2 / 6 / 1e6),
        ("bearing", 85, 0.85 * 0.65 * 20 * 140**2 * 2 / 1e3),
        ("projection", 380, 400),
        ("thickness", 100, 400),
    ],
)
def test_each_check_of_a_plain_pad_by_hand(name: str, demand: float, capacity: float) -> None:
    found = check(name, side="900 mm", thickness="400 mm")
    assert value(found["demand"]) == pytest.approx(demand)
    assert value(found["capacity"]) == pytest.approx(capacity)


def test_a_plain_pad_has_no_other_check() -> None:
    assert list(answer()["checks"]) == [
        "soil",
        "punching",
        "one_way_shear",
        "flexure",
        "bearing",
        "projection",
        "thickness",
    ]


def test_clauses_are_those_of_canada_and_steps_in_its_units() -> None:
    for result in (answer(), answer(reinforcement=BARS), answer(eccentricity="40 mm")):
        for found in result["checks"].values():
            assert found["clause"].startswith(("CSA A23.3:19", "NBC 2020")), found["clause"]
            for step in found["steps"]:
                assert not {"lbf", "in", "psi", "lbf*in"} & {v["unit"] for v in step["values"]}
                assert "ACI" not in step["clause"]
                assert "IRC" not in step["clause"]
        assert result["volume"]["unit"] == "m**3"
        assert result["pressure"]["unit"] == "kPa"


def test_sizes_are_solved_to_fifty_millimetres_and_a_step_is_kept() -> None:
    result = answer()
    assert (value(result["side"]), value(result["thickness"])) == (850, 400)
    assert result["passes"] is True
    assert value(answer(step="75 mm")["side"]) % 75 == 0
    assert KINDS["footing"].schema("ca")["fields"]["step"]["default"] == "50 mm"
    assert KINDS["footing"].schema("us")["fields"]["step"]["default"] == "2 in"
    assert "soil_class" not in KINDS["footing"].schema("us")["fields"]


def test_the_same_pad_in_feet_and_pounds() -> None:
    loads = [{"case": "dead", "value": "4496.18 lbf"}, {"case": "live", "value": "8992.36 lbf"}]
    feet = answer(loads=loads, soil="2088.54 psf", post="5 33/64 in", side="3 ft", thickness="16 in")
    metric = answer(post="140.1 mm", side="914.4 mm", thickness="406.4 mm")
    assert value(feet["pressure"]) == pytest.approx(value(metric["pressure"]), rel=1e-4)
    assert feet["checks"]["flexure"]["ratio"] == pytest.approx(metric["checks"]["flexure"]["ratio"], rel=1e-3)


def test_beta_falls_with_depth_past_350_mm() -> None:
    assert code.shear_factor(350.0, 350.0, 300.0) == 0.21
    assert code.shear_factor(351.0, 350.0, 300.0) == pytest.approx(230 / 1300)


def test_deep_pads_lose_two_way_shear_unless_they_are_short() -> None:
    assert not code.loses_by_depth(300.0, 5000.0)
    assert not code.loses_by_depth(400.0, 1199.0)
    assert code.loses_by_depth(400.0, 1200.0)
    assert code.deep_pad_factor(300.0) == 1.0


def test_the_three_expressions_of_two_way_shear() -> None:
    common = {"phi_c": 0.65, "sqrt_fc": 5.0}
    long_plate = code.punching_stress(beta_c=4.0, alpha_s=4.0, d=200.0, b_o=1000.0, **common)
    far = code.punching_stress(beta_c=1.0, alpha_s=4.0, d=100.0, b_o=4000.0, **common)
    short = code.punching_stress(beta_c=1.0, alpha_s=4.0, d=200.0, b_o=1000.0, **common)
    assert (long_plate, far, short) == pytest.approx((1.5 * 0.19 * 3.25, 0.29 * 3.25, 0.38 * 3.25))


@pytest.mark.parametrize(("cover", "s", "k"), [(75, 48, 0.45), (75, 47.9, 0.6), (15.9, 200, 0.6)])
def test_development_asks_for_more_where_bars_lie_close(cover: float, s: float, k: float) -> None:
    assert code.confinement(cover, 16.0, s) == k


def test_bars_are_those_of_canada() -> None:
    assert bar_sizes(CA_DEFAULT) == ("10M", "15M", "20M", "25M", "30M")
    assert find_bar("15M", CA_DEFAULT).weight == pytest.approx(1.57 * 9.80665 / 1000)
    assert "#4" in bar_sizes(US_DEFAULT)
    with pytest.raises(InputError) as caught:
        answer(reinforcement={"bar": "#4"})
    assert caught.value.field == "given.reinforcement.bar"
    assert "15M" in str(caught.value)


def test_bars_are_solved_and_all_checks_met() -> None:
    loads = [{"case": "dead", "value": "60 kN"}, {"case": "live", "value": "90 kN"}]
    result = answer(loads=loads, reinforcement={"bar": "15M"})
    assert result["passes"] is True
    assert result["solved"] == ["side", "thickness", "bars"]
    assert result["checks"]["minimum_steel"]["passes"] is True
    assert "projection" not in result["checks"]
    assert value(result["bars"]["cover"]) == 75


def test_a_long_pad_is_the_same_turned() -> None:
    one = answer(side={"length": "1200 mm", "width": "800 mm"}, thickness="500 mm")
    other = answer(side={"length": "800 mm", "width": "1200 mm"}, thickness="500 mm")
    for name, held in one["checks"].items():
        assert held["ratio"] == pytest.approx(other["checks"][name]["ratio"])


def test_a_side_that_is_left_out_is_solved() -> None:
    result = answer(side={"width": "600 mm"}, thickness="500 mm")
    assert value(result["required_side"]) == pytest.approx(60 / (100 - 12) / 0.6 * 1000)
    assert value(result["length"]) == 1150


@pytest.mark.parametrize("row", soil_classes(), ids=lambda row: row.id)
def test_every_soil_class_gives_its_pressure_and_no_more(row: Any) -> None:
    given = {"soil": None, "soil_class": row.id, "side": "2 m", "thickness": "1 m"}
    assert value(check("soil", **given)["capacity"]) == pytest.approx(row.value * 1000)
    more = f"{row.value * 1000 + 1} kPa"
    assert answer(**given | {"soil": more})["clause"] == "NBC 2020 Table 9.4.4.1."
    if row.value < 0.5:
        looked_at = answer(**given | {"soil": more, "soil_from": "investigation"})
        assert looked_at["status"] == "ok"


@pytest.mark.parametrize(
    ("given", "clause"),
    [
        ({"soil": "74 kPa", "soil_from": "presumptive"}, "NBC 2020 9.15.1.1."),
        ({"soil": "76 kPa", "soil_from": "presumptive"}, "NBC 2020 Table 9.4.4.1."),
        ({"soil": "501 kPa", "soil_from": "investigation"}, "NBC 2020 Table 9.4.4.1."),
        ({"concrete": {"fc": "14.9 MPa"}}, "NBC 2020 9.3.1.6."),
        ({"concrete": {"fc": "65 MPa"}}, "CSA A23.3:19 11.3.4"),
        ({"concrete": {"density": "18 kN/m**3"}}, "CSA A23.3:19 8.6.5"),
        ({"concrete": {"fc": "15 MPa"}, "reinforcement": BARS}, "CSA A23.3:19 8.6.1.1"),
        ({"reinforcement": BARS | {"fy": "550 MPa"}}, "CSA A23.3:19 8.5.1"),
        ({"loads": [{"case": "dead", "value": "-1 kN"}]}, "NBC 2020 4.1.3.2."),
        ({"side": "600 mm", "eccentricity": "101 mm"}, "CSA A23.3:19 15.2"),
        ({"loads": [{"case": "live", "value": "9 MN"}], "soil": "500 kPa"}, "CSA A23.3:19 15"),
    ],
)
def test_what_is_out_of_reach_is_refused_by_clause(given: dict[str, Any], clause: str) -> None:
    result = answer(**given)
    assert result["status"] == "refused"
    assert result["clause"] == clause


def test_edges_of_the_scope_are_inside() -> None:
    for asked in (
        {"soil": "75 kPa", "soil_from": "presumptive"},
        {"concrete": {"fc": "15 MPa"}},
        {"concrete": {"fc": "64 MPa"}},
        {"side": "700 mm", "thickness": "400 mm", "eccentricity": "100 mm", "soil": "500 kPa"},
    ):
        assert answer(**asked)["status"] == "ok"


@pytest.mark.parametrize(
    ("given", "field", "text"),
    [
        ({"soil": None}, "given.soil", "presumptive"),
        ({"soil_class": "mud"}, "given.soil_class", "firm_clay"),
        ({"step": "1 mm"}, "given.step", "300 mm"),
        ({"side": "100 mm"}, "given.side", "140 mm"),
        ({"thickness": "50 mm"}, "given.thickness", "50 mm"),
        ({"thickness": "5 m"}, "given.thickness", "mm"),
        ({"reinforcement": BARS, "thickness": "90 mm"}, "given.thickness", "99 mm"),
        ({"reinforcement": BARS, "side": "160 mm"}, "given.side", "75 mm"),
        ({"post": {"length": "100 mm", "width": "90 mm", "column": "95 mm"}}, "given.post.column", "plate"),
        ({"reinforcement": BARS, "plain": True}, "given.plain", "not both"),
        ({"existing": True, "side": "1 m"}, "given.thickness", "measured"),
    ],
)
def test_bad_sizes_name_the_field_and_speak_millimetres(given: dict[str, Any], field: str, text: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(**given)
    assert caught.value.field == field
    assert text in str(caught.value)
    assert " in;" not in str(caught.value)


def test_weak_soil_is_said_to_be_outside_part_9() -> None:
    remarks = answer(soil="60 kPa", soil_from="investigation")["remarks"]
    assert any("Section 9.15 does not reach it" in each for each in remarks)
    assert not any("does not reach" in each for each in answer()["remarks"])


def test_a_thin_pad_and_bars_are_remarked() -> None:
    assert any("200 mm" in each for each in answer(side="400 mm", thickness="150 mm")["remarks"])
    assert any("aggregate up to 20 mm" in each for each in answer(reinforcement=BARS)["remarks"])


@pytest.mark.parametrize(
    ("group", "heated", "text"),
    [
        ("coarse", True, "no least depth"),
        ("silt", True, "no least depth"),
        ("rock", False, "no least depth"),
        ("clay", True, "1.2 m below finished ground"),
        (None, True, "1.2 m below finished ground"),
        ("silt", False, "below the depth of frost"),
        ("clay", False, "1.2 m below finished ground and below the depth of frost"),
    ],
)
def test_frost(group: str | None, heated: bool, text: str) -> None:
    remark = frost_remark(group, heated, CA_DEFAULT)
    assert text in remark
    assert "9.12.2.2." in remark


def test_frost_is_told_by_the_space_over_the_pad() -> None:
    given = {"soil": None, "soil_class": "dense_silt"}
    assert any("no least depth" in each for each in answer(**given)["remarks"])
    assert any("depth of frost" in each for each in answer(**given, space="unheated")["remarks"])


@settings(max_examples=40)
@given(
    dead=st.integers(1, 80),
    live=st.integers(1, 120),
    soil=st.integers(75, 300),
    more=st.integers(1, 40),
    bars=st.booleans(),
)
def test_more_load_never_makes_a_smaller_pad_and_better_soil_never_a_larger_one(
    dead: int, live: int, soil: int, more: int, bars: bool
) -> None:
    def solved(dead: int, live: int, soil: int) -> dict[str, Any]:
        loads = [{"case": "dead", "value": f"{dead} kN"}, {"case": "live", "value": f"{live} kN"}]
        mat = {"reinforcement": {"bar": "15M"}} if bars else {}
        return answer(loads=loads, soil=f"{soil} kPa", **mat)

    one = solved(dead, live, soil)
    assert one["status"] == "ok"
    assert one["passes"]
    assert value(solved(dead, live + more, soil)["required_side"]) >= value(one["required_side"])
    assert value(solved(dead, live, soil + more)["side"]) <= value(one["side"])


@settings(max_examples=40)
@given(side=st.integers(8, 25), thickness=st.integers(4, 20), bars=st.booleans())
def test_a_thicker_pad_is_never_weaker(side: int, thickness: int, bars: bool) -> None:
    given: dict[str, Any] = {"side": f"{side * 100} mm"}
    if bars:
        given["reinforcement"] = {"bar": "15M", "count": 8}
    thin = answer(thickness=f"{thickness * 50} mm", **given)
    thick = answer(thickness=f"{thickness * 50 + 50} mm", **given)
    for name in ("flexure", "one_way_shear"):
        assert thick["checks"][name]["ratio"] <= thin["checks"][name]["ratio"] + 1e-12
    assert thick["checks"]["soil"]["ratio"] > thin["checks"]["soil"]["ratio"]
