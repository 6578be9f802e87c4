"""Rows and spacing of the fasteners of a built-up beam: what is prescribed, what fits, what carries.

US: lbf, inches; the Canadian rules have their own table and their own choice, in mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Clause, ClauseRef, Editions
from structure.core.codes.us import fasteners as nds
from structure.core.codes.us.fasteners_value import held_table
from structure.core.members.fastener import Fastener
from structure.core.units import quantity

# Spacings that a crew measures out, widest first; common practice.
STEPS = (32.0, 24.0, 16.0, 12.0, 8.0, 6.0, 4.0, 3.0)


@dataclass(frozen=True, slots=True)
class Least:
    """The pattern that plies need even where the load on top bends them together."""

    fastener: str
    thinnest: float
    rows: int
    spacing: float
    ends: int
    clause: ClauseRef
    mark: str
    code: str = "us"

    def as_data(self) -> dict[str, Any]:
        return {
            "fastener": self.fastener,
            "rows": self.rows,
            "spacing": quantity(self.spacing, "length", self.code),
            "at_each_end": self.ends,
            "clause": str(self.clause),
            "mark": self.mark,
        }


@dataclass(frozen=True, slots=True)
class Pattern:
    """Rows along the beam and the spacing in each [in]; `count` in one joint of the whole length."""

    rows: int
    spacing: float
    count: int
    edge: float
    between: float
    end: float


def least_pattern(family: str, fastener: Fastener, depth: float, editions: Editions) -> Least | None:
    """The prescribed least pattern for this fastener, or None where it is thinner than any pattern names.

    Sawn: IRC table R602.3(1), built-up girders. Composite lumber, bolts and screws: common practice.
    """
    through = fastener.kind != "nail"
    fitting = [
        row
        for row in held_table().content["pattern"]
        if bool(row["through"]) == through
        and (through or row["family"] == ("sawn" if family == "sawn" else "composite"))
        and (through or fastener.diameter >= row["thinnest"] - 1e-9)
    ]
    if not fitting:
        return None
    row = max(fitting, key=lambda each: each["thinnest"])
    rows = next(int(count) for up_to, count in row["rows"] if depth <= up_to + 1e-9)
    clause = Clause(*row["clause"]).at(editions)
    return Least(
        row["fastener"], row["thinnest"], rows, row["spacing"], int(row["ends"]), clause, row["mark"]
    )


def distances(fastener: Fastener) -> tuple[dict[str, float], str]:
    """End, edge, in-row and between-row distances [in] of a fastener, and how they are known."""
    row = held_table().content["distances"]["nail" if fastener.kind == "nail" else "bolt"]
    return {key: value * fastener.diameter for key, value in row.items() if key != "mark"}, str(row["mark"])


def placing_clause(fastener: Fastener, editions: Editions) -> ClauseRef:
    """The clause on distances of nails, or of bolts."""
    return (nds.NAIL_PLACING if fastener.kind == "nail" else nds.BOLT_PLACING).at(editions)


def in_words(fastener: Fastener, pattern: Pattern, ends: int, plies: int) -> str:
    """What the crew does: rows, spacing, distances, from which side."""
    rows = f"{pattern.rows} {'row' if pattern.rows == 1 else 'rows'}"
    if fastener.kind == "bolt":
        told = f"{fastener.label}s through all {plies} plies, washers under head and nut"
    elif plies > 2:
        told = f"{fastener.label}s, every further ply fastened to the one before from its own face"
    else:
        told = f"{fastener.label}s"
    stagger = ", staggered" if pattern.rows > 1 else ""
    return (
        f"{rows} of {told}, {pattern.spacing:g} in apart in the row{stagger}; {pattern.edge:.2f} in or more from the "
        f"edges, {pattern.end:.2f} in or more from the ends; {ends} at each end and at every joint over a support."
    )


def most_rows(fastener: Fastener, depth: float) -> int:
    """Rows that fit in the depth at the least distances; none if not even one fits."""
    least, _ = distances(fastener)
    if depth < 2 * least["edge"] - 1e-9:
        return 0
    return 1 + math.floor((depth - 2 * least["edge"]) / least["between_rows"] + 1e-9)


def pattern_of(fastener: Fastener, rows: int, spacing: float, depth: float, length: float) -> Pattern:
    """A pattern over the length of a beam: every row starts and ends at its end distance."""
    least, _ = distances(fastener)
    edge = least["edge"]
    between = (depth - 2 * edge) / (rows - 1) if rows > 1 else 0.0
    run = max(0.0, length - 2 * least["end"])
    return Pattern(rows, spacing, rows * (math.ceil(run / spacing - 1e-9) + 1), edge, between, least["end"])


def widest_spacing(fastener: Fastener, least: Least, rows: int, per_length: float) -> float | None:
    """The widest measured spacing at which `rows` give `per_length` fasteners [1/in]; None if none does.

    Never wider than the least pattern, never closer than the distance that keeps wood from splitting.
    """
    return next((s for s in _allowed(fastener, least) if rows / s >= per_length - 1e-12), None)


def closest_spacing(fastener: Fastener, least: Least) -> float:
    """The closest measured spacing that does not split the wood, or that of the least pattern."""
    return min(_allowed(fastener, least), default=least.spacing)


def _allowed(fastener: Fastener, least: Least) -> list[float]:
    closest = distances(fastener)[0]["in_row"]
    return [s for s in STEPS if closest - 1e-9 <= s <= least.spacing + 1e-9]
