"""What a yard keeps: every section that a search may try, family by family.

A family is one function in FAMILIES from a search to its sections; nothing else has to know of it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache

from structure.core.catalogue.ca_stock import CA_FAMILIES
from structure.core.catalogue.wanted import Search
from structure.core.errors import InputError
from structure.core.materials.lvl import TABLE as LVL_TABLE
from structure.core.materials.lvl import LvlSection
from structure.core.materials.sawn import STOCK, SawnSection
from structure.core.materials.section import Section
from structure.core.materials.species import TABLE_4A, TABLE_4B, held_grades
from structure.core.materials.steel import SteelSection
from structure.core.materials.stock_wood import flitch_sections, glulam_sections, solid_sections
from structure.data.loader import table

STEEL_STOCK = "us/steel_stock"


@lru_cache(maxsize=32)
def stock_sections(search: Search) -> tuple[Section, ...]:
    """Every section of the catalogue that the search allows: by weight, then depth, then label.

    Raises InputError for a stress class that is not held, or where nothing is left to try.
    """
    found = [
        section
        for family, held in BY_CODE[search.code].items()
        if family in search.families
        for section in held(search)
    ]
    found += [
        each
        for each in search.products
        if each.plies <= search.max_plies
        and (search.max_depth is None or each.depth <= search.max_depth + 1e-9)
    ]
    if not found:
        raise InputError(
            "search", "no section", "families, species, grades and limits that leave a stock size"
        )
    return tuple(sorted(found, key=lambda each: (round(each.weight, 9), each.depth, each.label)))


def _sizes(family: str, search: Search) -> Iterator[tuple[int, float, float]]:
    stock = table(STOCK).content[family]
    for depth in stock["depths"]:
        if search.max_depth is None or depth <= search.max_depth + 1e-9:
            for plies in stock["plies"]:
                if plies <= search.max_plies:
                    yield plies, float(stock["width"]), float(depth)


def _sawn(search: Search) -> Iterator[Section]:
    for species in search.species:
        held = held_grades(TABLE_4B if species == "SP" else TABLE_4A, species)
        for grade in search.grades:
            # A grade that a species does not have is no candidate.
            if grade in held:
                for plies, width, depth in _sizes("sawn", search):
                    yield SawnSection(species=species, grade=grade, plies=plies, width=width, depth=depth)


def _lvl(search: Search) -> Iterator[Section]:
    held = tuple(str(row["grade"]) for row in table(LVL_TABLE).rows)
    for grade in search.lvl_grades or held:
        if grade not in held:
            raise InputError("search.lvl_grades", grade, f"a stress class held: {', '.join(held)}")
        for plies, width, depth in _sizes("lvl", search):
            yield LvlSection(grade=grade, plies=plies, width=width, depth=depth)


def _steel(search: Search) -> Iterator[Section]:
    for row in table(STEEL_STOCK).rows:
        for label in row["shapes"]:
            section = SteelSection(shape=label, grade=row["grade"])
            wanted = search.steel_forms is None or section.rolled.form in search.steel_forms
            if wanted and (search.max_depth is None or section.depth <= search.max_depth + 1e-9):
                yield section


def _timber(search: Search) -> Iterator[Section]:
    yield from solid_sections(search.species, search.grades, search.max_depth)


def _glulam(search: Search) -> Iterator[Section]:
    yield from glulam_sections(search.glulam_grades, search.max_depth)


def _flitch(search: Search) -> Iterator[Section]:
    yield from flitch_sections(search.species, search.grades, search.max_depth, search.max_plies)


# `timber` is sawn lumber in one piece: 4x, and 6x and larger.
FAMILIES: Mapping[str, Callable[[Search], Iterator[Section]]] = {
    "sawn": _sawn,
    "timber": _timber,
    "lvl": _lvl,
    "glulam": _glulam,
    "steel": _steel,
    "flitch": _flitch,
}
BY_CODE = {"us": FAMILIES, "ca": CA_FAMILIES}
