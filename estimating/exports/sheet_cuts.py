"""Cut list: which stock length each piece comes out of, for the one at the saw."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from openpyxl.worksheet.worksheet import Worksheet

from estimating.core.numbers import measured
from estimating.exports.cells import Cached, put_formula, put_number, put_text
from estimating.exports.heading import heading_text, write_heading, write_row
from estimating.exports.styles import set_print, set_widths
from structure.core.measure import format_feet_inches


def write_cuts(
    sheet: Worksheet, document: Mapping[str, Any], title: Mapping[str, Any], cached: Cached
) -> None:
    """One row a piece; the first row of a board names its stock length and what is left of it."""
    metric = document["units"] == "metric"
    unit = "mm" if metric else "in"
    row = write_heading(sheet, "Cut list", document, title)
    write_row(sheet, row, ["Product", "Board", f"Stock, {unit}", "Member", "Piece", f"Cut, {unit}", "Cut",
                           f"Left with kerf, {unit}", "Note"])  # fmt: skip
    head = row
    sheet.freeze_panes = sheet.cell(head + 1, 1)
    row += 1
    for plan in document["cuts"]:
        for number, board in enumerate(plan["boards"], 1):
            row = _board(sheet, row, plan, number, board, metric, cached)
    set_widths(sheet, [30, 7, 11, 9, 22, 11, 14, 13, 40])
    set_print(sheet, heading_text(title), landscape=True, repeat=f"{head}:{head}")


def _board(
    sheet: Worksheet, row: int, plan: Mapping[str, Any], number: int, board: Mapping[str, Any], metric: bool,
    cached: Cached,
) -> int:  # fmt: skip
    scale = 25.4 if metric else 1.0
    stock = measured(board["stock_in"] * scale)
    lengths = [measured(cut["length_in"] * scale) for cut in board["cuts"]]
    first, last = row, row + len(lengths) - 1
    for cut, length in zip(board["cuts"], lengths, strict=True):
        put_text(
            sheet.cell(row, 1),
            f"{plan['product']}, {plan['purpose'].lower()}" if row == first else "",
            "cd text",
        )
        put_text(sheet.cell(row, 4), cut["mark"], "cd text")
        put_text(sheet.cell(row, 5), cut["use"], "cd text")
        put_number(sheet.cell(row, 6), length, "cd length")
        shown = f"{length:.0f} mm" if metric else format_feet_inches(cut["length_in"])
        put_text(sheet.cell(row, 7), shown, "cd text")
        row += 1
    put_number(sheet.cell(first, 2), number, "cd count")
    put_number(sheet.cell(first, 3), stock, "cd length")
    left = stock - sum(lengths, Decimal(0))
    put_formula(sheet.cell(first, 8), f"=ROUND(C{first}-SUM(F{first}:F{last}),3)", left, cached, "cd length")
    note = "special order: longer than stock" if plan["special"] and len(lengths) == 1 else ""
    put_text(sheet.cell(first, 9), note, "cd text")
    return row
