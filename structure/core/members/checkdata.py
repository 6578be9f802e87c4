"""Checks as plain data, and which of several checks governs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from structure.core.trace import Check
from structure.core.units import quantity


def check_data(check: Check, code: str = "us") -> dict[str, Any]:
    """One check with its steps, in the units usual for the code; a plain number where dimensionless."""

    def shown(value: float) -> Any:
        return quantity(value, check.dimension, code) if check.dimension else value

    return {
        "demand": shown(check.demand),
        "capacity": shown(check.capacity),
        "ratio": check.ratio,
        "passes": check.passes,
        "combination": check.combination,
        "clause": str(check.clause),
        "steps": [step.as_data() for step in check.steps],
        "note": check.note,
    }


def worst(checks: Iterable[Check]) -> Check:
    """The check with the largest ratio; the first of equals. Raises ValueError for none."""
    return max(checks, key=lambda check: check.ratio)


class Checked:
    """What follows from the checks of a member: the worst one, its ratio, and whether all pass."""

    __slots__ = ()

    checks: Mapping[str, Check]

    @property
    def governing(self) -> Check:
        """The check with the largest ratio."""
        return worst(self.checks.values())

    @property
    def ratio(self) -> float:
        return self.governing.ratio

    @property
    def passes(self) -> bool:
        return all(check.passes for check in self.checks.values())
