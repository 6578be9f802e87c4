"""Stock sizes of glued laminated timber, solid 4x and timbers, and flitch beams: common practice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from structure.core.errors import InputError
from structure.core.materials.flitch import TABLE as PLATE
from structure.core.materials.flitch import Bolts, FlitchSection
from structure.core.materials.glulam import TABLE as GLULAM
from structure.core.materials.glulam import GlulamSection, held_grades
from structure.core.materials.lvl import LvlSection
from structure.core.materials.sawn import STOCK, SawnSection
from structure.core.materials.section import WoodSection
from structure.core.materials.species import TABLE_4A, TABLE_4B, TABLE_4D
from structure.core.materials.species import held_grades as sawn_grades
from structure.data.loader import table

LAYUPS = ("24F-V4", "24F-V3")
FLITCH_LVL = "2.0E-2900F"
SHORT = 0.25  # in: what a plate is less deep than the plies; common practice


def glulam_sections(grades: Sequence[str] | None, max_depth: float | None) -> Iterator[GlulamSection]:
    """Widths and depths that laminators keep, for each layup. Raises InputError for one that is not held."""
    content = table(GLULAM).content
    for grade in LAYUPS if grades is None else grades:
        row = next((row for row in table(GLULAM).rows if row["grade"] == grade), None)
        if row is None:
            raise InputError("search.glulam_grades", grade, f"a layup held: {', '.join(held_grades())}")
        stock = content["stock"][row["species"]]
        step = float(stock["lamination"])
        count = round((stock["most"] - stock["least"]) / step) + 1
        for width in stock["widths"]:
            for depth in (stock["least"] + n * step for n in range(count)):
                # Pieces much wider than deep are columns; much narrower ones are not laid up.
                if _fits(depth, max_depth) and width <= depth <= 6.5 * width:
                    yield GlulamSection(grade=grade, width=float(width), depth=float(depth))


def solid_sections(
    species: Sequence[str], grades: Sequence[str], max_depth: float | None
) -> Iterator[SawnSection]:
    """4x and timbers in one piece, for each species and grade that the tables hold."""
    for kind, name, grade in product(("solid", "timber"), species, grades):
        dimension = TABLE_4B if name == "SP" else TABLE_4A
        if grade not in sawn_grades(dimension if kind == "solid" else TABLE_4D, name):
            continue
        stock = table(STOCK).content[kind]
        for width, depth in product(stock["widths"], stock["depths"]):
            if _fits(depth, max_depth):
                yield SawnSection(species=name, grade=grade, width=float(width), depth=float(depth))


def flitch_sections(
    species: Sequence[str], grades: Sequence[str], max_depth: float | None, max_plies: int
) -> Iterator[FlitchSection]:
    """Two plies of 2x or of laminated veneer with one plate between them."""
    plate = table(PLATE).content["stock"]
    for plies, thickness in product(plate["plies"], plate["thicknesses"]):
        if plies > max_plies:
            continue
        for wood in _plies(species, grades, plies):
            if _fits(wood.depth, max_depth):
                yield FlitchSection(
                    wood=wood,
                    thickness=float(thickness),
                    plate_depth=wood.depth - SHORT,
                    bolts=Bolts(diameter=float(plate["bolt"])),
                )


def _plies(species: Sequence[str], grades: Sequence[str], plies: int) -> Iterator[WoodSection]:
    stock = table(STOCK).content
    for name, grade in product(species, grades):
        if grade in sawn_grades(TABLE_4B if name == "SP" else TABLE_4A, name):
            for depth in stock["sawn"]["depths"]:
                yield SawnSection(
                    species=name, grade=grade, plies=plies, depth=float(depth), fastening="bolted"
                )
    for depth in stock["lvl"]["depths"]:
        yield LvlSection(grade=FLITCH_LVL, plies=plies, depth=float(depth))


def _fits(depth: float, max_depth: float | None) -> bool:
    return max_depth is None or depth <= max_depth + 1e-9
