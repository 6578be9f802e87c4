"""One shoring wall at one spacing: header, shores, sill, ground, and the joists that hang over it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from structure.core.clauses import Editions
from structure.core.codes.us import shoring as rules
from structure.core.codes.us.combinations import LETTERS
from structure.core.codes.us.soil import PRESUMPTIVE, PRESUMPTIVE_FLOOR
from structure.core.codes.us.wood_columns import SLENDERNESS
from structure.core.errors import OutOfScope
from structure.core.members.beam import BeamQuestion, Limits, check_beam
from structure.core.members.bearing import BearingQuestion, bearing_check
from structure.core.members.post import PostQuestion, PostResult, check_post
from structure.core.members.post_values import across_the_grain
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

JOIST_WIDTH = 1.5  # in, where the joists are not known; common practice
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
    """Every check of one shoring wall with its shores at `spacing` [in]."""
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
    load, combination = _heaviest(reactions)
    checks |= _crushing(load, combination, timber, editions)
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

    NDS 3.7.1.4 lets a column be more slender while a house is built, but a shore carries all it ever will.
    """
    question = PostQuestion(height, loads, timber.shore, braced=timber.braced)
    try:
        return check_post(question, editions), ""
    except OutOfScope as refusal:
        if refusal.clause.number != SLENDERNESS.number:
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
        for loads, names in variants(line.worst):
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


def _heaviest(reactions: Sequence[tuple[Mapping[str, float], Mapping[str, str]]]) -> tuple[float, str]:
    """The heaviest load of a shore [lbf], everything at once, and what it is made of."""
    loads = max((loads for loads, _ in reactions), key=lambda loads: sum(loads.values()))
    names = next(names for held, names in reactions if held is loads)
    combination = "+".join(LETTERS[case] for case in LETTERS if loads.get(case, 0.0) > 0)
    return sum(loads.values()), names.get(combination, combination)


def _crushing(load: float, combination: str, timber: Timber, editions: Editions) -> dict[str, Check]:
    """Header on shore, shore on sill: contact areas, at the end of either member, so without C_b."""
    contacts = {
        "header_bearing": (timber.header, min(timber.shore.depth, timber.header_width)),
        "sill_bearing": (timber.sill, min(timber.shore.depth, timber.sill_width)),
    }
    found = {}
    for name, (section, across) in contacts.items():
        question = BearingQuestion(
            F_c_perp=across_the_grain(section, editions),
            width=across,
            length=timber.shore_along,
            loads={},
            material=section.label,
        )
        found[name] = bearing_check(name, load, combination, question, editions)[0]
    return found


def _under_joists(
    line: ShoreLine, timber: Timber, joists: Joists | None, joist_spacing: float, editions: Editions
) -> dict[str, Check]:
    """The top edge of the header crushed by one joist, and the joist by the header, whichever is softer."""
    soft = across_the_grain(timber.header, editions)
    material, width = timber.header.label, JOIST_WIDTH
    if joists is not None:
        width = joists.section.breadth
        if across_the_grain(joists.section, editions) < soft:
            soft, material = across_the_grain(joists.section, editions), joists.section.label
    loads = dict(line.worst)
    question = BearingQuestion(
        F_c_perp=soft, width=timber.header_width, length=width, loads={}, material=material
    )
    demand = sum(loads.values()) * joist_spacing
    letters = "+".join(LETTERS[case] for case in LETTERS if loads.get(case, 0.0) > 0)
    return {"joist_bearing": bearing_check("joist_bearing", demand, letters, question, editions)[0]}


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
    ground = floors[-1]
    slab = 0.0
    if ground.kind == SLAB:
        slab = rules.SLAB_THICKNESS if ground.thickness is None else ground.thickness
    along = rules.spread_along.step(
        editions, b=timber.shore_along, t_sill=timber.sill_thickness, t_slab=slab, s=spacing
    )
    across = rules.spread_across.step(editions, b_sill=timber.sill_width, t_slab=slab)
    pressure = rules.ground_pressure.step(editions, P=load, l=along.result, B=across.result)
    allowed = PRESUMPTIVE_FLOOR if ground.soil is None else ground.soil
    told = (
        "soil not given: least presumptive value of IRC Table R401.4.1"
        if ground.soil is None
        else "soil as given"
    )
    check = Check(
        "ground",
        pressure.result,
        allowed,
        "pressure",
        combination,
        PRESUMPTIVE.at(editions),
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
            rules.HELD_DOWN.at(editions),
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
        for mix, names in variants(by_case):
            result = check_beam(
                BeamQuestion(
                    line=beam,
                    loads=tuple(_recased(loads, mix, joists.spacing)),
                    section=joists.section,
                    bracing="continuous",
                    repetitive=joists.spacing <= 24.0,
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
