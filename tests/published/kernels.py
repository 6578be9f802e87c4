"""Which formulas a case runs through, and what it notices when one of them answers otherwise.

Every registered formula is called through its `Formula`, so that putting another function in its place
reaches all of its users. Answers that are kept between questions are thrown away in between.
"""

from __future__ import annotations

import importlib
import pkgutil
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

import structure.core
from structure.core.cases.files import find_files, read_cases
from structure.core.cases.verify import verify_case
from structure.core.trace import FORMULAS, Formula

FOLDER = Path(__file__).resolve().parents[2] / "structure" / "verification"
Case = Mapping[str, Any]


@cache
def formulas() -> dict[str, Formula]:
    """Every registered formula by name, those of modules that nothing has asked for yet included."""
    for found in pkgutil.walk_packages(structure.core.__path__, "structure.core."):
        importlib.import_module(found.name)
    return dict(sorted(FORMULAS.items()))


@cache
def cases() -> dict[str, Case]:
    """Every shipped case with a number to meet, by id."""
    held = (case for path in find_files([FOLDER]) for case in read_cases(path))
    return {str(case["id"]): case for case in held if any(_numeric(row) for row in case["expect"])}


def _numeric(row: Mapping[str, Any]) -> bool:
    wanted = row.get("equals", row.get("at_least", row.get("at_most")))
    if isinstance(wanted, str):
        return wanted[:1].isdecimal() or wanted[:1] in "+-."
    return isinstance(wanted, int | float) and not isinstance(wanted, bool)


@contextmanager
def replaced(formula: Formula, function: Callable[..., Any]) -> Iterator[None]:
    """Within, the formula answers by another function."""
    own = formula.function
    forget()
    formula.__dict__["function"] = function
    try:
        yield
    finally:
        formula.__dict__["function"] = own
        forget()


def forget() -> None:
    """Throw away every answer that the engine keeps between questions."""
    for name, module in list(sys.modules.items()):
        if name.startswith("structure.core") and not name.startswith("structure.core.cases.registry"):
            for held in list(vars(module).values()):
                clear = getattr(held, "cache_clear", None)
                if clear is not None and getattr(held, "__module__", "").startswith("structure.core"):
                    clear()


def noticed(case: Case) -> bool:
    """Whether any expectation of the case is missed now."""
    return any(not row.passed for row in verify_case(case))


@cache
def calls() -> dict[str, tuple[str, ...]]:
    """For each formula the cases that run through it, quickest to answer first."""
    called: dict[str, list[str]] = {name: [] for name in formulas()}
    heard: list[str] = []
    originals = {name: each.function for name, each in formulas().items()}

    def listening(name: str, function: Callable[..., Any]) -> Callable[..., Any]:
        def answer(*args: Any, **kwargs: Any) -> Any:
            heard.append(name)
            return function(*args, **kwargs)

        return answer

    for name, each in formulas().items():
        each.__dict__["function"] = listening(name, originals[name])
    size: dict[str, int] = {}
    try:
        for key, case in cases().items():
            heard.clear()
            forget()
            verify_case(case)
            size[key] = len(heard)
            for name in set(heard):
                called[name].append(key)
    finally:
        for name, each in formulas().items():
            each.__dict__["function"] = originals[name]
        forget()
    return {name: tuple(sorted(keys, key=lambda key: size[key])) for name, keys in called.items()}


def holders(name: str, share: float = 0.01, keys: Iterable[str] | None = None) -> Iterator[str]:
    """The cases (of `keys`, if given) that miss when the formula answers `share` too much or too little."""
    each = formulas()[name]
    own = each.function
    for key in calls()[name] if keys is None else keys:
        for factor in (1 + share, 1 - share):
            with replaced(each, lambda *args, _f=factor, **kwargs: own(*args, **kwargs) * _f):
                if noticed(cases()[key]):
                    yield key
                    break


def standing(case: Case) -> str:
    """`published`, `common practice` or `memory`: how well the source of a case is known."""
    source = str(case["source"]).lower()
    return next((mark for mark in ("common practice", "memory") if source.startswith(mark)), "published")
