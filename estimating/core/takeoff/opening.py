"""Taking the wall out: protection, dust, demolition, disposal."""

from __future__ import annotations

import math

from estimating.core.lines import Rule
from estimating.core.numbers import measured
from estimating.core.takeoff.builder import Sheet
from estimating.core.units import area, volume

# Loose debris takes about this many times its solid volume. common practice.
BULKING = 1.5
SOIL_BULKING = 1.25
BOARD_IN, PLASTER_IN = 0.5, 0.875
STUD_SPACING_IN = 16.0
BIN_IN3 = 10 * 46656.0


def protection_lines(sheet: Sheet) -> None:
    """Screens across both sides of the work zone, floor protection, air scrubber."""
    schedule, settings = sheet.schedule, sheet.settings
    if not settings.dust_screens:
        return
    zone = settings.work_zone_ft * 12
    screen = 2 * (schedule.opening + 2 * zone) * schedule.wall_height
    net, unit = area(screen, sheet.metric)
    total, _ = area(screen * 1.1, sheet.metric)
    sheet.add(
        "dust-screen",
        net,
        ["wall"],
        Rule(
            f"A screen round the work zone on each side, {settings.work_zone_ft:g} ft deep, and 10 % for laps"
        ),
        unit=unit,
        waste=total - net,
    )
    floor = 2 * zone * schedule.opening + 20 * 12 * 36
    net, unit = area(floor, sheet.metric)
    total, _ = area(floor * 1.1, sheet.metric)
    sheet.add(
        "floor-protection",
        net,
        ["wall"],
        Rule("The work zone on both sides and a path of 20 ft by 3 ft to the door, 10 % for laps"),
        unit=unit,
        waste=total - net,
    )
    sheet.add("air-scrubber", 3, ["wall"], Rule("Three days: demolition, cutting, sanding"), allowance=True)
    sheet.labour("labour-protect", screen / 144, 0.015, "ft2 of screen", ["wall"])


def demolition_lines(sheet: Sheet) -> None:
    """Wall out, carried to the bin, hauled away. Sampling for asbestos and lead comes first."""
    schedule, settings = sheet.schedule, sheet.settings
    wall = schedule.opening * schedule.wall_height
    sheet.labour("labour-demolish", wall / 144, 0.05, "ft2 of wall", ["wall"])
    lining = BOARD_IN if settings.lining == "board" else PLASTER_IN
    depth = max(schedule.wall_thickness - 2 * lining, 1.5)
    studs = math.ceil(schedule.opening / STUD_SPACING_IN) + 1
    solid = 2 * wall * lining + (studs * schedule.wall_height + 3 * schedule.opening) * 1.5 * depth
    strip = settings.ceiling_strip_flush_in if schedule.flush else settings.ceiling_strip_in
    solid += schedule.opening * strip * lining
    loose = solid * BULKING
    new = [f for f in schedule.footings if not f.existing]
    holes = [along * across for along, across in (f.hole(settings.overdig_in) for f in new)]
    if schedule.slab_cut:
        loose += sum(holes) * settings.slab_in * BULKING
    loose += sum(hole * f.thickness for hole, f in zip(holes, new, strict=True)) * SOIL_BULKING
    net, unit = volume(loose, sheet.metric)
    marks = ["wall", *(f.mark for f in new)]
    rule = Rule(
        f"Both linings, studs at {STUD_SPACING_IN:g} in and three plates of the opening, the ceiling"
        f" strip, broken slab"
        f" ({BULKING:g} times their solid volume) and soil ({SOIL_BULKING:g} times)"
    )
    sheet.add("disposal", net, marks, rule, unit=unit)
    sheet.add(
        "bin", math.ceil(round(loose / BIN_IN3, 6)), marks, Rule("One bin for up to 10 yd3 of loose debris")
    )
    if settings.hazard_survey:
        sheet.add(
            "hazard-sampling",
            1,
            ["wall"],
            Rule(
                "Lining, compound, flooring and paint are sampled before anything is opened",
                "health and environment rules of the place; clearing what is found is not priced",
            ),
            allowance=True,
        )


def cleanup_lines(sheet: Sheet) -> None:
    """Clean-up by the area of the work zone; supervision by the hours of everything before it."""
    schedule, settings = sheet.schedule, sheet.settings
    zone = 2 * settings.work_zone_ft * 12 * schedule.opening
    sheet.labour("labour-clean", zone / 144, 0.02, "ft2 of work zone", ["wall"])
    hours = measured(float(sheet.labour_hours) * settings.supervision_percent / 100)
    sheet.add(
        "labour-supervise",
        hours,
        ["wall"],
        Rule(
            f"{settings.supervision_percent:g} % of {sheet.labour_hours} labour hours, the contractor's"
            f" own figure"
        ),
    )
