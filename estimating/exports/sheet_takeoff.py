"""Takeoff: every line with its quantity, price, amount, and the rule it came from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from openpyxl.cell.cell import Cell
from openpyxl.workbook.defined_name import DefinedName
from openpyxl.worksheet.worksheet import Worksheet

from estimating.core.numbers import plain
from estimating.core.units import factor
from estimating.exports.cells import Cached, put_formula, put_number, put_text
from estimating.exports.heading import heading_text, write_heading, write_row
from estimating.exports.styles import protect, set_print, set_widths

HEADS = [
    "No.", "Division", "Cost code", "Description", "Member", "Net", "Waste", "Reuse saves", "Quantity", "Unit",
    "Priced quantity", "Price unit", "Unit price", "Amount", "Allowance", "Supplier", "Price dated", "Kind", "Code",
    "How it is bought", "Rule", "Source of the rule",
]  # fmt: skip
WIDTHS = [5, 8, 9, 38, 11, 10, 9, 10, 10, 7, 10, 7, 11, 12, 10, 22, 11, 10, 26, 26, 60, 34]
MISSING = "missing"


@dataclass(frozen=True, slots=True)
class Lines:
    """First and last row of the lines, for the formulas of the quote."""

    first: int
    last: int


def write_takeoff(
    sheet: Worksheet, document: Mapping[str, Any], title: Mapping[str, Any], cached: Cached
) -> Lines:
    """All lines, their sum and the count of missing prices; defines the ranges that the quote reads."""
    head = write_heading(sheet, "Takeoff", document, title)
    write_row(sheet, head, HEADS)
    first = head + 1
    for offset, line in enumerate(document["lines"]):
        _line(sheet, first + offset, line, cached)
    last = head + len(document["lines"])
    _foot(sheet, last + 2, first, last, document, cached)
    for name, letter in (("takeoff_divisions", "B"), ("takeoff_amounts", "N"), ("takeoff_kinds", "R")):
        _define(sheet, name, f"'{sheet.title}'!${letter}${first}:${letter}${last}")
    sheet.freeze_panes = sheet.cell(first, 5)
    sheet.auto_filter.ref = f"A{head}:V{last}"
    set_widths(sheet, WIDTHS)
    set_print(sheet, heading_text(title), landscape=True, repeat=f"{head}:{head}")
    protect(sheet)
    return Lines(first, last)


def _line(sheet: Worksheet, row: int, line: Mapping[str, Any], cached: Cached) -> None:
    def at(letter: str) -> Cell:
        return sheet[f"{letter}{row}"]

    put_number(at("A"), line["number"], "cd count")
    for letter, name in (
        ("B", "division"),
        ("C", "cost_code"),
        ("J", "unit"),
        ("L", "price_unit"),
        ("R", "kind"),
    ):
        put_text(at(letter), line[name], "cd text")
    put_text(at("D"), line["description"], "cd text")
    put_text(at("E"), ", ".join(line["marks"]), "cd text")
    for letter, name in (("F", "net"), ("G", "waste"), ("H", "reuse")):
        put_number(at(letter), Decimal(line[name]), "cd quantity")
    put_formula(at("I"), f"=F{row}+G{row}-H{row}", Decimal(line["quantity"]), cached, "cd quantity")
    _priced(at, row, line, cached)
    put_text(at("O"), "allowance" if line["allowance"] else "", "cd text")
    stale = " (stale)" if line["stale"] else ""
    put_text(at("P"), line["supplier"], "cd text")
    put_text(at("Q"), (line["price_dated"] or "") + stale, "cd text")
    put_text(at("S"), line["code"], "cd text")
    put_text(at("T"), line["detail"], "cd text")
    put_text(at("U"), line["rule"], "cd text")
    put_text(at("V"), line["source"], "cd text")


def _priced(at: Any, row: int, line: Mapping[str, Any], cached: Cached) -> None:
    by = factor(line["unit"], line["price_unit"])
    formula = f"=I{row}" if by is None or by == 1 else f"=ROUND(I{row}*{plain(by)},3)"
    counted = line["quantity"] if line["counted"] is None else line["counted"]
    put_formula(at("K"), formula, Decimal(counted), cached, "cd quantity")
    if line["price"] is None:
        put_text(at("M"), MISSING, "cd missing")
    else:
        put_number(at("M"), Decimal(line["price"]), "cd input")
    amount = MISSING if line["amount"] is None else Decimal(line["amount"])
    put_formula(
        at("N"), f'=IF(ISNUMBER(M{row}),ROUND(K{row}*M{row},2),"{MISSING}")', amount, cached, "cd money"
    )


def _foot(
    sheet: Worksheet, row: int, first: int, last: int, document: Mapping[str, Any], cached: Cached
) -> None:
    known = sum((Decimal(d["amount"]) for d in document["divisions"]), Decimal(0))
    missing = Decimal(sum(1 for line in document["lines"] if line["amount"] is None))
    put_text(sheet.cell(row, 4), "Sum of the lines that have a price", "cd label")
    put_formula(sheet.cell(row, 14), f"=ROUND(SUM(N{first}:N{last}),2)", known, cached, "cd sum")
    put_text(sheet.cell(row + 1, 4), "Lines without a price", "cd label")
    formula = f'=COUNTIF(N{first}:N{last},"{MISSING}")'
    put_formula(sheet.cell(row + 1, 14), formula, missing, cached, "cd count")
    _define(sheet, "missing_prices", f"'{sheet.title}'!$N${row + 1}")
    put_text(sheet.cell(row + 2, 4), document["rounding"], "cd plain")


def _define(sheet: Worksheet, name: str, place: str) -> None:
    sheet.parent.defined_names[name] = DefinedName(name, attr_text=place)
