"""Part 9's table of footings beside the calculation, old footings and piles, under the Canadian code."""

from __future__ import annotations

from typing import Any

import pytest

from structure.core.cases.registry import run_case
from structure.core.clauses import CA_DEFAULT
from structure.core.errors import InputError
from structure.core.members.ca_part9 import Part9Question, least_area, least_width, strip_beside

LOADS = [{"case": "dead", "value": "7.35 kN"}, {"case": "live", "value": "27.93 kN"}]
PAD: dict[str, Any] = {"loads": LOADS, "soil": "75 kPa", "post": "140 mm"}
STRIP = {
    "kind": "strip",
    "width": "400 mm",
    "thickness": "200 mm",
    "known": "measured",
    "wall": {"height": "2.4 m", "thickness": "200 mm", "material": "concrete"},
}


def answer(kind: str = "footing", **given: Any) -> dict[str, Any]:
    return run_case({"kind": kind, "code": "ca", "given": given})


def pad(**given: Any) -> dict[str, Any]:
    return answer(**PAD | given)


@pytest.mark.parametrize(("storeys", "area"), [(1, 0.40e6), (2, 0.75e6), (3, 1.0e6)])
def test_areas_under_columns(storeys: int, area: float) -> None:
    assert least_area(Part9Question(storeys), CA_DEFAULT).value == pytest.approx(area)
    half = least_area(Part9Question(storeys, spacing=1500.0), CA_DEFAULT).value
    assert half == pytest.approx(area / 2)
    wet = least_area(Part9Question(storeys, water_near=True), CA_DEFAULT).value
    assert wet == pytest.approx(2 * area)


def test_short_joists_take_nothing_off_and_long_ones_add() -> None:
    assert least_area(Part9Question(2, joists=(3000.0, 3000.0)), CA_DEFAULT).value == pytest.approx(0.75e6)
    long = least_area(Part9Question(2, joists=(9800.0, 4900.0)), CA_DEFAULT).value
    assert long == pytest.approx(0.75e6 * 1.5)
    assert pad(part9={"storeys": 2, "joists": "7.35 m"})["part9"]["area"]["value"] == pytest.approx(1.125e6)


@pytest.mark.parametrize(
    ("asked", "width"),
    [
        (Part9Question(1), 250),
        (Part9Question(3), 450),
        (Part9Question(1, wall="interior"), 200),
        (Part9Question(3, wall="interior"), 500),
        (Part9Question(2, veneer=2), 350 + 130),
        (Part9Question(2, masonry=1), 350 + 130),
        (Part9Question(2, wall="interior", masonry=2), 350 + 200),
        (Part9Question(1, veneer=1, water_near=True), 2 * (250 + 65)),
    ],
)
def test_widths_of_strips(asked: Part9Question, width: float) -> None:
    assert least_width(asked, CA_DEFAULT).value == pytest.approx(width)


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        (Part9Question(2, joists=(1000.0,)), "part9.joists"),
        (Part9Question(2, wall="interior", veneer=1), "part9.veneer_storeys"),
        (Part9Question(1, veneer=2), "part9.masonry_storeys"),
    ],
)
def test_what_the_table_can_not_be_asked(asked: Part9Question, field: str) -> None:
    with pytest.raises(InputError) as caught:
        least_width(asked, CA_DEFAULT)
    assert caught.value.field == field


def test_a_table_smaller_than_the_calculation_is_shown_and_warned_of() -> None:
    result = pad(part9={"storeys": 1})
    beside = result["part9"]
    assert beside["area"]["value"] < result["required_side"]["value"] ** 2
    assert beside["smaller"] is True
    assert "the larger is to be built" in beside["warning"]
    assert beside["warning"] in result["remarks"]
    assert result["side"]["value"] > beside["side"]["value"]
    assert beside["clause"] == "NBC 2020 9.15.3.4."


def test_a_table_larger_than_the_calculation_sizes_the_pad() -> None:
    alone, asked = pad(soil="200 kPa"), pad(soil="200 kPa", part9={"storeys": 3})
    assert alone["side"]["value"] < 1000 == asked["side"]["value"]
    assert asked["part9"]["smaller"] is False
    assert "Section 4.2" in asked["part9"]["warning"]
    assert asked["checks"]["part9_area"]["ratio"] == pytest.approx(1.0)
    one_side = pad(soil="200 kPa", part9={"storeys": 3}, side={"width": "800 mm"})
    assert one_side["length"]["value"] == 1250
    mat = pad(soil="200 kPa", part9={"storeys": 3}, reinforcement={"bar": "15M"})
    assert mat["side"]["value"] == 1000
    assert mat["checks"]["part9_area"]["passes"] is True


