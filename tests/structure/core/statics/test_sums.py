"""Loads as they are cut, and responses as they are added up: small things that larger tests do not tell apart."""

from __future__ import annotations

import pytest

from structure.core.statics import BeamLine, Load, analyse
from structure.core.statics.envelope import analyse_cases

LINE = BeamLine((120.0, 90.0), 20.0, 0.0)
END = LINE.length


def test_a_load_keeps_its_case_and_shape_when_it_is_cut() -> None:
    assert (Load.uniform("dead", 3.0, 0.0, 9.0).shape, Load.uniform("dead", 3.0, 0.0, 9.0).case) == (
        "uniform", "dead",
    )  # fmt: skip
    sloped = Load.trapezoid("snow", 2.0, 8.0, 0.0, 12.0)
    assert (sloped.shape, sloped.case) == ("trapezoid", "snow")
    assert sloped.clipped(4.0, 20.0) == Load("snow", "trapezoid", 4.0, 4.0, 12.0, 8.0)
    assert sloped.clipped(12.0, 20.0) is None
    point = Load.point("live", 7.0, 5.0)
    assert point.clipped(5.0, 9.0) is point
    assert point.clipped(0.0, 5.0) is None


def test_responses_with_turns_at_other_places_add_up_exactly() -> None:
    sloped, point = Load.trapezoid("dead", 1.0, 9.0, 0.0, END), Load.point("live", 500.0, 77.0)
    together, apart = analyse(LINE, [sloped, point]), analyse(LINE, [sloped]) + analyse(LINE, [point])
    for x in (10.0, 40.0, 76.0, 78.0, 100.0, 150.0, 200.0, 229.0):
        for name in ("moment", "shear", "deflection", "slope"):
            one, other = (float(getattr(each, name)(x)) for each in (together, apart))
            assert other == pytest.approx(one, rel=1e-10), (name, x)
    assert apart.line is LINE
    assert (apart * 2.0).line is LINE
    assert float((apart * 2.0).moment(100.0)) == pytest.approx(2 * float(together.moment(100.0)), rel=1e-12)


def test_the_shear_turns_inside_a_load_that_changes_its_sign() -> None:
    """From -10 up to 10 over 120: V = -200 + 10 x - x**2 / 12, 100 in the middle and -200 at the ends."""
    line = BeamLine((120.0,))
    found = analyse(line, [Load.trapezoid("dead", -10.0, 10.0, 0.0, 120.0)]).shear_extremes()
    assert (float(found.max), float(found.at_max)) == pytest.approx((100.0, 60.0))
    assert float(found.min) == pytest.approx(-200.0)
    down = analyse(line, [Load.trapezoid("dead", 10.0, -10.0, 0.0, 120.0)]).shear_extremes()
    assert (float(down.min), float(down.at_min)) == pytest.approx((-100.0, 60.0))


def test_live_load_is_not_patterned_unless_asked() -> None:
    loads = [Load.uniform("live", 5.0, 0.0, END)]
    plain, asked = analyse_cases(LINE, loads), analyse_cases(LINE, loads, pattern=True)
    assert plain.line is LINE
    assert len(plain.cases) == 1
    everywhere = analyse(LINE, loads).reactions
    empty = [dict.fromkeys(plain.cases, 1.0)]
    assert plain.envelope(empty).reactions_max == pytest.approx(everywhere)
    assert asked.envelope(empty).reactions_max[1] > everywhere[1]  # without the overhang, which relieves it
    assert asked.envelope(empty).reactions_min[0] < plain.envelope(empty).reactions_min[0]


def test_a_case_without_load_does_not_hide_the_next_one() -> None:
    loads = [Load.uniform("dead", 0.0, 0.0, END), Load.uniform("live", 5.0, 0.0, END)]
    found = analyse_cases(LINE, loads)
    assert "live" in found.cases
    assert found.envelope([{"live": 1.0}]).reactions_max == pytest.approx(analyse(LINE, loads).reactions)
