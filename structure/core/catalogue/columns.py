"""The wood of a search side by side: what the rules make of each section, as arrays, once a search.

The numbers come from the sections and from `Values`, the same that a section checked alone goes by.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Generic, TypeVar

import numpy as np
import numpy.typing as npt

from structure.core.catalogue.stock import stock_sections
from structure.core.catalogue.wanted import Search
from structure.core.codes.us import wood
from structure.core.codes.us.combinations import DURATION
from structure.core.errors import OutOfScope
from structure.core.materials.section import Section, WoodSection
from structure.core.members.beam_bending import Values, values_of

Array = npt.NDArray[np.float64]
Whole = npt.NDArray[np.intp]
DURATIONS = tuple(sorted(set(DURATION.values())))
NEEDED = ("Fb", "Fv", "Fc_perp", "E")


@dataclass(frozen=True, slots=True)
class Service:
    """What changes the values of every section of a question alike."""

    repetitive: bool
    wet: bool
    treated: str


@dataclass(frozen=True, eq=False)
class Columns:
    """One number for each section that is checked with all others at once.

    `star`: F_b* by edge (sagging, hogging), duration of load and section; `most`: the factor that C_L is held
    to (C_V of 1 or less), else infinite; `level`: no deeper than wide; `weight`:
    number of its self weight in `weights`, which are sorted.
    """

    sections: tuple[WoodSection, ...]
    b: Array
    d: Array
    S: Array
    I: Array  # noqa: E741 - the symbol of the clause
    star: Array
    most: Array
    E_min: Array
    F_v: Array
    C_Mv: Array
    F_cp: Array
    C_Mcp: Array
    E: Array
    level: npt.NDArray[np.bool_]
    weights: Array
    weight: Whole


Of = TypeVar("Of")  # the columns of a code
Held = TypeVar("Held")  # what one section has in them


@dataclass(frozen=True, eq=False)
class Prepared(Generic[Of]):
    """The stock of a search: which places of it are in the columns, and which are checked one by one."""

    sections: tuple[Section, ...]
    together: Whole
    alone: tuple[int, ...]
    columns: Of | None


def sorted_out(
    search: Search, values_of: Callable[[Section], Held | None], columns_of: Callable[[list[Held]], Of]
) -> Prepared[Of]:
    """The stock of a search, in columns where `values_of` gives values, and one by one where it gives none."""
    sections = stock_sections(search)
    held = [(place, values_of(section)) for place, section in enumerate(sections)]
    some = [(place, values) for place, values in held if values is not None]
    together = np.array([place for place, _ in some], dtype=np.intp)
    alone = tuple(place for place, values in held if values is None)
    return Prepared(sections, together, alone, columns_of([values for _, values in some]) if some else None)


@lru_cache(maxsize=64)
def prepared(search: Search, service: Service) -> Prepared[Columns]:
    """The sections of a search as arrays. Raises what `stock_sections` raises."""
    return sorted_out(search, lambda section: _values(section, service), _columns)


def _values(section: Section, service: Service) -> Values | None:
    """Values of a section that can be checked with the others; None for one that has to stand alone.

    Alone are other materials, what is refused, and wood whose C_V depends on where the moment is nothing.
    """
    if not isinstance(section, WoodSection) or section.volume_exponent is not None:
        return None
    held = section.reference.values
    if section.width > section.depth or any(
        name not in held for name in (*NEEDED, section.hogging_value, section.stability_value)
    ):
        return None
    try:
        return values_of(section, repetitive=service.repetitive, wet=service.wet, treated=service.treated)
    except OutOfScope:
        return None


def _columns(held: list[Values]) -> Columns:
    durations = np.array(DURATIONS)

    def column(numbers: list[float]) -> Array:
        return np.array(numbers, dtype=np.float64)

    sections = tuple(each.section for each in held)
    weights = sorted({each.weight for each in sections})
    number = {weight: n for n, weight in enumerate(weights)}
    star = [[v.bending_star(durations, hogging) for hogging in (False, True)] for v in held]
    return Columns(
        sections=sections,
        b=column([s.breadth for s in sections]),
        d=column([s.depth for s in sections]),
        S=column([s.section_modulus for s in sections]),
        I=column([s.inertia for s in sections]),
        star=np.moveaxis(np.array(star), 0, -1).copy(),
        most=column([_most(each) for each in held]),
        E_min=column(
            [wood.stiffness_value(F=v.reference(v.section.stability_value), C_M=v.C_M["Emin"]) for v in held]
        ),
        F_v=column([v.reference("Fv") for v in held]),
        C_Mv=column([v.C_M["Fv"] for v in held]),
        F_cp=column([v.reference("Fc_perp") for v in held]),
        C_Mcp=column([v.C_M["Fc_perp"] for v in held]),
        E=column([wood.stiffness_value(F=v.reference("E"), C_M=v.C_M["E"]) for v in held]),
        level=np.array([s.depth <= s.breadth * (1 + 1e-9) for s in sections]),
        weights=column(weights),
        weight=np.array([number[s.weight] for s in sections], dtype=np.intp),
    )


def _most(values: Values) -> float:
    """C_V where only the lesser of it and C_L counts; infinite where it does not."""
    section = values.section
    if not section.composite or values.shallow or section.volume_factor is None:
        return float("inf")
    return float(section.volume_at(np.zeros(1))[0])
