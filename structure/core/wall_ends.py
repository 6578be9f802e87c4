"""One end of the new beam carried to the ground: bearing, post, floor, post below, pad, soil."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from structure.core.clauses import COMMON_PRACTICE, Clause, ClauseRef, Editions
from structure.core.errors import InputError, OutOfScope
from structure.core.loadpath import Below, Chain, Duty, Link, LinkKind, follow, post_links
from structure.core.materials.section import Section
from structure.core.members.beam import BeamResult
from structure.core.members.bearing import PlateQuestion
from structure.core.members.footing import FootingResult
from structure.core.members.footing_pad import Base
from structure.core.members.post import PostQuestion, PostResult
from structure.core.members.post_search import PostCandidate, search_posts
from structure.core.members.post_values import species_across_the_grain
from structure.core.members.squash_blocks import BlocksQuestion, check_blocks
from structure.core.members.stated_post import StatedPost, StatedResult, check_stated_post
from structure.core.trace import Step, formula
from structure.core.units import place_in_words, quantity
from structure.core.wall_least import least_bearing
from structure.core.wall_pads import pad_of
from structure.core.wall_question import WallQuestion
from structure.core.wall_seat import Seat, SeatBearing, seat_bearing, seat_of

STRIP = Clause(COMMON_PRACTICE.document, "load over the bearing goes straight into the post")
SEAT = Clause(COMMON_PRACTICE.document, "the whole width of a beam stands on its post")
NO_POST = Clause(COMMON_PRACTICE.document, "post sizes that a yard keeps")


@formula("P", "R + w * l_b / 2", unit="lbf", clause=STRIP, R="lbf", w="lbf/inch", l_b="inch")
def post_load(R: float, w: float, l_b: float) -> float:
    """Load of one case on an end post: the beam's reaction and what stands over the outer half of its bearing.

    Common practice. R [lbf], w [lbf/in], l_b [in]; result [lbf].
    """
    return R + w * l_b / 2


@dataclass(frozen=True, slots=True)
class Refusal:
    """A part that the rules held do not cover, with its clause."""

    part: str
    clause: ClauseRef
    reason: str

    def as_data(self) -> dict[str, Any]:
        return {"part": self.part, "clause": str(self.clause), "reason": self.reason}


@dataclass(slots=True)
class End:
    """One end of the beam with everything under it; what could not be found stays None."""

    name: str
    number: int
    loads: Mapping[str, float]
    steps: tuple[Step, ...]
    candidates: list[dict[str, Any]] = field(default_factory=list)
    post: PostResult | None = None
    seat: Seat | None = None
    bearing: SeatBearing | None = None
    below: PostResult | StatedResult | None = None
    below_candidates: list[dict[str, Any]] = field(default_factory=list)
    footing: FootingResult | None = None
    part9: Mapping[str, Any] | None = None
    chain: Chain | None = None
    refusals: list[Refusal] = field(default_factory=list)

    def mark(self, letter: str) -> str:
        """`P1`, `F2`: the letter of the member and the number of the end."""
        return f"{letter}{self.number}"


def carry_down(end: End, question: WallQuestion, beam: BeamResult, editions: Editions) -> End:
    """Find the members under one end and follow its load to the soil. Refusals stay with the end."""
    _post(end, question, beam, editions)
    if end.post is not None:
        _below(end, question, editions)
        _pad(end, question, editions)
    end.chain = _chain(end, question, beam, editions)
    return end


def _refused(end: End, part: str, clause: ClauseRef, reason: str) -> None:
    end.refusals.append(Refusal(part, clause, reason))


def _post(end: End, question: WallQuestion, beam: BeamResult, editions: Editions) -> None:
    lumber, section = question.posts, beam.section
    height = question.opening.under_beam(section.depth) - lumber.plate_thickness
    if height <= 0:
        raise InputError(
            "opening.ceiling_height",
            place_in_words(question.opening.ceiling_height, editions.code),
            f"a height that leaves room for a beam {place_in_words(section.depth, editions.code)} deep and its posts",
        )
    try:
        found = search_posts(
            _asked(end, question, height, editions),
            editions,
            species=lumber.species,
            grade=lumber.grade,
            solid=lumber.solid,
            deepest=lumber.deepest,
            least_width=section.breadth,
            steel=lumber.steel,
        )
    except OutOfScope as refusal:
        _refused(end, end.mark("P"), refusal.clause, refusal.reason)
        return
    for candidate in found.candidates:
        row = candidate.as_data()
        if end.post is None and candidate.passes:
            row |= _seated(end, candidate, beam, question, editions)
        end.candidates.append(row)
    if end.post is None:
        _refused(
            end,
            end.mark("P"),
            NO_POST.at(editions),
            "no post size tried carries this end; more plies, a better grade, a solid post or the engineer",
        )


def _asked(end: End, question: WallQuestion, height: float, editions: Editions) -> PostQuestion:
    species = question.posts.plate_species
    plate = PlateQuestion(F_c_perp=species_across_the_grain(species, editions), material=species)
    return PostQuestion(height=height, loads=end.loads, section=None, plate=plate)


def _words(name: str) -> str:
    return name.replace("_", " ")


def _seated(
    end: End, candidate: PostCandidate, beam: BeamResult, question: WallQuestion, editions: Editions
) -> dict[str, Any]:
    """Take the post if the beam can stand on it; else the words that its row gets."""
    assert candidate.section is not None  # noqa: S101 - it passes, so it was made
    code = editions.code
    seat = seat_of(candidate.section, beam.section, question.opening.end_bearing)
    if seat is None:
        wide = place_in_words(beam.section.breadth, code)
        return {"passes": False, "why": f"too narrow for a beam {wide} wide to stand on"}
    if code == "ca":
        least, clause = least_bearing(beam.section, question.levels[-1])
        if seat.along < least - 1e-9:
            told = (
                f"{seat.along:g} mm of bearing; this beam has at least {least:g} mm ({clause.at(editions)})"
            )
            return {"passes": False, "why": told}
    try:
        bearing = seat_bearing(beam.section, seat, end.loads, editions)
    except OutOfScope as refusal:
        return {"passes": False, "why": f"refused by {refusal.clause}: {refusal.reason}"}
    if not bearing.passes:
        return {
            "passes": False,
            "why": f"the beam crushes on it: {_words(bearing.check.name)} {bearing.check.ratio:.2f} "
            f"on {place_in_words(seat.along, code)}, {_needed(bearing.required_length, code)} needed",
        }
    end.post, end.seat, end.bearing = candidate.result, seat, bearing
    return {"chosen": True}


def _needed(length: float, code: str) -> str:
    return f"{length:.2f} in" if code == "us" else f"{length:.0f} mm"


def _below(end: End, question: WallQuestion, editions: Editions) -> None:
    beneath = question.beneath
    if beneath is None or beneath.ground == "slab" or beneath.way not in ("new_post", "stated_post"):
        return
    mark = f"{end.mark('P')}B"
    if beneath.height is None:
        raise InputError(
            "below.height", None, "the height from the slab or pad to the floor framing above it"
        )
    try:
        if beneath.way == "stated_post":
            if beneath.stated is None:
                raise InputError(
                    "below.stated", None, "the maker's stated capacity of the post and its source"
                )
            stated = beneath.stated
            end.below = check_stated_post(
                StatedPost(beneath.height, end.loads, stated.capacity, stated.source, stated.longest),
                editions,
            )
            return
        lumber = question.posts
        found = search_posts(
            _asked(end, question, beneath.height - lumber.plate_thickness, editions),
            editions,
            species=lumber.species,
            grade=lumber.grade,
            solid=True,
            steel=lumber.steel,
        )
    except OutOfScope as refusal:
        _refused(end, mark, refusal.clause, refusal.reason)
        return
    end.below_candidates = [each.as_data() for each in found.candidates]
    if found.chosen is None:
        _refused(
            end, mark, NO_POST.at(editions), "no post size tried carries it down from the floor to the pad"
        )
    else:
        end.below = found.chosen.result


def _base(end: End, question: WallQuestion) -> Base | None:
    beneath = question.beneath
    if beneath is None:
        return None
    if beneath.ground == "slab" and end.post is not None and end.seat is not None:
        return _foot(end.post) or Base(end.seat.along, end.seat.across)
    if isinstance(end.below, StatedResult) and beneath.stated is not None:
        return Base(beneath.stated.base_plate, beneath.stated.base_plate, plate=True)
    if isinstance(end.below, PostResult):
        section = end.below.question.section
        return _foot(end.below) or Base(section.breadth, section.depth)
    return None


def _foot(post: PostResult) -> Base | None:
    """The base plate that a steel post stands on; None for wood."""
    plate = post.more.get("plate")
    if plate is None:
        return None
    length, width = (float(plate[name]["value"]) for name in ("length", "width"))
    return Base(length, width, plate=True, column=min(post.question.section.breadth, length, width))


def _pad(end: End, question: WallQuestion, editions: Editions) -> None:
    base = _base(end, question)
    if base is None:
        return
    try:
        end.footing, end.part9 = pad_of(end.loads, base, question, editions)
    except OutOfScope as refusal:
        _refused(end, end.mark("F"), refusal.clause, refusal.reason)


def _chain(end: End, question: WallQuestion, beam: BeamResult, editions: Editions) -> Chain:
    beneath = question.beneath
    bearing = None if end.bearing is None else Duty.of(end.bearing.check, editions.code)
    post = None if end.post is None else Duty.of(end.post.governing, editions.code)
    title = "" if end.post is None else str(end.post.question.section.label)
    pad = soil = None
    if end.footing is not None:
        concrete = [check for check in end.footing.checks if check.name != "soil"]
        pad = Link(
            LinkKind.PAD, end.mark("F"), check=Duty.of(max(concrete, key=lambda c: c.ratio), editions.code)
        )
        soil = Duty.of(end.footing.checks[0], editions.code)
    storeys = []
    if beneath is not None and beneath.ground != "slab":
        storeys.append(_storey(end, question, editions))
    links = post_links(
        beam=Link(LinkKind.BEAM, "B1", beam.section.label, check=Duty.of(beam.governing, editions.code)),
        bearing=Link(LinkKind.BEARING, check=bearing),
        post=Link(LinkKind.POST, end.mark("P"), title, check=post),
        plate=end.post is not None,
        storeys=storeys,
        pad=pad,
        soil=soil,
    )
    if beneath is not None and beneath.way == "existing_wall" and beneath.ground != "slab":
        links.append(Link(LinkKind.FOOTING_BELOW, existing=True))
    return follow(mark=f"B1, {end.name} end", reaction=end.loads, links=links, editions=editions)


def _storey(end: End, question: WallQuestion, editions: Editions) -> Below:
    beneath = question.beneath
    assert beneath is not None  # noqa: S101 - asked for only with a storey below
    blocks = _blocks(end, beneath.blocks, editions)
    blocked = beneath.blocked or blocks is not None
    if beneath.way == "existing_wall":
        return Below(LinkKind.WALL_BELOW, blocked, carries=beneath.carries, blocks=blocks)
    if beneath.way == "existing_beam":
        return Below(LinkKind.BEAM_BELOW, blocked, carries=beneath.carries, blocks=blocks)
    if beneath.way == "unknown":
        return Below(None, blocked, blocks=blocks)
    duty = None
    title = ""
    if isinstance(end.below, StatedResult):
        duty, title = Duty.of(end.below.check, editions.code), "the adjustable post"
    elif end.below is not None:
        duty, title = Duty.of(end.below.governing, editions.code), end.below.question.section.label
    mark = f"{end.mark('P')}B"
    return Below(LinkKind.POST_BELOW, blocked, mark, title, existing=False, check=duty, blocks=blocks)


def _blocks(end: End, asked: BlocksQuestion | None, editions: Editions) -> Duty | None:
    """The squash blocks under the load of this end; a refusal stays with the end."""
    if asked is None:
        return None
    try:
        found = check_blocks(replace(asked, loads=end.loads), editions)
    except InputError as error:
        raise error.under("below.blocks") from None
    except OutOfScope as refusal:
        _refused(end, f"{end.mark('P')} blocks", refusal.clause, refusal.reason)
        return None
    return Duty.of(found.governing, editions.code)


def end_loads(
    beam: BeamResult, support: int, over_bearing: Mapping[str, float], bearing: float, editions: Editions
) -> tuple[dict[str, float], tuple[Step, ...]]:
    """Load by case on the post of one end [lbf], with its steps; `over_bearing` [lbf/in] by case."""
    loads: dict[str, float] = {}
    steps = []
    for case, reaction in beam.reactions_by_case()[support].items():
        step = post_load.step(editions, R=reaction, w=over_bearing.get(case, 0.0), l_b=bearing, note=case)
        loads[case] = step.result
        steps.append(step)
    return loads, tuple(steps)


def section_data(section: Section, fastening: str | None = None) -> dict[str, Any]:
    """A section as a schedule reads it."""
    code = section.code
    return {
        "family": section.family,
        "species": getattr(section, "species", None),
        "grade": getattr(section, "grade", None),
        "plies": section.plies,
        "ply_width": quantity(section.ply_width, "length", code),
        "width": quantity(section.breadth, "length", code),
        "depth": quantity(section.depth, "length", code),
        "label": section.label,
        "given": section.given,
        "size": section.size_data,
        "fastening": fastening,
    }
