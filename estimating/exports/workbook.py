"""The priced workbook of one estimate: quote, takeoff, cut list, schedule, assumptions and cautions."""

from __future__ import annotations

import io
from collections.abc import Mapping
from datetime import UTC, date, datetime
from typing import Any

from openpyxl import Workbook

from estimating.exports.cells import Cached
from estimating.exports.package import finish
from estimating.exports.sheet_cuts import write_cuts
from estimating.exports.sheet_notes import write_notes
from estimating.exports.sheet_quote import write_quote
from estimating.exports.sheet_schedule import write_schedule
from estimating.exports.sheet_takeoff import write_takeoff
from estimating.exports.styles import add_styles

SHEETS = ("Quote", "Takeoff", "Cut list", "Schedule", "Assumptions and cautions")


def build_workbook(document: Mapping[str, Any], title: Mapping[str, Any]) -> bytes:
    """The file, with live formulas and the values they come to. The same estimate gives the same bytes.

    Args: the document of `estimating.core.document` and what stands at the head of each sheet (`company`,
    `property`, `address`, `job`, `wall`, `revision`, `status`, `prepared_by`).
    """
    book, cached = Workbook(), Cached()
    dated = date.fromisoformat(document["dated"])
    add_styles(book)
    sheets = [book.active, *(book.create_sheet() for _ in SHEETS[1:])]
    for sheet, name in zip(sheets, SHEETS, strict=True):
        sheet.title = name
    quote, takeoff, cuts, schedule, notes = sheets
    place = write_takeoff(takeoff, document, title, cached)
    write_quote(quote, document, title, cached, place)
    write_cuts(cuts, document, title, cached)
    write_schedule(schedule, document, title)
    write_notes(notes, document, title)
    book.calculation.fullCalcOnLoad = True
    book.properties.creator = "Carrydown"
    book.properties.title = "Preliminary estimate"
    book.properties.created = datetime(dated.year, dated.month, dated.day, tzinfo=UTC).replace(tzinfo=None)
    raw = io.BytesIO()
    book.save(raw)
    return finish(raw.getvalue(), list(SHEETS), cached.values, dated)
