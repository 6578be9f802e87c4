"""The workbook: live formulas, values filled in, nothing typed ever runs, the same bytes every time."""

from __future__ import annotations

import ast
import io
import zipfile
from decimal import Decimal
from functools import cache
from pathlib import Path
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import Workbook, load_workbook

import estimating.exports
from estimating.core.document import estimate_document
from estimating.core.lines import Line, Rule
from estimating.core.pricing import Price
from estimating.core.rates import Rates, Tax
from estimating.core.settings import TakeoffSettings
from estimating.exports.cells import Cached, put_formula, put_number, put_text
from estimating.exports.package import FormulaWithoutValue, fill_in
from estimating.exports.workbook import SHEETS, build_workbook
from tests.estimating.recalculation import formula_values, recalculate, strip_cached
from tests.estimating.samples import DAY, formula_cells, prices, rates, schedule

TITLE = {
    "company": "Larkmoor Builders (invented)", "property": "House 1", "address": "14 Larkmoor Lane", "job": "Wall 1",
    "wall": "between kitchen and dining room", "revision": 1, "status": "draft", "prepared_by": "A. Person",
}  # fmt: skip
HOSTILE = [
    "=1+1", "=cmd|' /C calc'!A0", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "a\x00b\x07c", "#N/A", "{=1}",
    '=HYPERLINK("http://example.invalid","x")', "\ud800", "\ufffe", "&P&D", "<v>1</v>", "']];", "1e5", "TRUE", "",
]  # fmt: skip


@cache
def sample() -> dict[str, Any]:
    return estimate_document(schedule(), TakeoffSettings(), prices(), rates(), DAY)


def document(**changes: Any) -> dict[str, Any]:
    return {**sample(), **changes}


@cache
def usual_formulas() -> dict[tuple[str, str], str]:
    book = load_workbook(io.BytesIO(build_workbook(document(), TITLE)))
    return {(sheet, cell.coordinate): cell.value for sheet, cell in formula_cells(book)}


def near(left: object, right: object) -> bool:
    """Both the same words, or the same number to far less than a cent."""
    if isinstance(left, (int, float)) and isinstance(right, (int, float)):
        return abs(left - right) < 1e-6
    return left == right


def test_sheets_and_names() -> None:
    book = load_workbook(io.BytesIO(build_workbook(document(), TITLE)))
    assert tuple(book.sheetnames) == SHEETS
    assert {"direct_cost", "contingency_percent", "overhead_percent", "profit_percent", "price_before_tax",
            "tax_1_percent", "quote_total", "missing_prices"} <= set(book.defined_names)  # fmt: skip
    for sheet in book:
        assert sheet.freeze_panes
        assert sheet.page_setup.fitToWidth == 1
        assert "PRELIMINARY" in sheet.oddHeader.right.text
        assert "PRELIMINARY" in sheet["A2"].value


def test_every_formula_has_the_value_that_python_computed() -> None:
    made = document()
    raw = build_workbook(made, TITLE)
    shown = load_workbook(io.BytesIO(raw), data_only=True)
    cells = list(formula_cells(load_workbook(io.BytesIO(raw))))
    assert len(cells) > 3 * len(made["lines"])
    assert [cell.coordinate for sheet, cell in cells if shown[sheet][cell.coordinate].value is None] == []
    quote = shown["Quote"]
    values = {row[1].value: row[3].value for row in quote.iter_rows(max_col=4) if row[3].value is not None}
    assert values["Direct cost"] == pytest.approx(float(made["direct"]), abs=1e-9)
    assert values["Total (USD)"] == pytest.approx(float(made["total"]), abs=1e-9)
    place = load_workbook(io.BytesIO(raw)).defined_names["quote_total"].attr_text
    assert quote[place.split("!")[1].replace("$", "")].value == pytest.approx(float(made["total"]), abs=1e-9)


def test_takeoff_amounts_equal_the_lines() -> None:
    made = document()
    sheet = load_workbook(io.BytesIO(build_workbook(made, TITLE)), data_only=True)["Takeoff"]
    rows = [row for row in sheet.iter_rows(min_row=6) if isinstance(row[0].value, int)]
    assert [row[13].value for row in rows] == [pytest.approx(float(line["amount"])) for line in made["lines"]]
    assert [row[3].value for row in rows] == [line["description"] for line in made["lines"]]
    assert all(row[20].value and row[21].value for row in rows)


def test_same_estimate_same_bytes() -> None:
    raw = build_workbook(document(), TITLE)
    assert raw == build_workbook(document(), TITLE)
    with zipfile.ZipFile(io.BytesIO(raw)) as package:
        assert {entry.date_time for entry in package.infolist()} == {(1980, 1, 1, 0, 0, 0)}


def test_metric_property_gets_metric_sheets() -> None:
    made = estimate_document(schedule(), TakeoffSettings(units="metric"), prices(), rates(), DAY)
    book = load_workbook(io.BytesIO(build_workbook(made, TITLE)), data_only=True)
    assert book["Cut list"]["C5"].value == "Stock, mm"
    assert book["Schedule"]["D6"].value == pytest.approx(247 * 25.4)
    units = {row[9].value for row in book["Takeoff"].iter_rows(min_row=6) if isinstance(row[0].value, int)}
    assert "ft" not in units


