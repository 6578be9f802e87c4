"""The sentences of the takeoff in metric: its rules are written in feet, and told in metres where the house is.

Amounts are computed once, in one place; only the words change. What the trade sizes in fractions of an inch, such as
a bolt, keeps its inches beside.
"""

from __future__ import annotations

import re
from fractions import Fraction

# Unit as written -> metric unit, its size in it, decimals kept.
_UNITS = {
    "lb/ft3": ("kg/m3", 16.01846337, 0),
    "ft2": ("m2", 0.09290304, 2),
    "yd3": ("m3", 0.764554857984, 1),
    "ft3": ("m3", 0.028316846592, 2),
    "ft": ("m", 0.3048, 2),
    "in": ("mm", 25.4, 0),
    "lb": ("kg", 0.45359237, 1),
}
_UNIT = "|".join(re.escape(unit) for unit in _UNITS)
_NUMBER = r"(?:\d+ )?\d+/\d+|\d[\d,]*(?:\.\d+)?"
_AMOUNT = re.compile(rf"(?:({_NUMBER}) to )?({_NUMBER}) ({_UNIT})(?![\w/]| all\b)")
_PLAIN = (("Half a pound", "0.23 kg"),)


def metric_words(text: str) -> str:
    """`8 ft deep` as `2.44 m deep`, `1/2 in bolts` as `12.7 mm (1/2 in) bolts`; what has no unit stays."""
    for imperial, si in _PLAIN:
        text = text.replace(imperial, si)
    return _AMOUNT.sub(_told, text)


def _told(match: re.Match[str]) -> str:
    first, last, unit = match[1], match[2], match[3]
    name, size, places = _UNITS[unit]
    if "/" in last:
        return f"{_number(last, size, 1)} {name} ({last} {unit})"
    span = f"{_number(first, size, places)} to " if first else ""
    return f"{span}{_number(last, size, places)} {name}"


def _number(text: str, size: float, places: int) -> str:
    value = sum(float(Fraction(part)) for part in text.replace(",", "").split())
    shown = f"{value * size:,.{places}f}"
    return shown.rstrip("0").rstrip(".") if "." in shown else shown


def in_metric(number: object, unit: str) -> str:
    """`6.1 m` for a setting of 20 ft; empty where it has no unit that is told otherwise."""
    words = f"{number} {unit}"
    told = metric_words(words)
    return "" if told == words else told


def metric_rate(amount: float, per_unit: float, basis: str) -> tuple[float, float, str]:
    """An amount of work, the hours for one and what is counted, by the metric unit; their product stays the same."""
    for unit, (name, size, _) in _UNITS.items():
        for lead in ("", "hundreds of "):
            if basis.startswith(f"{lead}{unit} "):
                return amount * size, per_unit / size, lead + name + basis[len(lead) + len(unit) :]
    return amount, per_unit, metric_words(basis)
