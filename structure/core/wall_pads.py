"""The pad under one end of the beam, with what Part 9's table says of it in Canada."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.ca import nbc
from structure.core.members.ca_part9 import Least, Part9Question, least_area, pad_beside
from structure.core.members.footing import FootingResult, size_pad
from structure.core.members.footing_pad import Base
from structure.core.members.footing_question import FootingQuestion
from structure.core.takedown import Level
from structure.core.wall_question import WallQuestion

MOST_FLOORS = 3  # the table of 9.15.3.4. ends there


def pad_of(
    loads: Mapping[str, float], base: Base, question: WallQuestion, editions: Editions
) -> tuple[FootingResult, Mapping[str, Any] | None]:
    """The pad that the load and the soil ask for, no smaller than Part 9's table; what the table says, in Canada.

    Raises OutOfScope for soil, concrete or loads outside the rules held.
    """
    pads = question.pads
    least = _least(question, editions)
    asked = FootingQuestion(
        loads=loads,
        soil=pads.soil,
        base=base,
        f_c=pads.f_c,
        density=pads.density,
        net=pads.net,
        soil_from=pads.soil_from,
        side=pads.side,
        thickness=pads.thickness,
        step=pads.step,
        reinforcement=pads.reinforcement,
        least_area=0.0 if least is None else least.value,
    )
    found = size_pad(asked, editions)
    if editions.code != "ca":
        return found, None
    needed = found.required.needed**2
    return found, pad_beside(least, needed, min(base.length, base.width), found.pad.side, editions)


def _least(question: WallQuestion, editions: Editions) -> Least | None:
    """The least area of NBC 9.15.3.4., the posts as far apart as the opening is wide; None where it has no row."""
    floors = [level for level in question.levels if level.kind == "floor"]
    if editions.code != "ca" or not 0 < len(floors) <= MOST_FLOORS:
        return None
    if question.pads.soil < nbc.LEAST_SOIL * (1 - 1e-9):
        return None
    lengths = tuple(_supported(level) for level in floors)
    # Shorter joists than the table is for are no reason for a smaller pad.
    joists = tuple(max(each, nbc.MAX_FOOTING_SPAN) for each in lengths)
    return least_area(Part9Question(len(floors), question.opening.span, joists), editions)


def _supported(level: Level) -> float:
    """Joist length that a floor brings to the line: half of the spans on both sides."""
    if level.framing != "perpendicular":
        return 0.0
    sides = (level.left, level.right)
    return sum((each.span or 0.0) / 2 for each in sides if each is not None and each.support != "none")
