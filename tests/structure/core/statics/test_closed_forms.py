"""Beam formulas that every handbook prints, to the last bit of floating point."""

from __future__ import annotations

import pytest

from structure.core.statics import BeamLine, Load, analyse, analyse_sets

SIMPLE = BeamLine((144.0,))
EXACT = 1e-12


def test_uniform_load_on_a_simple_beam() -> None:
    w, L = 10.0, 144.0
    response = analyse(SIMPLE, [Load.uniform("dead", w, 0, L)])
    assert list(response.reactions) == pytest.approx([w * L / 2] * 2, rel=EXACT)
    moment = response.moment_extremes()
    assert (moment.max, moment.at_max) == pytest.approx((w * L**2 / 8, L / 2), rel=EXACT)
    sunk = response.deflection_extremes()
    assert (sunk.max, sunk.at_max) == pytest.approx((5 * w * L**4 / 384, L / 2), rel=EXACT)


def test_point_load_off_centre() -> None:
    P, L, b = 1000.0, 144.0, 48.0
    a = L - b
    response = analyse(SIMPLE, [Load.point("live", P, a)])
    sunk = response.deflection_extremes()
    # P b (L^2 - b^2)^(3/2) / (9 sqrt(3) L) at sqrt((L^2 - b^2) / 3), for a > b.
    assert sunk.max == pytest.approx(P * b * (L**2 - b**2) ** 1.5 / (9 * 3**0.5 * L), rel=EXACT)
    assert sunk.at_max == pytest.approx(((L**2 - b**2) / 3) ** 0.5, rel=1e-9)
    assert response.shear(a, side="left") == pytest.approx(P * b / L, rel=EXACT)
    assert response.shear(a) == pytest.approx(-P * a / L, rel=EXACT)


def test_triangular_load() -> None:
    W, L = 0.5 * 12.0 * 144.0, 144.0
    response = analyse(SIMPLE, [Load.trapezoid("snow", 0.0, 12.0, 0, L)])
    assert list(response.reactions) == pytest.approx([W / 3, 2 * W / 3], rel=EXACT)
    moment = response.moment_extremes()
    assert moment.max == pytest.approx(2 * W * L / (9 * 3**0.5), rel=EXACT)
    assert moment.at_max == pytest.approx(L / 3**0.5, rel=1e-9)


def test_cantilever_beyond_a_support() -> None:
    P, L, a = 500.0, 120.0, 36.0
    response = analyse(BeamLine((L,), 0.0, a), [Load.point("live", P, L + a)])
    assert list(response.reactions) == pytest.approx([-P * a / L, P * (L + a) / L], rel=EXACT)
    assert response.moment(L) == pytest.approx(-P * a, rel=EXACT)
    assert response.deflection(L + a) == pytest.approx(P * a**2 * (L + a) / 3, rel=EXACT)
    up = response.deflection_by_bay()[0]
    assert up.min == pytest.approx(-P * a * L**2 / (9 * 3**0.5), rel=EXACT)
    assert response.contraflexures() == ()


def test_two_equal_spans() -> None:
    w, L = 10.0, 120.0
    response = analyse(BeamLine((L, L)), [Load.uniform("dead", w, 0, 2 * L)])
    assert list(response.reactions) == pytest.approx(
        [3 / 8 * w * L, 10 / 8 * w * L, 3 / 8 * w * L], rel=EXACT
    )
    moment = response.moment_extremes()
    assert moment.min == pytest.approx(-w * L**2 / 8, rel=EXACT)
    assert moment.max == pytest.approx(9 / 128 * w * L**2, rel=EXACT)
    assert response.contraflexures() == pytest.approx((0.75 * L, 1.25 * L), rel=1e-9)
    # Printed as w L^4 / 185: exactly at 0.4215 L.
    x = (1 + 33**0.5) / 16 * L
    expected = w * x * (L**3 - 3 * L * x**2 + 2 * x**3) / 48
    assert response.deflection_extremes().max == pytest.approx(expected, rel=EXACT)


