"""Laminated veneer lumber by stress class, or with the values printed for a product in hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import ClassVar

from structure.core.clauses import ClauseRef
from structure.core.codes.us import wood
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.composite import CompositeSection
from structure.core.materials.section import (
    EMPTY,
    PROPERTY_NAMES,
    Reference,
    check_plies,
    inches,
)
from structure.core.materials.species import FACTORS
from structure.data.loader import table

TABLE = "us/lvl"
LEAST_DEPTH, MOST_DEPTH = 3.5, 24.0  # in; common practice: what is sawn from a billet
LEAST_WIDTH, MOST_WIDTH = 1.25, 7.0  # in; common practice
NEEDED = ("Fb", "Fv", "Fc_perp", "E")


@dataclass(frozen=True)
class LvlSection(CompositeSection):
    """Plies of LVL on edge. `grade` is a stress class held, or any name where `properties` give the values.

    Raises InputError for an unknown class without properties and OutOfScope for a size not covered.
    """

    family: ClassVar[str] = "lvl"

    grade: str
    plies: int = 1
    width: float = 1.75
    depth: float = 11.875
    properties: Mapping[str, float] = field(default_factory=dict, hash=False)

    def __post_init__(self) -> None:
        check_plies(self.plies)
        for name, value, least, most in (
            ("width", self.width, LEAST_WIDTH, MOST_WIDTH),
            ("depth", self.depth, LEAST_DEPTH, MOST_DEPTH),
        ):
            if not least <= value <= most:
                raise OutOfScope(
                    ClauseRef("common practice", "", "sizes of laminated veneer lumber"),
                    f"a ply {name} of {value:g} in is outside {least:g} to {most:g} in",
                )
        _ = self.reference

    @property
    def label(self) -> str:
        size = f"{inches(self.width)} x {inches(self.depth)} LVL {self.grade}"
        return f"{self.plies}-ply {size}" if self.plies > 1 else size

    def _tabulated(self) -> Reference:
        held = table(TABLE)
        for row in held.rows:
            if row["grade"] == self.grade:
                values = {name: float(value) for name, value in row["values"].items()}
                return Reference(MappingProxyType(values), held.reference, (str(row["mark"]),))
        if all(name in self.properties for name in NEEDED):
            return Reference(EMPTY, f"the document of {self.grade}")
        grades = ", ".join(str(row["grade"]) for row in held.rows)
        raise InputError(
            "grade", self.grade, f"a stress class held ({grades}), or properties with {', '.join(NEEDED)}"
        )

    @cached_property
    def reference(self) -> Reference:
        """As for every section; an Emin that no one printed is left out."""
        held = super().reference
        if all(name in self.properties for name in PROPERTY_NAMES if name not in {"Ft", "Fc"}):
            # Nothing of the generic row that a beam uses is left, so its mark would mislead.
            return Reference(held.values, held.source, held.marks[-1:])
        return held

    @cached_property
    def volume_factor(self) -> float | None:
        return float(wood.depth_factor(d_0=wood.STANDARD_DEPTH, d=self.depth))

    @property
    def density(self) -> float:
        return float(table(FACTORS).content["density"]["lvl_pcf"]) / 12**3

    @property
    def weight_source(self) -> str:
        return f"common practice: {table(FACTORS).content['density']['lvl_pcf']:g} pcf"
