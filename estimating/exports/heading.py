"""The head that every sheet carries: what, whose, which revision, and that it is preliminary."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from openpyxl.worksheet.worksheet import Worksheet

from estimating.exports.cells import put_text

PRELIMINARY = (
    "PRELIMINARY - not for construction. An engineer's sealed design replaces these sizes; local codes and licensed"
    " practice decide."
)
SEALED = (
    "Quantities follow the engineer's sealed schedule. Prices and quantities are an estimate, not instructions"
    " for construction."
)


def heading_text(title: Mapping[str, Any]) -> str:
    """`Property: wall, revision 2`: short enough for a page margin."""
    return f"{title.get('property', '')}: {title.get('job', '')}, revision {title.get('revision', '')}"


def write_heading(sheet: Worksheet, name: str, document: Mapping[str, Any], title: Mapping[str, Any]) -> int:
    """Rows 1 to 3. Returns the next free row."""
    put_text(sheet.cell(1, 1), name, "cd title")
    put_text(sheet.cell(2, 1), SEALED if document["sealed"] else PRELIMINARY, "cd banner").alignment = None
    put_text(
        sheet.cell(3, 1),
        f"{heading_text(title)} ({title.get('status', '')}), {document['dated']}",
        "cd label",
    ).alignment = None
    return 5


def write_row(sheet: Worksheet, row: int, texts: list[str], style: str = "cd head") -> None:
    """A row of text cells from the left."""
    for column, text in enumerate(texts, 1):
        put_text(sheet.cell(row, column), text, style)
