"""The whole wall at once: loads down, beam, posts, bearing, pads, shoring and the way to the soil.

Pure: a question in, plain data out. What the rules held do not cover is told as a refusal of that part,
and the rest is still answered; what is missing between beam and soil blocks the engineering package.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from structure.core.catalogue import Candidate, search_beams
from structure.core.clauses import COMMON_PRACTICE, Clause, Editions
from structure.core.codes.house import HOUSE
from structure.core.errors import InputError, OutOfScope
from structure.core.members.beam import BeamQuestion, BeamResult, check_beam
from structure.core.members.shoring import plan_shoring
from structure.core.statics.model import BeamLine
from structure.core.takedown import TakedownResult, take_down
from structure.core.takedown_line import Point, beam_loads
from structure.core.units import place_in_words, quantity
from structure.core.version import CORE_VERSION
from structure.core.wall_connections import Placed, connect, hanger_count
from structure.core.wall_data import add_end, left_outside, load_data
from structure.core.wall_ends import End, Refusal, carry_down, end_loads, section_data
from structure.core.wall_question import WallQuestion
from structure.core.wall_scope import short_bearing, wall_scope
from structure.data.loader import data_checksum

HEADROOM = Clause(COMMON_PRACTICE.document, "clear height under a beam, as asked for")
STOCK = Clause(COMMON_PRACTICE.document, "stock sizes of beams")
SIDES = ("left", "right")


def design_wall(question: WallQuestion, editions: Editions) -> dict[str, Any]:
    """Answer the whole wall as plain data with `status` ok, or refused where no beam can be named.

    Keys: takedown, beam (candidates, chosen, length), posts, bearing, footings, shoring, loadpath, remarks,
    refusals, blocks, versions. Raises InputError for what cannot be meant.
    """
    result: dict[str, Any] = _empty(editions)
    refusals: list[Refusal] = []
    result["shoring"] = _shoring(question, refusals, editions)
    try:
        down = take_down(question.levels, editions)
        result["takedown"] = down.as_data()
        result["remarks"] += down.remarks
        asked, outside = _beam_question(question, down)
        rows, chosen = _beam(question, asked, refusals, editions)
    except OutOfScope as refusal:
        refusals.insert(0, Refusal("beam", refusal.clause, refusal.reason))
        return _closed(result, refusals, None)
    result["remarks"] += [left_outside(point, editions.code) for point in outside]
    result["remarks"] += _flush_remarks(question, editions)
    result["beam"] = _beam_data(question, asked, rows, chosen, editions.code)
    if chosen is None:
        return _closed(result, refusals, None)
    result["remarks"] += chosen.remarks
    held, told = connect(_placed(question, chosen), editions)
    result["beam"] |= held
    result["remarks"] += told
    ends = []
    for n, name in enumerate(SIDES):
        place = 0.0 if n == 0 else question.opening.clear_width
        loads, steps = end_loads(chosen, n, _line_at(down, place), question.opening.end_bearing, editions)
        ends.append(carry_down(End(name, n + 1, loads, steps), question, chosen, editions))
    if editions.code == "ca":
        refusals += short_bearing(question, chosen.section, editions)
        scope = wall_scope(question, [end.loads for end in ends], editions)
        result["scope"] = scope.as_data()
        result["remarks"] += scope.remarks
    for end in ends:
        refusals += end.refusals
        add_end(result, end, question, editions.code)
    return _closed(result, refusals, ends)


def _empty(editions: Editions) -> dict[str, Any]:
    return {
        "takedown": None,
        "beam": {"candidates": [], "chosen": None},
        "posts": [],
        "bearing": [],
        "footings": [],
        "shoring": None,
        "loadpath": [],
        "remarks": ["Preliminary: an engineer's sealed design takes the place of every size here."],
        "refusals": [],
        "blocks": [],
        "versions": {
            "core": CORE_VERSION,
            "data": data_checksum(),
            "code": editions.code,
            "editions": dict(editions.documents),
        },
    }


def _closed(
    result: dict[str, Any], refusals: Sequence[Refusal], ends: Sequence[End] | None
) -> dict[str, Any]:
    """The result with its refusals, what blocks the package, and its status."""
    blocks = [f"{each.part}: {each.reason}" for each in refusals]
    for end in ends or ():
        if end.chain is not None:
            blocks += [*end.chain.missing, *end.chain.fails]
    shoring = result["shoring"]
    if shoring is None:
        blocks.append("Shoring: nothing was asked; a wall is not opened without a shoring plan.")
    elif shoring.get("status") != "refused" and not shoring["passes"]:
        blocks.append("Shoring: the plan does not pass; see its checks.")
    chosen = result["beam"]["chosen"]
    if chosen is not None and not chosen["passes"]:
        blocks.append(
            f"Beam B1: {chosen['section']} does not pass ({chosen['governing'].replace('_', ' ')})."
        )
    result["remarks"] = list(dict.fromkeys(result["remarks"]))
    closed = result | {
        "refusals": [each.as_data() for each in refusals],
        "blocks": list(dict.fromkeys(blocks)),
        "blocks_package": bool(blocks),
        "status": "ok",
    }
    if chosen is None and refusals:
        first = next((each for each in refusals if each.part == "beam"), refusals[0])
        closed |= {"status": "refused", "clause": str(first.clause), "reason": first.reason}
    return closed


def _beam_question(question: WallQuestion, down: TakedownResult) -> tuple[BeamQuestion, list[Point]]:
    opening = question.opening
    start = -opening.end_bearing / 2
    loads, outside = beam_loads(down.segments, down.points, start, opening.span)
    asked = BeamQuestion(
        line=BeamLine((opening.span,)),
        loads=tuple(loads),
        bracing=_bracing(question),
        repetitive=question.repetitive,
        deflection=question.limits,
        bearing=(opening.end_bearing,),
    )
    return asked, outside


def _bracing(question: WallQuestion) -> str | float:
    """Joists on top or in hangers hold the top edge where they cross the beam; otherwise only its ends do."""
    if question.opening.bracing is not None:
        return question.opening.bracing
    lowest = question.levels[-1]
    crossed = lowest.framing == "perpendicular" and any(
        side is not None and side.support != "none" for side in (lowest.left, lowest.right)
    )
    return "continuous" if crossed else "ends"


def _beam(
    question: WallQuestion, asked: BeamQuestion, refusals: list[Refusal], editions: Editions
) -> tuple[list[dict[str, Any]], BeamResult | None]:
    """Every candidate with its words, and the chosen beam: the user's, else the lightest that passes."""
    found = search_beams(asked, question.search, editions)
    rows, first = [], None
    for candidate in found.candidates:
        row = candidate.as_data() | _room_under(question, candidate, editions)
        rows.append(row)
        if first is None and row["passes"]:
            first = candidate
    if question.beam is not None:
        try:
            return rows, check_beam(_with(asked, question), editions)
        except OutOfScope as refusal:
            refusals.append(Refusal("beam", refusal.clause, refusal.reason))
            return rows, None
    if first is None:
        refusals.append(
            Refusal(
                "beam",
                STOCK.at(editions),
                "no stock size passes: shorten the opening, add a post, or ask the engineer",
            )
        )
        return rows, None
    # Checked once more by itself, so that its forces are those of its own weight alone.
    return rows, check_beam(_with(asked, question, first), editions)