def test_three_equal_spans() -> None:
    w, L = 10.0, 120.0
    response = analyse(BeamLine((L, L, L)), [Load.uniform("dead", w, 0, 3 * L)])
    assert list(response.reactions) == pytest.approx(
        [0.4 * w * L, 1.1 * w * L, 1.1 * w * L, 0.4 * w * L], rel=EXACT
    )
    assert response.moment_extremes().min == pytest.approx(-0.1 * w * L**2, rel=EXACT)
    assert response.moment_extremes().max == pytest.approx(0.08 * w * L**2, rel=EXACT)


def test_a_load_on_a_support_goes_straight_down() -> None:
    line = BeamLine((100.0, 100.0), 20.0, 20.0)
    for n, place in enumerate(line.supports):
        response = analyse(line, [Load.point("dead", 700.0, place)])
        assert list(response.reactions) == pytest.approx(
            [700.0 if k == n else 0.0 for k in range(3)], abs=1e-9
        )
        assert abs(response.moment_extremes().largest) < 1e-9
        assert abs(response.deflection_extremes().largest) < 1e-6


def test_loads_on_both_very_ends() -> None:
    line = BeamLine((100.0,), 20.0, 30.0)
    response = analyse(line, [Load.point("dead", 300.0, 0.0), Load.point("dead", 200.0, 150.0)])
    assert response.reactions.sum() == pytest.approx(500.0)
    assert response.moment(20.0) == pytest.approx(-6000.0)
    assert response.moment(120.0) == pytest.approx(-6000.0)
    assert response.shear_extremes().max == pytest.approx(200.0)
    assert response.shear_extremes().min == pytest.approx(-300.0)


def test_uplift_is_the_same_beam_upside_down() -> None:
    down = analyse(SIMPLE, [Load.uniform("live", 10.0, 0, 144)])
    up = analyse(SIMPLE, [Load.uniform("live", -10.0, 0, 144)])
    assert list(up.reactions) == pytest.approx([-r for r in down.reactions])
    assert up.deflection_extremes().min == pytest.approx(-float(down.deflection_extremes().max))
    assert up.deflection_extremes().largest == pytest.approx(-float(down.deflection_extremes().max))


def test_many_load_sets_at_once_are_the_same_as_one_by_one() -> None:
    line = BeamLine((100.0, 130.0, 90.0), 15.0, 0.0)
    sets = [
        [Load.uniform("dead", 5.0, 0, line.length)],
        [Load.point("live", 900.0, 70.0), Load.trapezoid("live", 3.0, 9.0, 20.0, 200.0)],
        [],
    ]
    together = analyse_sets(line, sets)
    assert len(together) == 3
    for row, loads in enumerate(sets):
        alone = analyse(line, loads)
        assert list(together[row].reactions) == pytest.approx(list(alone.reactions), abs=1e-9)
        assert together.moment_extremes().max[row] == pytest.approx(
            float(alone.moment_extremes().max), abs=1e-6
        )


def test_extremes_of_a_part() -> None:
    response = analyse(SIMPLE, [Load.uniform("dead", 10.0, 0, 144)])
    assert response.shear_extremes(16.0, 128.0).max == pytest.approx(720 - 160)
    assert response.moment_extremes(0.0, 36.0).max == pytest.approx(720 * 36 - 5 * 36**2)


@pytest.mark.parametrize(
    ("spans", "left", "right"),
    [((), 0.0, 0.0), ((0.0,), 0.0, 0.0), ((10.0, -1.0), 0.0, 0.0), ((10.0,), -1.0, 0.0)],
)
def test_beams_that_cannot_be(spans: tuple[float, ...], left: float, right: float) -> None:
    with pytest.raises(ValueError, match=r"span|overhang"):
        BeamLine(spans, left, right)


def test_a_load_off_the_beam_and_beams_that_do_not_match() -> None:
    with pytest.raises(ValueError, match="off the beam"):
        analyse(SIMPLE, [Load.point("dead", 1.0, 145.0)])
    with pytest.raises(ValueError, match="different beams"):
        analyse(SIMPLE, []) + analyse(BeamLine((100.0,)), [])
