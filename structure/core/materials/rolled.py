"""A member of one rolled or hollow steel shape, whatever the code: size, grade and strength by its tables."""

from __future__ import annotations

import re
from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, ClassVar

from structure.core.errors import InputError
from structure.core.materials.section import Reference, Section
from structure.core.materials.steel_shapes import Shape
from structure.core.units import quantity
from structure.data.loader import table

PROPERTIES = ("Fy", "Fu", "E")


@dataclass(frozen=True)
class RolledSection(Section):
    """One steel shape, strong axis level. `grade` is one held, or any name where `properties` give Fy.

    Raises InputError for an unknown shape, or a grade that is not held for that form of shape.
    """

    family: ClassVar[str] = "steel"
    material: ClassVar[str] = "steel"
    grades: ClassVar[str]  # the table of grades
    short: ClassVar[Mapping[str, str]] = MappingProxyType({})

    shape: str
    grade: str = ""
    properties: Mapping[str, float] = field(default_factory=dict, hash=False)
    unnamed: bool = field(default=False, init=False)

    def __post_init__(self) -> None:
        for name in self.properties:
            if name not in PROPERTIES:
                raise InputError(f"properties.{name}", "a value", f"of steel only {', '.join(PROPERTIES)}")
        object.__setattr__(self, "unnamed", not self.grade)
        if not self.grade:
            object.__setattr__(self, "grade", self.usual_grade)
        object.__setattr__(self, "depth", self.rolled.d)
        _ = self.reference

    @property
    @abstractmethod
    def rolled(self) -> Shape:
        """The row of the shape tables."""

    @property
    @abstractmethod
    def usual_grade(self) -> str:
        """What is taken where no grade is named."""

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

    @property
    def weight(self) -> float:
        return self.rolled.W

    def _graded(self, rolled: Shape) -> Mapping[str, Any] | None:
        """The row of the grade for a form of shape; None where none is held."""
        name = plain_grade(self.short.get(plain_grade(self.grade), self.grade))
        for row in table(self.grades).rows:
            if plain_grade(row["name"]) == name and rolled.form in row["forms"]:
                return row
        return None

    def _tabulated(self) -> Reference:
        held = table(self.grades)
        E = float(held.content["elastic"]["E"])
        form = self.rolled.form
        row = self._graded(self.rolled)
        if row is not None:
            F_y, F_u = (float(value) for value in row["forms"][form])
            values = {"Fy": F_y, "Fu": F_u, "E": E}
            name = f"{row.get('standard', 'ASTM')} {row['name']}"
            return Reference(MappingProxyType(values), name, self._marks(row))
        if "Fy" in self.properties:
            return Reference(MappingProxyType({"E": E}), f"the mill certificate of {self.grade}")
        grades = ", ".join(str(row["name"]) for row in held.rows if form in row["forms"])
        raise InputError(
            "grade", self.grade, f"a grade held for {self.rolled.label} ({grades}), or properties with Fy"
        )

    def _marks(self, row: Mapping[str, Any]) -> tuple[str, ...]:
        """What was taken without being told, and what nobody read, of a strength that counts."""
        if "Fy" in self.properties:
            return ()
        found = [str(row["mark"])] if row.get("mark") else []
        if self.unnamed:
            found.append(f"no grade was named, {self.grade} taken")
        elif plain_grade(self.grade) in self.short:
            found.append(f"{self.grade} taken as {self.short[plain_grade(self.grade)]}")
        return tuple(found)

    @property
    def _given(self) -> dict[str, Any]:
        return {"shape": self.rolled.label, "grade": self.grade}

    @property
    def size_data(self) -> dict[str, Any]:
        held = self.rolled

        def shown(value: float, dimension: str) -> dict[str, Any]:
            return quantity(value, dimension, self.code)

        return super().size_data | {
            "form": held.form,
            "plastic_modulus": shown(held.Z_x, "section_modulus"),
            "weak_inertia": shown(held.I_y, "inertia"),
            "weak_section_modulus": shown(held.S_y, "section_modulus"),
            "strong_radius": shown(held.r_x, "length"),
            "weak_radius": shown(held.r_y, "length"),
            "web": shown(held.t_w, "length"),
            "flange": shown(held.t_f, "length"),
        }


def plain_grade(grade: str) -> str:
    """A grade without the words around it: `ASTM A500 Grade B` and `A500-B` are one."""
    return re.sub(r"ASTM|CSA|G40\.21M?|GRADE|CLASS|GR|[\s.\-]", "", grade.upper())
