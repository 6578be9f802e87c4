"""The only ways a cell is written: text that stays text, a number, a formula together with what it comes to.

Nothing else in this room assigns a cell's value; a test holds that.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from openpyxl.cell.cell import ILLEGAL_CHARACTERS_RE, Cell

TEXT_MOST = 32_000
REPLACEMENT = "\ufffd"

CachedValue = Decimal | str


@dataclass
class Cached:
    """What every formula comes to, by sheet and cell, as computed here. Filled into the file after saving."""

    values: dict[tuple[str, str], CachedValue] = field(default_factory=dict)


def clean_text(text: str) -> str:
    """Text that XML can hold: control characters, lone surrogates and the two non-characters are replaced."""
    kept = ILLEGAL_CHARACTERS_RE.sub(REPLACEMENT, text)
    return "".join(REPLACEMENT if "\ud800" <= c <= "\udfff" or c in "\ufffe\uffff" else c for c in kept)


def put_text(cell: Cell, text: object, style: str = "") -> Cell:
    """Text that no program runs: a leading `=`, `+`, `-`, `@` or tab stays a letter, control characters are shown.

    The cell is typed as a string, and quoted where it begins like a formula.
    """
    shown = clean_text("" if text is None else str(text))[:TEXT_MOST]
    cell.value = shown
    cell.data_type = "s"
    if style:
        cell.style = style
    if shown[:1] in ("=", "+", "-", "@", "\t", "\r", "\n"):
        cell.quotePrefix = True
    return cell


def put_number(cell: Cell, number: Decimal | int, style: str = "") -> Cell:
    """A number that is an input of the sheet: a quantity, a price, a percentage."""
    if not isinstance(number, (Decimal, int)) or isinstance(number, bool):
        raise TypeError(f"a cell number is a Decimal or an int, not {type(number).__name__}")
    cell.value = number
    if style:
        cell.style = style
    return cell


def put_formula(cell: Cell, formula: str, value: CachedValue, cached: Cached, style: str = "") -> Cell:
    """A live formula and the value that Python computed for it. The formula is ours, never typed by a person."""
    if not formula.startswith("="):
        raise ValueError(f"a formula begins with an equals sign: {formula!r}")
    cell.value = formula
    cached.values[(cell.parent.title, cell.coordinate)] = value
    if style:
        cell.style = style
    return cell
