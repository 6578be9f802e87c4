"""Loads carried down, statics and links under the Canadian code: the same numbers as in pounds, other limits."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.errors import InputError

KPA, KN_M, KN = 0.04788025898, 0.01459390294, 0.00444822162
FLOOR = {
    "kind": "floor",
    "left": {"span": "3.6 m", "support": "simple"},
    "right": {"span": "4.2 m", "support": "simple"},
    "dead": "0.5 kPa",
    "live": "1.9 kPa",
}


def down(*levels: dict[str, Any], code: str = "ca") -> dict[str, Any]:
    return run_case({"kind": "takedown", "code": code, "given": {"levels": list(levels)}})


@settings(deadline=None, max_examples=40)
@given(
    st.floats(6.0, 20.0),
    st.floats(6.0, 20.0),
    st.floats(5.0, 60.0),
    st.sampled_from(["simple", "continuous"]),
    st.sampled_from(["perpendicular", "parallel"]),
)
def test_a_level_typed_in_feet_brings_the_same_load_in_both_codes(
    left: float, right: float, psf: float, support: str, framing: str
) -> None:
    level = {
        "kind": "floor",
        "framing": framing,
        "left": {"span": f"{left:.4f} ft", "support": support},
        "right": {"span": f"{right:.4f} ft", "support": support},
        "spacing": "16 in",
        "dead": "12 psf",
        "live": f"{psf:.4f} psf",
        "wall_above": {"height": "8 ft", "weight": "6 psf"},
    }
    american, canadian = down(level, code="us")["line"], down(level)["line"]
    for case, value in american.items():
        assert canadian[case]["unit"] == "kN/m"
        assert canadian[case]["value"] == pytest.approx(value["value"] * KN_M, rel=1e-6)


def test_lines_are_told_in_metric_units_and_the_sum_of_layers_too() -> None:
    layers = [{"layer": "boards", "value": "0.1 kPa"}, {"layer": "joists", "value": "0.2 kPa"}]
    steps = down(FLOOR | {"dead": layers})["by_level"][0]["steps"]
    units = {value["unit"] for step in steps for value in step["values"]} | {step["unit"] for step in steps}
    assert units == {"MPa", "mm", "N/mm"}
    assert steps[0]["result"] == pytest.approx(0.0003)


def test_framing_along_the_wall_takes_400_mm_where_no_spacing_is_given() -> None:
    along = down({"kind": "floor", "framing": "parallel", "live": "2 kPa"})
    assert along["line"]["live"]["value"] == pytest.approx(0.8)


@pytest.mark.parametrize(
    ("levels", "clause"),
    [
        ([FLOOR] * 4, "NBC 2020 Division A, 1.3.3.3."),
        ([FLOOR | {"left": {"span": "12.3 m", "support": "simple"}}], "NBC 2020 9.4.2.1."),
        ([FLOOR | {"points": [{"case": "dead", "value": "-1 kN", "at": "1 m"}]}], "NBC 2020 4.1.3.2."),
    ],
)
def test_what_lies_beyond_the_house_is_refused_by_the_canadian_clause(
    levels: list[dict[str, Any]], clause: str
) -> None:
    answer = down(*levels)
    assert answer["status"] == "refused"
    assert answer["clause"] == clause
    assert " in " not in answer["reason"].replace("in the", "")


def test_three_floors_and_12_2_m_are_still_inside() -> None:
    longest = {"span": "12.2 m", "support": "simple"}
    assert down(FLOOR, FLOOR, FLOOR | {"left": longest})["status"] == "ok"


def test_an_extent_that_ends_before_it_starts_is_told_in_millimetres() -> None:
    with pytest.raises(InputError) as caught:
        down(FLOOR | {"start": "3 m", "end": "2 m"})
    assert "2000 mm" in str(caught.value)


def test_statics_answers_in_kilonewtons() -> None:
    given_ = {
        "spans": ["12 ft"],
        "loads": [{"case": "live", "shape": "uniform", "value": "400 lbf/ft"}],
        "E": "1.6e6 psi",
        "I": "98.9 in**4",
    }
    american, canadian = (
        run_case({"kind": "statics", "code": code, "given": given_}) for code in ("us", "ca")
    )
    assert canadian["shear"]["max"]["unit"] == "kN"
    assert canadian["shear"]["max"]["value"] == pytest.approx(american["shear"]["max"]["value"] * KN)
    assert canadian["deflection"]["max"]["value"] == pytest.approx(
        american["deflection"]["max"]["value"] * 25.4, rel=1e-6
    )


LOADS = [
    {"case": "dead", "value": "10 kN"},
    {"case": "live", "value": "20 kN"},
    {"case": "snow", "value": "6 kN"},
]


def path(*links: dict[str, Any]) -> dict[str, Any]:
    given_ = {"mark": "B1", "loads": LOADS, "links": list(links)}
    return run_case({"kind": "loadpath", "code": "ca", "given": given_})


def test_a_link_carries_the_worst_unfactored_sum_with_its_companion() -> None:
    check = path({"kind": "beam", "capacity": "66 kN"})["links"][0]["check"]
    assert check["demand"] == {"value": pytest.approx(33.0), "unit": "kN"}
    assert check["combination"] == "D+L+0.5S"
    assert check["clause"] == "NBC 2020 9.4.1.1."
    assert check["ratio"] == pytest.approx(0.5)


def test_what_a_link_carried_before_is_added_under_the_canadian_clause() -> None:
    held = {"kind": "post", "capacity": "60 kN", "existing_loads": [{"case": "live", "value": "5 kN"}]}
    link = path({"kind": "beam", "capacity": "60 kN"}, held)["links"][2]
    assert link["carries"] == {"live": {"value": 5.0, "unit": "kN"}}
    assert link["check"]["demand"]["value"] == pytest.approx(38.0)
    assert {step["clause"] for step in link["check"]["steps"]} == {"NBC 2020 9.4.1.1."}
    assert {step["unit"] for step in link["check"]["steps"]} == {"N"}


def test_a_question_tells_kilonewtons() -> None:
    found = path({"kind": "beam", "capacity": "60 kN"}, {"kind": "beam_below", "existing": True})
    assert "36 kN of all cases together" in found["questions"][0]
    assert "lbf" not in str(found)


@pytest.mark.parametrize(
    ("level", "word"),
    [
        (FLOOR | {"live": "1.4 kPa"}, "1.9 kPa of rooms"),
        (
            {"kind": "roof", "left": FLOOR["left"], "right": FLOOR["right"], "snow": "0.9 kPa"},
            "1 kPa that a roof",
        ),
    ],
)
def test_less_than_the_code_asks_for_is_told_and_kept(level: dict[str, Any], word: str) -> None:
    answer = down(level)
    assert any(word in remark for remark in answer["by_level"][0]["remarks"])
    span = 3.9
    case = "live" if level["kind"] == "floor" else "snow"
    assert answer["line"][case]["value"] == pytest.approx(span * float(level[case].split()[0]))
    assert not any("less than" in remark for remark in down(FLOOR)["remarks"])
