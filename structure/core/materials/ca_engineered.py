"""Laminated veneer, strand and glued laminated timber under CSA O86.

Composite lumber has no values of its own in the standard (15.3): it works on the specified strengths of the
product in hand. Glued laminated timber is held by stress grade.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import Any, ClassVar

from structure.core.clauses import COMMON_PRACTICE, DEFAULT_EDITIONS, Clause, ClauseRef
from structure.core.codes.ca import wood_beams as o86
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.ca_wood import (
    NONE,
    PROPERTY_NAMES,
    CaWoodSection,
    check_plies,
    check_size,
    weight_per_volume,
)
from structure.core.materials.section import EMPTY, Reference
from structure.data.loader import table

GLULAM = "ca/glulam"
DRY = Clause("CSA O86", "15.3.2")
NEEDED = ("fb", "fv", "fcp", "E")
FIFTH_PERCENTILE = 0.87  # E05 over E of glued and composite lumber, 7.5.8.6 and 15.3.3
STANDARD_DEPTH = 305.0  # mm
LEAST_WIDTH, WIDEST = 80.0, 365.0  # mm: glued laminated timber, common practice
LEAST_DEPTH, MOST_DEPTH = 114.0, 1000.0


@dataclass(frozen=True)
class CaCompositeSection(CaWoodSection):
    """Plies of composite lumber on edge with the specified strengths entered from the product in hand.

    Raises InputError naming the values that are missing, OutOfScope for a size not covered.
    """

    called: ClassVar[str] = ""
    widths: ClassVar[tuple[float, float]]
    depths: ClassVar[tuple[float, float]] = (89.0, 610.0)  # mm; common practice
    weighs: ClassVar[str] = "strand"

    grade: str = ""
    plies: int = 1
    width: float = 45.0
    depth: float = 302.0
    properties: Mapping[str, float] = field(default_factory=dict, hash=False)
    fastening: str = "nailed"

    def __post_init__(self) -> None:
        check_plies(self.plies)
        check_size(self.called, self.width, self.depth, self.widths, self.depths)
        _ = self.reference

    @property
    def label(self) -> str:
        size = f"{self.width:g}x{self.depth:g} {self.family.upper()} {self.grade}".rstrip()
        return f"{self.plies}-{size}" if self.plies > 1 else size

    def _tabulated(self) -> Reference:
        missing = [name for name in NEEDED if name not in self.properties]
        if missing:
            raise InputError(
                "properties",
                ", ".join(self.properties) or None,
                f"the specified strengths of the product in hand: {', '.join(missing)} "
                f"(CSA O86 holds no values of {self.called}, 15.3)",
            )
        return Reference(EMPTY, f"the document of the {self.called}")

    @cached_property
    def reference(self) -> Reference:
        """What was entered; an E05 that is not printed follows from E."""
        held = super().reference
        if "E05" in held.values:
            return held
        mark = f"E05 as {FIFTH_PERCENTILE:g} E"
        E05 = FIFTH_PERCENTILE * held.values["E"]
        return Reference(MappingProxyType({**held.values, "E05": E05}), held.source, (*held.marks, mark))

    @cached_property
    def size_factors(self) -> Mapping[str, float]:
        return MappingProxyType({**NONE, "fb": float(o86.scl_size(d_0=STANDARD_DEPTH, d=self.depth))})

    def wet_factors(self, wet: bool) -> Mapping[str, float]:
        if wet:
            raise OutOfScope(
                DRY.at(DEFAULT_EDITIONS["ca"]), "composite lumber is for dry service; wet use is refused"
            )
        return NONE

    @property
    def density(self) -> float:
        return weight_per_volume(self.weighs)


@dataclass(frozen=True)
class CaLvlSection(CaCompositeSection):
    """Laminated veneer lumber."""

    family: ClassVar[str] = "lvl"
    called: ClassVar[str] = "laminated veneer lumber"
    widths: ClassVar[tuple[float, float]] = (32.0, 178.0)  # mm; common practice
    weighs: ClassVar[str] = "lvl"


@dataclass(frozen=True)
class CaPslSection(CaCompositeSection):
    """Parallel strand lumber."""

    family: ClassVar[str] = "psl"
    called: ClassVar[str] = "parallel strand lumber"
    widths: ClassVar[tuple[float, float]] = (44.0, 178.0)  # mm; common practice


@dataclass(frozen=True)
class CaLslSection(CaCompositeSection):
    """Laminated strand lumber."""

    family: ClassVar[str] = "lsl"
    called: ClassVar[str] = "laminated strand lumber"
    widths: ClassVar[tuple[float, float]] = (32.0, 89.0)  # mm; common practice


def _plain(name: str) -> str:
    """A grade without blanks, points and dashes: 24f-E D.Fir-L and 24f-E DFir-L are one."""
    return re.sub(r"[^a-z0-9]", "", name.lower())


@dataclass(frozen=True)
class CaGlulamSection(CaWoodSection):
    """One glued laminated piece. `grade` is a stress grade held, or any name where `properties` give the values.

    Raises InputError for an unknown grade without properties, OutOfScope for a size or several plies.
    """

    family: ClassVar[str] = "glulam"

    grade: str
    plies: int = 1
    width: float = 130.0
    depth: float = 304.0
    properties: Mapping[str, float] = field(default_factory=dict, hash=False)

    def __post_init__(self) -> None:
        if self.plies != 1:
            raise OutOfScope(
                ClauseRef(COMMON_PRACTICE.document, "", "sizes of glued laminated timber"),
                f"{self.plies} pieces of glued laminated timber side by side; give one",
            )
        widths, depths = (LEAST_WIDTH, WIDEST), (LEAST_DEPTH, MOST_DEPTH)
        check_size("glued laminated timber", self.width, self.depth, widths, depths)
        _ = self.reference

    @property
    def label(self) -> str:
        return f"{self.width:g}x{self.depth:g} glulam {self.grade}"

    @cached_property
    def _row(self) -> Mapping[str, Any] | None:
        for row in table(GLULAM).rows:
            if _plain(self.grade) in {_plain(name) for name in (row["grade"], *row["names"])}:
                return row
        return None

    def _tabulated(self) -> Reference:
        held, row = table(GLULAM), self._row
        if row is not None:
            values = {name: float(value) for name, value in row["values"].items()}
            marks = (str(row["mark"]),) if row["mark"] else ()
            return Reference(MappingProxyType(values), held.reference, marks)
        if all(name in self.properties for name in NEEDED):
            return Reference(EMPTY, f"the document of {self.grade}")
        grades = ", ".join(str(row["grade"]) for row in held.rows)
        raise InputError(
            "grade", self.grade, f"a stress grade held ({grades}), or properties with {', '.join(NEEDED)}"
        )

    @cached_property
    def reference(self) -> Reference:
        """As for every section; what was typed for sagging bounds hogging too, and E gives E05."""
        held = super().reference
        values = dict(held.values)
        if "fb_neg" not in self.properties:
            # Without a value of its own the top edge in tension counts as in an unbalanced grade.
            values["fb_neg"] = min(values.get("fb_neg", 0.75 * values["fb"]), values["fb"])
        if "E" in self.properties and "E05" not in self.properties:
            values["E05"] = FIFTH_PERCENTILE * values["E"]
        return Reference(MappingProxyType(values), held.source, held.marks)

    @property
    def hogging_value(self) -> str:
        return "fb_neg"

    def wet_factors(self, wet: bool) -> Mapping[str, float]:
        if not wet:
            return NONE
        held = table(GLULAM).content["wet"]["factors"]
        return MappingProxyType({name: float(held[name]) for name in PROPERTY_NAMES})

    @property
    def sheet_factors(self) -> Mapping[str, float]:
        # K_Zbg is known with the length only.
        return EMPTY

    @property
    def density(self) -> float:
        rows = table(GLULAM).rows
        heaviest = max(float(row["kN_m3"]) for row in rows)
        return (float(self._row["kN_m3"]) if self._row is not None else heaviest) / 1e6
