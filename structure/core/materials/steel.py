"""A steel member of one rolled or hollow shape, by its ASTM grade or with the strength entered for it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import Any, ClassVar

from structure.core.errors import InputError
from structure.core.materials.section import Reference, Section
from structure.core.materials.steel_shapes import Shape, shape
from structure.core.units import quantity
from structure.data.loader import table

GRADES = "us/steel_grades"
PROPERTIES = ("Fy", "Fu", "E")
# What a shop writes for short, and the grade that is then taken.
SHORT = {"A500": "A500 Gr B", "A53": "A53 Gr B", "A572": "A572 Gr 50"}
# The weakest that is commonly sold, where no grade is named.
UNNAMED = {
    "us/steel_w": "A992",
    "us/steel_s": "A36",
    "us/steel_c": "A36",
    "us/steel_hss": "A500 Gr B",
    "us/steel_round": "A53 Gr B",
}


@dataclass(frozen=True)
class SteelSection(Section):
    """One steel shape, strong axis level. `grade` is one held, or any name where `properties` give Fy.

    Raises InputError for an unknown shape, or a grade that is not held for that form of shape.
    """

    family: ClassVar[str] = "steel"
    material: ClassVar[str] = "steel"

    shape: str
    grade: str = ""
    properties: Mapping[str, float] = field(default_factory=dict, hash=False)
    unnamed: bool = field(default=False, init=False)

    def __post_init__(self) -> None:
        for name in self.properties:
            if name not in PROPERTIES:
                raise InputError(f"properties.{name}", "a value", f"of steel only {', '.join(PROPERTIES)}")
        object.__setattr__(self, "depth", self.rolled.d)
        object.__setattr__(self, "unnamed", not self.grade)
        if not self.grade:
            object.__setattr__(self, "grade", UNNAMED[self.rolled.table])
        _ = self.reference

    @cached_property
    def rolled(self) -> Shape:
        """The row of the shape tables."""
        return shape(self.shape)

    @property
    def breadth(self) -> float:
        return self.rolled.b

    @property
    def area(self) -> float:
        return self.rolled.A

    @property
    def section_modulus(self) -> float:
        return self.rolled.S_x

    @property
    def inertia(self) -> float:
        return self.rolled.I_x

    @property
    def label(self) -> str:
        return f"{self.rolled.label} {self.grade}"

    def _tabulated(self) -> Reference:
        held = table(GRADES)
        E = float(held.content["elastic"]["E"])
        form = self.rolled.form
        short = SHORT.get(_plain(self.grade))
        for row in held.rows:
            if _plain(row["name"]) == _plain(short or self.grade) and form in row["forms"]:
                F_y, F_u = (float(value) for value in row["forms"][form])
                values = {"Fy": F_y, "Fu": F_u, "E": E}
                marks = (f"{self.grade} taken as {short}",) if short and "Fy" not in self.properties else ()
                if self.unnamed and "Fy" not in self.properties:
                    marks = (f"no grade was named, {self.grade} taken",)
                return Reference(MappingProxyType(values), f"ASTM {row['name']}", marks)
        if "Fy" in self.properties:
            return Reference(MappingProxyType({"E": E}), f"the mill certificate of {self.grade}")
        grades = ", ".join(str(row["name"]) for row in held.rows if form in row["forms"])
        raise InputError(
            "grade", self.grade, f"a grade held for {self.rolled.label} ({grades}), or properties with Fy"
        )

    @property
    def weight(self) -> float:
        return self.rolled.W

    @property
    def weight_source(self) -> str:
        return f"{self.rolled.W * 12:g} lbf/ft, {table(self.rolled.table).reference}"

    @property
    def _given(self) -> dict[str, Any]:
        return {"shape": self.rolled.label, "grade": self.grade}

    @property
    def size_data(self) -> dict[str, Any]:
        held = self.rolled
        return super().size_data | {
            "form": held.form,
            "plastic_modulus": quantity(held.Z_x, "section_modulus"),
            "weak_inertia": quantity(held.I_y, "inertia"),
            "weak_section_modulus": quantity(held.S_y, "section_modulus"),
            "strong_radius": quantity(held.r_x, "length"),
            "weak_radius": quantity(held.r_y, "length"),
            "web": quantity(held.t_w, "length"),
            "flange": quantity(held.t_f, "length"),
        }


def _plain(grade: str) -> str:
    """A grade without the words around it: `ASTM A500 Grade B` and `A500-B` are one."""
    return re.sub(r"ASTM|GRADE|GR|[\s.\-]", "", grade.upper())
