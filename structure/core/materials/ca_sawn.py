"""Visually graded sawn lumber by CSA O86: dimension lumber, built-up of plies, and timbers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache, cached_property
from types import MappingProxyType
from typing import Any, ClassVar

from structure.core.clauses import DEFAULT_EDITIONS
from structure.core.codes.ca import wood
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.ca_wood import (
    BUILT_UP,
    FACTORS,
    NONE,
    STIFFNESSES,
    STRENGTHS,
    CaWoodSection,
    check_plies,
    weight_per_volume,
)
from structure.core.materials.section import EMPTY, Reference
from structure.data.loader import table

JOISTS, TIMBERS = "ca/joists", "ca/timbers"
LEAST_TIMBER = 114.0  # mm
THIN = 89.0  # mm: up to here lumber, service and treatment factors are those of thin pieces
SLACK = 0.55  # mm between a size typed in inches and the metric size of the same piece
# One row of the table serves No.1 and No.2, another one No.3 and Stud.
ROW = {"No.1": "No.1/No.2", "No.2": "No.1/No.2", "No.1&Btr": "No.1/No.2", "Stud": "No.3"}


@dataclass(frozen=True)
class CaSawnSection(CaWoodSection):
    """Plies of sawn lumber on edge, by species, grade and dressed size.

    Sizes typed in inches become the metric ones that the tables name (9 1/4 in is 235 mm). Raises InputError
    for a species or grade not held, OutOfScope for a size that the tables do not have.
    """

    family: ClassVar[str] = "sawn"

    species: str
    grade: str
    plies: int = 1
    width: float = 38.0
    depth: float = 235.0
    properties: Mapping[str, float] = field(default_factory=dict, hash=False)
    fastening: str = "nailed"

    def __post_init__(self) -> None:
        check_plies(self.plies)
        for name in ("width", "depth"):
            object.__setattr__(self, name, _dressed(getattr(self, name)))
        if self.is_timber and self.plies > 1:
            raise OutOfScope(
                BUILT_UP.at(DEFAULT_EDITIONS["ca"]),
                "timbers side by side are not counted on to act together; give one ply",
            )
        _ = self.nominal, self.reference

    @cached_property
    def is_timber(self) -> bool:
        """114 mm by 114 mm and larger."""
        return self.thin >= LEAST_TIMBER

    @cached_property
    def size_class(self) -> str:
        """`joists and planks`, `beams and stringers` or `posts and timbers`."""
        return class_of(self.thin, self.wide)

    @cached_property
    def nominal(self) -> tuple[int, int]:
        """Nominal width and depth of one ply in inches. Raises OutOfScope for a size that is not dressed."""
        sizes = table(FACTORS).content["sizes"]
        held = sizes["timber"] if self.is_timber else sizes["nominal"]
        for size in (self.thin, self.wide):
            if f"{size:g}" not in held or (not self.is_timber and self.thin > THIN):
                raise OutOfScope(
                    wood.SIZES.at(DEFAULT_EDITIONS["ca"]),
                    f"{self.width:g} x {self.depth:g} mm is no dressed size: lumber is 38, 64 or 89 mm thick and "
                    f"{', '.join(sizes['nominal'])} mm wide, timbers are {', '.join(sizes['timber'])} mm",
                )
        return held[f"{self.width:g}"], held[f"{self.depth:g}"]

    @property
    def label(self) -> str:
        size = f"{self.width:g}x{self.depth:g} ({self.nominal[0]}x{self.nominal[1]})"
        return f"{f'{self.plies}-' if self.plies > 1 else ''}{size} {self.species} {self.grade}"

    @property
    def _given(self) -> dict[str, Any]:
        return super()._given | {"fastening": self.fastening}

    def _tabulated(self) -> Reference:
        name = TIMBERS if self.is_timber else JOISTS
        held = table(name)
        grade = self.grade if self.is_timber else ROW.get(self.grade, self.grade)
        for row in held.rows:
            same = row.get("size_class", self.size_class) == self.size_class
            if row["species"] == self.species and row["grade"] == grade and same:
                values = {key: float(value) for key, value in row["values"].items()}
                marks = (str(row["mark"]),) if row["mark"] else ()
                return Reference(MappingProxyType(values), held.reference, marks)
        if self.properties:
            return Reference(EMPTY, f"{held.reference} for {self.species} {self.grade}")
        grades = held_grades(name, self.species, self.size_class)
        if not grades:
            known = ", ".join(each for each in held_species() if held_grades(name, each, self.size_class))
            raise InputError(
                "species", self.species, f"a species whose {self.size_class} {held.reference} holds: {known}"
            )
        raise InputError(
            "grade", self.grade, f"a grade of {self.species} held in {held.reference}: {', '.join(grades)}"
        )

    @cached_property
    def size_factors(self) -> Mapping[str, float]:
        rows = table(FACTORS).content["size"]["rows"]
        row = next((row for row in rows if self.wide <= row[0]), rows[-1])
        # The thickness is that of one ply: several side by side are no thicker pieces.
        column = 3 if self.thin >= LEAST_TIMBER else 2 if self.thin >= THIN else 1
        K_Zb = float(row[column])
        return MappingProxyType({**NONE, "fb": K_Zb, "fv": K_Zb, "ft": float(row[4])})

    def wet_factors(self, wet: bool) -> Mapping[str, float]:
        if not wet:
            return NONE
        held = table(FACTORS).content["wet"]["thin" if self.thin <= THIN else "thick"]
        return MappingProxyType({name: float(value) for name, value in held.items()})

    def treatment_factors(self, treated: str, wet: bool) -> Mapping[str, float]:
        if treated != "incised":
            return super().treatment_factors(treated, wet)
        if self.thin > THIN:
            # The table reduces nothing that is thicker than 89 mm.
            return NONE
        held = table(FACTORS).content["incised"]["wet" if wet else "dry"]
        strong = dict.fromkeys(STRENGTHS, float(held["strength"]))
        return MappingProxyType({**strong, **dict.fromkeys(STIFFNESSES, float(held["stiffness"]))})

    def system_factors(self, repetitive: bool) -> Mapping[str, float]:
        if not repetitive or self.is_timber:
            return NONE
        held = table(FACTORS).content["system"]["shared"]
        return MappingProxyType({name: float(value) for name, value in held.items()})

    @property
    def density(self) -> float:
        return weight_per_volume(self.species)


def class_of(thin: float, wide: float) -> str:
    """The class of sizes that a piece belongs to. CSA O86 6.2."""
    if thin < LEAST_TIMBER:
        return "joists and planks"
    return "beams and stringers" if wide - thin > 51.0 else "posts and timbers"


@cache
def held_species() -> tuple[str, ...]:
    """Species with values, in the order of the table."""
    return tuple(dict.fromkeys(str(row["species"]) for row in table(JOISTS).rows))


@cache
def held_grades(name: str, species: str, size_class: str = "") -> tuple[str, ...]:
    """Grades of a species in one table, and where it has several in one class of sizes."""
    rows = (
        row
        for row in table(name).rows
        if row["species"] == species and row.get("size_class", size_class) == size_class
    )
    return tuple(dict.fromkeys(str(row["grade"]) for row in rows))


def perpendicular_strength(species: str) -> tuple[float, str]:
    """f_cp of a species [MPa], the same in every grade, and its mark. Raises InputError if not held."""
    for row in table(JOISTS).rows:
        if row["species"] == species:
            return float(row["values"]["fcp"]), str(row["mark"])
    raise InputError("species", species, f"a species whose strengths are held: {', '.join(held_species())}")


@cache
def _dressed(size: float) -> float:
    """The metric size of a piece; as it is where none is near."""
    sizes = table(FACTORS).content["sizes"]
    near = [float(text) for text in (*sizes["nominal"], *sizes["timber"]) if abs(float(text) - size) <= SLACK]
    return near[0] if near else size
