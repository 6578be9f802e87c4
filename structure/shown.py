"""Which units the page that is being made speaks: those that its house chose, whatever its code is.

A view says it once for the job it shows; whoever writes a number asks here. Outside of any job it is feet and inches.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from functools import lru_cache
from typing import Any

from structure.core.units import read_unit, ureg

IMPERIAL, METRIC = "imperial", "metric"
_units: ContextVar[str] = ContextVar("units", default=IMPERIAL)


def show_in(units: str) -> None:
    """From here on in this request, numbers are written in `units`."""
    _units.set(units)


def metric() -> bool:
    """Whether numbers are written in metric here."""
    return _units.get() == METRIC


@contextmanager
def shown_in(units: str) -> Iterator[None]:
    """Write in `units` for a while."""
    token = _units.set(units)
    try:
        yield
    finally:
        _units.reset(token)


@lru_cache(maxsize=256)
def _factor(unit: str, target: str) -> float:
    held, wanted = read_unit(unit), read_unit(target)
    if held is None or wanted is None:
        raise ValueError(f"no unit {unit!r} or {target!r}")
    return float(ureg.convert(1.0, held, wanted))


def value_in(held: Mapping[str, Any], target: str) -> float:
    """The number of a quantity of a result in the unit `target`, whatever unit it came in."""
    value, unit = float(held["value"]), str(held["unit"])
    return value if unit == target else value * _factor(unit, target)


def inches(held: Mapping[str, Any]) -> float:
    """A length of a result in inches, which drawings and schedules are kept in."""
    return value_in(held, "in")
