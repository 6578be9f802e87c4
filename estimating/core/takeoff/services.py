"""Engineer, permit, inspections, delivery, and the trades that move what is in the wall."""

from __future__ import annotations

from estimating.core.lines import Rule
from estimating.core.takeoff.builder import Sheet

LONG_DELIVERY_IN = 20 * 12.0


def fee_lines(sheet: Sheet) -> None:
    """Engineer, permit fee and the hours spent with inspectors."""
    settings, mark = sheet.settings, [sheet.schedule.beam.mark]
    if settings.engineer:
        sheet.add(
            "engineer-design",
            1,
            mark,
            Rule("Every result is preliminary until an engineer's sealed design replaces it"),
            allowance=True,
        )
        sheet.add(
            "engineer-review",
            1,
            mark,
            Rule(
                "The engineer looks before the work is covered, where the authority or the design asks for it"
            ),
            allowance=True,
        )
    else:
        sheet.caution(
            "No engineer is priced: a written acceptance of a prescriptive design must stand in its place."
        )
    if settings.permit:
        sheet.add(
            "permit-fee", 1, ["wall"], Rule("The fee of the authority, as it publishes it"), allowance=True
        )
    else:
        sheet.caution(
            "No permit is priced: taking out a bearing wall needs one wherever a building code is in force."
        )
    if settings.inspections:
        sheet.labour("inspection-attendance", settings.inspections, 1.0, "inspections attended", ["wall"])


def trade_lines(sheet: Sheet) -> None:
    """Allowances for licensed trades. What is in the wall is known once it has been surveyed."""
    settings = sheet.settings
    known = Rule("An allowance until the wall has been surveyed and the licensed trade has given its price")
    if settings.electrical:
        sheet.add("electrical-move", 1, ["wall"], known, allowance=True)
    if settings.plumbing:
        sheet.add("plumbing-move", 1, ["wall"], known, allowance=True)
    if settings.ducts:
        sheet.add("duct-move", 1, ["wall"], known, allowance=True)
    sheet.add(
        "alarm",
        settings.alarms,
        ["house"],
        Rule(
            "Alarms that a permit for work inside a house may ask for",
            "IRC 2021 R314.2.2 and R315.2.2, memory; the authority answers"
            if sheet.schedule.code == "us"
            else "common practice; the authority answers",
        ),
        allowance=True,
    )


def delivery_lines(sheet: Sheet) -> None:
    """One trip for the material, one more where a piece is longer than an ordinary load."""
    longest = max((plan.longest for plan in sheet.cuts), default=0.0)
    mark = [sheet.schedule.beam.mark]
    sheet.add("delivery", 1, mark, Rule("One delivery of lumber, board and concrete"))
    if longest > LONG_DELIVERY_IN:
        sheet.add(
            "delivery-long",
            1,
            mark,
            Rule(f"A piece of {sheet.show(longest)} is longer than an ordinary load of 20 ft"),
        )
