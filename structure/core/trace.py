"""Formulas that carry their own text, and the steps and checks that a page can unfold."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Any

from structure.core.clauses import Clause, ClauseRef, Editions


@dataclass(frozen=True, slots=True)
class Symbol:
    """One symbol of a formula with the number put in its place."""

    name: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Step:
    """One line of a calculation sheet: symbol = formula = substitution = result."""

    symbol: str
    text: str
    values: tuple[Symbol, ...]
    result: float
    unit: str
    clause: ClauseRef
    note: str = ""

    def as_data(self) -> dict[str, Any]:
        """Plain data for JSON; numbers stay in the unit named beside them."""
        return {
            "symbol": self.symbol,
            "text": self.text,
            "values": [{"name": v.name, "value": v.value, "unit": v.unit} for v in self.values],
            "result": self.result,
            "unit": self.unit,
            "clause": str(self.clause),
            "note": self.note,
        }


@dataclass(frozen=True, slots=True)
class Check:
    """Demand against capacity under the combination that governs. A ratio of exactly 1 passes."""

    name: str
    demand: float
    capacity: float
    dimension: str
    combination: str
    clause: ClauseRef
    steps: tuple[Step, ...] = ()
    note: str = ""

    @property
    def ratio(self) -> float:
        """Demand over capacity; infinite where there is demand and no capacity."""
        if self.capacity > 0:
            return self.demand / self.capacity
        return 0.0 if self.demand <= 0 else float("inf")

    @property
    def passes(self) -> bool:
        return self.ratio <= 1.0


@dataclass(frozen=True)
class Formula:
    """A kernel function together with the text, units and clause that a sheet prints for it.

    The text is an arithmetic expression in the function's own argument names, so that a test can
    evaluate it on random inputs and hold it against the function.
    """

    function: Callable[..., Any]
    symbol: str
    text: str
    unit: str
    units: Mapping[str, str]
    clause: Clause
    name: str = field(default="")

    def __call__(self, *args: Any, **kwargs: Any) -> Any:
        return self.function(*args, **kwargs)

    def under(self, clause: Clause) -> Formula:
        """The same formula as another code's clause says it."""
        return replace(self, clause=clause)

    def step(self, editions: Editions, *, note: str = "", **values: float) -> Step:
        """Evaluate with `values` (in the units of `self.units`) and keep the whole line.

        What is statics or geometry holds in any system: for a code in newtons and millimetres the same line
        is printed in those.
        """
        units, unit = self.units, self.unit
        if editions.code != "us":
            units, unit = {k: metric(units[k]) for k in values}, metric(unit)
        return Step(
            symbol=self.symbol,
            text=self.text,
            values=tuple(Symbol(k, v, units[k]) for k, v in values.items()),
            result=self.function(**values),
            unit=unit,
            clause=self.clause.at(editions),
            note=note,
        )


_METRIC = {"lbf": "N", "inch": "mm", "in": "mm", "psi": "MPa"}


@cache
def metric(unit: str) -> str:
    """The unit in newtons and millimetres that stands where `unit` stands in pounds and inches."""
    return re.sub(r"[A-Za-z]+", lambda word: _METRIC.get(word[0], word[0]), unit)


FORMULAS: dict[str, Formula] = {}


def formula(
    symbol: str, text: str, *, unit: str, clause: Clause, **units: str
) -> Callable[[Callable[..., Any]], Formula]:
    """Register a kernel with its printed text. `units` names the unit of every argument.

    An empty unit means a plain number.
    """

    def register(function: Callable[..., Any]) -> Formula:
        name = f"{function.__module__}.{function.__qualname__}"
        made = Formula(function, symbol, text, unit, units, clause, name)
        made.__dict__["__doc__"] = function.__doc__
        FORMULAS[name] = made
        return made

    return register
