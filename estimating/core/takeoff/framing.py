"""Beam, posts, the framing at the ends of the opening, connectors, hangers, straps."""

from __future__ import annotations

import math

from estimating.core.lines import Rule
from estimating.core.numbers import whole_up
from estimating.core.schedule import Beam, Post
from estimating.core.sections import MM, Section
from estimating.core.stock import Cut
from estimating.core.takeoff.builder import STOCK_SOURCE, Sheet
from estimating.core.takeoff.fasteners import (
    Fastening,
    beam_fastening,
    counted_fastening,
    post_fastening,
)
from estimating.core.takeoff.shoring import is_shoring
from estimating.core.takeoff.steel import flitch_lines, steel_beam_lines, steel_post_lines
from estimating.core.units import weight

# Weight of dry softwood and engineered lumber, lb/in3: 35 and 42 lb/ft3. memory, for lifting only.
WOOD_LB_IN3 = {"sawn": 35 / 1728.0, "glulam": 36 / 1728.0}
ENGINEERED_LB_IN3 = 42 / 1728.0
LIFT_ABOVE_LB = 150.0
JOIST_SPACING_IN = 16.0
NAIL_WASTE = 1.10
BLOCKING_IN = 96.0  # blocking may be jointed anywhere, so it comes out of short stock


def beam_lines(sheet: Sheet) -> None:
    """The beam by its kind, hangers, lifting and the labour to set it."""
    beam = sheet.schedule.beam
    if beam.section.steel is not None:
        steel_beam_lines(sheet, beam)
        piece = beam.section.steel.pounds_ft * beam.length / 12
    else:
        piece = _ply_lines(sheet, beam)
    if sheet.settings.lift and (piece > LIFT_ABOVE_LB or sheet.schedule.flush):
        sheet.add(
            "beam-lift",
            1,
            [beam.mark],
            Rule(f"A day of lifting gear where one piece is over {LIFT_ABOVE_LB:g} lb or the beam is flush"),
            allowance=True,
        )
    _hangers(sheet, beam)


def _ply_lines(sheet: Sheet, beam: Beam) -> float:
    """Plies of lumber or engineered wood, what holds them together, labour. The weight of one ply [lb]."""
    section = beam.section.lumber
    cuts = [(section, Cut(beam.mark, beam.length, f"ply {n + 1}")) for n in range(section.plies)]
    how = (
        "ordered to length in 2 ft steps" if section.family != "sawn" else "cut from stock lengths, no splice"
    )
    source = "common practice" if section.family != "sawn" else STOCK_SOURCE
    sheet.lumber("06-10", cuts, f"{section.plies} plies as long as the beam, {how}", source=source)
    if beam.section.plates is not None:
        flitch_lines(sheet, beam, beam.section.plates)
    else:
        _ply_fastening(sheet, beam)
    ply_lb = (
        section.ply_width * section.depth * beam.length * WOOD_LB_IN3.get(section.family, ENGINEERED_LB_IN3)
    )
    feet = beam.length / 12 * section.plies
    sheet.labour("labour-beam", feet, 0.10, "ft of ply", [beam.mark])
    shown, unit = weight(ply_lb, sheet.metric)
    sheet.assume(
        f"One ply of {beam.mark} weighs about {shown:.0f} {unit} (wood at its usual dry weight, memory)."
    )
    return ply_lb


