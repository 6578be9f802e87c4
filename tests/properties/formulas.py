"""Random numbers for every registered formula, and its printed text worked out with each choice noted."""

from __future__ import annotations

import ast
import math
import random
from collections import Counter
from collections.abc import Callable, Mapping
from functools import cache
from typing import Any

from structure.core.trace import FORMULAS, Formula
from structure.core.units import ureg

DRAWS = 4000
WANTED = 60
EACH_WAY = 4
_CHOICES = {"min": min, "max": max}


class _Mark(ast.NodeTransformer):
    """Numbers every place of a text where one of several values is taken."""

    def __init__(self) -> None:
        self.ways: dict[int, int] = {}

    def visit_Call(self, node: ast.Call) -> ast.AST:
        self.generic_visit(node)
        if not isinstance(node.func, ast.Name) or node.func.id not in {*_CHOICES, "abs"}:
            return node
        site = len(self.ways)
        self.ways[site] = max(2, len(node.args))
        return ast.Call(
            ast.Name("_take", ast.Load()), [ast.Constant(node.func.id), ast.Constant(site), *node.args], []
        )

    def visit_IfExp(self, node: ast.IfExp) -> ast.AST:
        self.generic_visit(node)
        site = len(self.ways)
        self.ways[site] = 2
        node.test = ast.Call(
            ast.Name("_take", ast.Load()), [ast.Constant("if"), ast.Constant(site), node.test], []
        )
        return node


class Printed:
    """The text of a formula, ready to be worked out; `taken` holds every choice made so far, `way` the last ones."""

    def __init__(self, text: str) -> None:
        mark = _Mark()
        tree = ast.fix_missing_locations(mark.visit(ast.parse(text, mode="eval")))
        self.ways = mark.ways
        self.taken: set[tuple[int, int]] = set()
        self.way: frozenset[tuple[int, int]] = frozenset()
        self._now: set[tuple[int, int]] = set()
        self._code = compile(tree, "<text of a formula>", "eval")

    def __call__(self, values: Mapping[str, Any]) -> Any:
        words: dict[str, Any] = {
            "_take": self._take,
            "pi": math.pi,
            "sqrt": lambda x: x**0.5,
            "log10": math.log10,
        }
        self._now = set()
        found = eval(self._code, {"__builtins__": {}}, words | dict(values))  # noqa: S307 - our own text
        self.way = frozenset(self._now)
        self.taken |= self._now
        return found

    def untaken(self) -> set[tuple[int, int]]:
        """Place and number of every choice that no draw has led to."""
        return {(site, n) for site, ways in self.ways.items() for n in range(ways)} - self.taken

    def _take(self, kind: str, site: int, *args: Any) -> Any:
        if kind == "if":
            self._now.add((site, int(bool(args[0]))))
            return args[0]
        if kind == "abs":
            self._now.add((site, int(args[0] < 0)))
            return abs(args[0])
        found = _CHOICES[kind](args)
        self._now.update((site, n) for n, each in enumerate(args) if each == found)
        return found


def answer(function: Callable[..., Any], values: Mapping[str, Any]) -> float | None:
    """A plain finite number; None where the formula does not hold for these values."""
    try:
        found = function(**values)
    except (ArithmeticError, ValueError):
        return None
    if isinstance(found, complex) or not math.isfinite(found):
        return None
    return float(found)


def draws(each: Formula) -> tuple[dict[str, float], ...]:
    """Values for which the formula holds; some for each way through the choices of its text.

    Sizes run over several powers of ten, so that each side of a `min` is the smaller one somewhere.
    """
    return _draws(each.name)


@cache
def _draws(name: str) -> tuple[dict[str, float], ...]:
    each = FORMULAS[name]
    source = random.Random(3)
    printed = Printed(each.text)
    found: list[dict[str, float]] = []
    ways: Counter[frozenset[tuple[int, int]]] = Counter()
    for _ in range(DRAWS):
        spread = source.choice((0.3, 1.0, 2.5))
        values = {name: 10 ** source.uniform(-spread, spread) for name in each.units}
        if answer(each.function, values) is None or answer(lambda **v: printed(v), values) is None:
            continue
        ways[printed.way] += 1
        if len(found) < WANTED or ways[printed.way] <= EACH_WAY:
            found.append(values)
        elif not printed.ways:
            break
    return tuple(found)


def with_units(each: Formula, values: Mapping[str, float]) -> dict[str, Any]:
    """The values as quantities in the units that the formula declares."""
    return {name: ureg.Quantity(value, each.units[name] or "dimensionless") for name, value in values.items()}


def text_fault(each: Formula, text: str = "") -> str:
    """Where the text and the function part; nothing if they are one."""
    printed = Printed(text or each.text)
    for values in draws(each):
        computed = answer(each.function, values)
        shown = answer(lambda **v: printed(v), values)
        if (
            computed is None
            or shown is None
            or not math.isclose(computed, shown, rel_tol=1e-9, abs_tol=1e-12)
        ):
            return f"the text gives {shown}, the function {computed} for {values}"
    return ""


def dimension_fault(each: Formula, function: Callable[..., Any] | None = None) -> str:
    """What is wrong with the units of the answer; nothing if they are as declared."""
    declared = ureg.Unit(each.unit or "dimensionless").dimensionality
    for values in draws(each)[:3] + draws(each)[WANTED:]:
        try:
            got = ureg.Quantity((function or each.function)(**with_units(each, values))).dimensionality
        except Exception as error:  # noqa: BLE001 - whatever Pint says against it
            return f"{type(error).__name__}: {error}"
        if got != declared:
            return f"the answer is {got}, declared is {declared}"
    return ""
