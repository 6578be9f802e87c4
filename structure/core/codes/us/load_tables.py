"""Shipped loads and soils to choose from: live loads by use, weights of layers, bearing of soils.

Each choice carries its source and, where it was not read in a table, its mark. Pressures in psi.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from structure.core.units import quantity
from structure.data import Table, table

PSF = 1.0 / 144.0  # psi


@dataclass(frozen=True, slots=True)
class Choice:
    """One row: a pressure [psi] by name, what it belongs to, and where it comes from."""

    id: str
    name: str
    value: float
    kind: str
    case: str
    source: str
    mark: str
    whole: bool = False

    def as_data(self) -> dict[str, Any]:
        return {
            "id": self.id,
            "name": self.name,
            "value": quantity(self.value, "pressure"),
            "kind": self.kind,
            "case": self.case,
            "source": self.source,
            "mark": self.mark,
            "whole": self.whole,
        }


@cache
def live_loads() -> tuple[Choice, ...]:
    """Least uniform live loads of floors and attics, and roof live loads. IRC Tables R301.5, R301.6."""
    held = table("us/live_loads")
    return tuple(
        _choice(row, row["kind"], row["case"], f"{held.document} {held.edition}, Table {row['number']}")
        for row in held.rows
    )


@cache
def dead_loads() -> tuple[Choice, ...]:
    """Weights of layers and of whole assemblies, per area of the surface they lie in."""
    return tuple(_choice(row, row["kind"], "dead", row["from"]) for row in table("us/dead_loads").rows)


@cache
def soils() -> tuple[Choice, ...]:
    """Presumptive gross bearing values. IRC Table R401.4.1."""
    held: Table = table("us/soil")
    return tuple(_choice(row, "soil", "", held.reference) for row in held.rows)


def _choice(row: Mapping[str, Any], kind: str, case: str, source: str) -> Choice:
    mark = str(row["mark"])
    return Choice(
        id=str(row["id"]),
        name=str(row["name"]),
        value=float(row["value"]) * PSF,
        kind=kind,
        case=case,
        source=source or mark,
        mark=mark,
        whole=bool(row.get("whole", False)),
    )
