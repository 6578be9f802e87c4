"""Quote: totals by division, what is added to them, alternates, and what the price stands on."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.worksheet import Worksheet

from estimating.exports.cells import Cached, put_formula, put_number, put_text
from estimating.exports.heading import heading_text, write_heading, write_row
from estimating.exports.sheet_takeoff import Lines
from estimating.exports.styles import protect, set_print, set_widths

NOT_PRICED = "not priced"
HUNDRED = Decimal(100)


def write_quote(
    sheet: Worksheet, document: Mapping[str, Any], title: Mapping[str, Any], cached: Cached, lines: Lines
) -> None:
    """The whole sheet. `lines` says where the takeoff has its rows."""
    row = write_heading(sheet, "Quote", document, title)
    row = _facts(sheet, row, document, title)
    row = _divisions(sheet, row, document, cached)
    row = _added(sheet, row, document, cached)
    row = _alternates(sheet, row + 1, document)
    for head, key in (("Not included", "exclusions"), ("Cautions", "cautions")):
        put_text(sheet.cell(row, 1), head, "cd label")
        for offset, sentence in enumerate(document[key], 1):
            put_text(sheet.cell(row + offset, 2), sentence, "cd plain")
        row += len(document[key]) + 2
    put_text(sheet.cell(row, 2), document["rounding"], "cd plain")
    put_text(
        sheet.cell(row + 1, 2), f"Takeoff rows {lines.first} to {lines.last} hold the lines.", "cd plain"
    )
    set_widths(sheet, [22, 62, 11, 16, 14])
    sheet.freeze_panes = "A5"
    set_print(sheet, heading_text(title), landscape=False)
    protect(sheet)


def _facts(sheet: Worksheet, row: int, document: Mapping[str, Any], title: Mapping[str, Any]) -> int:
    facts = [
        ("From", title.get("company", "")),
        ("House", f"{title.get('property', '')}, {title.get('address', '')}"),
        ("Wall", f"{title.get('job', '')}: {title.get('wall', '')}"),
        (
            "Revision",
            f"{title.get('revision', '')} ({title.get('status', '')}), by {title.get('prepared_by', '')}",
        ),
        ("Dated", document["dated"]),
        ("Held until", document["valid_until"]),
        ("Currency", document["rates"]["currency"]),
    ]
    for label, value in facts:
        put_text(sheet.cell(row, 1), label, "cd label")
        put_text(sheet.cell(row, 2), value, "cd plain")
        row += 1
    return row + 1


def _divisions(sheet: Worksheet, row: int, document: Mapping[str, Any], cached: Cached) -> int:
    write_row(sheet, row, ["Division", "Title", "", "Amount", "Without a price"])
    first = row + 1
    for offset, division in enumerate(document["divisions"]):
        at = first + offset
        put_text(sheet.cell(at, 1), division["division"], "cd text")
        put_text(sheet.cell(at, 2), division["title"], "cd text")
        formula = f"=ROUND(SUMIF(takeoff_divisions,A{at},takeoff_amounts),2)"
        put_formula(sheet.cell(at, 4), formula, Decimal(division["amount"]), cached, "cd money")
        count = f'=COUNTIFS(takeoff_divisions,A{at},takeoff_amounts,"missing")'
        put_formula(sheet.cell(at, 5), count, Decimal(division["missing"]), cached, "cd count")
    last = row + len(document["divisions"])
    at = last + 1
    put_text(sheet.cell(at, 2), "Direct cost", "cd label")
    formula = f'=IF(missing_prices>0,"{NOT_PRICED}",ROUND(SUM(D{first}:D{last}),2))'
    put_formula(sheet.cell(at, 4), formula, _value(document["direct"]), cached, "cd sum")
    _define(sheet, "direct_cost", at, "D")
    return at + 1


def _added(sheet: Worksheet, row: int, document: Mapping[str, Any], cached: Cached) -> int:
    base = "direct_cost"
    for added in document["added"]:
        _percent(sheet, row, added, base, cached)
        base = f"{base}+{added['key']}"
        row += 1
    put_text(sheet.cell(row, 2), "Price before tax", "cd label")
    formula = f'=IF(ISNUMBER(direct_cost),ROUND({base},2),"{NOT_PRICED}")'
    put_formula(sheet.cell(row, 4), formula, _value(document["price"]), cached, "cd sum")
    _define(sheet, "price_before_tax", row, "D")
    row += 1
    total = "price_before_tax"
    for tax in document["taxes"]:
        materials = 'SUMIF(takeoff_kinds,"material",takeoff_amounts)'
        _percent(sheet, row, tax, "price_before_tax" if tax["on"] == "price" else materials, cached)
        total = f"{total}+{tax['key']}"
        row += 1
    put_text(sheet.cell(row, 2), f"Total ({document['rates']['currency']})", "cd label")
    formula = f'=IF(ISNUMBER(direct_cost),ROUND({total},2),"{NOT_PRICED}")'
    put_formula(sheet.cell(row, 4), formula, _value(document["total"]), cached, "cd total")
    _define(sheet, "quote_total", row, "D")
    return row + 1


def _percent(sheet: Worksheet, row: int, added: Mapping[str, Any], base: str, cached: Cached) -> None:
    on = {"materials": " on materials", "price": " on the price"}.get(added["on"], "")
    put_text(sheet.cell(row, 2), f"{added['name']}{on}", "cd text")
    put_number(sheet.cell(row, 3), Decimal(added["percent"]) / HUNDRED, "cd percent")
    _define(sheet, f"{added['key']}_percent", row, "C")
    formula = f'=IF(ISNUMBER(direct_cost),ROUND(({base})*{added["key"]}_percent,2),"{NOT_PRICED}")'
    put_formula(sheet.cell(row, 4), formula, _value(added["amount"]), cached, "cd money")
    _define(sheet, added["key"], row, "D")


def _alternates(sheet: Worksheet, row: int, document: Mapping[str, Any]) -> int:
    write_row(sheet, row, ["Alternate", "Instead of what is quoted", "", "Add or deduct", ""])
    row += 1
    for index, option in enumerate(document["alternates"], 1):
        put_text(sheet.cell(row, 1), f"{index}", "cd text")
        put_text(sheet.cell(row, 2), option["title"], "cd text")
        if option["difference"] is None:
            put_text(sheet.cell(row, 4), NOT_PRICED, "cd money")
        else:
            put_number(sheet.cell(row, 4), Decimal(option["difference"]), "cd money")
        row += 1
    put_text(sheet.cell(row, 2), "Alternates were priced as a whole on the day of the quote; they do not follow"
             " changes made in this file.", "cd plain")  # fmt: skip
    return row + 2


def _value(amount: str | None) -> Decimal | str:
    return NOT_PRICED if amount is None else Decimal(amount)


def _define(sheet: Worksheet, name: str, row: int, letter: str) -> None:
    sheet.parent.defined_names[name] = DefinedName(name, attr_text=f"'{sheet.title}'!${letter}${row}")