def _ply_fastening(sheet: Sheet, beam: Beam) -> None:
    section = beam.section
    if section.plies < 2:
        return
    settings, marks = sheet.settings, [beam.mark]
    by_rule = beam_fastening(section, beam.length, sheet.schedule.code)
    counted = counted_fastening(beam.fasteners) if beam.fasteners is not None else by_rule
    if counted is not None:
        _fastener_line(sheet, counted, 1, marks)
    elif settings.ply_rows and settings.ply_spacing_in:
        row = math.ceil(round(beam.length / settings.ply_spacing_in, 9)) + 1
        rule = Rule(
            f"{settings.ply_rows} rows at {settings.ply_spacing_in:g} in, as entered from the maker's sheet",
            "maker's sheet, entered by the contractor",
        )
        sheet.add("ply-fastener", settings.ply_rows * row, marks, rule)
    else:
        rule = Rule(
            "The ply pattern of an engineered beam comes from its maker's sheet or the engineer; until it is"
            " entered this is an allowance"
        )
        sheet.add("ply-fastening", 1, marks, rule, allowance=True)
        sheet.caution(
            f"The ply fastening of {beam.mark} is an allowance until the maker's pattern is entered."
        )


def _fastener_line(sheet: Sheet, found: Fastening, times: int, marks: list[str]) -> None:
    count = found.count * times
    if found.kind == "nail":
        net, unit = weight(count * found.pounds, sheet.metric)
        total, _ = weight(count * found.pounds * NAIL_WASTE, sheet.metric)
        sheet.add(
            "nail-box",
            net,
            marks,
            found.rule,
            unit=unit,
            waste=total - net,
            detail=f"{count} of {found.name}",
            description=f"{found.name}s for ply fastening",
        )
    elif found.kind == "screw":
        sheet.add("ply-fastener", count, marks, found.rule, description=found.name)
    else:
        sheet.add("bolt-set", count, marks, found.rule, description=f"{found.name} with nut and two washers")


def _hangers(sheet: Sheet, beam: Beam) -> None:
    schedule = sheet.schedule
    if schedule.hangers:
        sheet.add(
            "hanger",
            schedule.hangers,
            [beam.mark],
            Rule("One hanger for each joist end that the schedule hangs on the flush beam", "schedule"),
            description=_hanger_words(sheet),
        )
        sheet.labour("labour-hanger", schedule.hangers, 0.25, "hangers", [beam.mark])
    elif schedule.flush:
        sheet.caution(
            "The beam is flush, but the schedule counts no hangers: count the joists before ordering."
        )


def _hanger_words(sheet: Sheet) -> str:
    """What to ask the supplier for; empty leaves the words of the catalogue."""
    pounds = sheet.schedule.hanger_pounds
    if pounds is None:
        sheet.caution("The load of one hanger is not on the schedule: ask before they are ordered.")
        return ""
    return f"Joist hanger with its nails, rated for at least {math.ceil(pounds):,} lb"


def post_lines(sheet: Sheet) -> None:
    """Posts of wood and of steel, fastening, caps and bases, plates and labour."""
    _stated_posts(sheet)
    steel_post_lines(sheet, [post for post in sheet.schedule.posts if post.section.steel is not None])
    posts = tuple(post for post in sheet.schedule.posts if post.section.steel is None)
    marks = [post.mark for post in posts]
    cuts = [
        (post.section, Cut(post.mark, post.height, f"ply {n + 1}"))
        for post in posts
        for n in range(post.section.plies)
    ]
    sheet.lumber("06-20", cuts, "Each post: its plies, as high as the post", source=STOCK_SOURCE)
    for found, group in _same_fastening(sheet, posts):
        _fastener_line(sheet, found, len(group), group)
    if posts:
        once = Rule("One for each post", "common practice; the engineer's detail governs")
        sheet.add("post-cap", len(posts), marks, once)
        sheet.add("post-base", len(posts), marks, once)
        sheet.labour("labour-post", len(posts), 1.5, "posts", marks)
    plates = sheet.schedule.plates
    sheet.lumber(
        "06-20",
        [
            (p.section, Cut(p.mark, p.length, f"plate {n + 1}"))
            for p in plates
            for n in range(p.section.plies)
        ],
        "Plates and bearing blocks of the schedule, cut from stock lengths",
        source=STOCK_SOURCE,
    )


