"""A steel member of one rolled or hollow shape, by its ASTM grade or with the strength entered for it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import ClassVar

from structure.core.materials.rolled import RolledSection
from structure.core.materials.steel_shapes import Shape, shape
from structure.data.loader import table

# The weakest that is commonly sold, where no grade is named.
UNNAMED = {
    "us/steel_w": "A992",
    "us/steel_s": "A36",
    "us/steel_c": "A36",
    "us/steel_hss": "A500 Gr B",
    "us/steel_round": "A53 Gr B",
}


@dataclass(frozen=True)
class SteelSection(RolledSection):
    """One steel shape of the US tables."""

    grades: ClassVar[str] = "us/steel_grades"
    # What a shop writes for short, and the grade that is then taken.
    short: ClassVar[Mapping[str, str]] = MappingProxyType(
        {"A500": "A500 Gr B", "A53": "A53 Gr B", "A572": "A572 Gr 50"}
    )

    @cached_property
    def rolled(self) -> Shape:
        return shape(self.shape)

    @property
    def usual_grade(self) -> str:
        return UNNAMED[self.rolled.table]

    @property
    def weight_source(self) -> str:
        return f"{self.rolled.W * 12:g} lbf/ft, {table(self.rolled.table).reference}"
