"""The printed text of each formula of wood beams is the formula, and its dimensions hold."""

from __future__ import annotations

import random

import pytest

from structure.core.codes.us import wood, wood_beams
from structure.core.trace import FORMULAS, Formula
from structure.core.units import ureg

OWN = {module.__name__ for module in (wood, wood_beams)}
FORMULAS_HERE = sorted(
    (each for each in FORMULAS.values() if each.function.__module__ in OWN), key=lambda each: each.name
)


def test_the_modules_register_their_formulas() -> None:
    assert len(FORMULAS_HERE) == 22


@pytest.mark.parametrize("each", FORMULAS_HERE, ids=lambda each: each.name.rsplit(".", 1)[-1])
def test_text_is_the_formula(each: Formula) -> None:
    source = random.Random(5)
    for _ in range(20):
        values = {name: source.uniform(0.5, 20.0) for name in each.units}
        printed = eval(each.text, {"__builtins__": {}}, {"min": min} | values)  # noqa: S307 - our own text
        assert printed == pytest.approx(each(**values), rel=1e-12)


@pytest.mark.parametrize("each", FORMULAS_HERE, ids=lambda each: each.name.rsplit(".", 1)[-1])
def test_dimensions_hold(each: Formula) -> None:
    source = random.Random(13)
    given = {
        name: ureg.Quantity(source.uniform(0.5, 20.0), unit or "dimensionless")
        for name, unit in each.units.items()
    }
    result = each(**given)
    assert ureg.Quantity(result).check(ureg.Unit(each.unit or "dimensionless").dimensionality)
