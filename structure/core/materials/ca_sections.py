"""Sections under the National Building Code from typed records, by family."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from structure.core.clauses import COMMON_PRACTICE, Clause, Editions
from structure.core.errors import OutOfScope
from structure.core.materials.ca_engineered import (
    CaGlulamSection,
    CaLslSection,
    CaLvlSection,
    CaPslSection,
)
from structure.core.materials.ca_sawn import CaSawnSection
from structure.core.materials.ca_steel import CaSteelSection
from structure.core.materials.section import Section

Properties = Mapping[str, float]
Make = Callable[[Mapping[str, Any], Properties], Section]


def _sawn(record: Mapping[str, Any], properties: Properties) -> Section:
    return CaSawnSection(
        species=record["species"],
        grade=record["grade"],
        plies=record["plies"],
        width=record["width"],
        depth=record["depth"],
        properties=properties,
        fastening=record.get("fastening") or "nailed",
    )


def _engineered(make: Callable[..., Section]) -> Make:
    def made(record: Mapping[str, Any], properties: Properties) -> Section:
        size = {name: record[name] for name in ("plies", "width", "depth")}
        return make(grade=record["grade"] or "", properties=properties, **size)

    return made


def _steel(record: Mapping[str, Any], properties: Properties) -> Section:
    return CaSteelSection(shape=record["shape"], grade=record["grade"] or "", properties=properties)


# A family whose rules land adds its maker here.
FAMILIES: Mapping[str, Make] = {
    "sawn": _sawn,
    "lvl": _engineered(CaLvlSection),
    "psl": _engineered(CaPslSection),
    "lsl": _engineered(CaLslSection),
    "glulam": _engineered(CaGlulamSection),
    "steel": _steel,
}


def read(record: Mapping[str, Any], properties: Properties, editions: Editions) -> Section:
    """The section of one record. Raises OutOfScope for a family not covered, InputError for values not held."""
    family = record["family"]
    if family not in FAMILIES:
        raise OutOfScope(
            Clause(COMMON_PRACTICE.document, f"{family} under CSA O86").at(editions),
            f"not covered: a {family} section under the National Building Code",
        )
    return FAMILIES[family](record, properties)
