"""Steel beams and posts by weight, the plates under them, flitch plates and bolts, and how it all gets in."""

from __future__ import annotations

import math

from estimating.core.lines import Rule
from estimating.core.schedule import Beam, BearingPlate, Post
from estimating.core.sections import MM, Plates, Section
from estimating.core.stock import Cut
from estimating.core.takeoff.builder import STOCK_SOURCE, Sheet
from estimating.core.units import area, weight
from structure.core.members.carry_in import PER_PERSON

STEEL_LB_IN3 = 490 / 1728.0
CREW_MOST = 6  # people at one piece; common practice
CARRY_HOURS = 0.5  # each of them
SET_HOURS_PER_100LB = 0.6
NAILER = {
    "us": Section("sawn", 1, 1.5, 5.5, "SPF", "No.2"),
    "ca": Section("sawn", 1, 38 / MM, 140 / MM, "SPF", "No.1/No.2"),
}
NAILER_BOLT_IN = 24.0
POST_PLATES = 2
COMMON = "common practice"


def steel_beam_lines(sheet: Sheet, beam: Beam) -> None:
    """A rolled or hollow beam: its steel, nailer, plates, shop work, primer, and the labour to set it."""
    section, marks = beam.section, [beam.mark]
    pounds = steel_member(sheet, section, beam.length, 1, marks)
    _bearings(sheet, beam)
    if not sheet.schedule.flush:
        _nailer(sheet, beam)
    sheet.labour("labour-steel", pounds / 100, SET_HOURS_PER_100LB, "hundreds of lb of steel", marks)
    carry_lines(sheet, pounds, marks)


def steel_member(sheet: Sheet, section: Section, inches: float, count: int, marks: list[str]) -> float:
    """The steel of `count` equal pieces, their shop work and primer. The weight of one piece [lb]."""
    steel = section.steel
    assert steel is not None  # noqa: S101 - asked for only with a steel section
    pounds = steel.pounds_ft * inches / 12
    net, unit = weight(pounds * count, sheet.metric)
    sheet.add(
        section.code,
        net,
        marks,
        Rule(f"{steel.pounds_ft:g} lb to the foot by the length, cut in the shop, no waste", "shape table"),
        unit=unit,
        detail=f"{count} of {section.product}, {sheet.show(inches)}",
        description=f"Steel {section.product}",
    )
    sheet.add(
        "steel-shop",
        count,
        marks,
        Rule("Cutting to length, holes and welding of its plates, a lot for each member"),
        allowance=True,
    )
    painted, unit = area(steel.surface(section.depth) * inches * count, sheet.metric)
    sheet.add(
        "steel-prime", painted, marks, Rule("All faces of the shape by its length, one coat"), unit=unit
    )
    return pounds


def carry_lines(sheet: Sheet, pounds: float, marks: list[str]) -> None:
    """People who carry a piece in, and a crane where there would be too many of them."""
    people = math.ceil(round(pounds / PER_PERSON, 6))
    shown, unit = weight(pounds, sheet.metric)
    if people > CREW_MOST:
        sheet.add(
            "crane",
            1,
            marks,
            Rule(
                f"A piece of {shown:.0f} {unit} is more than {CREW_MOST} people carry at {PER_PERSON:g} lb each"
            ),
            allowance=True,
        )
        sheet.caution(
            f"{', '.join(marks)}: {shown:.0f} {unit} in one piece; how it is lifted and swung in is planned first."
        )
    hands = min(people, CREW_MOST)
    sheet.labour("labour-carry", hands, CARRY_HOURS, f"people at {PER_PERSON:g} lb each", marks)


def _bearings(sheet: Sheet, beam: Beam) -> None:
    """The plates that the design gives; where it gives none, an allowance for one at each end."""
    name = "under the steel beam"
    if beam.bearings:
        _plates(sheet, beam.bearings, [beam.mark], f"Bearing plates {name}")
    else:
        rule = Rule("One at each end; an allowance until the design gives their size")
        words = f"Bearing plate {name}"
        sheet.add("steel-plates", 2, [beam.mark], rule, allowance=True, description=words)


