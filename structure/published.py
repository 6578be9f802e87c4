"""The shipped cases and what the engine of this process makes of them, worked out once."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from django.core.cache import cache

from structure.core.cases.files import find_files, read_cases
from structure.core.cases.verify import VerifyRow, verify_case
from structure.core.version import CORE_VERSION
from structure.data.loader import data_checksum

FOLDER = Path(__file__).resolve().parent / "verification"
A_WEEK = 7 * 24 * 3600


@dataclass(frozen=True, slots=True)
class Published:
    """Every row without its lines, and by which engine, values and cases it was worked out."""

    rows: tuple[VerifyRow, ...]
    cases: int
    version: str
    checksum: str
    digest: str

    def count(self, outcome: str) -> int:
        return sum(row.outcome == outcome for row in self.rows)


def published_rows() -> Published:
    """Every shipped case against the engine; kept for as long as engine, values and cases stay the same.

    Raises FileError for a case file that can not be read.
    """
    found = find_files([FOLDER])
    # Size and time of each file name its content as long as nobody sets a clock back.
    stamps = "\n".join(f"{path.name} {path.stat().st_size} {path.stat().st_mtime_ns}" for path in found)
    digest = hashlib.sha256(stamps.encode()).hexdigest()[:12]
    key = f"published:{CORE_VERSION}:{data_checksum()[:16]}:{digest}"
    held: Published | None = cache.get(key)
    if held is None:
        held = _worked_out(found, digest)
        cache.set(key, held, A_WEEK)
    return held


def _worked_out(found: list[Path], digest: str) -> Published:
    # All files are read before any case runs, so that a bad one is told at once.
    read = [(path.stem, case) for path in found for case in read_cases(path)]
    rows = [replace(row, steps=()) for stem, case in read for row in verify_case(case, file=stem)]
    with_rows = len({(row.file, row.id) for row in rows})
    return Published(tuple(rows), with_rows, CORE_VERSION, data_checksum(), digest)


def published_case(case_id: str) -> tuple[Mapping[str, Any], tuple[VerifyRow, ...]] | None:
    """One shipped case and its rows, lines included, worked out now; None for a name that no case has."""
    for path in find_files([FOLDER]):
        for case in read_cases(path):
            if str(case.get("id")) == case_id:
                return case, verify_case(case, file=path.stem)
    return None
