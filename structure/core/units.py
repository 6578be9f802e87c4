"""Units at the edge: text to a float in the code's own unit system, and back to quantities.

Inside the engine a US question is worked in pounds-force and inches, a Canadian one in newtons and
millimetres. Pint converts; it never parses what a person typed, since `16 ft 4 in` would become
64 ft*in.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from types import MappingProxyType
from typing import Any

import pint

from structure.core.errors import InputError
from structure.core.measure import MAX_TEXT, read_feet_inches, split_quantity, tidy

ureg: pint.UnitRegistry[Any] = pint.UnitRegistry(cache_folder=None)
for _definition in (
    "psf = lbf / foot ** 2",
    "plf = lbf / foot",
    "pcf = lbf / foot ** 3",
    "klf = kip / foot",
    "ksf = kip / foot ** 2",
):
    ureg.define(_definition)
pint.set_application_registry(ureg)  # type: ignore[no-untyped-call]


@dataclass(frozen=True, slots=True)
class Dimension:
    """One kind of quantity: the unit worked in and the unit shown, by system, and an example."""

    name: str
    inside: Mapping[str, str]
    shown: Mapping[str, str]
    example: str


def _dim(name: str, us: str, us_shown: str, si: str, si_shown: str, example: str) -> Dimension:
    return Dimension(
        name,
        MappingProxyType({"us": us, "ca": si}),
        MappingProxyType({"us": us_shown, "ca": si_shown}),
        example,
    )


DIMENSIONS: Mapping[str, Dimension] = MappingProxyType(
    {
        d.name: d
        for d in (
            _dim("length", "inch", "in", "mm", "mm", "a length with a unit, such as 12 ft 6 in or 3.81 m"),
            _dim("force", "lbf", "lbf", "N", "kN", "a force with a unit, such as 4,800 lbf or 21 kN"),
            _dim(
                "line_load",
                "lbf/inch",
                "lbf/ft",
                "N/mm",
                "kN/m",
                "a load per length with a unit, such as 850 lbf/ft or 12 kN/m",
            ),
            _dim("pressure", "psi", "psf", "MPa", "kPa", "a pressure with a unit, such as 40 psf or 1.9 kPa"),
            _dim("stress", "psi", "psi", "MPa", "MPa", "a stress with a unit, such as 1,500 psi or 10 MPa"),
            _dim(
                "moment",
                "lbf*inch",
                "lbf*ft",
                "N*mm",
                "kN*m",
                "a moment with a unit, such as 7,200 lbf*ft or 10 kN*m",
            ),
            _dim("area", "inch**2", "in**2", "mm**2", "mm**2", "an area with a unit, such as 24 in**2"),
            _dim(
                "section_modulus",
                "inch**3",
                "in**3",
                "mm**3",
                "mm**3",
                "a section modulus with a unit, such as 82 in**3",
            ),
            _dim(
                "inertia",
                "inch**4",
                "in**4",
                "mm**4",
                "mm**4",
                "a second moment of area with a unit, such as 356 in**4",
            ),
            _dim("volume", "inch**3", "ft**3", "mm**3", "m**3", "a volume with a unit, such as 9 ft**3"),
            _dim(
                "density",
                "lbf/inch**3",
                "lbf/ft**3",
                "N/mm**3",
                "kN/m**3",
                "a weight per volume with a unit, such as 150 lbf/ft**3 or 24 kN/m**3",
            ),
            _dim("angle", "degree", "degree", "degree", "degree", "an angle with a unit, such as 18 deg"),
        )
    }
)

_NAMES = {
    "in": "inch",
    "inch": "inch",
    "inches": "inch",
    '"': "inch",
    "ft": "foot",
    "foot": "foot",
    "feet": "foot",
    "'": "foot",
    "yd": "yard",
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "lb": "pound",
    "lbs": "pound",
    "lbf": "force_pound",
    "kip": "kip",
    "kips": "kip",
    "k": "kip",
    "n": "newton",
    "kn": "kilonewton",
    "kg": "kilogram",
    "kgf": "force_kilogram",
    "psi": "psi",
    "ksi": "ksi",
    "psf": "psf",
    "ksf": "ksf",
    "plf": "plf",
    "klf": "klf",
    "pcf": "pcf",
    "pa": "pascal",
    "kpa": "kilopascal",
    "mpa": "megapascal",
    "gpa": "gigapascal",
    "deg": "degree",
    "degree": "degree",
    "degrees": "degree",
}
_CASED = {
    "N": "newton",
    "kN": "kilonewton",
    "MN": "meganewton",
    "Pa": "pascal",
    "kPa": "kilopascal",
    "MPa": "megapascal",
    "GPa": "gigapascal",
}
_FACTOR = re.compile(
    r"\s*([A-Za-z]+|['\"])\s*(?:(?:\*\*|\^)\s*([1-4])|([2-4])(?![0-9])|([\u00b2\u00b3\u2074]))?\s*"
)
_SUPERSCRIPT = {"\u00b2": 2, "\u00b3": 3, "\u2074": 4}
_WEIGHTS = {"pound": "force_pound", "kilogram": "force_kilogram"}


def read_unit(text: str) -> Any | None:
    """A pint unit from `lbf/ft`, `kN*m`, `in^4`; None for anything outside the short list held here.

    A mass unit is read as the weight of that mass, since loads are what is asked for.
    """
    unit: Any = ureg.dimensionless
    position, divide = 0, False
    while True:
        match = _FACTOR.match(text, position)
        if match is None:
            return None
        name = _CASED.get(match[1]) or _NAMES.get(match[1].lower())
        if name is None:
            return None
        power = int(match[2] or match[3] or _SUPERSCRIPT.get(match[4] or "", 1))
        factor = ureg.Unit(_WEIGHTS.get(name, name)) ** power
        unit = unit / factor if divide else unit * factor
        position = match.end()
        if position == len(text):
            return unit
        if text[position] not in "*/-\u00b7":
            return None
        divide = text[position] == "/"
        position += 1


# Bounded, since the key is what people typed.
@lru_cache(maxsize=512)
def _factor(unit_text: str, dimension: str, code: str) -> float | None:
    unit = read_unit(unit_text)
    if unit is None:
        return None
    target = ureg.Unit(DIMENSIONS[dimension].inside[code])
    if unit.dimensionality != target.dimensionality:
        return None
    return float(ureg.convert(1.0, unit, target))


def read_quantity(text: object, dimension: str, field: str, code: str = "us") -> float:
    """A float in the unit system of `code` from text with a unit.

    Raises InputError naming `field` for a bare number, another dimension, an unknown unit, NaN or
    infinity, or `12 ft 18 in`.
    """
    accepted = DIMENSIONS[dimension].example
    if not isinstance(text, str):
        raise InputError(field, text, accepted)
    plain = tidy(text)
    if not plain or len(plain) > MAX_TEXT:
        raise InputError(field, text, accepted)
    try:
        value = _magnitude(plain, dimension, code)
    except OverflowError:
        value = math.inf
    if isinstance(value, str):
        raise InputError(field, text, value)
    if value is None or not math.isfinite(value):
        raise InputError(field, text, accepted)
    return value


def _magnitude(plain: str, dimension: str, code: str) -> float | str | None:
    """The value inside; None if it cannot be read, a sentence on what is accepted where that is known."""
    if dimension == "length":
        inches = read_feet_inches(plain)
        if isinstance(inches, str):
            return inches
        if inches is not None:
            return float(inches) * (1.0 if code == "us" else 25.4)
    parts = split_quantity(plain)
    factor = _factor(parts[1], dimension, code) if parts and len(parts[1]) <= 24 else None
    return None if parts is None or factor is None else float(parts[0]) * factor


@cache
def _shown_factor(dimension: str, code: str) -> float:
    held = DIMENSIONS[dimension]
    return float(ureg.convert(1.0, ureg.Unit(held.inside[code]), ureg.Unit(held.shown[code])))


def quantity(value: float, dimension: str, code: str = "us") -> dict[str, Any]:
    """`{"value": ..., "unit": ...}` in the unit usual for that code; a plain number if dimensionless."""
    return {"value": value * _shown_factor(dimension, code), "unit": DIMENSIONS[dimension].shown[code]}


def in_words(value: float, dimension: str, code: str = "us") -> str:
    """`1,240 lbf`, `5.52 kN`, `12.5 ft`: a quantity inside a sentence. Lengths are told in feet or metres."""
    if dimension == "length":
        return f"{value / 12:.4g} ft" if code == "us" else f"{value / 1000:.4g} m"
    held = quantity(value, dimension, code)
    number = f"{held['value']:,.0f}" if code == "us" else f"{held['value']:,.4g}"
    return f"{number} {held['unit']}"


def place_in_words(value: float, code: str = "us") -> str:
    """`92.5 in`, `2350 mm`: a place or a small size inside a sentence, in the unit that a tape shows."""
    return f"{value:g} in" if code == "us" else f"{round(value, 1):g} mm"
