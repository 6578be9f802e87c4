"""What a yard keeps under the Canadian code, in metric sizes: family by family as in `stock.py`."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from itertools import product

from structure.core.catalogue.wanted import Search
from structure.core.errors import InputError
from structure.core.materials.ca_engineered import GLULAM, CaGlulamSection
from structure.core.materials.ca_sawn import JOISTS, ROW, TIMBERS, CaSawnSection, class_of, held_grades
from structure.core.materials.ca_steel import CaSteelSection
from structure.core.materials.section import Section
from structure.data.loader import table

STOCK, STEEL_STOCK = "ca/stock", "ca/steel_stock"
SLENDEREST = 6.5  # depth over width up to which a glued laminated piece is stock


def _fits(depth: float, search: Search) -> bool:
    return search.max_depth is None or depth <= search.max_depth + 1e-9


def _sawn(search: Search) -> Iterator[Section]:
    stock = table(STOCK).content["sawn"]
    for species, grade in product(search.species, search.grades):
        # A grade that a species does not have is no candidate.
        if ROW.get(grade, grade) not in held_grades(JOISTS, species):
            continue
        for depth, plies in product(stock["depths"], stock["plies"]):
            if plies <= search.max_plies and _fits(depth, search):
                yield CaSawnSection(
                    species, grade, plies=plies, width=float(stock["width"]), depth=float(depth)
                )


def _timber(search: Search) -> Iterator[Section]:
    """4x of dimension lumber, and timbers, in one piece."""
    for kind, species, grade in product(("solid", "timber"), search.species, search.grades):
        stock = table(STOCK).content[kind]
        # Timbers have No.1 and No.2 apart; No.1/No.2 of the search stands for the lower one.
        named = "No.2" if kind == "timber" and grade == "No.1/No.2" else grade
        for width, depth in product(stock["widths"], stock["depths"]):
            if width > depth or not _fits(depth, search):
                continue
            held = held_grades(TIMBERS, species, class_of(width, depth))
            if kind == "solid":
                held = held_grades(JOISTS, species)
            if (named if kind == "timber" else ROW.get(named, named)) in held:
                yield CaSawnSection(species, named, width=float(width), depth=float(depth))


def _glulam(search: Search) -> Iterator[Section]:
    content = table(GLULAM).content
    stock, held = content["stock"], {str(row["grade"]): row for row in table(GLULAM).rows}
    count = round((stock["most"] - stock["least"]) / stock["lamination"]) + 1
    for grade in search.glulam_grades or stock["grades"]:
        if grade not in held:
            raise InputError("search.glulam_grades", grade, f"a stress grade held: {', '.join(held)}")
        for width, number in product(stock["widths"], range(count)):
            depth = stock["least"] + number * stock["lamination"]
            if width <= depth <= SLENDEREST * width and _fits(depth, search):
                yield CaGlulamSection(grade=grade, width=float(width), depth=float(depth))


def _steel(search: Search) -> Iterator[Section]:
    for row in table(STEEL_STOCK).rows:
        for label in row["shapes"]:
            section = CaSteelSection(shape=label, grade=row["grade"])
            wanted = search.steel_forms is None or section.rolled.form in search.steel_forms
            if wanted and _fits(section.depth, search):
                yield section


CA_FAMILIES: Mapping[str, Callable[[Search], Iterator[Section]]] = {
    "sawn": _sawn,
    "timber": _timber,
    "glulam": _glulam,
    "steel": _steel,
}
