"""The printed text of each load, soil and concrete formula is the formula, and its dimensions hold."""

from __future__ import annotations

import random

import pytest

from structure.core import offset
from structure.core.codes.us import concrete, loads, snow, soil
from structure.core.trace import FORMULAS, Formula
from structure.core.units import ureg

OWN = {module.__name__ for module in (loads, soil, concrete, snow, offset)}
FORMULAS_HERE = sorted(
    (each for each in FORMULAS.values() if each.function.__module__ in OWN), key=lambda each: each.name
)
_WORDS = {"min": min, "max": max, "abs": abs}


def _values(each: Formula, seed: int) -> dict[str, float]:
    source = random.Random(seed)
    values = {name: source.uniform(1.0, 40.0) for name in each.units}
    if "gamma" in values:  # a pad lighter than what its soil may carry
        values["gamma"] *= 1e-4
    return values


def test_the_modules_register_their_formulas() -> None:
    assert len(FORMULAS_HERE) > 35


@pytest.mark.parametrize("each", FORMULAS_HERE, ids=lambda each: each.name.rsplit(".", 1)[-1])
def test_text_is_the_formula(each: Formula) -> None:
    for seed in range(20):
        values = _values(each, seed)
        printed = eval(each.text, {"__builtins__": {}}, _WORDS | values)  # noqa: S307 - our own text
        computed = each(**values)
        assert printed == pytest.approx(computed, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize("each", FORMULAS_HERE, ids=lambda each: each.name.rsplit(".", 1)[-1])
def test_dimensions_hold(each: Formula) -> None:
    # `required_side` and `slope_factor` need q above gamma t and a plain number out of angles.
    small = {"gamma": 1e-3, "t": 1.0}
    given = {
        name: ureg.Quantity(small.get(name, 3.0 + n), unit) if unit else 3.0 + n
        for n, (name, unit) in enumerate(each.units.items())
    }
    result = each(**given)
    if each.unit:
        assert result.check(ureg.Unit(each.unit).dimensionality)
    else:
        assert getattr(result, "dimensionless", True)
