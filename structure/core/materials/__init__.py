"""Sections of members with the design values that belong to them."""

from __future__ import annotations

from structure.core.materials.lvl import LvlSection
from structure.core.materials.sawn import SawnSection
from structure.core.materials.section import Reference, Section, WoodSection
from structure.core.materials.species import held_species, perpendicular_value

__all__ = [
    "LvlSection",
    "Reference",
    "SawnSection",
    "Section",
    "WoodSection",
    "held_species",
    "perpendicular_value",
]
