"""Tables of design values from TOML files whose content is held fast by checksums.

A table that somebody edited by accident must not size a beam: every file is compared with the digest
kept in `checksums.toml` when it is read. `python -m structure.data` writes the digests anew.
"""

from __future__ import annotations

import hashlib
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

FOLDER = Path(__file__).parent
CHECKSUMS = FOLDER / "checksums.toml"


class DataError(RuntimeError):
    """A table is missing, or its content is not what its checksum says."""


@dataclass(frozen=True)
class Table:
    """One TOML file: what it is, where its numbers come from, and its content."""

    name: str
    title: str
    document: str
    edition: str
    number: str
    sources: tuple[str, ...]
    digest: str
    content: Mapping[str, Any]

    @property
    def rows(self) -> tuple[Mapping[str, Any], ...]:
        """The rows of a table of rows; empty for a table of another shape."""
        return tuple(self.content.get("row", ()))

    @property
    def reference(self) -> str:
        """`NDS Supplement 2018, Table 4A`, `CSA O86:19, Table 6.4`."""
        joint = ":" if self.document.startswith("CSA") else " "  # as each publisher writes it
        place = joint.join(part for part in (self.document, self.edition) if part)
        return f"{place}, Table {self.number}" if self.number else place


def names() -> tuple[str, ...]:
    """Every table by its path without the ending, such as `us/nds_4a`, in order."""
    found = (path.relative_to(FOLDER).with_suffix("") for path in FOLDER.rglob("*.toml") if path != CHECKSUMS)
    return tuple(sorted(path.as_posix() for path in found))


@cache
def table(name: str) -> Table:
    """The table `name`, read once and checked against its digest.

    Raises DataError if there is no such table or its content has changed.
    """
    if name not in names():
        raise DataError(f"there is no table {name}")
    digest = _digest(name)
    if _held().get(name) != digest:
        raise DataError(f"table {name} does not agree with its checksum; its values are not used")
    read = tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8"))
    return Table(
        name=name,
        title=str(read["title"]),
        document=str(read["document"]),
        edition=str(read["edition"]),
        number=str(read["table"]),
        sources=tuple(read["sources"]),
        digest=digest,
        content=MappingProxyType(read),
    )


@cache
def data_checksum() -> str:
    """One digest over all tables, for the record of a run."""
    whole = hashlib.sha256()
    for name in names():
        whole.update(f"{name} {table(name).digest}\n".encode())
    return whole.hexdigest()


def write_checksums() -> str:
    """Write the digest of every table to `checksums.toml` and return its text."""
    lines = [
        "# Written by `python -m structure.data`; look at the change of a table before you write it anew."
    ]
    lines += [f'"{name}" = "{_digest(name)}"' for name in names()]
    text = "\n".join(lines) + "\n"
    CHECKSUMS.write_text(text, encoding="utf-8")
    return text


def _digest(name: str) -> str:
    # Line ends are put right first, so that a checkout on another system has the same digest.
    content = (FOLDER / f"{name}.toml").read_bytes().replace(b"\r\n", b"\n")
    return hashlib.sha256(content).hexdigest()


@cache
def _held() -> Mapping[str, str]:
    try:
        return MappingProxyType(tomllib.loads(CHECKSUMS.read_text(encoding="utf-8")))
    except FileNotFoundError:
        raise DataError("checksums.toml is missing beside the tables") from None
