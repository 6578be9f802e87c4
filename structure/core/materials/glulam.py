"""Glued laminated timber by layup, one solid piece, loaded across the wide faces of its laminations."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import Any, ClassVar

import numpy as np
import numpy.typing as npt

from structure.core.clauses import ClauseRef, Editions
from structure.core.codes.us import glulam as nds
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.section import EMPTY, PROPERTY_NAMES, Reference, WoodSection, inches
from structure.core.trace import Step
from structure.data.loader import table

TABLE = "us/glulam"
LEAST_DEPTH, MOST_DEPTH = 5.5, 36.0  # in; common practice: what a house takes
LEAST_WIDTH = 2.5  # in; common practice
NEEDED = ("Fb", "Fb_neg", "Fv", "Fc_perp", "E")
OTHER_SPECIES_EXPONENT = 10.0  # 5.3.6; the lower C_V of the two
HEAVIEST = 37.0  # lbf/ft**3: for a layup that no row describes


def held_grades() -> tuple[str, ...]:
    """The layups held, in the order of the table."""
    return tuple(str(row["grade"]) for row in table(TABLE).rows)


@dataclass(frozen=True)
class GlulamSection(WoodSection):
    """One glued laminated piece. `grade` is a layup held, or any name where `properties` give the values.

    Raises InputError for an unknown layup without properties, OutOfScope for a size or several plies.
    """

    family: ClassVar[str] = "glulam"
    composite: ClassVar[bool] = True

    grade: str
    plies: int = 1
    width: float = 5.125
    depth: float = 12.0
    properties: Mapping[str, float] = field(default_factory=dict, hash=False)

    def __post_init__(self) -> None:
        practice = ClauseRef("common practice", "", "sizes of glued laminated timber")
        if self.plies != 1:
            raise OutOfScope(
                practice, f"{self.plies} pieces of glued laminated timber side by side; give one"
            )
        if not LEAST_WIDTH <= self.width <= nds.WIDEST:
            raise OutOfScope(
                practice, f"a width of {self.width:g} in is outside {LEAST_WIDTH:g} to {nds.WIDEST:g} in"
            )
        if not LEAST_DEPTH <= self.depth <= MOST_DEPTH:
            raise OutOfScope(
                practice, f"a depth of {self.depth:g} in is outside {LEAST_DEPTH:g} to {MOST_DEPTH:g} in"
            )
        _ = self.reference

    @property
    def label(self) -> str:
        return f"{inches(self.width)} x {inches(self.depth)} glulam {self.grade}"

    @cached_property
    def _row(self) -> Mapping[str, Any] | None:
        for row in table(TABLE).rows:
            if self.grade == row["grade"] or self.grade in row["names"]:
                return row
        return None

    def _tabulated(self) -> Reference:
        held, row = table(TABLE), self._row
        if row is not None:
            values = {name: float(value) for name, value in row["values"].items()}
            marks = (str(row["mark"]),) if row["mark"] else ()
            return Reference(MappingProxyType(values), held.reference, marks)
        if all(name in self.properties for name in NEEDED):
            return Reference(EMPTY, f"the document of {self.grade}")
        raise InputError(
            "grade",
            self.grade,
            f"a layup held ({', '.join(held_grades())}), or properties with {', '.join(NEEDED)}",
        )

    @cached_property
    def reference(self) -> Reference:
        """As for every section; what was typed for sagging bounds hogging too, and Emin stability."""
        held = super().reference
        values = dict(held.values)
        if "Fb" in self.properties and "Fb_neg" not in self.properties:
            values["Fb_neg"] = min(values["Fb_neg"], values["Fb"])
        if "Emin" in self.properties:
            values.pop("Ey_min", None)
        return Reference(MappingProxyType(values), held.source, held.marks)

    @property
    def hogging_value(self) -> str:
        return "Fb_neg"

    @property
    def stability_value(self) -> str:
        # Buckling sideways bends the beam about its other axis (NDS 3.3.3.8).
        return "Ey_min" if "Ey_min" in self.reference.values else "Emin"

    @property
    def volume_exponent(self) -> float:
        """x of the volume factor: 20 for Southern Pine, else 10."""
        return float(self._row["x"]) if self._row is not None else OTHER_SPECIES_EXPONENT

    def volume_at(self, lengths: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        return np.asarray(np.minimum(nds.volume_factor(**self._volume, L=lengths), 1.0))

    def volume_step(self, length: float, editions: Editions) -> Step:
        return nds.volume_factor.step(editions, note="at most 1", **(self._volume | {"L": length}))

    @cached_property
    def _volume(self) -> dict[str, float]:
        return {
            "L_0": nds.LENGTH,
            "d_0": nds.DEPTH,
            "d": self.depth,
            "b_0": nds.WIDTH,
            "b": self.width,
            "x": self.volume_exponent,
        }

    def wet_factors(self, wet: bool) -> Mapping[str, float]:
        held = table(TABLE).content["wet"]["factors"]
        return MappingProxyType({name: float(held[name]) if wet else 1.0 for name in PROPERTY_NAMES})

    @property
    def density(self) -> float:
        return (float(self._row["density_pcf"]) if self._row is not None else HEAVIEST) / 12**3

    @property
    def weight_source(self) -> str:
        return f"common practice: {self.density * 12**3:g} pcf"
