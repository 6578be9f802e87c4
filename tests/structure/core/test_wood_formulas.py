"""The printed text of each column, bearing and shoring formula is the formula, and its dimensions hold."""

from __future__ import annotations

import random

import pytest

from structure.core.codes.us import shoring, wood_bearing, wood_columns
from structure.core.members import stated_post
from structure.core.trace import FORMULAS, Formula
from structure.core.units import ureg

OWN = {module.__name__ for module in (shoring, wood_bearing, wood_columns, stated_post)}
FORMULAS_HERE = sorted(
    (each for each in FORMULAS.values() if each.function.__module__ in OWN), key=lambda each: each.name
)
# Where a formula holds only for part of the numbers: a load under the buckling load, a span over the stand-off.
LARGE = {"F_cE": 1000.0, "L": 100.0}


def values_of(each: Formula, source: random.Random) -> dict[str, float]:
    return {name: LARGE.get(name, 0.0) + source.uniform(1.0, 20.0) for name in each.units}


def test_the_modules_register_their_formulas() -> None:
    assert len(FORMULAS_HERE) == 29


@pytest.mark.parametrize("each", FORMULAS_HERE, ids=lambda each: each.name.rsplit(".", 1)[-1])
def test_text_is_the_formula(each: Formula) -> None:
    source = random.Random(7)
    for _ in range(20):
        values = values_of(each, source)
        if each.symbol == "C_P":
            values["c"] = source.uniform(0.7, 0.95)
        printed = eval(each.text, {"__builtins__": {}}, {"min": min} | values)  # noqa: S307 - our own text
        assert printed == pytest.approx(each(**values), rel=1e-12)


@pytest.mark.parametrize("each", FORMULAS_HERE, ids=lambda each: each.name.rsplit(".", 1)[-1])
def test_dimensions_hold(each: Formula) -> None:
    values = values_of(each, random.Random(11)) | ({"c": 0.8} if each.symbol == "C_P" else {})
    given = {
        name: ureg.Quantity(value, each.units[name] or "dimensionless") for name, value in values.items()
    }
    result = each(**given)
    assert result.check(ureg.Unit(each.unit or "dimensionless").dimensionality)
