"""The sawn lumber of a search side by side under CSA O86, as arrays, once a search.

The numbers come from the sections and from `CaValues`, the same that a section checked alone goes by.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from structure.core.catalogue.columns import Prepared, Service, sorted_out
from structure.core.catalogue.wanted import Search
from structure.core.codes.ca import wood_beams as o86
from structure.core.errors import OutOfScope
from structure.core.materials.ca_sawn import CaSawnSection
from structure.core.materials.section import Section
from structure.core.members.ca_wood_values import CaValues, values_of

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.intp]
NEEDED = ("fb", "fv", "fcp", "E", "E05")
ONE = np.array(1.0)


@dataclass(frozen=True, eq=False)
class CaColumns:
    """One number for each section that is checked with all others at once.

    `F_b`, `F_v`, `F_cp`: with every factor but size, stability and duration of load; `E_K`: modulus of K_L.
    `weight`: number of the section's self weight in `weights`, which are sorted.
    """

    sections: tuple[CaSawnSection, ...]
    b: Array
    d: Array
    S: Array
    I: Array  # noqa: E741 - the symbol of the clause
    A: Array
    F_b: Array
    K_Zb: Array
    E_K: Array
    F_v: Array
    K_Zv: Array
    F_cp: Array
    K_Scp: Array
    E: Array
    weights: Array
    weight: Whole


@lru_cache(maxsize=32)
def ca_prepared(search: Search, service: Service) -> Prepared[CaColumns]:
    """The sections of a search as arrays. Raises what `stock_sections` raises."""
    return sorted_out(search, lambda section: _values(section, service), _columns)


def _values(section: Section, service: Service) -> CaValues | None:
    """Values of a section that can be checked with the others; None for one that has to stand alone."""
    if not isinstance(section, CaSawnSection) or section.width > section.depth:
        return None
    if section.depth > o86.DEEPEST * section.breadth:
        return None
    if any(name not in section.reference.values for name in NEEDED):
        return None
    try:
        return values_of(section, repetitive=service.repetitive, wet=service.wet, treated=service.treated)
    except OutOfScope:
        return None


def _columns(held: list[CaValues]) -> CaColumns:
    def column(numbers: list[float]) -> Array:
        return np.array(numbers, dtype=np.float64)

    def strength(name: str) -> Array:
        return column([float(each.strength(name, ONE)) for each in held])

    sections = tuple(each.section for each in held if isinstance(each.section, CaSawnSection))
    weights = sorted({each.weight for each in sections})
    number = {weight: n for n, weight in enumerate(weights)}
    return CaColumns(
        sections=sections,
        b=column([s.breadth for s in sections]),
        d=column([s.depth for s in sections]),
        S=column([s.section_modulus for s in sections]),
        I=column([s.inertia for s in sections]),
        A=column([s.area for s in sections]),
        F_b=strength("fb"),
        K_Zb=column([s.size_factors["fb"] for s in sections]),
        E_K=column(
            [
                o86.stability_modulus(E_05=v.specified("E05"), K_SE=v.K_S["E05"], K_T=v.K_T["E05"])
                for v in held
            ]
        ),
        F_v=strength("fv"),
        K_Zv=column([s.size_factors["fv"] for s in sections]),
        F_cp=strength("fcp"),
        K_Scp=column([each.K_S["fcp"] for each in held]),
        E=column([v.specified("E") * v.K_S["E"] * v.K_T["E"] for v in held]),
        weights=column(weights),
        weight=np.array([number[s.weight] for s in sections], dtype=np.intp),
    )
