"""The printed text of each formula of fasteners is the formula, its dimensions hold, and the modes behave."""

from __future__ import annotations

import random

import pytest

from structure.core.clauses import US_DEFAULT
from structure.core.codes.us import fasteners
from structure.core.codes.us.fasteners_value import (
    group_of,
    lateral_value,
    nail_yield,
    steel_holding,
    wood_holding,
)
from structure.core.errors import InputError, OutOfScope
from structure.core.trace import FORMULAS, Formula
from structure.core.units import ureg

HERE = sorted(
    (each for each in FORMULAS.values() if each.function.__module__ == fasteners.__name__),
    key=lambda each: each.name,
)
# Where a formula holds only for part of the numbers: u is over 1, shares are under it.
BETWEEN = {"u": (1.1, 9.0), "m": (0.1, 0.9), "s": (0.1, 0.9), "R_EA": (0.1, 1.0), "n": (1.0, 6.0)}


def _values(each: Formula, source: random.Random) -> dict[str, float]:
    return {
        name: source.uniform(*((0.5, 20.0) if unit else BETWEEN.get(name, (0.5, 20.0))))
        for name, unit in each.units.items()
    }


def test_the_module_registers_its_formulas() -> None:
    assert len(HERE) == 25


@pytest.mark.parametrize("each", HERE, ids=lambda each: each.name.rsplit(".", 1)[-1])
def test_text_is_the_formula(each: Formula) -> None:
    source = random.Random(3)
    for _ in range(20):
        values = _values(each, source)
        words = {"min": min, "max": max}
        printed = eval(each.text, {"__builtins__": {}}, words | values)  # noqa: S307 - our own text
        assert printed == pytest.approx(each(**values), rel=1e-12)


@pytest.mark.parametrize("each", HERE, ids=lambda each: each.name.rsplit(".", 1)[-1])
def test_dimensions_hold(each: Formula) -> None:
    given = {
        name: ureg.Quantity(value, each.units[name] or "dimensionless")
        for name, value in _values(each, random.Random(4)).items()
    }
    result = ureg.Quantity(each(**given))
    assert result.check(ureg.Unit(each.unit or "dimensionless").dimensionality)


def _bolt(
    G: float, l_m: float, l_s: float, *, double: bool = False, angle: float = 0.0, D: float = 0.5
) -> float:
    return lateral_value(
        diameter=D,
        F_yb=45000.0,
        main=wood_holding(G, D, l_m, angle, US_DEFAULT),
        side=wood_holding(G, D, l_s, angle, US_DEFAULT),
        editions=US_DEFAULT,
        double=double,
        angle=angle,
    ).Z


def test_no_thicker_wood_and_no_denser_wood_carries_less() -> None:
    source = random.Random(8)
    for _ in range(200):
        G, l_m, l_s = source.uniform(0.3, 0.7), source.uniform(0.75, 6), source.uniform(0.75, 6)
        D, double = source.uniform(0.25, 1.0), source.random() < 0.5
        least = _bolt(G, l_m, l_s, double=double, D=D)
        assert _bolt(G, l_m * 1.1, l_s, double=double, D=D) >= least * (1 - 1e-12)
        assert _bolt(G, l_m, l_s * 1.1, double=double, D=D) >= least * (1 - 1e-12)
        assert _bolt(G * 1.05, l_m, l_s, double=double, D=D) > least
        assert _bolt(G, l_m, l_s, double=double, D=D, angle=90.0) < least


def test_two_like_members_may_change_places() -> None:
    assert _bolt(0.5, 1.5, 3.5) == pytest.approx(_bolt(0.5, 3.5, 1.5), rel=1e-12)


def test_the_reduction_term_of_thin_dowels_starts_to_grow_at_170_thousandths() -> None:
    assert fasteners.small_dowel_reduction(10.0, 0.17) == pytest.approx(2.2)
    assert fasteners.small_dowel_reduction(10.0, 0.1) == 2.2
    assert fasteners.small_dowel_reduction(10.0, 0.192) == pytest.approx(2.42)


def test_thicker_nails_yield_at_less_and_the_thickest_are_not_held() -> None:
    assert [nail_yield(D, US_DEFAULT) for D in (0.131, 0.148, 0.192, 0.263)] == [1e5, 9e4, 8e4, 7e4]
    with pytest.raises(OutOfScope):
        nail_yield(0.3, US_DEFAULT)


def test_thin_plate_counts_as_cold_formed() -> None:
    assert steel_holding(58000.0, 0.25, US_DEFAULT).F_e == pytest.approx(87000.0)
    assert steel_holding(45000.0, 0.12, US_DEFAULT).F_e == pytest.approx(61875.0)


def test_group_action_is_none_for_nails_for_one_and_for_stiff_members() -> None:
    nail = group_of(count=6, spacing=3.0, diameter=0.148, EA_m=1e6, EA_s=1e6, editions=US_DEFAULT)
    one = group_of(count=1, spacing=3.0, diameter=0.5, EA_m=1e6, EA_s=1e6, editions=US_DEFAULT)
    stiff = group_of(count=6, spacing=3.0, diameter=0.5, EA_m=1e15, EA_s=1e15, editions=US_DEFAULT)
    assert nail[0] == one[0] == stiff[0] == 1.0
    with pytest.raises(OutOfScope):
        group_of(count=6, spacing=3.0, diameter=0.5, EA_m=1.0, EA_s=1.0, editions=US_DEFAULT)


def test_a_row_of_like_members_gets_less_of_each_bolt_the_longer_it_is() -> None:
    shares = [
        group_of(count=n, spacing=4.0, diameter=1.0, EA_m=1.4e7, EA_s=7e6, editions=US_DEFAULT)[0]
        for n in range(2, 12)
    ]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] < 1.0


@pytest.mark.parametrize(("G", "angle", "length"), [(0.9, 0.0, 1.5), (0.5, 91.0, 1.5), (0.5, 0.0, 0.0)])
def test_what_cannot_be_meant_is_told(G: float, angle: float, length: float) -> None:
    with pytest.raises(InputError):
        wood_holding(G, 0.5, length, angle, US_DEFAULT)


def test_a_dowel_over_an_inch_is_refused() -> None:
    with pytest.raises(OutOfScope):
        _bolt(0.5, 3.5, 3.5, D=1.25)
