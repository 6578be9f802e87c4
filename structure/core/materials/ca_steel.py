"""A steel member of one rolled or hollow shape under CSA S16, by its grade or with the strength entered for it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import ClassVar

from structure.core.materials.ca_steel_shapes import KILOGRAM, ROUND, shape
from structure.core.materials.rolled import RolledSection
from structure.core.materials.steel_shapes import Shape
from structure.data.loader import table

# What is commonly sold, where no grade is named; of two the weaker.
UNNAMED = {"W": "345WM", "C": "300W", "HSS": "350W", "round": "350W"}
USUAL_CURVE = 1.34  # n of the column curve, CSA S16 13.3.1


@dataclass(frozen=True)
class CaSteelSection(RolledSection):
    """One steel shape in metric. Tubes to ASTM A500 and A53 count 0.9 of their wall."""

    code: ClassVar[str] = "ca"
    grades: ClassVar[str] = "ca/steel_grades"
    short: ClassVar[Mapping[str, str]] = MappingProxyType(
        {
            "350WC": "350W",
            "345W": "345WM",
            "50W": "350W",
            "44W": "300W",
            "A500": "A500 Gr B",
            "A53": "A53 Gr B",
            "A572": "A572 Gr 50",
        }
    )

    @cached_property
    def rolled(self) -> Shape:
        plain = shape(self.shape)
        row = self._graded(plain)
        wall = 1.0 if row is None or plain.form not in ("HSS", "round") else float(row["wall"])
        return plain if wall == 1.0 else shape(self.shape, wall)

    @property
    def usual_grade(self) -> str:
        plain = shape(self.shape)
        if plain.label.startswith("S"):
            # Nobody rolls them any more: what stands in a basement is older steel.
            return "A36"
        return "A53 Gr B" if plain.label.startswith("Pipe") else UNNAMED[plain.form]

    @property
    def curve(self) -> float:
        """Exponent n of the column curve: 2.24 for tubes that were relieved of stress. CSA S16 13.3.1."""
        row = self._graded(self.rolled)
        return USUAL_CURVE if row is None else float(row["n"])

    @property
    def weight_source(self) -> str:
        if self.rolled.form == "round":
            return f"{self.rolled.W / KILOGRAM:.3g} kg/m, worked out from its diameter and wall"
        return f"{self.rolled.W / KILOGRAM:g} kg/m, {table(self.rolled.table).reference}"

    @property
    def remarks(self) -> tuple[str, ...]:
        found = super().remarks
        if self.rolled.table == ROUND:
            found = (
                *found,
                f"{self.label}: size worked out from outside diameter and wall, not from a table.",
            )
        elif self.rolled.form == "HSS" and self.rolled is not shape(self.shape):
            found = (*found, f"{self.label}: size worked out from the wall that counts, not from a table.")
        return found