def _stated_posts(sheet: Sheet) -> None:
    for each in (named for named in sheet.schedule.not_measured if not is_shoring(named)):
        mark = each.split(" ", 1)[0]
        sheet.add(
            "post-stated",
            1,
            [mark],
            Rule(
                "A post by its maker's paper has no lumber; an allowance until the supplier prices that post"
            ),
            allowance=True,
            detail=each,
        )
        sheet.labour("labour-post", 1, 1.5, "posts by their maker's paper", [mark])
        sheet.caution(f"{each}: priced as an allowance; the maker's paper and the engineer govern.")


def _same_fastening(sheet: Sheet, posts: tuple[Post, ...]) -> list[tuple[Fastening, list[str]]]:
    groups: dict[Fastening, list[str]] = {}
    for post in posts:
        found = post_fastening(post.section, post.height, post.fastening, sheet.schedule.code)
        if found is not None:
            groups.setdefault(found, []).append(post.mark)
    return list(groups.items())


def opening_framing(sheet: Sheet) -> None:
    """Studs at the ends of the opening, backing, fireblocking, the cut plate, and the tie of the rafters."""
    schedule = sheet.schedule
    width, thin, thick = (1.5, 3.5, 5.5) if schedule.code == "us" else (38 / MM, 89 / MM, 140 / MM)
    depth = thick if schedule.wall_thickness > 6 else thin
    stud = Section("sawn", 1, width, depth, *_stud_grade(schedule.beam.section, schedule.code))
    height = max(schedule.wall_height - 4.5, 12.0)
    ends = [(stud, Cut("wall", height, f"stud {n + 1}")) for n in range(4)]
    sheet.lumber(
        "06-30",
        ends,
        "Two studs at each end of the opening, wall height less three plates",
        source=STOCK_SOURCE,
    )
    backing = [(stud, Cut("wall", schedule.opening, "backing and fireblocking"))]
    sheet.lumber(
        "06-30",
        _lengths(backing, BLOCKING_IN),
        "Backing and fireblocking as long as the opening",
        source=_by_code(schedule.code, "common practice; IRC R302.11, memory"),
    )
    sheet.labour("labour-frame", 2, 2.0, "ends", ["wall"])
    sheet.add(
        "plate-strap",
        2,
        ["wall"],
        Rule(
            "A strap where the top plate is cut, at each end", _by_code(schedule.code, "IRC R602.6.1, memory")
        ),
    )
    pounds, unit = weight(2.0, sheet.metric)
    sheet.add(
        "nails-general",
        pounds,
        ["wall"],
        Rule("Framing nails for studs, plates and blocking, 2 lb"),
        unit=unit,
    )
    if schedule.rafter_tie:
        straps = int(whole_up(schedule.opening / JOIST_SPACING_IN)) + 1
        sheet.add(
            "tie-strap",
            straps,
            [schedule.beam.mark],
            Rule(
                "One strap at each ceiling joist over the opening, joists taken at 16 in, since the"
                " flush beam"
                " cuts the tie of the rafters",
                _by_code(schedule.code, "IRC 2021 R802.5.2; the engineer answers"),
            ),
        )
        sheet.labour("labour-strap", straps, 0.2, "straps", [schedule.beam.mark])
        sheet.caution(
            "The ceiling joists tie the rafters: the tie across the beam is a question to the engineer."
        )


def _stud_grade(section: Section, code: str) -> tuple[str, str]:
    species = section.species if section.lumber.family == "sawn" and section.species else "SPF"
    return species, "No.1/No.2" if code == "ca" else "No.2"


def _by_code(code: str, american: str) -> str:
    """The source of a rule that only the American text was read for."""
    return american if code == "us" else "common practice; the engineer and the authority answer"


def _lengths(pieces: list[tuple[Section, Cut]], longest: float) -> list[tuple[Section, Cut]]:
    """Blocking may be jointed: split what is longer than stock into equal parts."""
    made = []
    for section, cut in pieces:
        parts = math.ceil(cut.length / longest)
        made += [(section, Cut(cut.mark, cut.length / parts, cut.use)) for _ in range(parts)]
    return made
