"""What holds the chosen beam together, what hangs on it and how it gets in, as facts of a page.

Runs from before the engine answered this have none of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from structure.diagrams import words
from structure.reading import quantity_words
from structure.shown import metric, value_in

Row = Mapping[str, Any]
Fact = tuple[str, str]


def connection_facts(held: Row) -> list[Fact]:
    """Fastening, hangers, plates, bolts and carrying of the beam of an answered wall."""
    return [
        *_fastening(held.get("fastening") or {}),
        *_hangers(held.get("hangers_data") or {}),
        *_steel(held),
        *_carry(held),
    ]


def _fastening(part: Row) -> Iterator[Fact]:
    if part.get("status") != "ok" or part.get("one_piece") or not part.get("fastener"):
        return
    if part.get("rows"):
        rows = f"{part['rows']} rows of {part['fastener']['label']}s at {quantity_words(part['spacing'])}"
        yield "Plies fastened by", f"{rows}, {part['count']} in all"
    if part.get("state") != "passes":
        yield "Ply fastening", f"{part['state']}: see the remarks"


def _hangers(part: Row) -> Iterator[Fact]:
    if part.get("status") == "ok":
        yield "Hangers", f"{part['count']}, each for at least {quantity_words(part['required'])}"


def _steel(held: Row) -> Iterator[Fact]:
    chosen = held["chosen"]
    for place, plate in (chosen.get("plates") or {}).items():
        size = " by ".join(
            quantity_words(plate[name], both=False) for name in ("length", "width", "thickness")
        )
        yield f"Plate under end {int(place) + 1}", size
    bolts = chosen.get("bolts")
    if bolts:
        ends = " and ".join(str(count) for count in dict.fromkeys(bolts["at_supports"]))
        size, apart = quantity_words(bolts["diameter"]), quantity_words(bolts["spacing"])
        yield "Bolts of the flitch", f"{size} at most {apart} apart, {ends} at each end"


def _carry(held: Row) -> Iterator[Fact]:
    part = held.get("carry") or {}
    if part.get("status") != "ok":
        return
    piece, people = part["ply_weight"], part["ply_people"]
    word = "two people carry it" if people <= 2 else f"{people} people to carry it"
    # A load in kilonewtons tells nobody what to lift.
    told = words.weight(value_in(piece, "lbf")) if metric() else quantity_words(piece)
    yield "Heaviest piece", f"{told}, {word}"
