"""The kinds of beam that a person may ask for, in the words of the trade, and which kind a section is of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from structure.shown import inches

TIMBER_WIDTH = 2.6  # in; one piece wider than this is no joist of nominal 2 or 3 in


@dataclass(frozen=True, slots=True)
class Family:
    """One kind of beam. `entered` ones have no generic values: they work on a product in hand alone."""

    key: str
    title: str
    words: str
    entered: bool = False

    @property
    def choice(self) -> str:
        """What stands beside its checkbox."""
        return f"{self.title}: {self.words}"


FAMILIES = (
    Family("sawn", "Built-up lumber", "2x pieces nailed together"),
    Family("timber", "Solid timber", "one 4x or 6x piece"),
    Family("lvl", "LVL", "laminated veneer lumber, stress classes of the industry"),
    Family("glulam", "Glulam", "glued laminated timber, 24F Douglas Fir or Southern Pine"),
    Family("flitch", "Flitch", "steel plates bolted between lumber"),
    Family("steel_w", "Steel W", "wide flange beam"),
    Family("steel_c", "Steel channel", "C shape"),
    Family("steel_hss", "Steel tube", "rectangular HSS"),
    Family("psl", "PSL", "parallel strand lumber, by the values of a product in hand", entered=True),
    Family("lsl", "LSL", "laminated strand lumber, by the values of a product in hand", entered=True),
)
BY_KEY: Mapping[str, Family] = MappingProxyType({family.key: family for family in FAMILIES})
#: What the engine calls each of them in a search.
ENGINE = MappingProxyType({"steel_w": "steel", "steel_c": "steel", "steel_hss": "steel"})


def family_of(row: Mapping[str, Any]) -> str:
    """The key of the family that a candidate of the engine belongs to; its own word where none is known."""
    family, size = str(row["family"]), row["size"]
    if family == "sawn":
        return "timber" if inches(size["ply_width"]) > TIMBER_WIDTH else "sawn"
    if family == "steel":
        form = str(size.get("form") or "W").lower()
        return "steel_hss" if form == "round" else f"steel_{form}"
    return family


def family_title(key: str) -> str:
    """The family in words."""
    held = BY_KEY.get(key)
    return held.title if held else key.replace("_", " ").capitalize()
