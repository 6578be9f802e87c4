"""Parallel and laminated strand lumber. No generic values exist: both work on what its maker prints."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import ClassVar

from structure.core.clauses import DEFAULT_EDITIONS
from structure.core.codes.us import composite as nds
from structure.core.codes.us import wood
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.composite import CompositeSection
from structure.core.materials.section import (
    EMPTY,
    Reference,
    check_plies,
    inches,
)
from structure.core.materials.species import FACTORS
from structure.data.loader import table

NEEDED = ("Fb", "Fv", "Fc_perp", "E")


@dataclass(frozen=True)
class StrandSection(CompositeSection):
    """Plies of strand lumber on edge with the values entered from the product in hand.

    Raises InputError naming the values that are missing, OutOfScope for a size not covered.
    """

    called: ClassVar[str] = ""
    widths: ClassVar[tuple[float, float]]
    depths: ClassVar[tuple[float, float]]

    grade: str = ""
    plies: int = 1
    width: float = 3.5
    depth: float = 11.875
    properties: Mapping[str, float] = field(default_factory=dict, hash=False)

    def __post_init__(self) -> None:
        check_plies(self.plies)
        for name, value, (least, most) in (
            ("width", self.width, self.widths),
            ("depth", self.depth, self.depths),
        ):
            if not least <= value <= most:
                raise OutOfScope(
                    nds.SIZES.at(DEFAULT_EDITIONS["us"]),
                    f"a {self.called} {name} of {value:g} in is outside {least:g} to {most:g} in",
                )
        _ = self.reference

    @property
    def label(self) -> str:
        size = f"{inches(self.width)} x {inches(self.depth)} {self.family.upper()} {self.grade}".rstrip()
        return f"{self.plies}-ply {size}" if self.plies > 1 else size

    def _tabulated(self) -> Reference:
        missing = [name for name in NEEDED if name not in self.properties]
        if missing:
            raise InputError(
                "properties",
                ", ".join(self.properties) or None,
                f"the values printed for the product in hand: {', '.join(missing)} "
                f"(no generic values of {self.called} exist, NDS 8.2)",
            )
        return Reference(EMPTY, f"the document of the {self.called}")

    @cached_property
    def reference(self) -> Reference:
        """What was entered; an Emin that is not printed follows from E (NDS appendix D.4)."""
        held = super().reference
        if "Emin" in held.values:
            return held
        E_min = float(nds.stability_modulus(E=held.values["E"], COV_E=nds.COV_E))
        mark = "Emin from E by NDS appendix D.4, without the factor to pure bending"
        return Reference(MappingProxyType({**held.values, "Emin": E_min}), held.source, (*held.marks, mark))

    @cached_property
    def volume_factor(self) -> float | None:
        # Makers' exponents are smaller; a factor over 1 for shallow pieces is theirs to give.
        return min(1.0, float(wood.depth_factor(d_0=wood.STANDARD_DEPTH, d=self.depth)))

    @property
    def density(self) -> float:
        return float(table(FACTORS).content["density"]["strand_pcf"]) / 12**3

    @property
    def weight_source(self) -> str:
        return f"common practice: {self.density * 12**3:g} pcf"


@dataclass(frozen=True)
class PslSection(StrandSection):
    """Parallel strand lumber."""

    family: ClassVar[str] = "psl"
    called: ClassVar[str] = "parallel strand lumber"
    widths: ClassVar[tuple[float, float]] = (1.75, 7.0)  # in; common practice
    depths: ClassVar[tuple[float, float]] = (3.5, 24.0)  # in; common practice


@dataclass(frozen=True)
class LslSection(StrandSection):
    """Laminated strand lumber."""

    family: ClassVar[str] = "lsl"
    called: ClassVar[str] = "laminated strand lumber"
    widths: ClassVar[tuple[float, float]] = (1.25, 3.5)  # in; common practice
    depths: ClassVar[tuple[float, float]] = (3.5, 24.0)  # in; common practice
