"""Small faults put into the text of a formula, and the faulty text as the function in its place.

Text and function are held together by a test of their own, so a fault in one alone is always seen. Here both
are wrong in the same way; only a number that somebody printed can tell.
"""

from __future__ import annotations

import ast
import copy
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

from structure.core.trace import Formula
from tests.properties.formulas import text_fault

_OTHER_SIGN: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.Pow: ast.Mult,
}
_OTHER_SIDE: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.Gt,
    ast.LtE: ast.Gt,
    ast.Gt: ast.Lt,
    ast.GtE: ast.Lt,
}
_OTHER_CHOICE = {"min": "max", "max": "min"}


def faulty_texts(each: Formula) -> Iterator[str]:
    """Every text with one fault in it that says something else than the formula does."""
    seen = {ast.unparse(ast.parse(each.text, mode="eval"))}
    for text in _mutants(each):
        if text not in seen:
            seen.add(text)
            if text_fault(each, text):
                yield text


def _mutants(each: Formula) -> Iterator[str]:
    tree = ast.parse(each.text, mode="eval")
    for n, node in enumerate(ast.walk(tree)):
        for change in _changes(node, each):
            other = copy.deepcopy(tree)
            place = list(ast.walk(other))[n]
            yield ast.unparse(_put(other, place, change(place)))


def _changes(node: ast.AST, each: Formula) -> Iterator[Callable[[Any], ast.expr]]:
    if isinstance(node, ast.BinOp):
        yield lambda it: ast.BinOp(it.left, _OTHER_SIGN[type(it.op)](), it.right)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        yield lambda it: it.operand
    elif isinstance(node, ast.Compare):
        yield lambda it: ast.Compare(it.left, [_OTHER_SIDE[type(it.ops[0])]()], it.comparators)
    elif isinstance(node, ast.IfExp):
        yield lambda it: it.body
        yield lambda it: it.orelse
    elif isinstance(node, ast.Constant):
        yield lambda it: ast.Constant(it.value * 1.05 if it.value else 1)
        yield lambda it: ast.Constant(it.value + 1)
    elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        if node.func.id in _OTHER_CHOICE:
            yield lambda it: ast.Call(ast.Name(_OTHER_CHOICE[it.func.id], ast.Load()), it.args, [])
        for n in range(len(node.args)):
            yield lambda it, n=n: it.args[n]  # type: ignore[misc]
    elif isinstance(node, ast.Name) and node.id in each.units:
        for name, unit in each.units.items():
            if name != node.id and unit == each.units[node.id]:
                yield lambda it, name=name: ast.Name(name, ast.Load())  # type: ignore[misc]


def _put(tree: ast.Expression, place: ast.AST, new: ast.expr) -> ast.Expression:
    class Put(ast.NodeTransformer):
        def visit(self, node: ast.AST) -> Any:
            return new if node is place else self.generic_visit(node)

    return ast.fix_missing_locations(Put().visit(tree))  # type: ignore[no-any-return]


def _choose(plain: Callable[..., Any], many: Any) -> Callable[..., Any]:
    def chosen(*args: Any) -> Any:
        if any(isinstance(each, np.ndarray) for each in args):
            return many.reduce(np.broadcast_arrays(*args))
        return plain(*args)

    return chosen


_WORDS: dict[str, Any] = {
    "min": _choose(min, np.minimum),
    "max": _choose(max, np.maximum),
    "abs": abs,
    "sqrt": lambda x: x**0.5,
    "log10": np.log10,
    "pi": np.pi,
}


def as_function(each: Formula, text: str) -> Callable[..., Any]:
    """The text in the place of the formula's function, for numbers and for arrays of them."""
    code = compile(text, f"<{each.name}>", "eval")
    names = list(each.units)
    defaults = each.function.__defaults__ or ()
    missing = dict(zip(names[len(names) - len(defaults) :], defaults, strict=True))

    def answer(*args: Any, **kwargs: Any) -> Any:
        values = missing | dict(zip(names, args, strict=False)) | kwargs
        with np.errstate(all="ignore"):
            return eval(code, {"__builtins__": {}}, _WORDS | values)  # noqa: S307 - our own text

    return answer
