"""How the plies of a built-up post are nailed or bolted together so that NDS 15.3 holds.

Nails are common wire nails; their sizes are those of NDS Appendix L, Table L4.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import ClauseRef, Editions
from structure.core.codes.us import wood_columns as nds
from structure.core.units import quantity

# Name, length, shank diameter [in]. Source: NDS 2018 Appendix L, Table L4 (memory: sure).
COMMON_NAILS = (
    ("8d", 2.5, 0.131),
    ("10d", 3.0, 0.148),
    ("12d", 3.25, 0.148),
    ("16d", 3.5, 0.162),
    ("20d", 4.0, 0.192),
    ("30d", 4.5, 0.207),
    ("40d", 5.0, 0.225),
    ("50d", 5.5, 0.244),
    ("60d", 6.0, 0.263),
)
BOLT_DIAMETER = 0.5  # in; common practice
LAST_PLY = 0.75  # share of the last ply that a nail must reach into, 15.3.3.1(b)
ROW_RULE = 3.0  # two rows or more where the depth is over three plies' thickness
MAX_SPACING = 6.0  # ply thicknesses


@dataclass(frozen=True, slots=True)
class Rule:
    """Distances in diameters: from the ends, in a row (least), between rows, from the edges."""

    end: tuple[float, float]
    spacing: float
    rows: tuple[float, float]
    edge: tuple[float, float]


NAIL = Rule(end=(15.0, 18.0), spacing=20.0, rows=(10.0, 20.0), edge=(5.0, 20.0))  # 15.3.3.1
BOLT = Rule(end=(7.0, 8.4), spacing=4.0, rows=(1.5, 10.0), edge=(1.5, 10.0))  # 15.3.4.1, softwood


@dataclass(frozen=True, slots=True)
class Fastening:
    """A pattern that satisfies the clause. Lengths in inches; `name` is None where no common nail reaches."""

    kind: str
    name: str | None
    diameter: float
    length: float
    rows: int
    spacing: float
    least_spacing: float
    end: tuple[float, float]
    row_spacing: tuple[float, float]
    edge: tuple[float, float]
    clause: ClauseRef
    remarks: tuple[str, ...]
    code: str = "us"

    def as_data(self) -> dict[str, Any]:
        """Plain data: the takeoff counts fasteners from `rows` and `spacing`."""

        def pair(values: tuple[float, float]) -> dict[str, Any]:
            return {
                "least": quantity(values[0], "length", self.code),
                "most": quantity(values[1], "length", self.code),
            }

        return {
            "kind": self.kind,
            "name": self.name,
            "diameter": quantity(self.diameter, "length", self.code),
            "length": quantity(self.length, "length", self.code),
            "rows": self.rows,
            "spacing": quantity(self.spacing, "length", self.code),
            "least_spacing": quantity(self.least_spacing, "length", self.code),
            "end_distance": pair(self.end),
            "row_spacing": pair(self.row_spacing),
            "edge_distance": pair(self.edge),
            "clause": str(self.clause),
            "remarks": list(self.remarks),
        }


def fastening_of(section: Any, fastened: str, editions: Editions) -> Fastening:
    """The largest spacing and fewest rows that NDS 15.3.3 (nails) or 15.3.4 (bolts) allow. Lengths in inches."""
    if fastened == "bolted":
        return _bolted(section, editions)
    return _nailed(section, editions)


def _nailed(section: Any, editions: Editions) -> Fastening:
    t, n, d = section.width, section.plies, section.depth
    reach = (n - 1) * t + LAST_PLY * t
    fitting = [nail for nail in COMMON_NAILS if reach <= nail[1] <= n * t + 1e-9]
    clause = nds.NAILED.at(editions)
    if fitting:
        name, length, D = fitting[0]
        told = f"{name} common nails ({length:g} in by {D:g} in)"
    else:
        name, length, D = None, reach, COMMON_NAILS[-1][2]
        told = f"nails {reach:g} to {n * t:g} in long, which no common nail is: bolt it, or ask the engineer"
    rows = _rows(d, t, D, NAIL)
    most = MAX_SPACING * t
    stagger = "nails staggered" if rows == 1 else "nails in neighbouring rows staggered" if rows > 2 else ""
    words = (
        f"Nail the {n} plies with {told}, {rows} {'row' if rows == 1 else 'rows'}, {NAIL.spacing * D:.2f} to "
        f"{most:g} in apart in the row, driven from alternate faces through all plies"
        f"{', ' + stagger if stagger else ''}; ends {NAIL.end[0] * D:.2f} to {NAIL.end[1] * D:.2f} in, "
        f"edges {NAIL.edge[0] * D:.2f} to {NAIL.edge[1] * D:.2f} in ({clause})."
    )
    return _pattern("nailed", name, D, length, rows, most, NAIL, clause, words)


def _bolted(section: Any, editions: Editions) -> Fastening:
    t, n, d = section.width, section.plies, section.depth
    D = BOLT_DIAMETER
    rows = _rows(d, t, D, BOLT)
    most = MAX_SPACING * t
    clause = nds.BOLTED.at(editions)
    words = (
        f"Bolt the {n} plies with 1/2 in bolts (diameter: common practice), {rows} {'row' if rows == 1 else 'rows'}, "
        f"{BOLT.spacing * D:g} to {most:g} in apart in the row, washers under heads and nuts, faces drawn "
        f"together; ends {BOLT.end[0] * D:g} to {BOLT.end[1] * D:g} in ({clause})."
    )
    return _pattern("bolted", "1/2 in bolt", D, n * t, rows, most, BOLT, clause, words)


def _rows(d: float, t: float, D: float, rule: Rule) -> int:
    """Two where the depth is over three thicknesses, and enough that edge and row distances reach across."""
    least = 2 if d > ROW_RULE * t + 1e-9 else 1
    edge, gap = rule.edge[1] * D, rule.rows[1] * D
    return max(least, 1 + math.ceil(max(0.0, d - 2 * edge) / gap - 1e-9))


def _pattern(
    kind: str,
    name: str | None,
    D: float,
    length: float,
    rows: int,
    most: float,
    rule: Rule,
    clause: ClauseRef,
    words: str,
) -> Fastening:
    def pair(diameters: tuple[float, float]) -> tuple[float, float]:
        return diameters[0] * D, diameters[1] * D

    return Fastening(
        kind,
        name,
        D,
        length,
        rows,
        most,
        rule.spacing * D,
        pair(rule.end),
        pair(rule.rows),
        pair(rule.edge),
        clause,
        (words,),
    )
