"""Both families of wood section under one name."""

from __future__ import annotations

from structure.core.materials.lvl import LvlSection
from structure.core.materials.sawn import SawnSection
from structure.core.materials.section import Section

__all__ = ["LvlSection", "SawnSection", "Section"]
