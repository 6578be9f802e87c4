"""The units that lines and prices are counted in, and the conversion between those that measure the same."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from types import MappingProxyType

from estimating.core.numbers import THOUSANDTH, measured
from structure.core.errors import InputError
from structure.core.units import ureg

# Unit of a line -> pint unit; None for what is counted and therefore converts to nothing else.
UNITS: Mapping[str, str | None] = MappingProxyType(
    {
        "ft": "foot",
        "m": "meter",
        "ft2": "foot**2",
        "m2": "meter**2",
        "ft3": "foot**3",
        "yd3": "yard**3",
        "m3": "meter**3",
        "lb": "pound",
        "kg": "kilogram",
        "gal": "gallon",
        "L": "liter",
        "hour": "hour",
        "each": None,
        "bag": None,
        "sheet": None,
        "box": None,
        "roll": None,
        "day": None,
        "trip": None,
        "lot": None,
    }
)
FEET, METRES = 12.0, 39.37007874015748  # inches in each


def unit_read(text: str, field: str) -> str:
    """The unit of a price as one of `UNITS`. Raises InputError naming `field`."""
    plain = text.strip()
    if plain in UNITS:
        return plain
    raise InputError(field, text, "one of " + ", ".join(UNITS))


@cache
def _factor(source: str, target: str) -> float | None:
    if source == target:
        return 1.0
    left, right = UNITS.get(source), UNITS.get(target)
    if left is None or right is None:
        return None
    a, b = ureg.Unit(left), ureg.Unit(right)
    return float(ureg.convert(1.0, a, b)) if a.dimensionality == b.dimensionality else None


def factor(source: str, target: str) -> Decimal | None:
    """How many `target` one `source` is; None where the two measure different things."""
    found = _factor(source, target)
    return None if found is None else Decimal(repr(found))


def convert(quantity: Decimal, source: str, target: str) -> Decimal | None:
    """`quantity` counted in `target`, to three decimals half up.

    None where the two measure different things.
    """
    by = factor(source, target)
    if by is None:
        return None
    return quantity if by == 1 else (quantity * by).quantize(THOUSANDTH, ROUND_HALF_UP)


def length(inches: float, metric: bool) -> tuple[Decimal, str]:
    """Feet or metres, with the unit's name."""
    return (measured(inches / METRES), "m") if metric else (measured(inches / FEET), "ft")


def area(square_inches: float, metric: bool) -> tuple[Decimal, str]:
    """Square feet or square metres, with the unit's name."""
    return (measured(square_inches / METRES**2), "m2") if metric else (measured(square_inches / 144.0), "ft2")


def volume(cubic_inches: float, metric: bool) -> tuple[Decimal, str]:
    """Cubic yards or cubic metres, with the unit's name."""
    return (measured(cubic_inches / METRES**3), "m3") if metric else (measured(cubic_inches / 46656.0), "yd3")


def weight(pounds: float, metric: bool) -> tuple[Decimal, str]:
    """Pounds or kilograms, with the unit's name."""
    return (measured(pounds * 0.45359237), "kg") if metric else (measured(pounds), "lb")
