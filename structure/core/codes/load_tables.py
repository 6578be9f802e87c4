"""Shipped loads and soils to choose from: live loads by use, weights of layers, bearing of soils.

Each choice carries its source and, where it was not read in a table, its mark. Tables hold psf or kPa; pressures
are in psi or MPa, as the code works.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from structure.core.units import quantity
from structure.data import Table, table

UNIT: Mapping[str, float] = {"us": 1.0 / 144.0, "ca": 0.001}  # psf in psi, kPa in MPa


@dataclass(frozen=True, slots=True)
class Choice:
    """One row: a pressure by name, what it belongs to, and where it comes from."""

    id: str
    name: str
    value: float
    kind: str
    case: str
    source: str
    mark: str
    whole: bool = False
    code: str = "us"

    def as_data(self) -> dict[str, Any]:
        return {
            "id": self.id,
            "name": self.name,
            "value": quantity(self.value, "pressure", self.code),
            "kind": self.kind,
            "case": self.case,
            "source": self.source,
            "mark": self.mark,
            "whole": self.whole,
        }


@cache
def live_loads(code: str = "us") -> tuple[Choice, ...]:
    """Least uniform live loads by use. IRC Tables R301.5 and R301.6, NBC Table 4.1.5.3."""
    held = table(f"{code}/live_loads")
    return tuple(
        _choice(row, row["kind"], row["case"], f"{held.document} {held.edition}, Table {row['number']}", code)
        for row in held.rows
    )


@cache
def dead_loads(code: str = "us") -> tuple[Choice, ...]:
    """Weights of layers and of whole assemblies, per area of the surface they lie in."""
    held = table(f"{code}/dead_loads")
    return tuple(_choice(row, row["kind"], "dead", row["from"], code) for row in held.rows)


@cache
def soils(code: str = "us") -> tuple[Choice, ...]:
    """Presumptive gross bearing values. IRC Table R401.4.1, NBC Table 9.4.4.1."""
    held: Table = table(f"{code}/soil")
    return tuple(_choice(row, "soil", "", held.reference, code) for row in held.rows)


def _choice(row: Mapping[str, Any], kind: str, case: str, source: str, code: str) -> Choice:
    mark = str(row["mark"])
    return Choice(
        id=str(row["id"]),
        name=str(row["name"]),
        value=float(row["value"]) * UNIT[code],
        kind=kind,
        case=case,
        source=source or mark,
        mark=mark,
        whole=bool(row.get("whole", False)),
        code=code,
    )
