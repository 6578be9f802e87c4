"""After openpyxl has saved: cached values into the sheets, and the same bytes for the same estimate."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from xml.etree import ElementTree as Xml  # writes only; what is read comes through defusedxml

from defusedxml.ElementTree import fromstring

from estimating.core.numbers import plain
from estimating.exports.cells import CachedValue

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
ZIP_DATE = (1980, 1, 1, 0, 0, 0)
_MODIFIED = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*(</dcterms:modified>)")


class FormulaWithoutValue(ValueError):
    """A formula was written without what it comes to; the file would be blank in a preview."""


def finish(
    raw: bytes, sheets: list[str], values: Mapping[tuple[str, str], CachedValue], dated: date
) -> bytes:
    """The file with every formula's value filled in, fixed dates and a fixed order of its parts.

    Args: the saved workbook, the titles of its sheets in order, the value of each formula cell by title and
    coordinate, the date of the estimate. Raises FormulaWithoutValue.
    """
    parts: dict[str, bytes] = {}
    with zipfile.ZipFile(io.BytesIO(raw)) as source:
        for name in source.namelist():
            parts[name] = source.read(name)
    for index, title in enumerate(sheets, 1):
        name = f"xl/worksheets/sheet{index}.xml"
        parts[name] = fill_in(parts[name], {cell: v for (sheet, cell), v in values.items() if sheet == title})
    stamp = f"{dated.isoformat()}T00:00:00Z".encode()
    parts["docProps/core.xml"] = _MODIFIED.sub(rb"\g<1>" + stamp + rb"\g<2>", parts["docProps/core.xml"])
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as target:
        for name, content in parts.items():
            entry = zipfile.ZipInfo(name, ZIP_DATE)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o600 << 16
            target.writestr(entry, content)
    return made.getvalue()


def fill_in(sheet: bytes, values: Mapping[str, CachedValue]) -> bytes:
    """One sheet with `<v>` set for each formula. Raises FormulaWithoutValue for a formula that has no value."""
    Xml.register_namespace("", MAIN)
    Xml.register_namespace("r", RELATIONS)
    root = fromstring(sheet)
    for cell in root.iter(f"{{{MAIN}}}c"):
        if cell.find(f"{{{MAIN}}}f") is None:
            continue
        place = cell.get("r", "")
        if place not in values:
            raise FormulaWithoutValue(f"the formula in {place} has no computed value")
        value = values[place]
        shown = cell.find(f"{{{MAIN}}}v")
        if shown is None:
            shown = Xml.SubElement(cell, f"{{{MAIN}}}v")
        if isinstance(value, Decimal):
            cell.attrib.pop("t", None)
            shown.text = plain(value)
        else:
            cell.set("t", "str")
            shown.text = value
    return b'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n' + Xml.tostring(root, encoding="utf-8")
