"""How the plies of a built-up post are held together in Canada: what its strength by CSA O86 6.5.5.4 rests on, and
the least of NBC 9.17.4.2. Lengths in mm.
"""

from __future__ import annotations

from structure.core.clauses import Clause, Editions
from structure.core.codes.ca.fasteners import BUILT_UP_COLUMNS
from structure.core.materials.ca_wood import CaWoodSection
from structure.core.members.ca_fastener import USUAL_BOLT, held
from structure.core.members.post_fastening import BOLT, LAST_PLY, MAX_SPACING, NAIL, ROW_RULE, Fastening, Rule

BUILT_UP = Clause("CSA O86", "6.5.5.4")


def ca_fastening_of(section: CaWoodSection, fastened: str, editions: Editions) -> Fastening | None:
    """The largest spacing and fewest rows that both clauses allow; None for what they do not name.

    CSA O86 6.5.5.4 from memory: distances as of the same rule in the United States.
    """
    if section.plies < 2 or fastened not in ("nailed", "bolted"):
        return None
    return _nailed(section, editions) if fastened == "nailed" else _bolted(section, editions)


def _nailed(section: CaWoodSection, editions: Editions) -> Fastening:
    t, n = section.ply_width, section.plies
    least = held().content["column"]["nail"]
    reach = (n - 1 + LAST_PLY) * t
    fitting = [
        row for row in held().content["nail"] if max(reach, least["shortest"]) <= row["length"] <= n * t
    ]
    rows = 2 if section.depth > ROW_RULE * t + 1e-9 else 1
    most = min(MAX_SPACING * t, least["spacing"])
    if fitting:
        name, length, d = str(fitting[0]["name"]), float(fitting[0]["length"]), float(fitting[0]["diameter"])
        told = f"{name} nails"
    else:
        name, length, d = "", reach, float(held().content["nail"][-1]["diameter"])
        told = f"nails {reach:.0f} to {n * t:.0f} mm long, which no common nail held is: bolt it, or ask the engineer"
    return _made("nailed", name or None, d, length, rows, most, NAIL, told, section, editions)


def _bolted(section: CaWoodSection, editions: Editions) -> Fastening:
    t, n = section.ply_width, section.plies
    rows = 2 if section.depth > ROW_RULE * t + 1e-9 else 1
    most = min(MAX_SPACING * t, held().content["column"]["bolt"]["spacing"])
    told = f"{USUAL_BOLT:g} mm bolts (diameter: common practice), washers under heads and nuts"
    return _made(
        "bolted", f"{USUAL_BOLT:g} mm bolt", USUAL_BOLT, n * t, rows, most, BOLT, told, section, editions
    )


def _made(
    kind: str,
    name: str | None,
    d: float,
    length: float,
    rows: int,
    most: float,
    rule: Rule,
    told: str,
    section: CaWoodSection,
    editions: Editions,
) -> Fastening:
    def pair(diameters: tuple[float, float]) -> tuple[float, float]:
        return diameters[0] * d, diameters[1] * d

    clause = BUILT_UP.at(editions)
    end, edge = pair(rule.end), pair(rule.edge)
    words = (
        f"{section.plies} plies with {told}, {rows} {'row' if rows == 1 else 'rows'}, at most {most:g} mm apart in "
        f"the row, from alternate faces; ends {end[0]:.0f} to {end[1]:.0f} mm, edges {edge[0]:.0f} mm or more "
        f"({clause}, from memory, and {BUILT_UP_COLUMNS.at(editions)})."
    )
    return Fastening(
        kind,
        name,
        d,
        length,
        rows,
        most,
        rule.spacing * d,
        end,
        pair(rule.rows),
        edge,
        clause,
        (words,),
        "ca",
    )
