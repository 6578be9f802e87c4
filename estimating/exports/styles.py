"""How the workbook looks: named styles, widths, print setup, headers."""

from __future__ import annotations

from collections.abc import Sequence

from openpyxl import Workbook
from openpyxl.styles import Alignment, Border, Font, NamedStyle, PatternFill, Protection, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from estimating.exports.cells import clean_text

MONEY, QUANTITY, PERCENT, LENGTH = "#,##0.00", "#,##0.00#", "0.0##%", "#,##0.0##"
INK, PALE, INPUT, WARN = "FF1C2733", "FFE9EDF1", "FFFFF6D6", "FFFBE3DD"
HEADER_MOST = 60


def add_styles(book: Workbook) -> None:
    """Every style used, by name, so that a cell names what it is and not how it looks."""
    thin, top = Side(style="hair", color="FF9AA5B1"), Side(style="medium", color=INK)
    wrap = Alignment(vertical="top", wrap_text=True)
    right = Alignment(vertical="top", horizontal="right")
    line = Border(bottom=thin)

    def add(name: str, **looks: object) -> None:
        style = NamedStyle(name=name)
        for key, value in {
            "font": Font(name="Calibri", size=10, color=INK),
            "alignment": wrap,
            **looks,
        }.items():
            setattr(style, key, value)
        book.add_named_style(style)

    add(
        "cd title",
        font=Font(name="Calibri", size=16, bold=True, color=INK),
        alignment=Alignment(vertical="center"),
    )
    add(
        "cd banner",
        font=Font(name="Calibri", size=11, bold=True, color="FF8A1C00"),
        fill=PatternFill("solid", fgColor=WARN),
    )
    add(
        "cd head",
        font=Font(name="Calibri", size=10, bold=True, color=INK),
        fill=PatternFill("solid", fgColor=PALE),
        border=Border(bottom=Side(style="thin", color=INK)),
    )
    add("cd text", border=line)
    add("cd plain")
    add("cd label", font=Font(name="Calibri", size=10, bold=True, color=INK))
    add("cd money", number_format=MONEY, alignment=right, border=line)
    add("cd quantity", number_format=QUANTITY, alignment=right, border=line)
    add("cd length", number_format=LENGTH, alignment=right, border=line)
    add("cd count", number_format="0", alignment=right, border=line)
    add(
        "cd percent",
        number_format=PERCENT,
        alignment=right,
        border=line,
        fill=PatternFill("solid", fgColor=INPUT),
        protection=Protection(locked=False),
    )
    add(
        "cd input",
        number_format="#,##0.00##",
        alignment=right,
        border=line,
        fill=PatternFill("solid", fgColor=INPUT),
        protection=Protection(locked=False),
    )
    add(
        "cd missing",
        number_format="#,##0.00##",
        alignment=right,
        border=line,
        fill=PatternFill("solid", fgColor=WARN),
        protection=Protection(locked=False),
    )
    add(
        "cd sum",
        number_format=MONEY,
        alignment=right,
        border=Border(top=top),
        font=Font(name="Calibri", size=10, bold=True, color=INK),
    )
    add(
        "cd total",
        number_format=MONEY,
        alignment=right,
        border=Border(top=top, bottom=top),
        font=Font(name="Calibri", size=12, bold=True, color=INK),
    )


def set_widths(sheet: Worksheet, widths: Sequence[float]) -> None:
    """Column widths from the left, in characters."""
    for index, width in enumerate(widths, 1):
        sheet.column_dimensions[get_column_letter(index)].width = width


def set_print(sheet: Worksheet, title: str, *, landscape: bool, repeat: str = "") -> None:
    """One page wide, title and page number in the margin, header rows repeated."""
    sheet.page_setup.orientation = "landscape" if landscape else "portrait"
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.page_margins.left = sheet.page_margins.right = 0.5
    sheet.oddHeader.left.text = margin_text(title)
    sheet.oddHeader.right.text = "PRELIMINARY - not for construction"
    sheet.oddFooter.left.text = margin_text(sheet.title)
    sheet.oddFooter.right.text = "Page &P of &N"
    if repeat:
        sheet.print_title_rows = repeat


def margin_text(text: str) -> str:
    """Text for a page margin, where an ampersand would start a command."""
    return clean_text(text).replace("\n", " ")[:HEADER_MOST].replace("&", "&&")


def protect(sheet: Worksheet) -> None:
    """Formulas are locked against a slip of the hand; there is no password, so anyone may unlock them."""
    sheet.protection.sheet = True
    sheet.protection.formatColumns = sheet.protection.formatRows = False
    sheet.protection.autoFilter = sheet.protection.sort = False
