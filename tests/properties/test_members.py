"""What every member obeys, asked as the case files ask: more is never better, better wood never worse, 1 passes."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from structure.core.cases import run_case
from structure.core.clauses import ClauseRef
from structure.core.trace import Check

Given = dict[str, Any]
GRADES = ("No.3", "No.2", "No.1", "SS")  # of Douglas Fir-Larch, from weak to strong in every value used here
CHECK = {"dimension": "force", "combination": "D", "clause": ClauseRef("NDS", "2018", "3.3")}


def _answer(kind: str, asked: Given) -> Mapping[str, Any]:
    """The answer, or another draw where the question is refused."""
    result = run_case({"kind": kind, "code": "us", "given": asked})
    assume(result["status"] == "ok")
    return result


def _beam(draw: st.DrawFn) -> Given:
    spans = draw(st.lists(st.integers(5, 18), min_size=1, max_size=3))
    loads = [
        {"case": case, "shape": "uniform", "value": f"{draw(st.integers(20, 400))} lbf/ft"}
        for case in draw(
            st.lists(st.sampled_from(["dead", "live", "snow"]), min_size=1, max_size=3, unique=True)
        )
    ]
    if draw(st.booleans()):
        at = draw(st.floats(0.05, 0.95)) * sum(spans)
        loads.append(
            {
                "case": "live",
                "shape": "point",
                "value": f"{draw(st.integers(100, 3000))} lbf",
                "at": f"{at} ft",
            }
        )
    return {
        "spans": [f"{span} ft" for span in spans],
        "loads": loads,
        "bracing": draw(st.sampled_from(["continuous", "ends", "4 ft"])),
        "bearing": "3.5 in",
        "section": _wood(draw, draw(st.integers(1, 4)), draw(st.sampled_from([5.5, 7.25, 9.25, 11.25]))),
    }


def _post(draw: st.DrawFn) -> Given:
    return {
        "height": f"{draw(st.integers(60, 130))} in",
        "loads": [
            {"case": case, "value": f"{draw(st.integers(200, 9000))} lbf"} for case in ("dead", "live")
        ],
        "section": _wood(draw, draw(st.integers(1, 4)), draw(st.sampled_from([3.5, 5.5]))),
    }


def _bearing(draw: st.DrawFn) -> Given:
    return {
        "section": _wood(draw, 2, 9.25),
        "width": "3 in",
        "length": f"{draw(st.integers(2, 8))} in",
        "distance_to_end": f"{draw(st.sampled_from([0, 1, 12]))} in",
        "loads": [{"case": "live", "value": f"{draw(st.integers(500, 9000))} lbf"}],
    }


def _footing(draw: st.DrawFn) -> Given:
    return {
        "loads": [
            {"case": case, "value": f"{draw(st.integers(1000, 9000))} lbf"} for case in ("dead", "live")
        ],
        "soil": f"{draw(st.integers(1500, 4000))} psf",
        "post": "5.5 in",
        "concrete": {"fc": "2500 psi", "density": "150 lbf/ft**3"},
        "side": f"{draw(st.integers(20, 48))} in",
        "thickness": f"{draw(st.integers(10, 20))} in",
        "plain": True,
    }


def _wood(draw: st.DrawFn, plies: int, depth: float) -> Given:
    grade = draw(st.sampled_from(GRADES))
    return {
        "family": "sawn",
        "species": "DF-L",
        "grade": grade,
        "plies": plies,
        "width": "1.5 in",
        "depth": f"{depth} in",
    }


DRAWN: dict[str, Callable[[st.DrawFn], Given]] = {
    "beam": _beam,
    "post": _post,
    "bearing": _bearing,
    "footing": _footing,
}
EVERY = pytest.mark.parametrize("kind", DRAWN)


def _scaled(asked: Given, factor: float) -> Given:
    """The same question with every load `factor` times as large."""
    loads = []
    for load in asked["loads"]:
        number, unit = load["value"].split(" ")
        loads.append({**load, "value": f"{float(number) * factor!r} {unit}"})
    return {**asked, "loads": loads}


def _checks(result: Mapping[str, Any]) -> dict[str, float]:
    return {name: check["ratio"] for name, check in result["checks"].items() if check["ratio"] is not None}


def _no_better(one: Mapping[str, Any], other: Mapping[str, Any]) -> None:
    """No check of the other answer is less used up, where both have it."""
    before, after = _checks(one), _checks(other)
    for name in before.keys() & after.keys():
        assert after[name] >= before[name] * (1 - 1e-9), name
    assert other["ratio"] >= one["ratio"] * (1 - 1e-9)


@EVERY
@settings(max_examples=40)
@given(data=st.data())
def test_more_load_is_never_better(kind: str, data: st.DataObject) -> None:
    asked = data.draw(st.composite(DRAWN[kind])())
    one = _answer(kind, asked)
    _no_better(one, _answer(kind, _scaled(asked, data.draw(st.floats(1.01, 2.0)))))


@settings(max_examples=40)
@given(data=st.data())
def test_one_more_load_on_a_simple_beam_is_never_better(data: st.DataObject) -> None:
    """Its reactions may come from another combination, but no check is less used up."""
    asked = data.draw(st.composite(_beam)())
    asked["spans"] = asked["spans"][:1]
    asked["loads"] = [load for load in asked["loads"] if load["shape"] == "uniform"]
    asked["bracing"] = "continuous"
    more = {"case": "live", "shape": "uniform", "value": f"{data.draw(st.integers(10, 300))} lbf/ft"}
    _no_better(_answer("beam", asked), _answer("beam", {**asked, "loads": [*asked["loads"], more]}))


@pytest.mark.parametrize("kind", ["beam", "post"])
@settings(max_examples=40)
@given(data=st.data())
def test_a_longer_member_is_never_better(kind: str, data: st.DataObject) -> None:
    asked = data.draw(st.composite(DRAWN[kind])())
    if kind == "beam":  # of one span under spread loads: a longer span of several relieves the one beside it
        asked["spans"] = asked["spans"][:1]
        asked["loads"] = [load for load in asked["loads"] if load["shape"] == "uniform"]
        longer = {**asked, "spans": [f"{float(asked['spans'][0].split()[0]) * 1.13} ft"]}
    else:
        longer = {**asked, "height": f"{float(asked['height'].split()[0]) * 1.13} in"}
    _no_better(_answer(kind, asked), _answer(kind, longer))


@pytest.mark.parametrize("kind", ["beam", "post", "bearing"])
@settings(max_examples=40)
@given(data=st.data())
def test_a_better_grade_is_never_worse(kind: str, data: st.DataObject) -> None:
    asked = data.draw(st.composite(DRAWN[kind])())
    place = GRADES.index(asked["section"]["grade"])
    assume(place)
    worse = {**asked, "section": {**asked["section"], "grade": GRADES[place - 1]}}
    _no_better(_answer(kind, asked), _answer(kind, worse))


@settings(max_examples=40)
@given(data=st.data())
def test_better_soil_or_a_wider_or_thicker_pad_is_never_worse(data: st.DataObject) -> None:
    asked = data.draw(st.composite(_footing)())
    one = _answer("footing", asked)
    soil = _answer("footing", {**asked, "soil": f"{float(asked['soil'].split()[0]) * 1.2} psf"})
    assert soil["checks"]["soil"]["ratio"] <= one["checks"]["soil"]["ratio"] * (1 + 1e-9)
    wider = _answer("footing", {**asked, "side": f"{float(asked['side'].split()[0]) + 2} in"})
    assert wider["pressure"]["value"] <= one["pressure"]["value"] * (1 + 1e-9)
    thicker = _answer("footing", {**asked, "thickness": f"{float(asked['thickness'].split()[0]) + 1} in"})
    for name in ("punching", "one_way_shear", "flexure"):
        assert thicker["checks"][name]["ratio"] <= one["checks"][name]["ratio"] * (1 + 1e-9), name


@given(st.floats(1e-6, 1e12))
def test_a_ratio_of_exactly_one_passes_and_the_next_number_fails(capacity: float) -> None:
    at, over = (
        Check("bending", demand, capacity, **CHECK) for demand in (capacity, math.nextafter(capacity, 1e13))
    )  # type: ignore[arg-type]
    assert at.ratio == 1.0
    assert at.passes
    assert over.ratio > 1.0
    assert not over.passes


@EVERY
@settings(max_examples=8)
@given(data=st.data())
def test_the_last_load_that_passes_is_the_last_number_at_or_under_one(kind: str, data: st.DataObject) -> None:
    """Bisected down to neighbouring floats, the answer turns exactly where the ratio passes 1."""
    asked = data.draw(st.composite(DRAWN[kind])())

    def at(factor: float) -> tuple[bool, float]:
        result = run_case({"kind": kind, "code": "us", "given": _scaled(asked, factor)})
        assume(result["status"] == "ok")
        return bool(result["passes"]), float(result["ratio"])

    assume(at(1e-3)[0] and at(1e-3)[1] > 0)
    low, high = 1e-3, 1.0
    while at(high)[0]:
        high *= 2
        assume(high < 64)
    for _ in range(80):
        middle = (low + high) / 2
        if middle in (low, high):
            break
        low, high = (middle, high) if at(middle)[0] else (low, middle)
    assert math.nextafter(low, 1e9) == high
    for factor in (low, high, low - 3e-16 * low, high + 3e-16 * high):
        passes, ratio = at(factor)
        assert passes == (ratio <= 1.0)
    assert at(low)[1] == pytest.approx(1.0, abs=1e-9)
