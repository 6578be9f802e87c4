"""What the house rules of each code say about scope, spans and the way to the soil, side by side.

The members ask by `editions.code`; lengths and forces are in the units of that code.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass

from structure.core.clauses import Clause
from structure.core.codes.ca import combinations as ca
from structure.core.codes.ca import nbc
from structure.core.codes.combination import Combination
from structure.core.codes.us import combinations as us
from structure.core.codes.us import irc
from structure.core.codes.us.loads import DEFAULT_JOIST_SPACING


@dataclass(frozen=True, slots=True)
class HouseRules:
    """One code's house rules. `working`: the unfactored sums of the cases present, for stated working loads."""

    stories: Clause
    most_stories: int
    long_span: Clause
    most_span: float
    uplift: Clause
    load_path: Clause
    joist_spacing: float
    rafter_tie: Clause
    working: Callable[[Collection[str]], tuple[Combination, ...]]


HOUSE: Mapping[str, HouseRules] = {
    "us": HouseRules(
        stories=irc.STORIES,
        most_stories=irc.MAX_STORIES,
        long_span=irc.ROOF_SPAN_RANGE,
        most_span=irc.MAX_SPAN,
        uplift=irc.ENGINEERED_DESIGN,
        load_path=irc.COMPLETE_LOAD_PATH,
        joist_spacing=DEFAULT_JOIST_SPACING,
        rafter_tie=Clause("IRC", "R802.5.2"),
        working=us.asd,
    ),
    "ca": HouseRules(
        stories=nbc.SCOPE,
        most_stories=nbc.MAX_STOREYS,
        long_span=nbc.LIGHT_FRAME,
        most_span=nbc.MAX_SPAN,
        uplift=nbc.UPLIFT,
        load_path=nbc.LOAD_PATH,
        joist_spacing=400.0,  # mm; common practice
        rafter_tie=nbc.RAFTER_TIE,
        working=ca.service,
    ),
}
