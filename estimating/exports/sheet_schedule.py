"""Schedule: the members that were priced, in the units of the property."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from openpyxl.worksheet.worksheet import Worksheet

from estimating.core.numbers import measured
from estimating.exports.cells import put_number, put_text
from estimating.exports.heading import heading_text, write_heading, write_row
from estimating.exports.styles import set_print, set_widths
from structure.core.measure import format_feet_inches


def write_schedule(sheet: Worksheet, document: Mapping[str, Any], title: Mapping[str, Any]) -> None:
    """One row a member: mark, what it is, size, length or side, thickness, note."""
    metric = document["units"] == "metric"
    unit, scale = ("mm", 25.4) if metric else ("in", 1.0)
    row = write_heading(sheet, "Schedule", document, title)
    heads = [
        "Mark",
        "Member",
        "Size",
        f"Length, height or side, {unit}",
        "",
        f"Thickness, {unit}",
        "Note",
        "Standing",
    ]
    write_row(sheet, row, heads)
    sheet.freeze_panes = sheet.cell(row + 1, 2)
    head = row
    standing = "engineer's sealed schedule" if document["sealed"] else "PRELIMINARY"
    for member in document["schedule"]:
        row += 1
        put_text(sheet.cell(row, 1), member["mark"], "cd text")
        put_text(sheet.cell(row, 2), member["kind"], "cd text")
        put_text(sheet.cell(row, 3), member["size"], "cd text")
        if member["length_in"] is not None:
            put_number(sheet.cell(row, 4), measured(member["length_in"] * scale), "cd length")
            put_text(sheet.cell(row, 5), "" if metric else format_feet_inches(member["length_in"]), "cd text")
        if member.get("thickness_in") is not None:
            put_number(sheet.cell(row, 6), measured(member["thickness_in"] * scale), "cd length")
        put_text(sheet.cell(row, 7), member["note"], "cd text")
        put_text(sheet.cell(row, 8), standing, "cd text")
    set_widths(sheet, [8, 12, 36, 14, 14, 12, 44, 22])
    set_print(sheet, heading_text(title), landscape=True, repeat=f"{head}:{head}")