def _with(asked: BeamQuestion, question: WallQuestion, first: Candidate | None = None) -> BeamQuestion:
    section = question.beam if first is None else first.section
    return BeamQuestion(
        line=asked.line,
        loads=asked.loads,
        section=section,
        bracing=asked.bracing,
        repetitive=asked.repetitive,
        deflection=asked.deflection,
        bearing=asked.bearing,
    )


def _room_under(question: WallQuestion, candidate: Candidate, editions: Editions) -> dict[str, Any]:
    code, wanted = editions.code, question.opening.headroom
    clear = question.opening.under_beam(candidate.section.depth)
    if wanted is None or clear >= wanted - 1e-9:
        return {}
    row = {
        "check": "headroom",
        "ratio": None,
        "why": f"Headroom: {place_in_words(clear, code)} stay clear under it where {place_in_words(wanted, code)} "
        "are asked for.",
        "clause": str(HEADROOM.at(editions)),
    }
    return {"passes": False, "close": None, "fails": [row, *candidate.fails]}


def _beam_data(
    question: WallQuestion,
    asked: BeamQuestion,
    rows: list[dict[str, Any]],
    chosen: BeamResult | None,
    code: str,
) -> dict[str, Any]:
    opening = question.opening
    data: dict[str, Any] = {
        "mark": "B1",
        "span": quantity(opening.span, "length", code),
        "length": quantity(opening.beam_length, "length", code),
        "mounting": opening.mounting,
        "hangers": hanger_count(
            question.levels[-1], opening.clear_width, code, flush=opening.mounting == "flush"
        ),
        "rafter_tie": _cuts_a_tie(question),
        "bracing": asked.bracing
        if isinstance(asked.bracing, str)
        else quantity(asked.bracing, "length", code),
        "loads": [load_data(load, code) for load in asked.loads],
        "candidates": rows,
        "tried": len(rows),
        "passing": sum(row["passes"] for row in rows),
        "chosen_by": "nobody" if chosen is None else "user" if question.beam is not None else "lightest",
        "chosen": None,
    }
    if chosen is None:
        return data
    clear = opening.under_beam(chosen.section.depth)
    headroom = {
        "clear": quantity(clear, "length", code),
        "asked": None if opening.headroom is None else quantity(opening.headroom, "length", code),
        "passes": opening.headroom is None or clear >= opening.headroom - 1e-9,
    }
    held = chosen.as_data()
    held |= {"headroom": headroom, "member": section_data(chosen.section)}
    if not headroom["passes"]:
        held |= {"passes": False, "governing": "headroom"}
    return data | {"chosen": held}