def test_sealed_schedule_says_so() -> None:
    made = document(sealed=True)
    book = load_workbook(io.BytesIO(build_workbook(made, TITLE)))
    assert "sealed" in book["Quote"]["A2"].value
    assert book["Schedule"]["H6"].value == "engineer's sealed schedule"


def test_cautions_exclusions_and_rounding_are_in_the_file() -> None:
    made = document()
    book = load_workbook(io.BytesIO(build_workbook(made, TITLE)))
    texts = {cell.value for sheet in book for row in sheet.iter_rows() for cell in row}
    assert {*made["cautions"], *made["exclusions"], *made["assumptions"], made["rounding"]} <= texts


def hostile(text: str) -> tuple[dict[str, Any], dict[str, Any]]:
    made = document()
    made["lines"] = [
        {**line, "supplier": text, "description": text, "marks": [text]} for line in made["lines"]
    ]
    made["cautions"] = [text]
    made["schedule"] = [{**row, "note": text, "size": text} for row in made["schedule"]]
    made["cuts"] = [{**plan, "product": text} for plan in made["cuts"]]
    return made, {**TITLE, **dict.fromkeys(TITLE, text)}


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_never_becomes_a_formula(text: str) -> None:
    usual = usual_formulas()
    raw = build_workbook(*hostile(text))
    book = load_workbook(io.BytesIO(raw))
    found = {(sheet, cell.coordinate): cell.value for sheet, cell in formula_cells(book)}
    ours = {(s, at): v for (s, at), v in usual.items() if s in ("Takeoff", "Cut list")}
    assert {key: v for key, v in found.items() if key in ours} == ours
    assert len(found) == len(usual)
    assert not any(cell.data_type == "e" for sheet in book for row in sheet.iter_rows() for cell in row)


@given(st.text(max_size=40))
@settings(max_examples=200)
def test_any_text_comes_back_as_text(text: str) -> None:
    book = Workbook()
    cell = put_text(book.active["A1"], text)
    saved = io.BytesIO()
    book.save(saved)
    back = load_workbook(io.BytesIO(saved.getvalue())).active["A1"]
    assert back.data_type != "f"
    assert back.value is None or isinstance(back.value, str)
    assert cell.data_type == "s"
    kept = "".join(c for c in text if c.isalnum() and c.isascii())
    assert kept == "".join(c for c in back.value or "" if c.isalnum() and c.isascii())


@pytest.mark.parametrize("value", [1.5, "1", None, True])
def test_numbers_are_decimals(value: Any) -> None:
    with pytest.raises(TypeError):
        put_number(Workbook().active["A1"], value)


def test_a_formula_begins_with_an_equals_sign() -> None:
    with pytest.raises(ValueError, match="equals sign"):
        put_formula(Workbook().active["A1"], "1+1", Decimal(2), Cached())


def test_a_formula_without_a_value_stops_the_file() -> None:
    book = Workbook()
    book.active["A1"] = "=1+1"
    saved = io.BytesIO()
    book.save(saved)
    with zipfile.ZipFile(saved) as package, pytest.raises(FormulaWithoutValue, match="A1"):
        fill_in(package.read("xl/worksheets/sheet1.xml"), {})


def test_nothing_but_the_writers_assigns_a_cell() -> None:
    """No `.value = ...`, no `sheet[...] = ...`, no `append` of rows, outside cells.py."""
    folder = Path(estimating.exports.__file__).parent
    for path in folder.glob("*.py"):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            targets = node.targets if isinstance(node, ast.Assign) else []
            named = [t for t in targets if isinstance(t, ast.Attribute) and t.attr == "value"]
            assert not named or path.name == "cells.py", f"{path.name}:{node.lineno}"
            into = [
                t.value.id for t in targets if isinstance(t, ast.Subscript) and isinstance(t.value, ast.Name)
            ]
            assert not {"sheet", "quote", "takeoff", "notes"} & set(into), f"{path.name}:{node.lineno}"


def random_document(seed: int) -> dict[str, Any]:
    """Lines with quantities and prices of many decimals, so that many products lie on half a cent."""
    dice = Random(seed)
    lines, held = [], {}
    for n in range(250):
        unit = dice.choice(["ft", "m", "each", "lb", "yd3"])
        other = {"ft": "m", "m": "ft", "lb": "kg", "yd3": "ft3", "each": "each"}[unit]
        code = f"c{n}"
        lines.append(
            Line(code, code, Decimal(dice.randrange(1, 400_000)) / 1000, unit, dice.choice(["material", "labour"]),
                 dice.choice(["01", "06", "09"]), "06-10", ("B1",), Rule("made up"),
                 waste=Decimal(dice.randrange(0, 4000)) / 1000)
        )  # fmt: skip
        if dice.random() < (0.99 if seed == 0 else 1.1):
            amount = (
                Decimal(dice.choice([dice.randrange(1, 200_000) * 50, dice.randrange(1, 9_999_999)])) / 10_000
            )
            held[code] = Price(code, dice.choice([unit, other]), amount, "Invented", DAY)
    percent = [Decimal(dice.randrange(0, 40_000)) / 1000 for _ in range(5)]
    made = rates_of(percent)
    return totals_document(lines, held, made)


