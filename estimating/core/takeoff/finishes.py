"""Closing up: board, corner bead, compound, floor patch, trim, paint."""

from __future__ import annotations

import math

from estimating.core.lines import Rule
from estimating.core.numbers import ZERO, measured, whole_up
from estimating.core.takeoff.builder import Sheet
from estimating.core.units import area, length, weight

SHEET_FT2 = 32.0
TAPE_FT_PER_SHEET = 24.0
SCREW_LB_PER_SHEET = 0.5 / 3
COMPOUND_LB_PER_FT2 = 0.14
PAINT_FT2_PER_GAL = 350.0
PAINT_M2_PER_L = 8.6
END_RETURN_IN = 24.0
COAT_HOURS_FT2 = 0.006


def finish_lines(sheet: Sheet) -> None:
    """Board, floor, trim and paint in the order they are done."""
    ceiling, walls = _board_area(sheet)
    _board(sheet, ceiling, walls)
    _floor(sheet)
    _trim(sheet)
    _paint(sheet, ceiling + walls)


def _board_area(sheet: Sheet) -> tuple[float, float]:
    """Square inches of board on the ceiling and on the beam, posts and ends of the opening."""
    schedule, settings = sheet.schedule, sheet.settings
    section = schedule.beam.section
    strip = settings.ceiling_strip_flush_in if schedule.flush else settings.ceiling_strip_in
    ceiling = schedule.opening * strip
    wrap = (
        0.0
        if schedule.flush
        else schedule.opening * (2 * section.depth + section.plies * section.ply_width + 1.0)
    )
    ends = 2 * schedule.wall_height * (2 * END_RETURN_IN + schedule.wall_thickness)
    return ceiling, wrap + ends


def _board(sheet: Sheet, ceiling: float, walls: float) -> None:
    settings, marks = sheet.settings, ["wall", sheet.schedule.beam.mark]
    feet = (ceiling + walls) / 144
    net = measured(feet / SHEET_FT2)
    sheets = whole_up(feet * (1 + settings.board_waste_percent / 100) / SHEET_FT2)
    where = (
        "a strip of ceiling"
        + ("" if sheet.schedule.flush else ", both faces and the underside of the beam")
        + f", and {END_RETURN_IN:g} in on both faces of each end of the opening"
    )
    sheet.add(
        "board-half-4x8",
        net,
        marks,
        Rule(
            f"Area of {where}, by 32 ft2, {settings.board_waste_percent:g} % more, whole sheets",
            "add 10 to 15 %, how-to pages",
        ),
        waste=max(sheets - net, ZERO),
    )
    count = float(sheets)
    net, unit = weight(count * SCREW_LB_PER_SHEET, sheet.metric)
    sheet.add("board-screws", net, marks, Rule("Half a pound for three sheets", "how-to pages"), unit=unit)
    net, unit = length(count * TAPE_FT_PER_SHEET * 12, sheet.metric)
    sheet.add("board-tape", net, marks, Rule("24 ft for a sheet", "how-to pages"), unit=unit)
    net, unit = weight(feet * COMPOUND_LB_PER_FT2, sheet.metric)
    sheet.add(
        "board-compound",
        net,
        marks,
        Rule("14 lb for 100 ft2, the higher of two figures that disagree", "how-to pages"),
        unit=unit,
    )
    corners = 4 * sheet.schedule.wall_height + (0.0 if sheet.schedule.flush else 2 * sheet.schedule.opening)
    net, unit = length(corners, sheet.metric)
    total, _ = length(corners * 1.1, sheet.metric)
    sheet.add(
        "corner-bead",
        net,
        marks,
        Rule("Two corners at each end of the opening and two along a dropped beam, 10 % more"),
        unit=unit,
        waste=total - net,
    )
    sheet.labour("labour-board", feet, 0.07, "ft2 of board hung, taped and finished", marks)


def _floor(sheet: Sheet) -> None:
    schedule, settings = sheet.schedule, sheet.settings
    if not settings.floor_patch:
        return
    patch = schedule.opening * (schedule.wall_thickness + 4.0)
    net, unit = area(patch, sheet.metric)
    total, _ = area(patch * (1 + settings.floor_waste_percent / 100), sheet.metric)
    sheet.add(
        "floor-covering",
        net,
        ["wall"],
        Rule(
            f"Length of the opening by the wall thickness and 2 in each side,"
            f" {settings.floor_waste_percent:g} %"
            " more; whether a match can be had is open"
        ),
        unit=unit,
        waste=total - net,
        allowance=True,
    )
    sheet.labour("labour-floor", patch / 144, 0.25, "ft2 of floor patch", ["wall"])


def _trim(sheet: Sheet) -> None:
    schedule = sheet.schedule
    run = 2 * (2 * END_RETURN_IN + schedule.wall_thickness)
    net, unit = length(run, sheet.metric)
    total, _ = length(run * 1.15, sheet.metric)
    sheet.add(
        "trim",
        net,
        ["wall"],
        Rule("Baseboard round both ends of the opening, 15 % more"),
        unit=unit,
        waste=total - net,
        allowance=True,
    )
    sheet.labour("labour-trim", run / 12, 0.10, "ft of trim", ["wall"])


def _paint(sheet: Sheet, board: float) -> None:
    settings = sheet.settings
    if not settings.paint:
        return
    feet = board / 144 * settings.paint_spread * settings.paint_coats
    spread, unit = (PAINT_M2_PER_L, "L") if sheet.metric else (PAINT_FT2_PER_GAL, "gal")
    coats, _ = area(feet * 144, sheet.metric)
    sheet.add(
        "paint",
        math.ceil(round(float(coats) / spread, 6)),
        ["wall"],
        Rule(
            f"Patched area times {settings.paint_spread:g}, {settings.paint_coats} coats, {spread:g}"
            f" {'m2' if sheet.metric else 'ft2'} to the {unit}, whole {unit}",
            "common practice; the label on the tin governs",
        ),
        unit=unit,
        allowance=True,
    )
    sheet.labour("labour-paint", feet, COAT_HOURS_FT2, "ft2 of coat", ["wall"])
