"""A copy of a workbook without cached values, calculated by LibreOffice, read back as numbers."""

from __future__ import annotations

import io
import subprocess
import zipfile
from pathlib import Path
from xml.etree import ElementTree as Xml

from defusedxml.ElementTree import fromstring
from openpyxl import load_workbook

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"


def strip_cached(raw: bytes) -> bytes:
    """The workbook without any cached value, so that whoever opens it must calculate for itself."""
    made = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(raw)) as source,
        zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as target,
    ):
        for name in source.namelist():
            content = source.read(name)
            if name.startswith("xl/worksheets/sheet"):
                content = _without_values(content)
            target.writestr(name, content)
    return made.getvalue()


def _without_values(sheet: bytes) -> bytes:
    Xml.register_namespace("", MAIN)
    root = fromstring(sheet)
    for cell in root.iter(f"{{{MAIN}}}c"):
        shown = cell.find(f"{{{MAIN}}}v")
        if cell.find(f"{{{MAIN}}}f") is not None and shown is not None:
            cell.remove(shown)
            cell.attrib.pop("t", None)
    return Xml.tostring(root, encoding="utf-8")


def recalculate(soffice: str, files: dict[str, bytes], folder: Path) -> dict[str, bytes]:
    """Each named workbook stripped and calculated in one run of LibreOffice."""
    sources, out = folder / "in", folder / "out"
    sources.mkdir(parents=True)
    for name, raw in files.items():
        (sources / f"{name}.xlsx").write_bytes(strip_cached(raw))
    profile = (folder / "profile").as_uri()
    command = [soffice, f"-env:UserInstallation={profile}", "--headless", "--norestore", "--convert-to", "xlsx",
               "--outdir", str(out), *(str(sources / f"{name}.xlsx") for name in files)]  # fmt: skip
    subprocess.run(command, check=True, capture_output=True, timeout=240)
    return {name: (out / f"{name}.xlsx").read_bytes() for name in files}


def formula_values(raw: bytes, calculated: bytes) -> list[tuple[str, str, object, object]]:
    """Every formula cell: sheet, place, the value cached in `raw` and the one LibreOffice calculated."""
    formulas = load_workbook(io.BytesIO(raw))
    cached = load_workbook(io.BytesIO(raw), data_only=True)
    fresh = load_workbook(io.BytesIO(calculated), data_only=True)
    rows = []
    for sheet in formulas:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type == "f":
                    at = cell.coordinate
                    rows.append(
                        (sheet.title, at, cached[sheet.title][at].value, fresh[sheet.title][at].value)
                    )
    return rows
