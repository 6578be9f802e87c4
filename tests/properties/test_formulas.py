"""The printed text of every formula is the formula, on each side of each choice, and its dimensions hold."""

from __future__ import annotations

import ast
import inspect
from typing import Any

import pytest

from structure.core.trace import Formula
from structure.core.units import ureg
from tests.properties.formulas import WANTED, Printed, dimension_fault, draws, text_fault
from tests.published.kernels import formulas

EVERY = pytest.mark.parametrize("each", formulas().values(), ids=formulas())


@EVERY
def test_text_is_the_formula(each: Formula) -> None:
    assert len(draws(each)) >= WANTED
    assert not text_fault(each)


@EVERY
def test_both_sides_of_every_choice_are_held_against_the_function(each: Formula) -> None:
    printed = Printed(each.text)
    for values in draws(each):
        printed(values)
    assert not printed.untaken()


@EVERY
def test_dimensions_hold(each: Formula) -> None:
    assert not dimension_fault(each)


@EVERY
def test_units_clause_and_docstring_are_told(each: Formula) -> None:
    assert list(each.units) == list(inspect.signature(each.function).parameters)
    assert each.clause.document
    assert (each.function.__doc__ or "").strip()
    names = {node.id for node in ast.walk(ast.parse(each.text)) if isinstance(node, ast.Name)}
    assert names - {"min", "max", "abs", "sqrt", "pi", "log10"} == set(each.units)


class _Power(ast.NodeTransformer):
    """Raises one symbol of a text to another power."""

    def __init__(self, symbol: str) -> None:
        self.symbol = symbol

    def visit_Name(self, node: ast.Name) -> ast.AST:
        if node.id != self.symbol:
            return node
        return ast.BinOp(node, ast.Pow(), ast.Constant(2))


class _Number(ast.NodeTransformer):
    """Changes the nth number of a text by one per cent."""

    def __init__(self, place: int) -> None:
        self.place, self.seen = place, -1

    def visit_Constant(self, node: ast.Constant) -> ast.AST:
        self.seen += 1
        return ast.Constant(node.value * 1.01 if node.value else 0.01) if self.seen == self.place else node


@EVERY
def test_a_wrong_power_is_seen(each: Formula) -> None:
    """With any one symbol that has a unit squared, the dimensions no longer hold, nor does the text."""
    for symbol, unit in each.units.items():
        tree = ast.fix_missing_locations(_Power(symbol).visit(ast.parse(each.text, mode="eval")))
        wrong = ast.unparse(tree)
        if unit and not ureg.Unit(unit).dimensionless:
            printed = Printed(wrong)
            assert dimension_fault(each, lambda _p=printed, **values: _p(values)), f"{wrong} goes unseen"
        assert text_fault(each, wrong), f"{wrong} goes unseen"


@EVERY
def test_a_wrong_number_is_seen(each: Formula) -> None:
    numbers = sum(isinstance(node, ast.Constant) for node in ast.walk(ast.parse(each.text)))
    for place in range(numbers):
        wrong = ast.unparse(_Number(place).visit(ast.parse(each.text, mode="eval")))
        zero = "0 * " in each.text and "0.01 * " in wrong  # a nothing that only lends its unit
        assert text_fault(each, wrong) or zero, f"{wrong} goes unseen"


def test_a_choice_that_no_draw_leads_to_is_seen() -> None:
    printed = Printed("min(a, 10 ** 9)")
    values: dict[str, Any] = {"a": 1.0}
    assert printed(values) == 1.0
    assert printed.untaken() == {(0, 1)}
