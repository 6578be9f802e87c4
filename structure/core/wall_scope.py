"""What Part 9 of the National Building Code says of the whole wall: its own scope, and the length of bearing."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from structure.core.clauses import Editions
from structure.core.codes.ca.combinations import service
from structure.core.codes.ca.scope import Scope, check_scope
from structure.core.codes.combination import heaviest
from structure.core.materials.section import Section
from structure.core.scope import facts_of
from structure.core.wall_ends import Refusal
from structure.core.wall_least import least_bearing
from structure.core.wall_question import WallQuestion


def wall_scope(question: WallQuestion, loads: Sequence[Mapping[str, float]], editions: Editions) -> Scope:
    """Whether Part 9 covers the wall by itself; `loads` on the post of each end by case [N]."""
    beneath = question.beneath
    facts = facts_of(
        question.levels,
        question.house,
        beam_span=question.opening.span,
        soil=question.pads.soil,
        column_load=max((_working(each) for each in loads), default=None),
        adjustable=beneath is not None and beneath.way == "stated_post",
    )
    return check_scope(facts, editions)


def _working(loads: Mapping[str, float]) -> float:
    present = {case for case, value in loads.items() if value > 0}
    return heaviest(service(present), loads)[1]


def short_bearing(question: WallQuestion, beam: Section, editions: Editions) -> list[Refusal]:
    """An end bearing shorter than the code lets the beam have. NBC 9.23.8.1."""
    length = question.opening.end_bearing
    least, clause = least_bearing(beam, question.levels[-1])
    if length >= least - 1e-9:
        return []
    told = f"{length:g} mm of end bearing; this beam has at least {least:g} mm"
    return [Refusal("bearing", clause.at(editions), told)]
