"""A flitch beam: wood plies with steel plates between them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import Any, ClassVar

from structure.core.clauses import DEFAULT_EDITIONS
from structure.core.codes.us import flitch as rules
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.section import Reference, Section, WoodSection, inches
from structure.core.units import quantity
from structure.data.loader import table

TABLE = "us/plate"
LEAST_THICKNESS, MOST_THICKNESS = 0.25, 1.0  # in; common practice, hot-rolled plate


@dataclass(frozen=True, slots=True)
class Bolts:
    """Bolts through everything: diameter, spacing along the beam, and how many at each support [in]."""

    diameter: float = 0.5
    spacing: float | None = None
    at_supports: int | None = None


@dataclass(frozen=True)
class FlitchSection(Section):
    """`wood` holds all plies; each of the `plates` lies between two of them. `properties`: Fy, Fu and E of steel.

    Raises InputError for a grade of steel not held, OutOfScope for a layout that is not covered.
    """

    family: ClassVar[str] = "flitch"
    material: ClassVar[str] = "flitch"

    wood: WoodSection
    plates: int = 1
    thickness: float = 0.5
    plate_depth: float = 11.0
    steel: str = "A36"
    properties: Mapping[str, float] = field(default_factory=dict, hash=False)
    bolts: Bolts = field(default_factory=Bolts)
    gravity: float | None = None

    def __post_init__(self) -> None:
        editions = DEFAULT_EDITIONS["us"]
        if not 1 <= self.plates <= self.wood.plies - 1:
            raise OutOfScope(
                rules.LAYOUT.at(editions),
                f"{self.plates} plates with {self.wood.plies} plies: each plate must lie between two plies",
            )
        if not LEAST_THICKNESS <= self.thickness <= MOST_THICKNESS:
            raise OutOfScope(
                rules.LAYOUT.at(editions),
                f"a plate {self.thickness:g} in thick is outside {LEAST_THICKNESS:g} to {MOST_THICKNESS:g} in",
            )
        if self.plate_depth > self.wood.depth * (1 + 1e-9):
            raise InputError(
                "plate_depth", f"{self.plate_depth:g} in", f"at most the {self.wood.depth:g} in of the wood"
            )
        _ = self.reference

    @property
    def plies(self) -> int:  # type: ignore[override]
        return self.wood.plies

    @property
    def depth(self) -> float:  # type: ignore[override]
        return self.wood.depth

    @property
    def breadth(self) -> float:
        return self.wood.breadth + self.plates * self.thickness

    @property
    def width(self) -> float:
        """Of one ply."""
        return self.wood.width

    @property
    def ply_width(self) -> float:
        return self.wood.width

    @property
    def plate_area(self) -> float:
        """Of all plates [in**2]."""
        return self.plates * self.thickness * self.plate_depth

    @property
    def area(self) -> float:
        """Of wood and steel, each as it is."""
        return self.wood.area + self.plate_area

    @cached_property
    def plate_inertia(self) -> float:
        """Of all plates, on edge [in**4]."""
        return float(rules.plate_inertia(N=self.plates, t=self.thickness, h=self.plate_depth))

    @cached_property
    def inertia(self) -> float:
        """With the plates turned into wood, dry and not incised."""
        n = rules.modular_ratio(E_s=self.steel_value("E"), E_w=self.wood.reference.value("E"))
        return float(rules.transformed_inertia(I_w=self.wood.inertia, n=n, I_s=self.plate_inertia))

    @property
    def section_modulus(self) -> float:
        """Of the transformed section, at the edge of the wood."""
        return self.inertia / (self.depth / 2)

    @property
    def label(self) -> str:
        plate = f"plate {inches(self.thickness)} x {inches(self.plate_depth)} {self.steel}"
        return f"{self.wood.label} + {plate if self.plates == 1 else f'{self.plates} x {plate}'}"

    def steel_value(self, name: str) -> float:
        """Fy, Fu or E of the plates [psi]."""
        return self._steel[name]

    @cached_property
    def _steel(self) -> Mapping[str, float]:
        held = table(TABLE)
        known = {str(row["grade"]): row for row in held.rows}
        if self.steel not in known and not {"Fy", "Fu"} <= set(self.properties):
            raise InputError(
                "steel", self.steel, f"a grade held ({', '.join(known)}), or properties with Fy and Fu"
            )
        values = known[self.steel]["values"] if self.steel in known else {}
        steel = {name: float(value) for name, value in values.items()}
        return MappingProxyType({"E": float(held.content["steel"]["E_psi"]), **steel, **self.properties})

    def _tabulated(self) -> Reference:
        held, wood = table(TABLE), self.wood.reference
        marks = [str(row["mark"]) for row in held.rows if row["grade"] == self.steel and row["mark"]]
        values = {**wood.values, "Fy": self._steel["Fy"], "Fu": self._steel["Fu"]}
        return Reference(MappingProxyType(values), f"{wood.source}; {held.reference}", (*wood.marks, *marks))

    @cached_property
    def reference(self) -> Reference:
        """Of the wood, with Fy and Fu of the plates; typed steel values are in it already."""
        held = self._tabulated()
        if not self.properties:
            return held
        mark = f"{', '.join(self.properties)} of the plates as entered, not from a table"
        return Reference(held.values, held.source, (*held.marks, mark))

    @property
    def weight(self) -> float:
        density = float(table(TABLE).content["steel"]["density_pcf"]) / 12**3
        return self.wood.weight + density * self.plate_area

    @property
    def weight_source(self) -> str:
        return f"{self.wood.weight_source}; steel {table(TABLE).content['steel']['density_pcf']:g} pcf"

    @property
    def _given(self) -> dict[str, Any]:
        wood = {name: value for name, value in self.wood.given.items() if name not in ("plies", "fastening")}
        bolts: dict[str, Any] = {"diameter": f"{self.bolts.diameter!r} in"}
        if self.bolts.spacing is not None:
            bolts["spacing"] = f"{self.bolts.spacing!r} in"
        if self.bolts.at_supports is not None:
            bolts["at_supports"] = self.bolts.at_supports
        return {
            "wood": wood,
            "plies": self.plies,
            "plates": self.plates,
            "thickness": f"{self.thickness!r} in",
            "plate_depth": f"{self.plate_depth!r} in",
            "steel": self.steel,
            "bolts": bolts,
        } | ({} if self.gravity is None else {"gravity": self.gravity})

    @property
    def size_data(self) -> dict[str, Any]:
        """As for every section, transformed into wood, with the plates."""
        plate = {
            "count": self.plates,
            "thickness": quantity(self.thickness, "length"),
            "depth": quantity(self.plate_depth, "length"),
            "inertia": quantity(self.plate_inertia, "inertia"),
        }
        return super().size_data | {"plate": plate}
