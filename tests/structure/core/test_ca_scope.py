"""Whether Part 9 covers a case by itself."""

from __future__ import annotations

from typing import Any

import pytest

from structure.core.cases.registry import run_case

FLOOR = {
    "kind": "floor",
    "left": {"span": "3.6 m", "support": "simple"},
    "right": {"span": "4.2 m", "support": "simple"},
    "spacing": "400 mm",
    "dead": "0.5 kPa",
    "live": "1.9 kPa",
}
HOUSE = {"storeys": 2, "building_area": "110 m**2", "soil": "75 kPa", "beam_span": "3.6 m", "levels": [FLOOR]}


def scope(**changes: Any) -> dict[str, Any]:
    return run_case({"kind": "scope", "code": "ca", "given": HOUSE | changes})


def side(span: str) -> dict[str, Any]:
    return {"span": span, "support": "simple"}


def test_an_ordinary_house_is_inside() -> None:
    found = scope()
    assert found["inside"] is True
    assert found["engineer"] is False
    assert found["remarks"] == []


@pytest.mark.parametrize(
    ("changes", "limit"),
    [
        ({"storeys": 4}, "storeys"),
        ({"building_area": "601 m**2"}, "building_area"),
        ({"beam_span": "12.3 m"}, "span"),
        ({"levels": [FLOOR | {"spacing": "610 mm"}]}, "joist_spacing"),
        ({"levels": [FLOOR | {"live": "2.5 kPa"}]}, "live_load"),
        ({"levels": [FLOOR | {"left": side("5.1 m"), "right": side("5.0 m")}]}, "supported_length"),
        ({"levels": [FLOOR | {"left": side("4.91 m"), "right": {"support": "none"}}]}, "footing_span"),
        ({"levels": [FLOOR] * 3}, "floors"),
        ({"levels": [{**FLOOR, "kind": "roof", "snow": "1 kPa"}, FLOOR]}, "roof"),
        ({"levels": [FLOOR | {"points": [{"case": "dead", "value": "5 kN", "at": "1 m"}]}]}, "concentrated"),
        ({"soil": "74 kPa"}, "soil"),
        ({"adjustable": True, "column_load": "36.1 kN"}, "adjustable_column"),
    ],
)
def test_each_limit_sends_to_the_engineer(changes: dict[str, Any], limit: str) -> None:
    found = scope(**changes)
    assert found["inside"] is False
    assert limit in found["outside"]
    assert any("engineer" in remark for remark in found["remarks"])


@pytest.mark.parametrize(
    "changes",
    [
        {"storeys": 3, "building_area": "600 m**2", "beam_span": "12.2 m"},
        {"levels": [FLOOR | {"spacing": "600 mm", "live": "2.4 kPa"}]},
        {"levels": [FLOOR | {"left": side("4.9 m"), "right": side("4.9 m")}]},
        {"adjustable": True, "column_load": "36 kN"},
    ],
)
def test_a_limit_that_is_just_met_is_inside(changes: dict[str, Any]) -> None:
    assert scope(**changes)["inside"] is True


@pytest.mark.parametrize("name", ["storeys", "building_area", "soil"])
def test_what_nobody_has_said_is_unknown_and_never_inside(name: str) -> None:
    found = scope(**{name: None})
    assert found["inside"] == "unknown"
    assert found["unknown"] == [name]
    assert any("not known" in remark for remark in found["remarks"])


def test_clear_trusses_are_no_load_on_the_beam() -> None:
    roof = {"kind": "roof", "framing": "truss_clear", "left": side("8 m"), "right": {"support": "none"}}
    assert scope(levels=[roof, FLOOR])["inside"] is True


def test_the_other_code_has_no_such_view() -> None:
    answer = run_case({"kind": "scope", "code": "us", "given": {"levels": [FLOOR]}})
    assert answer["status"] == "refused"
