"""Visually graded sawn lumber: dimension lumber, built-up of plies, and timbers."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import Any, ClassVar

from structure.core.clauses import DEFAULT_EDITIONS, ClauseRef
from structure.core.codes.us import wood
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.section import (
    EMPTY,
    PROPERTY_NAMES,
    Reference,
    WoodSection,
    check_plies,
    inches,
)
from structure.core.materials.species import (
    FACTORS,
    TABLE_4A,
    TABLE_4B,
    TABLE_4D,
    find_row,
    held_grades,
    held_species,
)
from structure.data.loader import Table, table

STOCK = "us/stock"
LEAST_TIMBER, MOST_TIMBER = 4.5, 23.5  # in, dressed: 5 in to 24 in nominal
WATER = 62.4  # lbf/ft**3
ALIAS = {"No.1/No.2": "No.2"}  # one printed row of SPF serves both


@dataclass(frozen=True)
class SawnSection(WoodSection):
    """Plies of sawn lumber on edge, by species, grade and dressed size.

    Raises InputError for a species or grade not held, OutOfScope for a size that the tables do not have.
    """

    family: ClassVar[str] = "sawn"

    species: str
    grade: str
    plies: int = 1
    width: float = 1.5
    depth: float = 9.25
    properties: Mapping[str, float] = field(default_factory=dict, hash=False)
    fastening: str = "nailed"

    def __post_init__(self) -> None:
        check_plies(self.plies)
        if self.species == "SPF" and self.grade in ALIAS:
            object.__setattr__(self, "grade", ALIAS[self.grade])
        if self.is_timber and self.plies > 1:
            raise OutOfScope(
                ClauseRef("common practice", "", "built-up members"),
                "timbers side by side are not counted on to act together; give one ply",
            )
        _ = self.reference

    @cached_property
    def is_timber(self) -> bool:
        """5 in by 5 in nominal and larger."""
        return self.thin >= LEAST_TIMBER

    @cached_property
    def size_class(self) -> str:
        """`dimension`, `beams and stringers` or `posts and timbers`."""
        if not self.is_timber:
            return "dimension"
        # 6x8 is dressed to 5 1/2 x 7 1/2: not more than 2 in apart, a post.
        return "beams and stringers" if self.wide - self.thin > 2.0 + 1e-9 else "posts and timbers"

    @cached_property
    def nominal(self) -> tuple[int, int] | None:
        """Nominal thickness and width in inches; None for a timber that is not dressed to a standard size."""
        if self.is_timber:
            pair = (self.thin + 0.5, self.wide + 0.5)
            whole = tuple(round(each) for each in pair)
            fits = all(abs(a - b) < 1e-6 for a, b in zip(pair, whole, strict=True))
            return (whole[0], whole[1]) if fits else None
        return self._dressed("thickness", self.thin), self._dressed("nominal", self.wide)

    def _dressed(self, kind: str, size: float) -> int:
        held: Mapping[str, int] = table(STOCK).content["sawn"][kind]
        for text, nominal in held.items():
            if abs(float(text) - size) < 1e-6:
                return nominal
        what = "thickness" if kind == "thickness" else "depth"
        raise OutOfScope(
            ClauseRef("NDS Supplement", "2018", "Table 1A"),
            f"a dressed {what} of {size:g} in is no standard size of dimension lumber; "
            f"held are {', '.join(held)} in, and timbers from {LEAST_TIMBER:g} in",
        )

    @property
    def label(self) -> str:
        if self.nominal is None:
            size = f"{inches(self.width)} x {inches(self.depth)}"
        else:
            pair = self.nominal if self.width <= self.depth else self.nominal[::-1]
            size = f"{pair[0]}x{pair[1]}"
        return f"{f'{self.plies}-' if self.plies > 1 else ''}{size} {self.species} {self.grade}"

    @property
    def _given(self) -> dict[str, Any]:
        return super()._given | {"fastening": self.fastening}

    @cached_property
    def table_name(self) -> str:
        """The table that holds this section's values."""
        if self.is_timber:
            return TABLE_4D
        return TABLE_4B if self.species == "SP" else TABLE_4A

    @cached_property
    def _table_grade(self) -> str:
        # Stud grade 8 in and wider takes the values and size factors of No.3 (table 4A).
        if self.table_name == TABLE_4A and self.grade == "Stud" and self._wide_nominal >= 8:
            return "No.3"
        return self.grade

    @cached_property
    def _wide_nominal(self) -> int:
        nominal = self.nominal
        return nominal[1] if nominal else round(self.wide + 0.5)

    def _tabulated(self) -> Reference:
        if self.is_timber and self.wide > MOST_TIMBER:
            raise OutOfScope(
                ClauseRef("NDS Supplement", "2018", "Table 1B"),
                f"a timber {self.wide:g} in deep is larger than {MOST_TIMBER:g} in",
            )
        held, row = table(self.table_name), self._row()
        if row is None:
            if self.properties:
                return Reference(EMPTY, f"{held.reference} for {self.species} {self.grade}")
            self._refuse(held)
        else:
            values = {name: float(value) for name, value in row["values"].items()}
            marks = (str(row["mark"]),) if row["mark"] else ()
            return Reference(MappingProxyType(values), held.reference, marks)
        raise AssertionError("unreachable")

    def _row(self) -> Mapping[str, Any] | None:
        nominal, wanted = self._wide_nominal, {"species": self.species, "grade": self._table_grade}
        if self.is_timber:
            return find_row(TABLE_4D, size_class=self.size_class, **wanted)
        if self.table_name == TABLE_4A:
            return find_row(TABLE_4A, **wanted)
        for row in table(TABLE_4B).rows:
            if row["grade"] == self._table_grade and row["width"][0] <= nominal <= row["width"][1]:
                return row
        return None

    def _refuse(self, held: Table) -> None:
        grades = held_grades(self.table_name, self.species)
        if not grades:
            known = dict.fromkeys(str(row["species"]) for row in held.rows)
            species = ", ".join(known) if self.is_timber else ", ".join(held_species())
            raise InputError(
                "species", self.species, f"a species whose values are held in {held.reference}: {species}"
            )
        raise InputError(
            "grade", self.grade, f"a grade of {self.species} held in {held.reference}: {', '.join(grades)}"
        )

    @cached_property
    def size_factors(self) -> Mapping[str, float]:
        if self.is_timber:
            C_F = float(wood.timber_size_factor(d_0=wood.STANDARD_DEPTH, d=self.depth))
            return MappingProxyType({"Fb": C_F, "Ft": 1.0, "Fc": 1.0})
        content, nominal = table(FACTORS).content, self._wide_nominal
        thick = self.nominal is not None and self.nominal[0] >= 4
        if self.species == "SP":
            if nominal > 12:
                return MappingProxyType(dict(content["size_4b"]["wider_than_12in"]))
            if thick and nominal >= 8:
                return MappingProxyType(dict(content["size_4b"]["thick_4in_from_8in"]))
            return MappingProxyType({"Fb": 1.0, "Ft": 1.0, "Fc": 1.0})
        rows = content["size_4a_stud" if self._table_grade == "Stud" else "size_4a"]["rows"]
        # The first row serves narrower pieces, the last one wider ones.
        chosen = next((row for row in rows if nominal <= row[0]), rows[-1])
        return MappingProxyType(
            {"Fb": float(chosen[2 if thick else 1]), "Ft": float(chosen[3]), "Fc": float(chosen[4])}
        )

    def wet_factors(self, wet: bool) -> Mapping[str, float]:
        if not wet:
            return MappingProxyType(dict.fromkeys(PROPERTY_NAMES, 1.0))
        kind = "dimension" if not self.is_timber else "timber_sp" if self.species == "SP" else "timber"
        held = table(FACTORS).content["wet"][kind]
        factors = {name: float(value) for name, value in held["factors"].items()}
        for name, limit in held["free"].items():
            value = self.reference.values.get(name)
            if value is not None and value * self.size_factors[name] <= limit:
                factors[name] = 1.0
        return MappingProxyType(factors)

    def treatment_factors(self, treated: str) -> Mapping[str, float]:
        if treated == "fire_retardant" or (treated == "incised" and self.is_timber):
            raise OutOfScope(
                wood.TREATED.at(DEFAULT_EDITIONS["us"]),
                f"{self.label}, treated ({treated.replace('_', ' ')}): its factors are the treater's",
            )
        if treated == "incised":
            held = table(FACTORS).content["incised"]["factors"]
            return MappingProxyType({name: float(held[name]) for name in PROPERTY_NAMES})
        return super().treatment_factors("none")

    @cached_property
    def repetitive_factor(self) -> float:
        return 1.0 if self.is_timber else wood.REPETITIVE_SAWN_FACTOR

    @property
    def density(self) -> float:
        content = table(FACTORS).content
        G = content["specific_gravity"].get(self.species)
        if G is None:
            # The heaviest species held is on the safe side for one whose gravity is not.
            G = max(content["specific_gravity"].values())
        return float(wood.density(w_w=WATER, G=G, m=content["density"]["moisture_percent"])) / 12**3

    @property
    def weight_source(self) -> str:
        return "NDS table 12.3.3A (specific gravity) and NDS Supplement 3.1.3 at 19 % moisture, from memory"
