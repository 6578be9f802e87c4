"""A post off the middle of its pad: every force against a sum over small squares of the plane of pressure."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from structure.core.cases.registry import run_case
from structure.core.clauses import US_DEFAULT
from structure.core.codes.us import soil
from structure.core.members.footing import size_pad
from structure.core.members.footing_pad import Base, Force, Pad
from structure.core.members.footing_question import FootingQuestion
from structure.core.members.footing_statics import Statics

P = 20000.0
SQUARES = 240
SIDES = st.floats(40, 90)


def _sum(pad: Pad, x: tuple[float, float], y: tuple[float, float], arm: Any = None) -> float:
    """Force of the soil over a rectangle of the pad, or its moment with `arm(x, y)`."""
    xs, ys = ((np.arange(SQUARES) + 0.5) / SQUARES * (b - a) + a for a, b in (x, y))
    X, Y = np.meshgrid(xs, ys)
    plane = P / (pad.length * pad.width)
    q = plane * (1 + 12 * pad.off_length * X / pad.length**2 + 12 * pad.off_width * Y / pad.width**2)
    weight = 1.0 if arm is None else arm(X, Y)
    return float((q * weight).sum() * (x[1] - x[0]) * (y[1] - y[0]) / SQUARES**2)


def _pad(length: float, width: float, e_1: float, e_2: float) -> Pad:
    return Pad(length, width, 16, 2500, 150 / 1728, 2000 / 144, False, Base(5.5, 3.5), e_1, e_2)


@settings(max_examples=60, deadline=None)
@given(SIDES, SIDES, st.floats(0, 0.08), st.floats(0, 0.08), st.floats(4, 12))
def test_forces_are_those_of_the_plane(L: float, W: float, k_1: float, k_2: float, h: float) -> None:
    pad = _pad(L, W, k_1 * L, k_2 * W)
    statics = Statics(pad, Force("D", P), h, US_DEFAULT)
    for way in statics.ways:
        along = way.name == "along the length"
        off, c, side = (pad.off_length, 5.5, L) if along else (pad.off_width, 3.5, W)
        face, edge = off + way.sign * c / 2, way.sign * side / 2
        cut = face + way.sign * h
        whole = (-W / 2, W / 2) if along else (-L / 2, L / 2)

        def reach(a: float, b: float, along: bool = along, whole: Any = whole) -> tuple[Any, Any]:
            strip = (min(a, b), max(a, b))
            return (strip, whole) if along else (whole, strip)

        def arm(x: Any, y: Any, along: bool = along, face: float = face) -> Any:
            return abs((x if along else y) - face)

        assert statics.moment(way).value == pytest.approx(_sum(pad, *reach(face, edge), arm), rel=1e-4)
        inside = way.sign * (edge - cut) > 0
        shear = _sum(pad, *reach(cut, edge)) if inside else 0.0
        assert statics.shear(way).value == pytest.approx(shear, rel=1e-4, abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(SIDES, SIDES, st.floats(0.001, 0.08), st.floats(0, 0.08), st.floats(4, 12))
def test_punching_takes_the_soil_and_its_slope_inside_the_perimeter(
    L: float, W: float, k_1: float, k_2: float, h: float
) -> None:
    pad = _pad(L, W, k_1 * L, k_2 * W)
    b_1, b_2 = 5.5 + h, 3.5 + h
    e_1, e_2 = pad.off_length, pad.off_width
    assume(L / 2 - e_1 > b_1 / 2 and W / 2 - e_2 > b_2 / 2)
    x, y = (e_1 - b_1 / 2, e_1 + b_1 / 2), (e_2 - b_2 / 2, e_2 + b_2 / 2)
    wanted = P - _sum(pad, x, y)
    perimeter = 2 * (b_1 + b_2)
    for b, c, moment in (
        (b_1, b_2, _sum(pad, x, y, lambda X, Y: X - e_1)),
        (b_2, b_1, _sum(pad, x, y, lambda X, Y: Y - e_2)),
    ):
        share = 1 - 1 / (1 + 2 / 3 * (b / c) ** 0.5)
        # J of the perimeter by its definition: two walls across the way, two along it.
        J = 2 * c * h * (b / 2) ** 2 + 2 * (h * b**3 / 12 + b * h**3 / 12)
        wanted += share * moment * (b / 2) / J * perimeter * h
    assert Statics(pad, Force("D", P), h, US_DEFAULT).punching().value == pytest.approx(wanted, rel=1e-4)


@settings(max_examples=40, deadline=None)
@given(st.floats(1000, 20000), st.floats(0, 8), st.floats(0, 8))
def test_a_solved_pad_holds_its_corner_and_a_step_less_does_not(load: float, e_1: float, e_2: float) -> None:
    question = FootingQuestion(
        {"dead": load}, 1500 / 144, Base(5.5, 5.5), thickness=12.0, off_length=e_1, off_width=e_2
    )
    pad = size_pad(question, US_DEFAULT).pad

    def corner(side: float) -> tuple[float, float]:
        k = 6 * (e_1 + e_2) / side
        return k, soil.gross_pressure(load / side**2 * (1 + k), 150 / 1728, 12)

    k, q = corner(pad.side)
    assert k <= 1
    assert q <= 1500 / 144 * (1 + 1e-9)
    k, q = corner(pad.side - 2)
    # 2 in beyond the post, or the perimeter of 10 in of thickness that counts within the pad
    edge = 5.5 + 2 * max(e_1, e_2) + (10 if e_1 or e_2 else 4)
    assert k > 1 or q > 1500 / 144 * (1 - 1e-9) or pad.side - 2 < edge


def test_far_off_the_middle_is_never_less_wide() -> None:
    sides = [
        size_pad(
            FootingQuestion({"dead": 8000.0}, 1500 / 144, Base(5.5, 5.5), thickness=12.0, off_length=e),
            US_DEFAULT,
        ).pad.side
        for e in (0.0, 1.0, 2.0, 4.0, 8.0)
    ]
    assert sides == sorted(sides)
    assert sides[-1] > sides[0]


def test_pressures_are_shown_gross_and_net_at_both_corners() -> None:
    found = run_case(
        {
            "kind": "footing",
            "code": "us",
            "given": {
                "loads": [{"case": "dead", "value": "12 kip"}],
                "soil": "2000 psf",
                "post": "5.5 in",
                "side": "4 ft",
                "thickness": "20 in",
                "eccentricity": {"length": "2 in", "width": "2 in"},
            },
        }
    )
    # 750 psf in the middle, k = 6 (2 + 2) / 48 = 0.5, the pad 250 psf
    held = {
        side: {end: found["pressures"][side][end]["value"] for end in ("max", "min")}
        for side in ("gross", "net")
    }
    assert held["net"] == pytest.approx({"max": 1125, "min": 375})
    assert held["gross"] == pytest.approx({"max": 1375, "min": 625})
    assert found["pressure"]["value"] == pytest.approx(1375)
