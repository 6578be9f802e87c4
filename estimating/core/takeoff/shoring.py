"""Shoring walls on each side: lumber with its reuse, bracing, shims, labour."""

from __future__ import annotations

import math

from estimating.core.lines import Rule
from estimating.core.schedule import ShoreSide
from estimating.core.sections import Section
from estimating.core.stock import Cut
from estimating.core.takeoff.builder import STOCK_SOURCE, Sheet

# 200 lf of 2x6 wall, 8 ft high, in 24 hours of work: a how-to page, new work; not a published rate.
SHORE_HOURS_PER_FT = 0.12
SHORE_STRIKE_PER_FT = 0.04


def shoring_lines(sheet: Sheet) -> None:
    """Headers, shores, sills and braces of each side; twice where the level below is shored too."""
    sides = sheet.schedule.shoring
    engineered = [each for each in sheet.schedule.not_measured if is_shoring(each)]
    for each in engineered:
        mark = each.split(" ", 1)[0]
        sheet.add(
            "shoring-engineered",
            1,
            [mark],
            Rule("Shoring designed by the engineer has no sizes here; an allowance until it is priced"),
            allowance=True,
            detail=each,
        )
    if engineered and not sides:
        sheet.caution("Shoring is by the engineer's own design: it is an allowance, not a measured quantity.")
        return
    if not sides:
        sheet.caution(
            "The schedule holds no shoring plan: nothing is priced for shoring, and no wall opens without it."
        )
        return
    settings = sheet.settings
    pieces: list[tuple[Section, Cut]] = []
    feet = 0.0
    for side in sides:
        levels = 2 if side.reshore else 1
        feet += side.length / 12 * levels
        pieces += _side(sheet, side) * levels
        if side.reshore:
            sheet.assume(
                f"{side.mark}: the shores on the level below repeat those above, at the same height."
            )
    marks = [side.mark for side in sides]
    sheet.lumber(
        "01-60",
        pieces,
        "Headers and sills as long as the shoring wall (jointed over a shore where longer than stock),"
        " shores by"
        f" count, one diagonal brace every {settings.brace_spacing_ft:g} ft and at each end",
        uses=settings.shoring_uses,
        source=f"shoring plan; {STOCK_SOURCE}; braces common practice",
    )
    shores = sum(side.shores * (2 if side.reshore else 1) for side in sides)
    sheet.add(
        "shore-shims", math.ceil(shores / 24), marks, Rule("One box of wedges and shims for up to 24 shores")
    )
    sheet.labour(
        "labour-shore",
        feet,
        SHORE_HOURS_PER_FT + SHORE_STRIKE_PER_FT,
        "ft of shoring wall",
        marks,
        source="framing example of a how-to page for building, a third of it for taking down: common"
        " practice",
    )


def is_shoring(named: str) -> bool:
    """Whether a member that is only named (`S1 ...`) is a shoring wall."""
    return named.startswith("S")


def _side(sheet: Sheet, side: ShoreSide) -> list[tuple[Section, Cut]]:
    longest = sheet.settings.stock_longest_ft * 12.0
    pieces: list[tuple[Section, Cut]] = []
    for section, use in ((side.header, "header"), (side.sill, "sill")):
        for ply in range(section.plies):
            pieces += [
                (section, Cut(side.mark, part, f"{use} ply {ply + 1}"))
                for part in _parts(side.length, longest)
            ]
    for n in range(side.shores):
        for _ in range(side.shore.plies):
            pieces.append((side.shore, Cut(side.mark, side.height, f"shore {n + 1}")))
    braces = math.ceil(side.length / (sheet.settings.brace_spacing_ft * 12)) + 1
    brace = Section("sawn", 1, side.shore.ply_width, side.shore.depth, side.shore.species, side.shore.grade)
    diagonal = min(side.height * math.sqrt(2), longest)
    pieces += [(brace, Cut(side.mark, diagonal, f"brace {n + 1}")) for n in range(braces)]
    return pieces


def _parts(total: float, longest: float) -> list[float]:
    count = max(math.ceil(round(total / longest, 9)), 1)
    return [total / count] * count
