"""The `design_values` kind: reference values, size factors and size of a section."""

from __future__ import annotations

from typing import Any

from structure.core.cases.reader import SECTION, Field, Kind, Result, read_section
from structure.core.clauses import Editions
from structure.core.materials.ca_wood import CaWoodSection
from structure.core.materials.section import WoodSection
from structure.core.units import quantity

# What each code calls the values of its tables.
VALUES = {"us": "reference", "ca": "specified"}


def solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    """Look up one section. Raises InputError for a grade that no table holds, OutOfScope for a size."""
    section = read_section(given["section"], "given.section", editions.code, editions)
    held = section.reference
    return {
        "section": section.label,
        VALUES[editions.code]: {
            name: quantity(value, "stress", editions.code) for name, value in held.values.items()
        },
        "factors": dict(section.sheet_factors),
        "size_factors": dict(section.size_factors)
        if isinstance(section, WoodSection | CaWoodSection)
        else {},
        "size": section.size_data,
        "source": held.source,
        "marks": list(held.marks),
        "remarks": list(section.remarks),
    }


KIND = Kind(
    "design_values",
    (Field("section", SECTION, required=True),),
    solve={"us": solve, "ca": solve},
    results=(
        Result("reference.<Fb|Ft|Fv|Fc_perp|Fc|E|Emin|Fy|Fu>", "stress", "before every factor"),
        Result("specified.<fb|fv|fc|fcp|ft|E|E05>", "stress", "under code ca, before every factor"),
        Result("factors.<CF|CV|KZb|KZv|KZt>", "", "of the size"),
        Result("size.<width|depth|area|section_modulus|inertia>", "", "of all plies"),
        Result("size.<plastic_modulus|weak_inertia|weak_section_modulus|...>", "", "of steel"),
        Result("source", "", "the table"),
        Result("marks", "", "what was entered, remembered or is common practice"),
    ),
    doc="Reference design values and size of a section, with their source.",
)
