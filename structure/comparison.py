"""Beams side by side: of each family the few worth looking at, and why the rest of it does not pass."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Any

from structure.core.members.carry_in import PER_PERSON
from structure.costs import Costs
from structure.families import FAMILIES, family_title
from structure.fields import inches_of
from structure.shown import inches

Row = Mapping[str, Any]
INFINITE = float("inf")


@dataclass(frozen=True)
class Pick:
    """One beam of a family with the reasons why it is shown."""

    row: Row
    reasons: tuple[str, ...]


@dataclass(frozen=True)
class Card:
    """One family: what was tried, the best of it, or the nearest that fails."""

    key: str
    title: str
    tried: int
    passing: int
    picks: tuple[Pick, ...]
    nearest: Row | None


@dataclass(frozen=True, slots=True)
class Hole:
    """What the opening asks of a beam: its length to cut, and the height that a depth leaves."""

    length: float
    top: float
    headroom: float

    @classmethod
    def of(cls, results: Row, section: Row) -> Hole:
        """From an answered wall and the section it was asked with [in]."""
        flush = section.get("mounting") == "flush"
        ceiling = inches_of(section, "ceiling_height", 97.0)
        top = ceiling + (inches_of(section, "joist_depth", 9.25) if flush else 0.0)
        return cls(inches(results["beam"]["length"]), top, inches_of(section, "headroom"))


def with_facts(
    rows: Sequence[Row], hole: Hole, costs: Costs | None, products: Sequence[Row] = ()
) -> list[dict[str, Any]]:
    """Each candidate with the height left under it, the weight of a piece, and its cost where it is known."""
    entered = {(each["family"], each["name"]): each["source"] for each in products}
    made = []
    for row in rows:
        weight = row["weight"]
        piece = None if weight is None else weight / row["pieces"] * hole.length / 12
        cost = costs.by_key.get(row["key"]) if costs else None
        made.append(
            {
                **row,
                "under": {"value": hole.top - row["depth"], "unit": "in"},
                "piece": piece,
                "people": None if piece is None else max(1, ceil(round(piece / PER_PERSON, 6))),
                "cost": cost.amount if cost else None,
                "cost_why": cost.why if cost else "",
                "entered": entered.get((row["family"], row["grade"]), ""),
            }
        )
    return made


def compare(rows: Sequence[Row], asked: Sequence[str]) -> list[Card]:
    """A card for every family asked for or tried, in the order of FAMILIES. `rows` come lightest first."""
    by_family: dict[str, list[Row]] = {}
    for row in rows:
        by_family.setdefault(row["group"], []).append(row)
    order = [family.key for family in FAMILIES if family.key in by_family or family.key in asked]
    order += [key for key in by_family if key not in order]
    return [_card(key, by_family.get(key, [])) for key in order]


def _card(key: str, rows: Sequence[Row]) -> Card:
    passing = [row for row in rows if row["passes"]]
    nearest = None if passing or not rows else min(rows, key=_distance)
    return Card(key, family_title(key), len(rows), len(passing), _picks(passing), nearest)


def _distance(row: Row) -> tuple[bool, float, int]:
    """How far a beam is from passing: out of scope last, then by how much is too much, then as listed."""
    ratio = row["ratio"]
    return (ratio is None, INFINITE if ratio is None else ratio, row["order"])


def _picks(passing: Sequence[Row]) -> tuple[Pick, ...]:
    """Lightest, shallowest and cheapest, each once, with every reason it is shown for."""
    if not passing:
        return ()
    priced = [row for row in passing if row["cost"] is not None]
    tries: list[tuple[str, Sequence[Row], Callable[[Row], tuple[Any, ...]]]] = [
        ("lightest", passing, lambda row: (_weight(row), row["depth"], row["order"])),
        ("shallowest", passing, lambda row: (row["depth"], _weight(row), row["order"])),
        ("cheapest", priced, lambda row: (row["cost"], _weight(row), row["order"])),
    ]
    found: dict[str, tuple[Row, list[str]]] = {}
    for reason, among, key in tries:
        if among:
            best = min(among, key=key)
            found.setdefault(best["key"], (best, []))[1].append(reason)
    return tuple(Pick(row, tuple(reasons)) for row, reasons in found.values())


def _weight(row: Row) -> float:
    return INFINITE if row["weight"] is None else round(row["weight"], 6)
