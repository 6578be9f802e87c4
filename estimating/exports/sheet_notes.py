"""Assumptions and cautions, the settings the takeoff used, and what the file was made from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from openpyxl.worksheet.worksheet import Worksheet

from estimating.exports.cells import put_text
from estimating.exports.heading import heading_text, write_heading, write_row
from estimating.exports.styles import set_print, set_widths


def write_notes(sheet: Worksheet, document: Mapping[str, Any], title: Mapping[str, Any]) -> None:
    """Sentences first, then settings with their sources, then the trail."""
    row = write_heading(sheet, "Assumptions and cautions", document, title)
    for head, key in (
        ("Cautions", "cautions"),
        ("Assumptions", "assumptions"),
        ("Not included", "exclusions"),
    ):
        put_text(sheet.cell(row, 1), head, "cd label")
        for sentence in document[key]:
            put_text(sheet.cell(row, 2), sentence, "cd plain")
            row += 1
        row += 1
    write_row(sheet, row, ["Settings", "Setting", "Value", "Unit", "Where the default comes from"])
    for setting in document["settings"]:
        row += 1
        put_text(sheet.cell(row, 2), setting["label"], "cd text")
        put_text(sheet.cell(row, 3), setting["value"], "cd text")
        put_text(sheet.cell(row, 4), setting["unit"], "cd text")
        put_text(sheet.cell(row, 5), setting["source"], "cd text")
    row += 2
    trail = [
        ("Revision", title.get("revision", "")),
        ("Prices as of", document["dated"]),
        ("Stale after", f"{document['rates']['stale_after_days']} days"),
        ("Takeoff rules", f"version {document['core_version']}"),
        ("Inputs, SHA-256", document["inputs_sha256"]),
    ]
    put_text(sheet.cell(row, 1), "Made from", "cd label")
    for label, value in trail:
        put_text(sheet.cell(row, 2), label, "cd text")
        put_text(sheet.cell(row, 3), value, "cd text")
        row += 1
    set_widths(sheet, [16, 84, 22, 10, 50])
    sheet.freeze_panes = "A5"
    set_print(sheet, heading_text(title), landscape=True)