def test_a_given_pad_under_the_table_fails_and_keeps_its_thickness() -> None:
    asked = {"soil": "400 kPa", "side": "700 mm"}
    result = pad(**asked, part9={"storeys": 2})
    assert [name for name, held in result["checks"].items() if not held["passes"]] == ["part9_area"]
    assert result["thickness"] == pad(**asked)["thickness"]


def test_without_storeys_the_thickness_alone_is_told() -> None:
    result = pad(side="700 mm", thickness="300 mm")
    beside = result["part9"]
    assert (beside["area"], beside["side"], beside["warning"], beside["smaller"]) == (None, None, None, None)
    assert beside["thickness"]["value"] == pytest.approx(280)
    assert beside["clause"] == "NBC 2020 9.15.3.8."
    assert "part9_area" not in result["checks"]


def test_weak_soil_is_outside_the_table() -> None:
    result = pad(soil="60 kPa", soil_from="investigation", part9={"storeys": 1})
    assert result["part9"]["area"] is None
    assert "part9_area" not in result["checks"]


def test_table_and_calculation_that_agree_say_nothing() -> None:
    least = least_width(Part9Question(1), CA_DEFAULT)
    assert strip_beside(least, 250.0, 50.0, CA_DEFAULT)["warning"] is None
    assert strip_beside(least, 250.0, 50.0, CA_DEFAULT)["smaller"] is False


def test_an_old_strip_beside_its_table() -> None:
    result = answer(
        "existing_pad",
        loads=LOADS,
        soil_class="firm_clay",
        post="140 mm",
        pad=STRIP,
        part9={"storeys": 2, "wall": "interior"},
    )
    # 140 mm and 45 degrees through 2.6 m: 5.34 m. 35.28 kN on 75 less 4.8 kPa: 94 mm wide.
    assert result["length"]["value"] == pytest.approx(5340)
    assert result["part9"]["width"]["value"] == pytest.approx(350)
    assert result["part9"]["thickness"]["value"] == pytest.approx(100)
    assert result["part9"]["smaller"] is False
    assert "94.11 mm" in result["part9"]["warning"]
    assert any("15 MPa is assumed" in each for each in result["questions"])


def test_an_old_pad_that_the_soil_can_not_carry_at_all() -> None:
    result = answer(
        "existing_pad",
        loads=LOADS,
        soil="40 kPa",
        soil_from="investigation",
        post="140 mm",
        pad={"kind": "pad", "side": "800 mm", "thickness": "2 m", "known": "assumed"},
        part9={"storeys": 1},
    )
    assert result["checks"]["soil"]["passes"] is False
    assert "part9" not in result
    heavy = answer(
        "existing_pad",
        loads=LOADS,
        soil="75 kPa",
        post="140 mm",
        pad={"kind": "pad", "side": "800 mm", "thickness": "4 m", "known": "assumed"},
        part9={"storeys": 1},
    )
    assert heavy["part9"]["smaller"] is True


@pytest.mark.parametrize(
    ("found", "clause"),
    [
        ({"kind": "slab", "known": "measured"}, "NBC 2020 9.15.3.8."),
        ({"kind": "pad", "side": "600 mm", "known": "assumed"}, "NBC 2020 9.15.3.8."),
        (STRIP | {"wall": STRIP["wall"] | {"material": "masonry"}}, "NBC 2020 9.4.1.1."),  # type: ignore[operator]
    ],
)
def test_old_footings_that_are_refused(found: dict[str, Any], clause: str) -> None:
    result = answer("existing_pad", loads=LOADS, soil="75 kPa", post="140 mm", pad=found)
    assert (result["status"], result["clause"]) == ("refused", clause)


def test_sizes_of_an_old_footing_that_can_not_be_speak_millimetres() -> None:
    for found, text in (
        ({"kind": "pad", "side": "600 mm", "thickness": "50 mm", "known": "measured"}, "50 mm"),
        (STRIP | {"width": "200 mm"}, "200 mm"),
    ):
        with pytest.raises(InputError) as caught:
            answer("existing_pad", loads=LOADS, soil="75 kPa", post="140 mm", pad=found)
        assert text in str(caught.value)


def test_a_pile_says_what_a_screw_pile_needs() -> None:
    result = answer("pile", loads=LOADS, capacity="40 kN", source="the installer's letter")
    assert result["ratio"] == pytest.approx(35.28 / 40)
    assert result["load"]["unit"] == "kN"
    said = " ".join(result["remarks"])
    assert "certified installer" in said
    assert "NBC 2020 9.4.4.1.(3)" in said
    us = run_case(
        {
            "kind": "pile",
            "code": "us",
            "given": {"loads": LOADS, "capacity": "40 kN", "source": "the installer's letter"},
        }
    )
    assert "certified installer" not in " ".join(us["remarks"])