def _plates(sheet: Sheet, plates: tuple[BearingPlate, ...], marks: list[str], words: str) -> None:
    net, unit = weight(sum(plate.volume for plate in plates) * STEEL_LB_IN3, sheet.metric)
    rule = Rule("Plates of the schedule by weight, steel at 490 lb/ft3", "schedule")
    sheet.add("steel-plate", net, marks, rule, unit=unit, description=words)


def _nailer(sheet: Sheet, beam: Beam) -> None:
    """Joists are nailed to wood: a plate bolted to the top of a dropped steel beam."""
    sheet.lumber(
        "06-10",
        [(NAILER[sheet.schedule.code], Cut(beam.mark, beam.length, "nailer"))],
        "A nailer along the top of the steel beam, to which the joists are fixed",
        source=f"{COMMON}; {STOCK_SOURCE}",
    )
    bolts = 2 * (math.ceil(round(beam.length / NAILER_BOLT_IN, 9)) + 1)
    rule = Rule(f"Two rows of bolts at {NAILER_BOLT_IN:g} in hold the nailer; the engineer's detail governs")
    sheet.add("bolt-set", bolts, [beam.mark], rule, description="Bolt of the nailer with nut and two washers")
    sheet.add("steel-hole", bolts, [beam.mark], Rule("A hole in the steel for each bolt of the nailer"))


def flitch_lines(sheet: Sheet, beam: Beam, plates: Plates) -> None:
    """Plates by weight, holes and bolts through everything. The plies are lumber like any other."""
    marks = [beam.mark]
    volume = plates.count * plates.thickness * plates.depth * beam.length
    pounds = volume * STEEL_LB_IN3
    net, unit = weight(pounds, sheet.metric)
    sheet.add(
        "steel-plate",
        net,
        marks,
        Rule("Flitch plates, thickness by depth by the length of the beam, steel at 490 lb/ft3", "schedule"),
        unit=unit,
        description=f"Flitch plates {plates.grade}".rstrip(),
        detail=f"{plates.count} of {plates.thickness:g} in by {sheet.show(plates.depth)}, {sheet.show(beam.length)}",
    )
    sheet.add(
        "steel-shop", plates.count, marks, Rule("Cutting of each plate, a lot for each"), allowance=True
    )
    if plates.bolts:
        rule = Rule(
            "As the bolting rule of the schedule counts them: at the supports and along the beam", "schedule"
        )
        name = f"Bolt {plates.bolt:g} in of the flitch beam with nut and two washers"
        sheet.add("bolt-set", plates.bolts, marks, rule, description=name)
        holes = plates.bolts * plates.count
        sheet.add("steel-hole", holes, marks, Rule("A hole in each plate for each bolt"))
        sheet.labour("labour-steel", plates.bolts, 0.1, "bolts through the beam", marks)
    else:
        rule = Rule(
            "The bolts of the flitch beam are the engineer's; an allowance until their number is known"
        )
        sheet.add("ply-fastening", 1, marks, rule, allowance=True, description="Bolts of the flitch beam")
        sheet.caution(f"The bolting of {beam.mark} is an allowance until its number of bolts is entered.")
    carry_lines(sheet, pounds / plates.count, marks)


def steel_post_lines(sheet: Sheet, posts: list[Post]) -> None:
    """Pipes and tubes by weight, a cap and a base plate each, anchors, and the labour to set them."""
    for post in posts:
        marks = [post.mark]
        pounds = steel_member(sheet, post.section, post.height, 1, marks)
        if post.plates:
            _plates(sheet, post.plates, marks, "Base plate of the steel post")
        rule = Rule("Cap and base plate welded on; an allowance until the design gives the size of each")
        name = "Cap plate of the steel post" if post.plates else "Cap and base plate of the steel post"
        missing = POST_PLATES - len(post.plates)
        sheet.add("steel-plates", missing, marks, rule, allowance=True, description=name)
        sheet.add(
            "anchor-set", 4, marks, Rule("Four anchors in the base plate; the engineer's detail governs")
        )
        sheet.labour("labour-steel", pounds / 100, SET_HOURS_PER_100LB, "hundreds of lb of steel", marks)
        carry_lines(sheet, pounds, marks)
