"""Rows and spacing of the fasteners of a built-up beam by the Canadian code: prescribed, fitting, carrying. mm."""

from __future__ import annotations

from structure.core.clauses import Clause, Editions
from structure.core.members.ca_fastener import held
from structure.core.members.fastener import Fastener
from structure.core.members.ply_pattern import Least, Pattern

# Spacings that a crew measures out, widest first; common practice, with the widest of the code.
STEPS = (1200.0, 900.0, 600.0, 450.0, 400.0, 300.0, 200.0, 150.0, 100.0)


def least_pattern(family: str, fastener: Fastener, depth: float, editions: Editions) -> Least | None:
    """The least pattern laid down for this fastener, or None where it is shorter or thinner than any names.

    Sawn: NBC 9.23.8.3. Composite lumber: common practice.
    """
    through = fastener.length is None
    wood = "sawn" if family == "sawn" else "composite"
    for row in held().content["pattern"]:
        fits = through or (fastener.length or 0.0) >= row["shortest"] - 1e-9
        thick = fastener.diameter >= row["thinnest"] - 1e-9
        if row["family"] == wood and bool(row["through"]) == through and fits and thick:
            rows = next(int(count) for up_to, count in row["rows"] if depth <= up_to)
            clause = Clause(*row["clause"]).at(editions)
            return Least(
                row["fastener"], row["thinnest"], rows, row["spacing"], rows, clause, row["mark"], "ca"
            )
    return None


def ends(family: str, fastener: Fastener) -> tuple[float, float]:
    """Least and most distance of the first fastener from the end of a piece [mm]."""
    least, _ = distances(fastener)
    wood = "sawn" if family == "sawn" else "composite"
    through = fastener.length is None
    for row in held().content["pattern"]:
        if row["family"] == wood and bool(row["through"]) == through:
            low, high = row["end"]
            return max(float(low), least["end"]), float(high)
    return least["end"], least["end"]


def distances(fastener: Fastener) -> tuple[dict[str, float], str]:
    """End, edge, in-row and between-row distances [mm] of a fastener, and how they are known."""
    row = held().content["distances"]["nail" if fastener.kind == "nail" else "bolt"]
    return {key: value * fastener.diameter for key, value in row.items() if key != "mark"}, str(row["mark"])


def most_rows(fastener: Fastener, depth: float) -> int:
    """Rows that fit in the depth at the least distances; none if not even one fits."""
    least, _ = distances(fastener)
    if depth < 2 * least["edge"] - 1e-9:
        return 0
    return 1 + int((depth - 2 * least["edge"]) / least["between_rows"] + 1e-9)


def pattern_of(
    family: str, fastener: Fastener, rows: int, spacing: float, depth: float, length: float
) -> Pattern:
    """A pattern over the length of a beam: every row starts and ends as far from its end as the code lets it."""
    least, _ = distances(fastener)
    edge, end = least["edge"], ends(family, fastener)[0]
    between = (depth - 2 * edge) / (rows - 1) if rows > 1 else 0.0
    run = max(0.0, length - 2 * end)
    spaces = -int(-(run / spacing - 1e-9) // 1)
    return Pattern(rows, spacing, rows * (spaces + 1), edge, between, end)


def widest_spacing(fastener: Fastener, least: Least, rows: int, per_length: float) -> float | None:
    """The widest measured spacing at which `rows` give `per_length` fasteners [1/mm]; None if none does."""
    return next((s for s in allowed(fastener, least) if rows / s >= per_length - 1e-12), None)


def allowed(fastener: Fastener, least: Least) -> list[float]:
    """Measured spacings from that of the least pattern down to what does not split the wood."""
    closest = distances(fastener)[0]["in_row"]
    return [s for s in STEPS if closest - 1e-9 <= s <= least.spacing + 1e-9]


def in_words(fastener: Fastener, pattern: Pattern, family: str, plies: int) -> str:
    """What the crew does: rows, spacing, distances, from which side."""
    rows = f"{pattern.rows} {'row' if pattern.rows == 1 else 'rows'}"
    if fastener.kind == "bolt":
        told = f"{fastener.label}s through all {plies} plies, washers under head and nut"
    elif plies > 2:
        told = f"{fastener.label}s, every further ply fastened to the one before from its own face"
    else:
        told = f"{fastener.label}s"
    low, high = ends(family, fastener)
    end = f"{low:.0f} to {high:.0f} mm" if high > low else f"{low:.0f} mm or more"
    stagger = ", staggered" if pattern.rows > 1 else ""
    return (
        f"{rows} of {told}, {pattern.spacing:g} mm apart in the row{stagger}; {pattern.edge:.0f} mm or more from the "
        f"edges, the first {end} from the end of each piece; joints of pieces stand over supports."
    )
