"""Takeoff rules: the governing schedule in, lines and cut plans out.

Every line names its member and its rule.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from estimating.core.lines import DIVISIONS, Line
from estimating.core.schedule import Schedule, read_schedule
from estimating.core.settings import DEFAULT_SETTINGS, TakeoffSettings
from estimating.core.stock import CutPlan
from estimating.core.takeoff.builder import Sheet
from estimating.core.takeoff.finishes import finish_lines
from estimating.core.takeoff.footings import footing_lines
from estimating.core.takeoff.framing import beam_lines, opening_framing, post_lines
from estimating.core.takeoff.opening import cleanup_lines, demolition_lines, protection_lines
from estimating.core.takeoff.services import delivery_lines, fee_lines, trade_lines
from estimating.core.takeoff.shoring import shoring_lines

EXCLUSIONS = (
    "Removal of asbestos, lead or other hazardous material that sampling finds.",
    "Repair of hidden damage: rot, insects, undersized or cut framing, settled footings.",
    "Moving gas lines, service panels, drains, or services that the survey did not show.",
    "Levelling of floors or ceilings that have sagged, and cracks that appear when they are raised.",
    "Matching of textured ceilings and of floor coverings that are no longer made, beyond the allowances.",
    "Living elsewhere, storage and moving of furniture.",
    "Changes that the engineer's sealed design or the authority asks for after this takeoff.",
)
STANDING_CAUTIONS = (
    "PRELIMINARY: not for construction. An engineer's sealed design replaces these sizes and quantities.",
    (
        "Local codes, the authority and licensed practice decide; a wall is treated as bearing until shown"
        " otherwise."
    ),
    "Nobody opens a wall without shoring checked, permit issued, hazards and services cleared.",
)


@dataclass(frozen=True, slots=True)
class Takeoff:
    """Lines by division and order of work, cut plans, and the sentences that go with them."""

    lines: tuple[Line, ...]
    cuts: tuple[CutPlan, ...]
    cautions: tuple[str, ...]
    assumptions: tuple[str, ...]
    exclusions: tuple[str, ...]
    settings: TakeoffSettings


def takeoff(schedule: Mapping[str, Any] | Schedule, settings: TakeoffSettings = DEFAULT_SETTINGS) -> Takeoff:
    """All lines for one wall.

    Args: the plain data of a schedule (lengths in inches) and the contractor's settings.
    Raises InputError for a schedule that cannot be read; OutOfScope for a family not covered yet.
    """
    read = schedule if isinstance(schedule, Schedule) else read_schedule(schedule)
    sheet = Sheet(read, settings)
    for caution in STANDING_CAUTIONS:
        sheet.caution(caution)
    protection_lines(sheet)
    shoring_lines(sheet)
    demolition_lines(sheet)
    footing_lines(sheet)
    beam_lines(sheet)
    post_lines(sheet)
    opening_framing(sheet)
    finish_lines(sheet)
    trade_lines(sheet)
    fee_lines(sheet)
    delivery_lines(sheet)
    cleanup_lines(sheet)
    order = list(DIVISIONS)
    lines = sorted(sheet.lines, key=lambda line: (order.index(line.division), line.cost_code))
    return Takeoff(
        tuple(lines), tuple(sheet.cuts), tuple(sheet.cautions), tuple(sheet.assumptions), EXCLUSIONS, settings
    )
