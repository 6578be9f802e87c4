"""The page of sizes: beams compared family by family, their drawing, and the whole list behind it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from structure.comparison import Card, Hole, compare, with_facts
from structure.costs import Costs, costs_for
from structure.diagrams import words
from structure.diagrams.strip import Cut, Strip, section_strip
from structure.families import family_title
from structure.models import DesignRun
from structure.results import candidates
from structure.shown import inches

Row = Mapping[str, Any]


@dataclass(frozen=True)
class Options:
    """Every candidate of a run with its facts, the cards, and what is known of costs."""

    rows: list[dict[str, Any]]
    cards: list[Card]
    costs: Costs | None
    hole: Hole
    numbers: Mapping[str, str]
    flush: bool

    @property
    def passing(self) -> int:
        return sum(row["passes"] for row in self.rows)


def options_of(run: DesignRun, user: Any) -> Options:
    """All of it for one person: costs only for who may see prices."""
    section = run.inputs["section"]
    hole = Hole.of(run.results, section)
    rows: list[dict[str, Any]] = candidates(run.results)
    costs = costs_for(run.job, user, run, rows)
    rows = with_facts(rows, hole, costs, run.inputs.get("products", ()))
    cards = compare(sorted(rows, key=lambda row: row["order"]), section.get("families") or ())
    shown = [row for card in cards for row in _shown(card)]
    numbers = {row["key"]: str(n) for n, row in enumerate(shown, 1)}
    return Options(rows, cards, costs, hole, numbers, section.get("mounting") == "flush")


def _shown(card: Card) -> list[Row]:
    if card.picks:
        return [pick.row for pick in card.picks]
    return [card.nearest] if card.nearest is not None else []


def strip_picture(options: Options) -> str:
    """The sections of the comparison at one scale; empty where nothing was tried."""
    cuts = [_cut(row, options.numbers[row["key"]]) for card in options.cards for row in _shown(card)]
    if not cuts:
        return ""
    room = max(options.hole.top - options.hole.headroom, 0.0) if options.hole.headroom else 0.0
    titles = {cut.family: family_title(cut.family) for cut in cuts}
    return section_strip(Strip(cuts, room, options.flush, titles))


def _cut(row: Row, number: str) -> Cut:
    size = row["size"]
    return Cut(
        number=number,
        family=row["group"],
        label=row["label"],
        width=row["width"],
        depth=row["depth"],
        plies=row["plies"],
        form=str(size.get("form") or "") if row["family"] == "steel" else "",
        web=inches(size["web"]) if "web" in size else 0.0,
        flange=inches(size["flange"]) if "flange" in size else 0.0,
        plates=_plates(size),
        passes=row["passes"],
        weight="" if row["weight"] is None else words.weight_per_length(row["weight"]),
    )


def _plates(size: Row) -> Sequence[tuple[float, float]]:
    """Thickness and depth of each steel plate of a flitch beam [in]."""
    held = size.get("plates")
    if not held:
        return ()
    return [(inches(held["thickness"]), inches(held["depth"]))] * int(held["count"])
