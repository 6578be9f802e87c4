"""What holds the new beam together and gets it into the house: ply fastening, hangers, clear height, carrying.

Each part answers by itself; what the rules do not cover, or nobody has told, never stops the others.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.house import HOUSE
from structure.core.errors import OutOfScope
from structure.core.materials.section import Section
from structure.core.members.carry_in import PER_PERSON, CarryQuestion, Turn, carry_in
from structure.core.members.fastener import Fastener
from structure.core.members.hangers import (
    SIDES,
    HangerQuestion,
    HangingSide,
    Rating,
    check_hangers,
    joist_count,
)
from structure.core.members.headroom import HeadroomQuestion, check_headroom
from structure.core.members.plies import fasten_plies, gravity_of
from structure.core.members.ply_fastening import PlyQuestion
from structure.core.takedown import Level
from structure.core.units import quantity

STEEL_HANGERS = "Steel beam: are the joists hung from a nailer bolted to it, or in hangers made for steel?"


@dataclass(frozen=True, slots=True)
class Connections:
    """What is told of the fasteners, the hangers and the way in; what is not told is left open."""

    fastener: Fastener | None = None
    gravity: float | None = None
    gravity_source: str = ""
    rating: Rating | None = None
    way: tuple[Turn, ...] = ()
    limit: float = PER_PERSON


@dataclass(frozen=True, slots=True)
class Room:
    """What the clear height is held against: kind of space, finishes still to come [in]."""

    space: str = "habitable"
    floor_finish: float = 0.0
    board: float = 0.5


@dataclass(frozen=True)
class Placed:
    """The chosen beam in its opening; `held` is the level whose joists it carries first."""

    section: Section
    held: Level
    clear_width: float
    length: float
    height: float
    flush: bool
    joist_depth: float
    told: Connections = field(default_factory=Connections)
    room: Room = field(default_factory=Room)


def hanging_sides(held: Level, *, flush: bool) -> dict[str, HangingSide]:
    """The sides whose joists a flush beam cuts and hangs: simple spans from then on, whatever they were."""
    if not flush or held.framing != "perpendicular":
        return {}
    pressures = dict(held.pressures)
    dead = sum(layer.value for layer in held.dead)
    if dead:
        pressures["dead"] = pressures.get("dead", 0.0) + dead
    found = {}
    for name in SIDES:
        side = held.left if name == "left" else held.right
        if side is not None and side.support != "none" and side.span:
            found[name] = HangingSide(side.span, pressures)
    return found


def hanger_count(held: Level, clear_width: float, code: str = "us", *, flush: bool) -> int:
    """Joists that hang on a flush beam, both sides together."""
    return len(hanging_sides(held, flush=flush)) * joist_count(clear_width, spacing_of(held, code))


def spacing_of(held: Level, code: str = "us") -> float:
    """Of the joists."""
    return HOUSE[code].joist_spacing if held.spacing is None else held.spacing


def connect(placed: Placed, editions: Editions) -> tuple[dict[str, Any], list[str]]:
    """Data under `fastening`, `hangers_data`, `headroom` and `carry`, and what the reader must be told."""
    sides = hanging_sides(placed.held, flush=placed.flush)
    remarks: list[str] = []
    data = {
        "fastening": _answered(lambda: _fastening(placed, sides, editions)),
        "hangers_data": _answered(lambda: _hangers(placed, sides, editions)) if sides else None,
        "headroom": _answered(lambda: _headroom(placed, editions)),
        "carry": _answered(lambda: _carry(placed, editions)),
    }
    for name, words in (("fastening", "Ply fastening"), ("hangers_data", "Hangers")):
        part = data[name] or {}
        remarks += [f"{words}: {each}" for each in part.get("questions", ())]
        if part.get("state") == "fails":
            remarks.append(f"{words}: what is told does not carry the load.")
    height = data["headroom"]
    if height is not None and height.get("passes") is False:
        unit = height["required"]["unit"]
        remarks.append(
            f"Clear under the beam {height['clear']['value']:g} {unit}, under the least height of "
            f"{height['required']['value']:g} {unit} ({height['clause']}): ask the authority before the permit does."
        )
    return data, remarks


def _answered(answer: Callable[[], dict[str, Any]]) -> dict[str, Any]:
    try:
        return {"status": "ok"} | answer()
    except OutOfScope as refusal:
        return {"status": "refused", "clause": str(refusal.clause), "reason": refusal.reason}


def _fastening(placed: Placed, sides: Mapping[str, HangingSide], editions: Editions) -> dict[str, Any]:
    section, told = placed.section, placed.told
    gravity, source = told.gravity, told.gravity_source
    if gravity is None:
        gravity, source = gravity_of(section, editions)
    lines = {
        name: {case: value * side.span / 2 for case, value in side.pressures.items() if value > 0}
        for name, side in sides.items()
    }
    loaded = any(lines.values())
    question = PlyQuestion(
        section=section,
        loaded="side" if loaded else "top",
        length=placed.length,
        left=lines.get("left", {}),
        right=lines.get("right", {}),
        gravity=gravity,
        gravity_source=source,
        fastener=told.fastener,
    )
    return fasten_plies(question, editions).as_data()


def _hangers(placed: Placed, sides: Mapping[str, HangingSide], editions: Editions) -> dict[str, Any]:
    question = HangerQuestion(
        clear_width=placed.clear_width,
        spacing=spacing_of(placed.held, editions.code),
        sides=sides,
        rating=placed.told.rating,
        breadth=placed.section.breadth if placed.section.material == "wood" else None,
    )
    data = check_hangers(question, editions).as_data()
    if placed.section.material != "wood":
        data["questions"].append(STEEL_HANGERS)
        if data["state"] == "passes":
            data |= {"state": "question", "passes": False}
    return data


def _headroom(placed: Placed, editions: Editions) -> dict[str, Any]:
    room = placed.room
    question = HeadroomQuestion(
        height=placed.height,
        depth=placed.section.depth,
        flush=placed.flush,
        joist_depth=placed.joist_depth if placed.flush else 0.0,
        floor_finish=room.floor_finish,
        board=room.board,
        space=room.space,
    )
    return check_headroom(question, editions).as_data()


def _carry(placed: Placed, editions: Editions) -> dict[str, Any]:
    section = placed.section
    question = CarryQuestion(
        width=section.breadth,
        depth=section.depth,
        length=placed.length,
        weight=section.weight,
        # Steel between lumber weighs more than its share, so only plies of one kind come in one by one.
        plies=section.plies if section.material == "wood" else 1,
        turns=placed.told.way,
        limit=placed.told.limit,
    )
    data = carry_in(question, editions).as_data()
    return data | {"line": quantity(section.weight, "line_load", editions.code)}
