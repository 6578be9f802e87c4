"""Notches, live load taken down by area, and what is refused on a wood beam."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.codes.us import wood_notches as nds
from structure.core.errors import InputError

FOUR_BY = {"family": "sawn", "species": "DF-L", "grade": "No.2", "width": "3.5 in", "depth": "11.25 in"}
LVL = {"family": "lvl", "grade": "2.0E-2900F", "width": "1.75 in", "depth": "16 in"}
GLULAM = {"family": "glulam", "grade": "24F-V4", "width": "5.125 in", "depth": "15 in"}


def beam(**given: Any) -> dict[str, Any]:
    base = {
        "spans": ["12 ft"],
        "loads": [
            {"case": "dead", "shape": "uniform", "value": "80 lbf/ft"},
            {"case": "live", "shape": "uniform", "value": "200 lbf/ft"},
        ],
        "section": FOUR_BY,
        "self_weight": False,
        "bracing": "continuous",
    }
    return run_case({"kind": "beam", "code": "us", "given": base | given})


def notch(side: str, depth: float, length: float = 3.0, at: str = "end") -> dict[str, str]:
    return {"side": side, "depth": f"{depth} in", "length": f"{length} in", "at": at}


@settings(max_examples=60, deadline=None)
@given(st.floats(4.0, 24.0), st.floats(0.01, 0.4), st.floats(0.0, 1.0), st.floats(0.0, 0.9))
def test_a_deeper_or_longer_notch_never_carries_more(d: float, part: float, far: float, more: float) -> None:
    d_n = d * (1 - part)
    less = d_n * (1 - 0.2 * more)
    assert nds.notched_tension(F_v=180, b=1.5, d_n=less, d=d) <= nds.notched_tension(
        F_v=180, b=1.5, d_n=d_n, d=d
    )
    whole = 2 / 3 * 180 * 1.5 * d
    short = nds.notched_compression(F_v=180, b=1.5, d=d, d_n=d_n, e=far * d_n)
    long = nds.notched_compression(F_v=180, b=1.5, d=d, d_n=d_n, e=d_n)
    # As long as what is left is deep, only that counts; at no length the whole depth does.
    assert long == pytest.approx(2 / 3 * 180 * 1.5 * d_n)
    assert long * (1 - 1e-12) <= short <= whole * (1 + 1e-12)
    assert nds.notched_tension(F_v=180, b=1.5, d_n=d_n, d=d) < long


def test_the_notch_takes_the_duration_of_its_sum() -> None:
    load = {"shape": "uniform", "value": "300 lbf/ft"}
    live = beam(loads=[load | {"case": "live"}], notch=notch("tension", 2))["checks"]["notch"]
    snow = beam(loads=[load | {"case": "snow"}], notch=notch("tension", 2))["checks"]["notch"]
    assert live["ratio"] == pytest.approx(1.15 * snow["ratio"])
    assert live["demand"]["value"] == pytest.approx(1800)


def test_a_notch_longer_than_what_is_left_counts_as_long_as_that() -> None:
    long = beam(notch=notch("compression", 2, 30))["checks"]["notch"]
    assert long["capacity"]["value"] == pytest.approx(2 / 3 * 180 * 3.5 * 9.25)


def test_two_ply_beams_may_be_cut_on_the_compression_side() -> None:
    two = FOUR_BY | {"width": "1.5 in", "plies": 2}
    assert beam(section=two, notch=notch("compression", 2))["checks"]["notch"]["capacity"]["value"] > 0
    refused = beam(section=two, notch=notch("tension", 1))
    assert refused["status"] == "refused"
    assert "built-up" in refused["reason"]


@pytest.mark.parametrize(
    ("given", "clause"),
    [
        ({"notch": notch("tension", 2.9)}, "NDS 2018 4.4.3"),
        ({"notch": notch("compression", 2.9)}, "NDS 2018 4.4.3"),
        ({"notch": notch("tension", 1, at="interior")}, "NDS 2018 4.4.3"),
        ({"notch": notch("compression", 1.9, at="interior")}, "NDS 2018 4.4.3"),
        ({"notch": notch("compression", 1, 4, at="interior")}, "NDS 2018 3.2.3"),
        ({"notch": notch("compression", 1, at="interior"), "spans": ["8 ft", "8 ft"]}, "NDS 2018 4.4.3"),
        ({"notch": notch("tension", 1), "overhang": {"right": "2 ft"}}, "NDS 2018 3.2.3"),
        ({"notch": notch("tension", 1), "section": GLULAM}, "NDS 2018 5.4.5"),
        ({"notch": notch("compression", 6.1), "section": GLULAM}, "NDS 2018 5.4.5"),
        ({"notch": notch("compression", 3, 50), "section": GLULAM}, "NDS 2018 5.4.5"),
        ({"notch": notch("compression", 1, at="interior"), "section": GLULAM}, "NDS 2018 5.4.5"),
        ({"notch": notch("tension", 1), "section": LVL}, "NDS 2018 8.4.1"),
        ({"special": ["shear_wall"]}, "ASCE 7-16 2.4.1"),
        ({"special": ["masonry"]}, "IRC 2021 R703.8.2"),
        ({"treated": "fire_retardant"}, "NDS 2018 2.3.4"),
    ],
)
def test_what_is_refused_names_its_clause(given: dict[str, Any], clause: str) -> None:
    result = beam(**given)
    assert result["status"] == "refused"
    assert result["clause"] == clause


def test_limits_themselves_are_allowed() -> None:
    assert beam(notch=notch("tension", 11.25 / 4))["status"] == "ok"
    assert beam(notch=notch("compression", 11.25 / 6, at="interior"))["status"] == "ok"
    assert beam(notch=notch("compression", 6), section=GLULAM)["status"] == "ok"


def test_a_notch_through_the_beam_is_bad_input() -> None:
    with pytest.raises(InputError) as error:
        beam(notch=notch("tension", 11.25))
    assert error.value.field == "given.notch.depth"


WIDTH = {"tributary_width": "14 ft"}


@settings(max_examples=40, deadline=None)
@given(st.floats(201.0, 5000.0), st.floats(1.01, 2.0))
def test_more_area_never_leaves_more_live_load(area: float, times: float) -> None:
    def factor(size: float) -> float:
        found = beam(live_reduction={"tributary_area": f"{size} ft**2"})
        value: float = found["live_reduction"]["factor"]
        return value

    one, other = factor(area), factor(area * times)
    assert 0.5 <= other <= one <= 1.0


def test_only_floor_live_load_is_taken_down() -> None:
    loads = [
        {"case": case, "shape": "uniform", "value": "100 lbf/ft"}
        for case in ("dead", "live", "roof_live", "snow")
    ]
    whole = beam(loads=loads)["reactions"]["0"]["by_case"]
    less = beam(loads=loads, live_reduction={"tributary_area": "600 ft**2"})["reactions"]["0"]["by_case"]
    assert less["live"]["value"] == pytest.approx(0.683013 * whole["live"]["value"], rel=1e-5)
    assert {name: less[name] for name in less if name != "live"} == {
        name: whole[name] for name in whole if name != "live"
    }


def test_the_shortest_bay_decides_and_off_is_off() -> None:
    spans = {"spans": ["20 ft", "16 ft"], "section": LVL | {"plies": 3}}
    two = beam(live_reduction=WIDTH, **spans)["live_reduction"]["factor"]
    assert two == pytest.approx(0.25 + 15 / (2 * 14 * 16) ** 0.5)
    assert "live_reduction" not in beam(live_reduction="none", **spans)
    assert beam(live_reduction="none", **spans)["ratio"] == beam(**spans)["ratio"]
    floors = {"tributary_area": "3000 ft**2", "floors": 2}
    assert beam(live_reduction=floors)["live_reduction"]["factor"] == pytest.approx(0.25 + 15 / 6000**0.5)


@pytest.mark.parametrize(
    ("record", "clause"),
    [({"use": "garage"}, "4.7.4"), ({"use": "assembly"}, "4.7.5"), ({"tributary_width": "1.9 ft"}, "4.7.3")],
)
def test_live_load_that_stays_whole(record: dict[str, str], clause: str) -> None:
    result = beam(live_reduction=WIDTH | record)
    assert result["status"] == "refused"
    assert result["clause"] == f"ASCE 7-16 {clause}"


@pytest.mark.parametrize("record", [{}, {"tributary_width": "14 ft", "tributary_area": "300 ft**2"}])
def test_one_of_area_and_width_is_needed(record: dict[str, str]) -> None:
    with pytest.raises(InputError) as error:
        beam(live_reduction=record)
    assert error.value.field == "given.live_reduction.tributary_area"
