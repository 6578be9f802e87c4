"""What every section offers: size, weight, reference values with their source; for wood its factors too.

Each in the units of its code; US sections: inches, psi, lbf.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from types import MappingProxyType
from typing import Any, ClassVar

import numpy as np
import numpy.typing as npt

from structure.core.clauses import DEFAULT_EDITIONS, ClauseRef, Editions
from structure.core.codes.us import wood
from structure.core.errors import InputError, OutOfScope
from structure.core.trace import Step
from structure.core.units import DIMENSIONS, quantity

PROPERTY_NAMES = ("Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin")
MOST_PLIES = 5
EMPTY: Mapping[str, float] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Reference:
    """Reference values before every factor, with the table they stand in and what was not read."""

    values: Mapping[str, float]
    source: str
    marks: tuple[str, ...] = ()

    def value(self, name: str) -> float:
        """One value. Raises InputError where neither the table nor `properties` holds it."""
        if name not in self.values:
            raise InputError(
                f"properties.{name}", None, f"a stress with a unit: {self.source} holds no {name} here"
            )
        return self.values[name]


class Section(ABC):
    """The section of any member, whatever it is made of, with the values that belong to it.

    `plies`: pieces side by side; `breadth` and `depth` [in] are of all of them together.
    """

    family: ClassVar[str] = ""
    material: ClassVar[str] = ""  # whose rules check it: wood, steel, flitch
    code: ClassVar[str] = "us"  # whose tables and units it is in

    plies: int = 1
    depth: float
    properties: Mapping[str, float]

    @property
    @abstractmethod
    def breadth(self) -> float:
        """Width over everything."""

    @property
    def ply_width(self) -> float:
        """Width of one piece."""
        return self.breadth / self.plies

    @property
    @abstractmethod
    def area(self) -> float:
        """Area of the whole section."""

    @property
    @abstractmethod
    def section_modulus(self) -> float:
        """Elastic, about the axis that a beam bends about."""

    @property
    @abstractmethod
    def inertia(self) -> float:
        """About the axis that a beam bends about."""

    @property
    @abstractmethod
    def label(self) -> str:
        """What a schedule and a shop call it."""

    @cached_property
    def reference(self) -> Reference:
        """Tabulated values with typed `properties` in their place. Raises InputError if none are held."""
        held = self._tabulated()
        if not self.properties:
            return held
        typed = list(self.properties)
        mark = f"{', '.join(typed)} as entered, not from a table"
        return Reference(
            MappingProxyType({**held.values, **self.properties}), held.source, (*held.marks, mark)
        )

    @abstractmethod
    def _tabulated(self) -> Reference:
        """The row of the tables. Raises InputError where none is held and nothing was entered."""

    @property
    @abstractmethod
    def weight(self) -> float:
        """Weight per length of the whole section [lbf/in]."""

    @property
    @abstractmethod
    def weight_source(self) -> str:
        """Where the weight comes from."""

    @property
    def sheet_factors(self) -> Mapping[str, float]:
        """Factors that the section alone decides, as the `design_values` kind prints them."""
        return EMPTY

    @property
    def size_data(self) -> dict[str, Any]:
        """Size of the whole section as plain data with units."""
        return {
            "plies": self.plies,
            "ply_width": quantity(self.ply_width, "length", self.code),
            "width": quantity(self.breadth, "length", self.code),
            "depth": quantity(self.depth, "length", self.code),
            "area": quantity(self.area, "area", self.code),
            "section_modulus": quantity(self.section_modulus, "section_modulus", self.code),
            "inertia": quantity(self.inertia, "inertia", self.code),
            "weight": quantity(self.weight, "line_load", self.code),
        }

    @property
    def given(self) -> dict[str, Any]:
        """The section as a case writes it, so that it can be asked for again."""
        return {"family": self.family, **self._given, **self._given_properties}

    @property
    @abstractmethod
    def _given(self) -> dict[str, Any]:
        """What a case says of it besides its family and the values entered for it."""

    @property
    def _given_properties(self) -> dict[str, Any]:
        if not self.properties:
            return {}
        unit = DIMENSIONS["stress"].shown[self.code]
        return {"properties": {name: f"{value!r} {unit}" for name, value in self.properties.items()}}

    @property
    def remarks(self) -> tuple[str, ...]:
        """What the reader must know of the values: entered, remembered, common practice."""
        return tuple(f"{self.label}: {mark} ({self.reference.source})" for mark in self.reference.marks)


class PliesSection(Section):
    """One or more plies of one size side by side, loaded on edge. `width` is that of one ply."""

    material: ClassVar[str] = "wood"

    width: float

    @property
    def ply_width(self) -> float:
        return self.width

    @cached_property
    def thin(self) -> float:
        """The lesser dimension of one ply."""
        return min(self.width, self.depth)

    @cached_property
    def wide(self) -> float:
        """The greater dimension of one ply: what the tables of lumber call its width."""
        return max(self.width, self.depth)

    @property
    def _given(self) -> dict[str, Any]:
        words = {name: getattr(self, name, None) for name in ("species", "grade")}
        unit = DIMENSIONS["length"].shown[self.code]
        size = {"plies": self.plies, "width": f"{self.width!r} {unit}", "depth": f"{self.depth!r} {unit}"}
        return {name: value for name, value in words.items() if value} | size

    @property
    def breadth(self) -> float:
        return self.plies * self.width

    @property
    def area(self) -> float:
        return self.breadth * self.depth

    @property
    def section_modulus(self) -> float:
        return self.breadth * self.depth**2 / 6

    @property
    def inertia(self) -> float:
        return self.breadth * self.depth**3 / 12


class WoodSection(PliesSection):
    """Wood with the reference values and factors of the NDS."""

    composite: ClassVar[bool] = False  # whether C_V is a question (NDS 5.3.6, 8.3.6)

    @cached_property
    def size_factors(self) -> Mapping[str, float]:
        """C_F on Fb, Ft and Fc; 1 where size is no question."""
        return MappingProxyType({"Fb": 1.0, "Ft": 1.0, "Fc": 1.0})

    @cached_property
    def volume_factor(self) -> float | None:
        """C_V where the section alone decides it; None for sawn lumber and glued laminated timber."""
        return None

    @property
    def volume_exponent(self) -> float | None:
        """x of the length in C_V = (21 ft / L ...)^(1/x); None where the length is no matter."""
        return None

    def volume_at(self, lengths: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        """C_V by distance between points of zero moment [in]. Only composites have one."""
        return np.full(np.shape(lengths), 1.0 if self.volume_factor is None else self.volume_factor)

    def volume_step(self, length: float, editions: Editions) -> Step:
        """C_V for one such distance, as a line of the sheet."""
        return wood.depth_factor.step(editions, d_0=wood.STANDARD_DEPTH, d=self.depth)

    @property
    def hogging_value(self) -> str:
        """Name of the bending value where the top edge is in tension."""
        return "Fb"

    @property
    def stability_value(self) -> str:
        """Name of the modulus that lateral stability takes."""
        return "Emin"

    def treatment_factors(self, treated: str) -> Mapping[str, float]:
        """C_i by property; all 1 where nothing is cut. Raises OutOfScope where a treatment is not covered."""
        if treated != "none":
            raise OutOfScope(
                wood.TREATED.at(DEFAULT_EDITIONS["us"]),
                f"{self.label}, treated ({treated.replace('_', ' ')}): its factors are the maker's or the treater's",
            )
        return MappingProxyType(dict.fromkeys(PROPERTY_NAMES, 1.0))

    @abstractmethod
    def wet_factors(self, wet: bool) -> Mapping[str, float]:
        """C_M by property; all 1 when dry. Raises OutOfScope where wet use is not covered."""

    @cached_property
    def repetitive_factor(self) -> float:
        """C_r where members share the load."""
        return 1.0

    @property
    @abstractmethod
    def density(self) -> float:
        """Weight per volume [lbf/in**3]."""

    @property
    def weight(self) -> float:
        return float(wood.own_weight(w_d=self.density, b=self.breadth, d=self.depth))

    @property
    def sheet_factors(self) -> Mapping[str, float]:
        if self.volume_factor is not None:
            return MappingProxyType({"CV": self.volume_factor})
        # C_V of glued laminated timber is known with the length only.
        return EMPTY if self.composite else MappingProxyType({"CF": self.size_factors["Fb"]})


def check_plies(plies: int) -> None:
    """Raise InputError for fewer than one ply and OutOfScope for more than five."""
    if plies < 1:
        raise InputError("plies", plies, f"a whole number from 1 to {MOST_PLIES}")
    if plies > MOST_PLIES:
        raise OutOfScope(
            ClauseRef("common practice", "", "built-up members"),
            f"{plies} plies cannot be counted on to act together; at most {MOST_PLIES} are covered",
        )


def inches(value: float) -> str:
    """`1 3/4`, `18`, `11 7/8`: inches in sixteenths without a mark, for labels."""
    exact = Fraction(round(value * 16), 16)
    if abs(float(exact) - value) > 1e-6:
        return f"{value:g}"
    whole, part = divmod(exact, 1)
    return f"{whole} {part}" if whole and part else f"{part or whole}"
