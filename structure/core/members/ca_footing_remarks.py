"""What is said beside a pad under the Canadian code: soil, frost, what lies in the slab. NBC 9.4.4, 9.12.2, 9.15."""

from __future__ import annotations

from typing import TYPE_CHECKING

from structure.core.clauses import Editions
from structure.core.codes.ca import nbc, nbc_footings
from structure.core.members.footing_pad import SAME
from structure.core.members.footing_question import FootingQuestion
from structure.data.loader import table

if TYPE_CHECKING:
    from structure.core.members.footing import FootingResult

USUAL = 200.0  # mm; thinner plain pads are rarely poured: common practice
_GROUPS = {
    "coarse": "sand or gravel",
    "silt": "silt",
    "clay": "clay, till or shale",
    "rock": "rock",
    "unknown": "soil not clearly defined",
}
_SLAB = (
    "Drains, water and heating in the slab are found before it is cut; the slab is cut clear of the post and "
    "poured back beside the pad."
)
# What nobody has read in a text is said on the page.
PLAIN_MEMORY = (
    "Of CSA A23.3 the critical sections (15.4.3), the shear of plain concrete (22.6.6), here on the safe side, and "
    "the 50 mm off a face against soil are memory."
)
_BARS_MEMORY = (
    "Of CSA A23.3 the critical sections (15.4.3), spacing and cover of bars (7.4.1, 7.9.2), the depth over them "
    "(15.7), the band of a long pad and the loss of deep pads (13.3.4.3) are memory."
)


def soil_remarks(question: FootingQuestion, result: FootingResult, editions: Editions) -> tuple[str, ...]:
    """Soil that Part 9 does not reach, a thin pad, and the slab."""
    remarks = [*weak_soil(question.soil, editions)]
    if question.reinforcement is None and result.pad.thickness < USUAL:
        remarks.append("Thinner than 200 mm, which is what is usually poured: common practice.")
    return (*remarks, _SLAB, PLAIN_MEMORY if question.reinforcement is None else _BARS_MEMORY)


def weak_soil(value: float, editions: Editions) -> tuple[str, ...]:
    """Under 75 kPa Section 9.15 does not apply."""
    if value * (1 + SAME) >= nbc.LEAST_SOIL:
        return ()
    said = (
        f"Soil under 75 kPa: Section 9.15 does not reach it ({nbc_footings.SCOPE.at(editions)}); Section 4.2 does, "
        "with an engineer."
    )
    return (said,)


def frost_remark(group: str | None, heated: bool, editions: Editions) -> str:
    """How deep the bearing surface lies below finished ground. NBC 9.12.2.2.; the group of soil may be unknown."""
    held = table("ca/frost").content
    known = group or "unknown"
    row = held["heated" if heated else "unheated"][known]
    where = "heated" if heated else "unheated"
    asked = []
    if row["depth"]:
        asked.append(f"{row['depth'] / 1000:g} m below finished ground")
    if row["frost"]:
        asked.append("below the depth of frost")
    needs = " and ".join(asked) if asked else "no least depth for frost"
    return (
        f"{nbc_footings.FROST.at(editions)}, {_GROUPS[known]}, {where} space: {needs} (which soils go with which "
        "limit is from memory)."
    )
