"""What a search may try: families, species, grades and limits of what is on hand."""

from __future__ import annotations

from dataclasses import dataclass

from structure.core.materials.section import Section


@dataclass(frozen=True, slots=True)
class Search:
    """What is on hand. `lvl_grades` left out means every stress class held, `steel_forms` every form of shape.

    `products` are tried beside the families: sections with the values that a person entered from their paper.

    Sections are kept by search, so every field is hashable: tuples, no lists or mappings.
    """

    families: tuple[str, ...] = ("sawn", "lvl")
    species: tuple[str, ...] = ("SPF", "DF-L", "HF", "SP")
    grades: tuple[str, ...] = ("No.2",)
    lvl_grades: tuple[str, ...] | None = None
    glulam_grades: tuple[str, ...] | None = None
    steel_forms: tuple[str, ...] | None = None
    products: tuple[Section, ...] = ()
    max_depth: float | None = None
    max_plies: int = 5
    code: str = "us"
