"""Every family of section under one name."""

from __future__ import annotations

from structure.core.materials.lvl import LvlSection
from structure.core.materials.sawn import SawnSection
from structure.core.materials.section import Section, WoodSection

__all__ = ["LvlSection", "SawnSection", "Section", "WoodSection"]
