"""One shoring wall at one spacing: header, shores, sill, ground, and the joists that hang over it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from structure.core.clauses import Editions
from structure.core.codes.us import shoring as rules
from structure.core.errors import OutOfScope
from structure.core.members.beam import BeamQuestion, Limits, check_beam
from structure.core.members.post import PostQuestion, PostResult, check_post
from structure.core.members.shoring_codes import SHORING
from structure.core.members.shoring_contact import Reaction, crushed, heaviest, softness
from structure.core.members.shoring_lines import ShoreLine
from structure.core.members.shoring_parts import (
    FRAMED,
    SLAB,
    Floor,
    Joists,
    Timber,
    Tried,
    merged,
    variants,
)
from structure.core.statics import BeamLine, Load
from structure.core.trace import Check

MOST_BAYS = 5  # a longer header repeats what its first five bays show


def try_spacing(
    line: ShoreLine,
    timber: Timber,
    spacing: float,
    length: float,
    height: float,
    floors: Sequence[Floor],
    joists: Joists | None,
    joist_spacing: float,
    editions: Editions,
) -> Tried:
    """Every check of one shoring wall with its shores at `spacing`."""
    shores = max(2, math.ceil(length / spacing - 1e-9) + 1)
    header, reactions = _header(line, timber, spacing, shores, joist_spacing, editions)
    checks = {f"header_{name}": replace(check, name=f"header_{name}") for name, check in header.items()}
    blocks: list[str] = []
    posts: list[Mapping[str, Check]] = []
    fastening = None
    cut = rules.shore_length.step(
        editions, H=height, d_header=timber.header.depth, t_sill=timber.sill_thickness
    )
    for loads, names in reactions:
        result, block = _shore(cut.result, loads, timber, editions)
        if block:
            blocks = [f"Shores: {block} (a row of braces along the wall is given as shore_braced)."]
        if result is None:
            continue
        fastening = result.fastening
        posts.append(
            {
                f"shore_{name}": replace(
                    check,
                    name=f"shore_{name}",
                    combination=names.get(check.combination, check.combination),
                    steps=(cut, *check.steps),
                )
                for name, check in result.checks.items()
            }
        )
    checks |= merged(posts)
    load, combination = heaviest(reactions)
    checks |= _crushing(reactions, timber, editions)
    checks |= _under_joists(line, timber, joists, joist_spacing, editions)
    below, blocked = _reshores(reactions, timber, floors, editions)
    checks |= below
    blocks += blocked
    checks |= _ground(load, combination, timber, spacing, floors, editions)
    checks |= _joists(line, joists, editions)
    return Tried(spacing, shores, load, checks, tuple(blocks), fastening)


def _shore(
    height: float, loads: Mapping[str, float], timber: Timber, editions: Editions
) -> tuple[PostResult | None, str]:
    """One shore as a post. Over a slenderness of 50 its checks are still told up to 75, and the plan stops.

    NDS 3.7.1.4 lets a column be more slender while a house is built, but a shore carries all it ever will. CSA O86
    lets it not.
    """
    question = PostQuestion(height, loads, timber.shore, braced=timber.braced)
    try:
        return check_post(question, editions), ""
    except OutOfScope as refusal:
        if refusal.clause.number != SHORING[editions.code].slenderness.number:
            raise
        block = refusal.reason
    try:
        return check_post(replace(question, in_construction=True), editions), block
    except OutOfScope:
        return None, block


def _header(
    line: ShoreLine,
    timber: Timber,
    spacing: float,
    shores: int,
    joist_spacing: float,
    editions: Editions,
) -> tuple[dict[str, Check], list[tuple[dict[str, float], dict[str, str]]]]:
    """The header under its joists, and the load of the worst shore by case.

    Joists bring point loads: a joist in the middle of a bay is worse than the same load spread out, and a
    joist over a shore loads that shore most, so both places are tried.
    """
    bays = min(shores - 1, MOST_BAYS)
    beam = BeamLine((spacing,) * bays)
    tries: list[dict[str, Check]] = []
    reactions: list[tuple[dict[str, float], dict[str, str]]] = []
    for start in _places(spacing, joist_spacing):
        for loads, names in variants(line.worst, editions.code):
            at = [
                start + n * joist_spacing
                for n in range(math.floor((beam.length - start) / joist_spacing + 1e-9) + 1)
            ]
            points = [
                Load.point(case, w * joist_spacing, min(x, beam.length))
                for case, w in loads.items()
                for x in at
            ]
            result = check_beam(
                BeamQuestion(
                    line=beam,
                    loads=tuple(points),
                    section=timber.header,
                    bracing="continuous",
                    pattern=False,
                    deflection=Limits(live=240.0, total=240.0, creep=False),
                ),
                editions,
            )
            tries.append(
                {
                    name: replace(check, combination=names.get(check.combination, check.combination))
                    for name, check in result.checks.items()
                }
            )
            by_case = result.reactions_by_case()
            worst = max(range(bays + 1), key=lambda n: sum(by_case[n].values()))
            reactions.append((by_case[worst], names))
    return merged(tries), reactions


def _places(spacing: float, joist_spacing: float) -> tuple[float, ...]:
    """Where the first joist lies: one in the middle of the first bay, one over the second shore."""
    return tuple(dict.fromkeys(place % joist_spacing for place in (spacing / 2, spacing)))


def _crushing(reactions: Sequence[Reaction], timber: Timber, editions: Editions) -> dict[str, Check]:
    """Header on shore, shore on sill: contact areas, at the end of either member."""
    contacts = {
        "header_bearing": (timber.header, min(timber.shore.depth, timber.header_width)),
        "sill_bearing": (timber.sill, min(timber.shore.depth, timber.sill_width)),
    }
    return {
        name: crushed(name, section, across, timber.shore_along, reactions, editions)
        for name, (section, across) in contacts.items()
    }


def _under_joists(
    line: ShoreLine, timber: Timber, joists: Joists | None, joist_spacing: float, editions: Editions
) -> dict[str, Check]:
    """The top edge of the header crushed by one joist, and the joist by the header, whichever is softer."""
    section, width = timber.header, SHORING[editions.code].joist_width
    if joists is not None:
        width = joists.section.breadth
        if softness(joists.section) < softness(section):
            section = joists.section
    loads = {case: w * joist_spacing for case, w in line.worst.items()}
    check = crushed("joist_bearing", section, timber.header_width, width, [(loads, {})], editions)
    return {"joist_bearing": check}


def _reshores(
    reactions: Sequence[tuple[dict[str, float], dict[str, str]]],
    timber: Timber,
    floors: Sequence[Floor],
    editions: Editions,
) -> tuple[dict[str, Check], list[str]]:
    """The shores below each framed floor whose storey height is known, under what comes from above."""
    tries: list[dict[str, Check]] = []
    blocks: list[str] = []
    for floor in floors:
        if floor.kind != FRAMED or floor.height is None:
            continue
        cut = rules.shore_length.step(
            editions, H=floor.height, d_header=timber.header.depth, t_sill=timber.sill_thickness
        )
        for loads, names in reactions:
            result, block = _shore(cut.result, loads, timber, editions)
            if block and not blocks:
                blocks.append(f"Shores under {floor.name or 'the framed floor'}: {block}.")
            if result is None:
                continue
            check = result.checks["buckling"]
            tries.append(
                {
                    "reshore_buckling": replace(
                        check,
                        name="reshore_buckling",
                        combination=names.get(check.combination, check.combination),
                        steps=(cut, *check.steps),
                        note=f"under {floor.name or 'the framed floor'}; {check.note}",
                    )
                }
            )
    return merged(tries), blocks


def _ground(
    load: float,
    combination: str,
    timber: Timber,
    spacing: float,
    floors: Sequence[Floor],
    editions: Editions,
) -> dict[str, Check]:
    """Soil under the lowest sill, once the floors are known down to it."""
    if not floors or floors[-1].kind == FRAMED:
        return {}
    ground, held = floors[-1], SHORING[editions.code]
    slab = 0.0
    if ground.kind == SLAB:
        slab = held.slab if ground.thickness is None else ground.thickness
    along = rules.spread_along.step(
        editions, b=timber.shore_along, t_sill=timber.sill_thickness, t_slab=slab, s=spacing
    )
    across = rules.spread_across.step(editions, b_sill=timber.sill_width, t_slab=slab)
    pressure = rules.ground_pressure.step(editions, P=load, l=along.result, B=across.result)
    allowed = held.soil if ground.soil is None else ground.soil
    told = f"soil not given: {held.soil_words}" if ground.soil is None else "soil as given"
    check = Check(
        "ground",
        pressure.result,
        allowed,
        "pressure",
        combination,
        held.soil_clause.at(editions),
        (along, across, pressure),
        note=told,
    )
    return {"ground": check}


def _joists(line: ShoreLine, joists: Joists | None, editions: Editions) -> dict[str, Check]:
    """The joists on their shore, and the pull at their far end where a wall stands on the near one."""
    found: dict[str, Check] = {}
    if line.uplift > 0:
        found["far_end_uplift"] = Check(
            "far_end_uplift",
            line.uplift,
            line.held_down,
            "line_load",
            "dead load against prying",
            SHORING[editions.code].held_down.at(editions),
            line.prying,
            note="dead load at the joists' far end against what pries it up from the free end",
        )
    if joists is None:
        return found
    tries: list[dict[str, Check]] = []
    for beam, loads in line.joists:
        by_case: dict[str, float] = {}
        for load in loads:
            by_case[load.case] = by_case.get(load.case, 0.0) + load.total
        for mix, names in variants(by_case, editions.code):
            result = check_beam(
                BeamQuestion(
                    line=beam,
                    loads=tuple(_recased(loads, mix, joists.spacing)),
                    section=joists.section,
                    bracing="continuous",
                    repetitive=joists.spacing <= SHORING[editions.code].system_spacing,
                    lifting_checked=True,
                ),
                editions,
            )
            tries.append(
                {
                    f"joist_{name}": replace(
                        check,
                        name=f"joist_{name}",
                        combination=names.get(check.combination, check.combination),
                    )
                    for name, check in result.checks.items()
                    # The joists hang so for days, and were there before: strength counts, not how they sag.
                    if not name.startswith("deflection")
                }
            )
    return found | merged(tries)


def _recased(loads: Sequence[Load], mix: Mapping[str, float], spacing: float) -> Iterator[Load]:
    """Loads of one joist: those of a strip `spacing` wide, put under the cases of `mix`."""
    for load in loads:
        case = load.case
        if case not in mix:
            case = "live" if "live" in mix else "snow"
        yield replace(load, case=case, value=load.value * spacing, end_value=load.end_value * spacing)
