"""What laminated veneer and strand lumber have in common under the NDS: dry service, and C_r of 8.3.7."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from types import MappingProxyType
from typing import ClassVar

from structure.core.clauses import DEFAULT_EDITIONS
from structure.core.codes.us import wood
from structure.core.errors import OutOfScope
from structure.core.materials.section import PROPERTY_NAMES, WoodSection


class CompositeSection(WoodSection):
    """Structural composite lumber, plies on edge."""

    composite: ClassVar[bool] = True

    def wet_factors(self, wet: bool) -> Mapping[str, float]:
        if wet:
            raise OutOfScope(
                wood.DRY_SCL.at(DEFAULT_EDITIONS["us"]),
                "composite lumber is for dry service; wet use is refused",
            )
        return MappingProxyType(dict.fromkeys(PROPERTY_NAMES, 1.0))

    @cached_property
    def repetitive_factor(self) -> float:
        return wood.REPETITIVE_SCL_FACTOR
