"""Numbers and calculation lines of a result as a page prints them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from structure.diagrams import words
from structure.shown import metric, value_in

_NAME = re.compile(r"[A-Za-z_][A-Za-z_0-9]*")
_KEPT = {"min", "max", "abs"}
_UNIT_WORDS = {
    "lbf/inch": "lbf/in",
    "lbf*inch": "lbf·in",
    "lbf*in": "lbf·in",
    "lbf*ft": "lbf·ft",
    "in**2": "in²",
    "in**3": "in³",
    "in**4": "in⁴",
    "lbf/in**3": "lbf/in³",
    "lbf/in**2": "psi",
    "kN*m": "kN·m",
    "ft**3": "ft³",
    "lbf*in**2": "lbf·in²",
    "degree": "°",
}

LEAST_GROUND = 1e5  # mm2; a section of a beam is smaller, a pad is larger
# Units that results come in, by what they measure, and the unit that the words are made from.
DIMENSION_OF = {
    unit: dimension
    for dimension, units in {
        "length": ("in", "mm", "ft", "m"),
        "force": ("lbf", "kN", "N"),
        "line_load": ("lbf/ft", "kN/m", "N/mm"),
        "moment": ("lbf*ft", "kN*m"),
        "pressure": ("psf", "kPa"),
        "stress": ("psi", "MPa"),
        "volume": ("ft**3", "m**3"),
    }.items()
    for unit in units
}
PLAIN = {
    "length": "in",
    "force": "lbf",
    "line_load": "lbf/ft",
    "moment": "lbf*ft",
    "pressure": "psf",
    "stress": "psi",
    "volume": "ft**3",
}


def figure(value: float) -> str:
    """A number with its digits: no exponent for what occurs in a house, six figures."""
    if value in (float("inf"), float("-inf")):
        return "∞" if value > 0 else "−∞"
    size = abs(value)
    if size >= 1e5 and size < 1e13:
        return f"{value:,.0f}"
    if 0 < size < 1e-4:
        return f"{value:.4e}"
    return f"{value:,.6g}"


def unit_words(unit: str) -> str:
    """A unit with raised dots and powers."""
    plain = unit.replace("**2", "²").replace("**3", "³").replace("**4", "⁴").replace("*", "·")
    return _UNIT_WORDS.get(unit, plain)


def with_unit(value: float, unit: str) -> str:
    """`2,900 psi`, `1.15`."""
    return f"{figure(value)} {unit_words(unit)}".strip()


def formula_words(text: str) -> str:
    """The formula as printed: raised dots for products, powers as carets are left to the reader's eye."""
    return text.replace(" ** ", "^").replace("**", "^").replace(" * ", " · ")


def substitution(text: str, values: list[Mapping[str, Any]]) -> str:
    """The formula with every symbol replaced by its number and unit."""
    held = {v["name"]: v for v in values}

    def put(match: re.Match[str]) -> str:
        name = match[0]
        if name in held and name not in _KEPT:
            told = with_unit(held[name]["value"], held[name]["unit"])
            raised = text[match.end() :].lstrip().startswith("**")
            return f"({told})" if raised and " " in told else told
        return name

    return formula_words(_NAME.sub(put, text))


def step_line(step: Mapping[str, Any]) -> dict[str, str]:
    """One calculation line as words: symbol, formula, substitution, result, clause, note."""
    return {
        "symbol": step["symbol"],
        "text": formula_words(step["text"]),
        "subst": substitution(step["text"], step["values"]),
        "result": with_unit(step["result"], step["unit"]),
        "clause": step["clause"],
        "note": step.get("note", ""),
    }


def quantity_words(held: Any, *, both: bool = True) -> str:
    """A quantity of a result in the units of the house, with the other system beside it where the trade has both."""
    if held is None:
        return "not worked out"
    if not isinstance(held, Mapping):
        return figure(held) if isinstance(held, int | float) and not isinstance(held, bool) else str(held)
    value, unit = held["value"], held["unit"]
    dimension = DIMENSION_OF.get(unit)
    if unit == "mm**2" and abs(value) >= LEAST_GROUND:
        return _ground(value, both)
    if dimension is None:
        return with_unit(value, unit)
    plain = value_in(held, PLAIN[dimension])
    if dimension == "length":
        return words.length(plain, "us", both=both) if abs(plain) >= 3 else words.small_length(plain, "us")
    if dimension == "force":
        return words.force(plain, "us", both=both)
    if dimension == "line_load":
        return words.line_load(plain / 12, "us", both=both)
    if dimension == "moment":
        return words.moment(plain * 12, "us", both=both)
    if dimension == "pressure":
        return words.pressure(plain, both=both)
    if dimension == "stress":
        return words.stress(plain)
    return _volume(plain, both)


def _ground(square_millimetres: float, both: bool) -> str:
    """The area of a floor or a pad, which is no area of a section."""
    metres = square_millimetres / 1e6
    imperial, si = f"{metres / 0.09290304:,.4g} ft\u00b2", f"{metres:,.4g} m\u00b2"
    return si if metric() else f"{imperial} ({si})" if both else imperial


def _volume(feet: float, both: bool) -> str:
    """Concrete: the yard sells it by both."""
    imperial, si = f"{feet:,.2f} ft\u00b3", f"{feet * 0.0283168466:.3f} m\u00b3"
    first, second = (si, imperial) if metric() else (imperial, si)
    return f"{first} ({second})" if both else first


def demand_words(held: Any) -> str:
    """Demand or capacity of a check, which may be a plain number or a quantity."""
    return quantity_words(held, both=False)
