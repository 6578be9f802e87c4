"""What wood sections under the National Building Code share: specified strengths and the factors of CSA O86.

Newtons, millimetres, MPa.
"""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping
from functools import cached_property
from types import MappingProxyType
from typing import ClassVar

from structure.core.clauses import COMMON_PRACTICE, DEFAULT_EDITIONS, Clause, ClauseRef
from structure.core.codes.ca import wood
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.section import MOST_PLIES, PliesSection
from structure.data.loader import table

FACTORS = "ca/wood_factors"
STRENGTHS = ("fb", "fv", "fc", "fcp", "ft")
STIFFNESSES = ("E", "E05")
PROPERTY_NAMES = (*STRENGTHS, *STIFFNESSES)
BUILT_UP = Clause(COMMON_PRACTICE.document, "built-up members")
NONE: Mapping[str, float] = MappingProxyType(dict.fromkeys(PROPERTY_NAMES, 1.0))


class CaWoodSection(PliesSection):
    """Wood with the specified strengths of CSA O86: fb, fv, fc, fcp, ft, E and E05 [MPa]."""

    code: ClassVar[str] = "ca"
    resistance_bending: ClassVar[float] = wood.PHI_BENDING

    @property
    def hogging_value(self) -> str:
        """Name of the bending strength where the top edge is in tension."""
        return "fb"

    @cached_property
    def size_factors(self) -> Mapping[str, float]:
        """K_Z on fb, fv and ft where the section alone decides it."""
        return NONE

    @abstractmethod
    def wet_factors(self, wet: bool) -> Mapping[str, float]:
        """K_S by property; all 1 when dry. Raises OutOfScope where wet service is not covered."""

    def treatment_factors(self, treated: str, wet: bool) -> Mapping[str, float]:
        """K_T by property. Raises OutOfScope where a treatment is not covered."""
        if treated not in ("none", "preservative"):
            raise OutOfScope(
                wood.TREATMENT.at(DEFAULT_EDITIONS["ca"]),
                f"{self.label}, treated ({treated.replace('_', ' ')}): its factors come from tests of the treater",
            )
        return NONE

    def system_factors(self, repetitive: bool) -> Mapping[str, float]:
        """K_H by property: members that share the load."""
        return NONE

    @property
    @abstractmethod
    def density(self) -> float:
        """Weight per volume [N/mm**3]."""

    @property
    def weight(self) -> float:
        return float(wood.own_weight(w_d=self.density, b=self.breadth, d=self.depth))

    @property
    def weight_source(self) -> str:
        return f"{COMMON_PRACTICE.document}: {self.density * 1e6:.3g} kN/m3"

    @property
    def sheet_factors(self) -> Mapping[str, float]:
        held = {f"KZ{name[1:]}": self.size_factors[name] for name in ("fb", "fv", "ft")}
        return MappingProxyType(held)


def check_plies(plies: int) -> None:
    """Raise InputError for fewer than one ply and OutOfScope for more than five."""
    if plies < 1:
        raise InputError("plies", plies, f"a whole number from 1 to {MOST_PLIES}")
    if plies > MOST_PLIES:
        raise OutOfScope(
            BUILT_UP.at(DEFAULT_EDITIONS["ca"]),
            f"{plies} plies cannot be counted on to act together; at most {MOST_PLIES} are covered",
        )


def check_size(
    called: str, width: float, depth: float, widths: tuple[float, float], depths: tuple[float, float]
) -> None:
    """Raise OutOfScope for a ply that nobody makes."""
    for name, value, (least, most) in (("width", width, widths), ("depth", depth, depths)):
        if not least <= value <= most:
            raise OutOfScope(
                ClauseRef(COMMON_PRACTICE.document, "", f"sizes of {called}"),
                f"a {called} {name} of {value:g} mm is outside {least:g} to {most:g} mm",
            )


def weight_per_volume(name: str) -> float:
    """Weight of a species or product [N/mm**3]; the heaviest held where it is not known."""
    held = table(FACTORS).content["density"]["kN_m3"]
    return float(held.get(name, max(held.values()))) / 1e6