def rates_of(percent: list[Decimal]) -> Rates:
    taxes = (Tax("One", percent[3], "materials"), Tax("Two", percent[4], "price"))
    return Rates(percent[0], percent[1], percent[2], taxes)


def totals_document(lines: list[Line], held: dict[str, Price], made: Rates) -> dict[str, Any]:
    """A document for lines that no schedule made, so that every quantity and price can be tried."""
    from estimating.core import document as module
    from estimating.core.pricing import make_quote

    quote = make_quote(lines, held, made, DAY)
    rows = [module._line(n, row) for n, row in enumerate(quote.lines, 1)]
    return {**document(), "lines": rows, **module._totals(quote), "rates": made.as_data()}


@pytest.mark.libreoffice
def test_cached_values_equal_a_recalculation(soffice: str, tmp_path: Path) -> None:
    """LibreOffice gets copies without any cached value; what it calculates equals what Python filled in."""
    documents = {f"random{seed}": random_document(seed) for seed in range(5)}
    documents["imperial"] = document()
    for units, uses in (("metric", 3), ("imperial", 1)):
        asked = TakeoffSettings(units=units, shoring_uses=uses, concrete_as="bags", productivity=1.37)
        flush = schedule(flush=True, hangers=31, rafter_tie=True)
        documents[f"flush-{units}"] = estimate_document(flush, asked, prices(), rates(), DAY)
    held = {code: price for code, price in prices().items() if code != "alarm"}
    documents["missing"] = estimate_document(schedule(), TakeoffSettings(), held, rates(), DAY)
    assert any(not made["priced"] for made in documents.values())

    files = {name: build_workbook(made, TITLE) for name, made in documents.items()}
    fresh = recalculate(soffice, files, tmp_path)
    for name, raw in files.items():
        rows = formula_values(raw, fresh[name])
        assert len(rows) > 100
        off = [
            (sheet, at, cached, calculated)
            for sheet, at, cached, calculated in rows
            if not near(cached, calculated)
        ]
        assert off == [], name
        total = documents[name]["total"]
        last = [calculated for sheet, _, _, calculated in rows if sheet == "Quote"][-1]
        assert near(last, "not priced" if total is None else float(total)), name


@pytest.mark.libreoffice
def test_a_wrong_cache_would_be_seen(soffice: str, tmp_path: Path) -> None:
    """The comparison can fail: one cached value is changed, and the recalculation disagrees with it."""
    raw = build_workbook(document(), TITLE)
    wrong = io.BytesIO()
    total = document()["total"].rstrip("0").encode()
    with zipfile.ZipFile(io.BytesIO(raw)) as source, zipfile.ZipFile(wrong, "w") as target:
        for name in source.namelist():
            content = source.read(name)
            if name == "xl/worksheets/sheet1.xml":
                assert content.count(b"<v>" + total + b"</v>") == 1
                content = content.replace(b"<v>" + total + b"</v>", b"<v>999</v>")
            target.writestr(name, content)
    fresh = recalculate(soffice, {"wrong": wrong.getvalue()}, tmp_path)
    rows = formula_values(wrong.getvalue(), fresh["wrong"])
    assert [cached for _, _, cached, calculated in rows if not near(cached, calculated)] == [999]


def test_stripping_really_strips() -> None:
    raw = strip_cached(build_workbook(document(), TITLE))
    shown = load_workbook(io.BytesIO(raw), data_only=True)
    assert all(
        shown[sheet][cell.coordinate].value is None
        for sheet, cell in formula_cells(load_workbook(io.BytesIO(raw)))
    )


@pytest.mark.libreoffice
def test_a_price_typed_into_the_workbook_completes_it(soffice: str, tmp_path: Path) -> None:
    """The formulas are live: a missing price filled in by hand gives the total that Python would give."""
    held = {code: price for code, price in prices().items() if code != "alarm"}
    raw = build_workbook(estimate_document(schedule(), TakeoffSettings(), held, rates(), DAY), TITLE)
    book = load_workbook(io.BytesIO(raw))
    row = next(r for r in book["Takeoff"].iter_rows(min_row=6) if r[18].value == "alarm")
    row[12].value = float(prices()["alarm"].amount)
    typed = io.BytesIO()
    book.save(typed)
    fresh = recalculate(soffice, {"typed": typed.getvalue()}, tmp_path)
    place = book.defined_names["quote_total"].attr_text.split("!")[1].replace("$", "")
    shown = load_workbook(io.BytesIO(fresh["typed"]), data_only=True)["Quote"][place].value
    assert shown == pytest.approx(float(document()["total"]), abs=1e-6)
