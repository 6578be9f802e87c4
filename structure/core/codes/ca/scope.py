"""Whether a case lies inside what Part 9 of the National Building Code lays down by itself. NBC 2020. N, mm, MPa.

Inside it, tables and calculation say the same and an authority may accept them; outside, the design is Part 4's,
which is the engineer's. What nobody has said is listed as unknown and never taken for inside.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Clause, ClauseRef, Editions
from structure.core.codes.ca import nbc
from structure.core.trace import Step, formula
from structure.core.units import in_words, quantity

UNIFORM = Clause("NBC", "A-9.23.4.2.")
ENGINEER = "Part 9 does not cover it by itself: design to Part 4 by an engineer."


@formula("l_s", "(L_1 + L_2) / 2", unit="mm", clause=nbc.COLUMN_LIMITS, L_1="mm", L_2="mm")
def supported_length(L_1: float, L_2: float) -> float:
    """Length of joists that a beam supports: half of the spans on both sides. NBC 2020 9.17.1.1.

    L_1, L_2: joist spans, 0 where no joists land [mm]. [mm].
    """
    return (L_1 + L_2) / 2


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of a case. None: nobody has said. `joists`: spans of the lowest level, left and right.

    `spans`: every span of joists, rafters and beam; `floors`: how many floors the beam carries; `carries_roof`:
    rafters or trusses bear on the line; `column_load`: unfactored load on the heaviest post.
    """

    storeys: int | None = None
    building_area: float | None = None
    spans: tuple[float, ...] = ()
    joists: tuple[float, float] = (0.0, 0.0)
    spacing: float | None = None
    live: float | None = None
    floors: int = 0
    carries_roof: bool = False
    points: int = 0
    soil: float | None = None
    column_load: float | None = None
    adjustable: bool = False


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit of scope: what the case has, what the code allows, whether it keeps to it (None: unknown)."""

    name: str
    what: str
    value: float | None
    most: float | None
    dimension: str
    clause: ClauseRef
    inside: bool | None
    step: Step | None = None

    def as_data(self) -> dict[str, Any]:
        def shown(value: float | None) -> Any:
            return quantity(value, self.dimension, "ca") if value is not None and self.dimension else value

        return {
            "what": self.what,
            "value": shown(self.value),
            "limit": shown(self.most),
            "inside": self.inside,
            "clause": str(self.clause),
            "steps": [] if self.step is None else [self.step.as_data()],
        }

    @property
    def words(self) -> str:
        """Why it lies outside, in a sentence."""
        if self.value is None or self.most is None:
            return f"{self.what} ({self.clause})"
        told = [
            f"{v:g}" if not self.dimension else in_words(v, self.dimension, "ca")
            for v in (self.value, self.most)
        ]
        return f"{self.what}: {told[0]}, limit {told[1]} ({self.clause})"


@dataclass(frozen=True, slots=True)
class Scope:
    """Every limit by name, and the answer."""

    limits: tuple[Limit, ...]

    @property
    def outside(self) -> tuple[Limit, ...]:
        return tuple(limit for limit in self.limits if limit.inside is False)

    @property
    def unknown(self) -> tuple[Limit, ...]:
        return tuple(limit for limit in self.limits if limit.inside is None)

    @property
    def inside(self) -> bool | str:
        """False with anything outside, else `unknown` with anything not said, else True."""
        if self.outside:
            return False
        return "unknown" if self.unknown else True

    @property
    def remarks(self) -> tuple[str, ...]:
        """What the reader must be told."""
        told = [f"{limit.words[0].upper()}{limit.words[1:]}. {ENGINEER}" for limit in self.outside]
        if self.unknown:
            names = ", ".join(limit.what for limit in self.unknown)
            told.append(f"Not said, so it is not known whether Part 9 covers the case: {names}.")
        return tuple(told)

    def as_data(self) -> dict[str, Any]:
        """The result of the `scope` kind, and `scope` of a wall."""
        return {
            "inside": self.inside,
            "engineer": self.inside is False,
            "limits": {limit.name: limit.as_data() for limit in self.limits},
            "outside": [limit.name for limit in self.outside],
            "unknown": [limit.name for limit in self.unknown],
            "remarks": list(self.remarks),
        }


def check_scope(facts: Facts, editions: Editions) -> Scope:
    """Each limit of Part 9 that a wall, its beam, posts and pads can meet, against the case. NBC 2020."""
    return Scope(tuple(_limits(facts, editions)))


def _limits(facts: Facts, editions: Editions) -> Iterator[Limit]:
    def most(
        name: str, what: str, value: float | None, limit: float, dimension: str, clause: Clause
    ) -> Limit:
        inside = None if value is None else value <= limit * (1 + 1e-9)
        return Limit(name, what, value, limit, dimension, clause.at(editions), inside)

    def none(name: str, what: str, there: bool, clause: Clause) -> Limit:
        return Limit(name, what, None, None, "", clause.at(editions), not there)

    yield most("storeys", "storeys of the building", facts.storeys, nbc.MAX_STOREYS, "", nbc.SCOPE)
    yield most(
        "building_area", "building area", facts.building_area, nbc.MAX_BUILDING_AREA, "area", nbc.SCOPE
    )
    longest = max(facts.spans, default=None)
    yield most("span", "longest span of any member", longest, nbc.MAX_SPAN, "length", nbc.FRAMING_LIMITS)
    yield most(
        "joist_spacing",
        "spacing of joists",
        facts.spacing,
        nbc.MAX_JOIST_SPACING,
        "length",
        nbc.FRAMING_LIMITS,
    )
    yield most("live_load", "live load of a floor", facts.live, nbc.MAX_LIVE, "pressure", nbc.GOOD_PRACTICE)
    step = supported_length.step(editions, L_1=facts.joists[0], L_2=facts.joists[1])
    held = most(
        "supported_length",
        "joist length that the beam supports",
        step.result,
        nbc.MAX_SUPPORTED_LENGTH,
        "length",
        nbc.COLUMN_LIMITS,
    )
    yield Limit(held.name, held.what, held.value, held.most, held.dimension, held.clause, held.inside, step)
    yield most(
        "footing_span",
        "joist span over a pad",
        max(facts.joists),
        nbc.MAX_FOOTING_SPAN,
        "length",
        nbc.FOOTING_SPANS,
    )
    yield most(
        "floors", "floors on the posts", facts.floors, nbc.MAX_FLOORS_ON_COLUMNS, "", nbc.COLUMN_LIMITS
    )
    yield none("roof", "a roof bears on the beam and its posts", facts.carries_roof, nbc.COLUMN_LIMITS)
    yield none("concentrated", "a load comes down on one place of the beam", facts.points > 0, UNIFORM)
    inside = None if facts.soil is None else facts.soil >= nbc.LEAST_SOIL * (1 - 1e-9)
    yield Limit(
        "soil",
        "bearing pressure of the soil, at least",
        facts.soil,
        nbc.LEAST_SOIL,
        "pressure",
        nbc.FOUNDATION_LIMITS.at(editions),
        inside,
    )
    if facts.adjustable:
        yield most(
            "adjustable_column",
            "load on an adjustable steel column",
            facts.column_load,
            nbc.MAX_ADJUSTABLE_COLUMN,
            "force",
            nbc.STEEL_COLUMNS,
        )
