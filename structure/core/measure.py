"""Numbers and feet-inch lengths as people write them. Linear time, no evaluation, no guessing."""

from __future__ import annotations

import re
from fractions import Fraction

MAX_TEXT = 60
_TYPOGRAPHIC = str.maketrans(
    {
        "\u2032": "'",
        "\u2019": "'",
        "\u2033": '"',
        "\u201d": '"',
        "\u2013": "-",
        "\u2212": "-",
        "\u00a0": " ",
        "\u00d7": "x",
    }
)
_NUMBER = r"(?:\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d{1,3})?"
_MIXED = rf"(?:\d+[ -]\d+/\d+|\d+/\d+|{_NUMBER})"
_WHOLE = re.compile(rf"([+-]?)\s*({_MIXED})", re.ASCII)
_QUANTITY = re.compile(rf"([+-]?)\s*({_MIXED})\s*(.*)", re.ASCII | re.DOTALL)
_FEET_INCHES = re.compile(
    rf"([+-]?)\s*({_NUMBER})\s*(?:'|ft\b\.?|feet\b|foot\b)\s*(?:-\s*)?"
    rf"({_MIXED})\s*(?:\"|''|in\b\.?|inches\b|inch\b)",
    re.ASCII,
)
_FRACTION = re.compile(r"(?:(\d+)[ -])?(\d+)/(\d+)", re.ASCII)
SIXTEENTH = Fraction(1, 16)


def tidy(text: str) -> str:
    """Typographic marks to plain ones, blanks trimmed."""
    return text.translate(_TYPOGRAPHIC).strip()


def read_number(text: str) -> Fraction | None:
    """`1,500`, `12.5`, `3 1/2`, `1/4`, `1.6e6`: exact; None if it is none of these."""
    match = _WHOLE.fullmatch(text) if len(text) <= MAX_TEXT else None
    return None if match is None else _value(match[1], match[2])


def split_quantity(text: str) -> tuple[Fraction, str] | None:
    """A number and the rest of the text (its unit, perhaps empty); None if it starts with none."""
    match = _QUANTITY.fullmatch(text) if len(text) <= MAX_TEXT else None
    if match is None:
        return None
    number = _value(match[1], match[2])
    return None if number is None else (number, match[3].strip())


def read_feet_inches(text: str) -> Fraction | str | None:
    """Inches from `12'-6 1/2"` or `12 ft 6.5 in`.

    None if the text has not that form; a sentence if it has the form but cannot be meant, such as
    18 inches after the feet.
    """
    match = _FEET_INCHES.fullmatch(text) if len(text) <= MAX_TEXT else None
    if match is None:
        return None
    feet, inches = _value("", match[2]), _value("", match[3])
    if feet is None or inches is None:
        return "a length whose fraction is a proper one, such as 12 ft 6 1/2 in"
    if inches >= 12:
        return "a length with less than 12 in after the feet, such as 12 ft 6 in"
    if feet.denominator != 1:
        return "whole feet where inches follow, such as 12 ft 6 in"
    total = feet * 12 + inches
    return -total if match[1] == "-" else total


def format_feet_inches(inches: float) -> str:
    """Feet, inches and sixteenths: 150.5 gives 12'-6 1/2\"; under one foot only inches."""
    sixteenths = round(Fraction(inches) / SIXTEENTH)
    sign = "-" if sixteenths < 0 else ""
    feet, rest = divmod(abs(sixteenths), 192)
    whole, part = divmod(rest, 16)
    fraction = Fraction(part, 16)
    # After feet a nought is written before a bare fraction, 7'-0 13/16", or it reads as part of the feet.
    words = f"{whole} {fraction}" if part and (whole or feet) else f"{fraction}" if part else f"{whole}"
    return f"{sign}{feet}'-{words}\"" if feet else f'{sign}{words}"'


def _value(sign: str, text: str) -> Fraction | None:
    """The exact number; None for a fraction over zero, or an improper one after a whole number."""
    fraction = _FRACTION.fullmatch(text)
    if fraction is None:
        value = Fraction(text.replace(",", ""))
    else:
        whole, top, bottom = fraction.groups()
        if int(bottom) == 0 or (whole and int(top) >= int(bottom)):
            return None
        value = int(whole or 0) + Fraction(int(top), int(bottom))
    return -value if sign == "-" else value