def _placed(question: WallQuestion, chosen: BeamResult) -> Placed:
    opening = question.opening
    return Placed(
        section=chosen.section,
        held=question.levels[-1],
        clear_width=opening.clear_width,
        length=opening.beam_length,
        height=opening.ceiling_height,
        flush=opening.mounting == "flush",
        joist_depth=opening.joist_depth,
        told=question.connections,
        room=opening.room,
    )


def _cuts_a_tie(question: WallQuestion) -> bool:
    """Whether a flush beam cuts ceiling joists that may tie the rafters above them."""
    roofs = [level for level in question.levels if level.kind == "roof" and level.framing == "perpendicular"]
    held = question.levels[-1]
    return question.opening.mounting == "flush" and held.kind == "attic" and bool(roofs)


def _flush_remarks(question: WallQuestion, editions: Editions) -> list[str]:
    if not _cuts_a_tie(question):
        return []
    clause = HOUSE[editions.code].rafter_tie.at(editions)
    told = (
        "A flush beam cuts the ceiling joists, which may be what ties the rafters: a strap line over the beam is "
        f"part of the work, and a question to the engineer ({clause})."
    )
    return [told]


def _line_at(down: TakedownResult, place: float) -> Mapping[str, float]:
    """Line load by case at a place of the wall line [lbf/in]; the heavier piece where two meet."""
    found: dict[str, float] = {}
    for piece in down.segments:
        starts = piece.start is None or piece.start <= place
        if starts and (piece.end is None or place <= piece.end):
            for case, value in piece.line.items():
                found[case] = max(found.get(case, value), value)
    return found


def _shoring(question: WallQuestion, refusals: list[Refusal], editions: Editions) -> dict[str, Any] | None:
    if question.shoring is None:
        return None
    try:
        result = plan_shoring(question.shoring, editions)
    except InputError as error:
        raise error.under("shoring") from None
    except OutOfScope as refusal:
        refusals.append(Refusal("shoring", refusal.clause, refusal.reason))
        return {"status": "refused", "clause": str(refusal.clause), "reason": refusal.reason, "passes": False}
    if result.refusal is not None:
        refusals.append(Refusal("shoring", result.refusal.clause, result.refusal.reason))
    return {"status": "ok"} | result.as_data()
