"""Every family of section under one name."""

from __future__ import annotations

from structure.core.materials.glulam import GlulamSection
from structure.core.materials.lvl import LvlSection
from structure.core.materials.sawn import SawnSection
from structure.core.materials.scl import LslSection, PslSection
from structure.core.materials.section import Section, WoodSection

__all__ = [
    "GlulamSection",
    "LslSection",
    "LvlSection",
    "PslSection",
    "SawnSection",
    "Section",
    "WoodSection",
]
