"""Which species are held, and what one knows of a species without a size."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from structure.core.errors import InputError
from structure.data.loader import Table, table

TABLE_4A, TABLE_4B, TABLE_4D = "us/nds_4a", "us/nds_4b", "us/nds_4d"
FACTORS = "us/factors"


@cache
def held_species() -> tuple[str, ...]:
    """Species with dimension lumber values, in the order of the tables."""
    rows = (*table(TABLE_4A).rows, *table(TABLE_4B).rows)
    return tuple(dict.fromkeys(str(row["species"]) for row in rows))


@cache
def held_grades(table_name: str, species: str) -> tuple[str, ...]:
    """Grades of a species in one table."""
    return tuple(dict.fromkeys(str(r["grade"]) for r in table(table_name).rows if r["species"] == species))


def perpendicular_value(species: str, *, timber: bool = False) -> float:
    """F_c_perp of a species [psi], the same in every grade of dimension lumber.

    NDS Supplement tables 4A and 4B, with `timber` table 4D. Raises InputError for a species not held.
    """
    return perpendicular_row(species, timber=timber)[0]


def perpendicular_row(species: str, *, timber: bool = False) -> tuple[float, Table, str]:
    """F_c_perp with its table and mark. Raises InputError for a species not held."""
    for name in (TABLE_4D,) if timber else (TABLE_4A, TABLE_4B):
        for row in table(name).rows:
            if row["species"] == species:
                mark = str(row["mark"])
                # Marks that single out other values do not touch this one.
                touched = mark == "memory" or "Fc_perp" in mark
                return float(row["values"]["Fc_perp"]), table(name), mark if touched else ""
    raise InputError("species", species, f"a species whose values are held: {', '.join(held_species())}")


def specific_gravity(species: str) -> float:
    """Oven-dry specific gravity of a species, as fasteners take it. NDS table 12.3.3A.

    Raises InputError for a species not held.
    """
    held = table(FACTORS).content["specific_gravity"]
    if species not in held:
        raise InputError("species", species, f"a species whose gravity is held: {', '.join(held)}")
    return float(held[species])


def find_row(table_name: str, **wanted: Any) -> Mapping[str, Any] | None:
    """The first row of a table whose fields have the wanted values."""
    for row in table(table_name).rows:
        if all(row.get(field) == value for field, value in wanted.items()):
            return row
    return None
