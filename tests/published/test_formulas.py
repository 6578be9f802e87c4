"""Every formula is held by a case: some printed number would be missed if it answered 1 % otherwise."""

from __future__ import annotations

import ast
import inspect
import pkgutil
import sys
from collections.abc import Iterator
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

import pytest

import structure.core
from structure.core.cases.verify import verify_case
from tests.published import kernels

CORE = Path(structure.core.__file__).parent
# Rooms that hold no engineering: reading questions, units, lengths in words.
OTHER_ROOMS = ("cases", "units.py", "measure.py", "trace.py", "clauses.py", "errors.py", "version.py")
# Formulas of which only the sign is used: one per cent more changes nothing, the other sign does.
ONLY_THE_SIGN = {"structure.core.codes.us.loads.two_span_end"}  # whether the far end of a joist wants to lift
# Not asked by any question; other tests hold something against it.
FOR_TESTS = {"contraflexures"}  # the lengths that hogging reaches, by another way
_REAL = (ast.Mult, ast.Div, ast.Pow, ast.Sub, ast.Add)


@pytest.mark.parametrize("name", kernels.formulas())
def test_a_case_runs_through_the_formula(name: str) -> None:
    assert kernels.calls()[name], f"no case with a number to meet runs through {name}"


@pytest.mark.slow
@pytest.mark.parametrize("name", kernels.formulas())
def test_a_printed_number_holds_the_formula(name: str) -> None:
    held = next(kernels.holders(name, 2.0 if name in ONLY_THE_SIGN else 0.01), None)
    tried = ", ".join(kernels.calls()[name][:8])
    assert held, f"no printed number misses when {name} answers 1 % otherwise; tried {tried}"


@pytest.mark.slow
@pytest.mark.parametrize(
    "name", [n for n, each in kernels.formulas().items() if each.clause.document == "common practice"]
)
def test_a_rule_of_common_practice_is_held_by_a_case_marked_so(name: str) -> None:
    standings = {kernels.standing(kernels.cases()[key]) for key in kernels.holders(name)}
    assert "common practice" in standings


def test_the_watch_would_see_a_formula_that_nothing_holds() -> None:
    name = next(name for name in kernels.formulas() if name.endswith("wood_beams.bending_stress"))
    each = kernels.formulas()[name]
    case = kernels.cases()["own-offset-parallel"]
    with kernels.replaced(each, lambda *args, **kwargs: 0.0):
        assert not kernels.noticed(case)
    assert not kernels.noticed(kernels.cases()[kernels.calls()[name][0]])


def _sums(node: ast.AST) -> bool:
    """Whether a function reckons: an arithmetic sign between two things, not both of them written out."""
    return any(
        isinstance(each, ast.BinOp)
        and isinstance(each.op, _REAL)
        and not (isinstance(each.left, ast.Constant) and isinstance(each.right, ast.Constant))
        and not any(
            isinstance(side, ast.JoinedStr | ast.List | ast.Tuple) for side in (each.left, each.right)
        )
        for each in ast.walk(node)
    )


def _public_reckoning() -> Iterator[tuple[str, str]]:
    """File and name of every public function and method of the engine that reckons."""
    for path in sorted(CORE.rglob("*.py")):
        if path.relative_to(CORE).parts[0] in OTHER_ROOMS:
            continue
        for outer in ast.parse(path.read_text()).body:
            for node in outer.body if isinstance(outer, ast.ClassDef) else [outer]:
                public = not node.name.startswith("_") if isinstance(node, ast.FunctionDef) else False
                if public and not outer.name.startswith("_") and _sums(node):  # type: ignore[attr-defined]
                    yield str(path), node.name  # type: ignore[attr-defined]


@pytest.fixture(scope="module")
def entered() -> set[tuple[str, str]]:
    """File and name of every function that answering the cases goes into."""
    seen: set[CodeType] = set()

    def look(frame: FrameType, event: str, _: Any) -> None:
        if event == "call":
            seen.add(frame.f_code)

    before = sys.getprofile()
    kernels.forget()
    sys.setprofile(look)
    try:
        for case in kernels.cases().values():
            verify_case(case)
    finally:
        sys.setprofile(before)
    return {(code.co_filename, code.co_name) for code in seen}


def test_every_public_function_that_reckons_is_used_by_a_case(entered: set[tuple[str, str]]) -> None:
    found = list(_public_reckoning())
    assert len(found) > 150
    unused = [
        f"{Path(file).relative_to(CORE)}: {name}"
        for file, name in found
        if (file, name) not in entered and name not in FOR_TESTS
    ]
    assert not unused, "no case with a number to meet goes into: " + "; ".join(unused)


def test_every_module_of_the_engine_is_looked_at() -> None:
    names = {each.name for each in pkgutil.walk_packages(structure.core.__path__, "structure.core.")}
    written = {inspect.getmodulename(str(path)) for path in CORE.rglob("*.py")} - {"__init__"}
    assert written <= {name.rsplit(".", 1)[-1] for name in names}
