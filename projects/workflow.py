"""Stages, hold points and every legal move between them.

Pure: no Django, no database, no clock. The order of work and the hold points follow the trade: a hold point
stops the next step until its evidence is on record. Most can be overridden by a contractor with a written
reason; four can be overridden by nobody, because each is where somebody gets hurt.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from typing import Literal


class Stage(StrEnum):
    """Where a job stands. The value is what the database keeps."""

    SURVEY = "survey"
    SIZING = "sizing"
    ENGINEERING = "engineering"
    PERMIT = "permit"
    MAKE_READY = "make_ready"
    FOOTINGS = "footings"
    SHORING = "shoring"
    OPENING = "opening"
    INSPECTION = "inspection"
    CLOSE_UP = "close_up"
    CLOSED = "closed"

    @property
    def number(self) -> int:
        """Place in the order of work: survey is 1, close up is 10; a closed job counts 11."""
        return ORDER.index(self) + 1

    @property
    def label(self) -> str:
        """The stage as people call it."""
        return STAGE_TITLES[self]


ORDER: tuple[Stage, ...] = tuple(Stage)

STAGE_TITLES: dict[Stage, str] = {
    Stage.SURVEY: "Survey",
    Stage.SIZING: "Preliminary sizing",
    Stage.ENGINEERING: "Engineering request",
    Stage.PERMIT: "Permit",
    Stage.MAKE_READY: "Make ready",
    Stage.FOOTINGS: "Footings",
    Stage.SHORING: "Shoring",
    Stage.OPENING: "Opening, beam and posts",
    Stage.INSPECTION: "Inspection before cover",
    Stage.CLOSE_UP: "Close up",
    Stage.CLOSED: "Closed",
}

#: The stages of work themselves, without the end state.
WORK_STAGES: tuple[Stage, ...] = ORDER[:-1]

#: Stages that a wall recorded as a partition has nothing to do in.
STRUCTURAL_STAGES: frozenset[Stage] = frozenset(
    {Stage.SIZING, Stage.ENGINEERING, Stage.FOOTINGS, Stage.SHORING}
)

WAITS_ON: dict[Stage, str] = {
    Stage.SURVEY: "contractor",
    Stage.SIZING: "estimator",
    Stage.ENGINEERING: "engineer",
    Stage.PERMIT: "permit office",
    Stage.MAKE_READY: "project manager",
    Stage.FOOTINGS: "crew lead",
    Stage.SHORING: "crew lead",
    Stage.OPENING: "crew lead",
    Stage.INSPECTION: "inspector",
    Stage.CLOSE_UP: "project manager",
    Stage.CLOSED: "nobody",
}


@dataclass(frozen=True)
class HoldPoint:
    """A stop in the work.

    `leaves` is the stage that can not be left forward while the point is unmet. `recorded` says that a person
    must put evidence on record even when every fact agrees; the other points are met by rows that already
    carry who, when and which paper (a decision, a permit, an inspection).
    """

    name: str
    title: str
    leaves: Stage
    waits_on: str
    may_override: bool = True
    structural: bool = False
    recorded: bool = False


HOLD_POINTS: tuple[HoldPoint, ...] = (
    HoldPoint("verdict_recorded", "Verdict recorded", Stage.SURVEY, "contractor"),
    HoldPoint("hazards_surveyed", "Hazards and services surveyed", Stage.SURVEY, "contractor"),
    HoldPoint(
        "sealed_design",
        "Sealed design or written acceptance received",
        Stage.ENGINEERING,
        "engineer",
        structural=True,
    ),
    HoldPoint("permit_issued", "Permit issued", Stage.PERMIT, "permit office"),
    HoldPoint("hazards_cleared", "Hazards cleared", Stage.MAKE_READY, "project manager", may_override=False),
    HoldPoint("services_cleared", "Services cleared", Stage.MAKE_READY, "project manager"),
    HoldPoint("footing_inspected", "Footing inspected", Stage.FOOTINGS, "inspector", structural=True),
    HoldPoint(
        "footing_cured", "Footing cured", Stage.FOOTINGS, "crew lead", may_override=False, structural=True
    ),
    HoldPoint(
        "material_matches",
        "Material on site matches the governing schedule",
        Stage.SHORING,
        "project manager",
        structural=True,
        recorded=True,
    ),
    HoldPoint(
        "shoring_checked",
        "Shoring checked",
        Stage.SHORING,
        "crew lead",
        may_override=False,
        structural=True,
        recorded=True,
    ),
    HoldPoint(
        "members_installed",
        "Members installed to the governing schedule",
        Stage.OPENING,
        "crew lead",
        may_override=False,
        structural=True,
        recorded=True,
    ),
    HoldPoint("framing_inspected", "Framing inspected before cover", Stage.INSPECTION, "inspector"),
    HoldPoint(
        "alarms", "Smoke and carbon monoxide alarms where the permit asks", Stage.CLOSE_UP, "crew lead"
    ),
    HoldPoint("final_passed", "Final inspection passed", Stage.CLOSE_UP, "inspector"),
)

HOLD_POINT_BY_NAME: dict[str, HoldPoint] = {point.name: point for point in HOLD_POINTS}

#: Nobody overrides these, whatever they sign.
NEVER_OVERRIDDEN: frozenset[str] = frozenset(p.name for p in HOLD_POINTS if not p.may_override)

HoldStatus = Literal["met", "unmet", "overridden", "skipped", "not needed"]

#: States of a hold point that let the work go on.
OPEN_STATUSES: frozenset[str] = frozenset({"met", "overridden", "skipped", "not needed"})


@dataclass(frozen=True)
class HoldFacts:
    """What is known of one hold point: do the facts meet it, does an override stand, why."""

    met: bool
    why: str
    overridden: bool = False
    override_reason: str = ""
    not_needed: bool = False


@dataclass(frozen=True)
class HoldReading:
    """One hold point as it counts now."""

    point: HoldPoint
    status: HoldStatus
    why: str

    @property
    def open(self) -> bool:
        """True when the work may go past it."""
        return self.status in OPEN_STATUSES


@dataclass(frozen=True)
class Partition:
    """What must be on record before a wall counts as a partition (every one of them, nothing unknown).

    A person decided `not bearing`, that decision still stands on the evidence, and bracing, rafter tie and
    fire or party-wall duty are each answered `no`. An answer `yes` means an engineer is needed after all.
    """

    decided_not_bearing: bool = False
    decision_stands: bool = False
    bracing: str = "unknown"
    rafter_tie: str = "unknown"
    fire_or_party: str = "unknown"

    @property
    def holds(self) -> bool:
        """True only when every condition is there."""
        duties = (self.bracing, self.rafter_tie, self.fire_or_party)
        return self.decided_not_bearing and self.decision_stands and all(duty == "no" for duty in duties)


BEARING = Partition()

MoveKind = Literal["forward", "partition", "back"]


@dataclass(frozen=True)
class Move:
    """A legal change of stage."""

    source: Stage
    target: Stage
    kind: MoveKind

    @property
    def needs_reason(self) -> bool:
        """Going back is always explained in writing."""
        return self.kind == "back"


def _moves() -> dict[tuple[Stage, Stage], Move]:
    table: dict[tuple[Stage, Stage], Move] = {}
    for here, ahead in pairwise(ORDER):
        table[here, ahead] = Move(here, ahead, "forward")
    for source, target in ((Stage.SURVEY, Stage.PERMIT), (Stage.MAKE_READY, Stage.OPENING)):
        table[source, target] = Move(source, target, "partition")
    for source in WORK_STAGES:
        for target in WORK_STAGES[: source.number - 1]:
            table[source, target] = Move(source, target, "back")
    table[Stage.CLOSED, Stage.CLOSE_UP] = Move(Stage.CLOSED, Stage.CLOSE_UP, "back")
    return table


#: Every legal move: one step forward, over the structural stages for a partition, back to any earlier stage of
#: work, and a closed job reopened into its last stage. What is not in here is illegal.
MOVES: Mapping[tuple[Stage, Stage], Move] = _moves()


def guards(target: Stage) -> tuple[HoldPoint, ...]:
    """The hold points that must be open before `target` is entered, in order, earlier ones included.

    Earlier ones count too: a permit that has expired since, or a verdict that newer evidence contradicts, stops
    the next step as well as the one it first guarded.
    """
    return tuple(point for point in HOLD_POINTS if point.leaves.number < target.number)


def read_hold(point: HoldPoint, facts: HoldFacts | None, partition: Partition = BEARING) -> HoldReading:
    """How a hold point counts, given the facts. Missing facts never open anything."""
    if point.structural and partition.holds:
        return HoldReading(point, "skipped", "A named person recorded the wall as not bearing.")
    if facts is None:
        return HoldReading(point, "unmet", "Nothing is known of this hold point.")
    if facts.met and facts.not_needed:
        return HoldReading(point, "not needed", facts.why)
    if facts.met:
        return HoldReading(point, "met", facts.why)
    if facts.overridden and point.may_override:
        return HoldReading(point, "overridden", f"Overridden: {facts.override_reason} ({facts.why})")
    return HoldReading(point, "unmet", facts.why)


def read_holds(facts: Mapping[str, HoldFacts], partition: Partition = BEARING) -> tuple[HoldReading, ...]:
    """Every hold point in order."""
    return tuple(read_hold(point, facts.get(point.name), partition) for point in HOLD_POINTS)


def obstacles(target: Stage, readings: Iterable[HoldReading]) -> tuple[HoldReading, ...]:
    """The readings that stop a move forward into `target`; a guard that was not read at all stops it too."""
    by_name = {reading.point.name: reading for reading in readings}
    found = []
    for point in guards(target):
        reading = by_name.get(point.name) or read_hold(point, None)
        if not reading.open:
            found.append(reading)
    return tuple(found)


class IllegalMove(Exception):
    """The move is not in the table, or something stands in its way; the text says what."""

    def __init__(self, sentence: str, unmet: tuple[HoldReading, ...] = ()) -> None:
        self.unmet = unmet
        super().__init__(sentence)


def check_move(
    source: Stage,
    target: Stage,
    readings: Iterable[HoldReading],
    *,
    partition: Partition = BEARING,
    reason: str = "",
) -> Move:
    """The move from `source` to `target`, if it is legal now. Raises IllegalMove with one sentence if not."""
    move = MOVES.get((source, target))
    if move is None:
        raise IllegalMove(f"Stage: a job can not go from {source.label} to {target.label}.")
    if move.kind == "back":
        if not reason.strip():
            raise IllegalMove("Reason: going back a stage needs a written reason.")
        return move
    if move.kind == "partition" and not partition.holds:
        raise IllegalMove(
            f"Stage: only a wall recorded as not bearing, with bracing, rafter tie and fire or party-wall duty "
            f"answered no, goes from {source.label} straight to {target.label}."
        )
    unmet = obstacles(target, readings)
    if unmet:
        names = "; ".join(f"{reading.point.title}: {reading.why}" for reading in unmet)
        raise IllegalMove(f"Stage: {target.label} waits for a hold point. {names}", unmet)
    return move


def moves_from(source: Stage, partition: Partition = BEARING) -> tuple[Move, ...]:
    """Moves that exist from a stage, forward ones first; hold points may still stop them."""
    found = [m for m in MOVES.values() if m.source is source and (m.kind != "partition" or partition.holds)]
    return tuple(
        sorted(
            found, key=lambda m: (m.kind == "back", -m.target.number if m.kind == "back" else m.target.number)
        )
    )


def reopened_by(target: Stage) -> tuple[HoldPoint, ...]:
    """Hold points whose evidence must be given again after going back to `target`: work behind them is undone."""
    return tuple(point for point in HOLD_POINTS if point.leaves.number >= target.number)
