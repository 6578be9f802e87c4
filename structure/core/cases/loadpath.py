"""The `loadpath` kind: one reaction followed down to the soil."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from structure.core.cases.reader import (
    POST_LOADS,
    Choice,
    Field,
    Flag,
    Kind,
    ListOf,
    Quantity,
    Record,
    Result,
    Text,
    read_post_loads,
)
from structure.core.cases.squash_blocks import BLOCKS, read_blocks
from structure.core.clauses import Editions
from structure.core.codes.combination import heaviest
from structure.core.codes.house import HOUSE
from structure.core.errors import InputError
from structure.core.loadpath import Duty, Link, LinkKind, follow, with_existing
from structure.core.members.squash_blocks import check_blocks
from structure.core.trace import Check, Step

# What the upper one carries already goes through the lower one whole, unless its own is given.
_HANDED_ON = frozenset(
    {
        (LinkKind.POST_BELOW, LinkKind.PAD),
        (LinkKind.FOOTING_BELOW, LinkKind.SOIL),
        (LinkKind.PAD, LinkKind.SOIL),
    }
)
_LINK = Record(
    [
        Field("kind", Choice([kind.value for kind in LinkKind]), required=True),
        Field("mark", Text(20), doc="such as P1"),
        Field("title", Text(120), doc="what it is, in words"),
        Field(
            "existing", Flag(), default=False, doc="there already; without a check a question to the engineer"
        ),
        Field("provided", Flag(), default=False, doc="plates, floor cavity blocking and hangers: put in"),
        Field("capacity", Quantity("force", positive=True), doc="allowable load, under which it is checked"),
        Field(
            "demand",
            Quantity("force", non_negative=True),
            doc="default the worst service load of the reaction",
        ),
        Field("note", Text(300)),
        Field(
            "existing_loads",
            POST_LOADS,
            doc="what it carries already, by case; added to the reaction, case by case; a pad under a post and "
            "the soil under a pad or footing take what stands on them where it is left out",
        ),
        Field("blocks", BLOCKS, doc="of a floor cavity: the squash blocks, which are then checked"),
    ]
)


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    reaction = read_post_loads(given["loads"], editions.code)
    worst, _ = _worst(reaction, "given.loads", editions)
    links: list[Link] = []
    for n, read in enumerate(given["links"]):
        above = links[-1] if links else None
        links.append(_link(read, worst, reaction, editions, f"given.links[{n}]", above))
    try:
        return follow(mark=given["mark"], reaction=reaction, links=links, editions=editions).as_data()
    except InputError as error:
        raise error.under("given") from None


def _worst(loads: Mapping[str, float], path: str, editions: Editions) -> tuple[str, float]:
    """The heaviest service sum of loads by case: its name and value."""
    formed = HOUSE[editions.code].working([case for case, value in loads.items() if value])
    sums = [each for each in formed if all(case in loads for _, case in each.terms)]
    if not sums or heaviest(sums, loads)[1] <= 0:
        raise InputError(path, "no load", "at least one load of more than zero")
    return heaviest(sums, loads)


def _link(
    read: Mapping[str, Any],
    combination: str,
    reaction: Mapping[str, float],
    editions: Editions,
    path: str,
    above: Link | None,
) -> Link:
    kind, check = LinkKind(read["kind"]), None
    steps: tuple[Step, ...] = ()
    carries = {} if read["existing_loads"] is None else read_post_loads(read["existing_loads"], editions.code)
    if carries and read["demand"] is not None:
        raise InputError(f"{path}.demand", "a demand with existing_loads", "one of the two")
    if read["existing_loads"] is None and above is not None and (above.kind, kind) in _HANDED_ON:
        carries = dict(above.carries)
    if read["blocks"] is not None:
        check = _blocks(read, kind, reaction, editions, path)
    elif read["capacity"] is not None:
        demand = read["demand"]
        if demand is None:
            loads, steps = added(reaction, carries, editions)
            combination, demand = _worst(loads, f"{path}.existing_loads", editions)
        held = Check(
            "load",
            demand,
            read["capacity"],
            "force",
            combination,
            HOUSE[editions.code].load_path.at(editions),
        )
        check = replace(Duty.of(held, editions.code), steps=steps)
    elif read["demand"] is not None:
        raise InputError(f"{path}.capacity", None, "the capacity against which the demand is held")
    return Link(
        kind,
        read["mark"] or "",
        read["title"] or "",
        read["existing"],
        check,
        read["provided"] or read["blocks"] is not None,
        read["note"] or "",
        carries,
    )


def added(
    reaction: Mapping[str, float], carries: Mapping[str, float], editions: Editions
) -> tuple[dict[str, float], tuple[Step, ...]]:
    """Reaction and what was there before, case by case [lbf], with the lines that add them."""
    if not carries:
        return dict(reaction), ()
    both = with_existing.under(HOUSE[editions.code].load_path)
    steps = {
        case: both.step(editions, R=reaction.get(case, 0.0), E=carries.get(case, 0.0), note=case)
        for case in dict.fromkeys((*reaction, *carries))
    }
    return {case: step.result for case, step in steps.items()}, tuple(steps.values())


def _blocks(
    read: Mapping[str, Any],
    kind: LinkKind,
    reaction: Mapping[str, float],
    editions: Editions,
    path: str,
) -> Duty:
    if kind is not LinkKind.FLOOR_CAVITY:
        raise InputError(f"{path}.blocks", kind.value, "squash blocks in a floor_cavity alone")
    if read["capacity"] is not None or read["existing_loads"] is not None:
        raise InputError(f"{path}.blocks", "blocks with a capacity or existing_loads", "blocks alone")
    try:
        found = check_blocks(read_blocks(read["blocks"], reaction, editions), editions)
    except InputError as error:
        raise error.under(f"{path}.blocks") from None
    return replace(Duty.of(found.governing, editions.code), steps=found.governing.steps)


KIND = Kind(
    "loadpath",
    [
        Field("mark", Text(40), default="reaction", doc="of the reaction, such as B1 left"),
        Field("loads", POST_LOADS, required=True, doc="the reaction, by case"),
        Field("links", ListOf(_LINK, min=1, max=40), required=True, doc="from the beam down to the soil"),
    ],
    solve={"us": _solve, "ca": _solve},
    results=[
        Result("state", "", "passes, question, fails or missing"),
        Result("complete", "", "whether no link is missing"),
        Result("blocks_package", "", "true with a missing link: no engineering package"),
        Result("missing.<n>", "", "each missing link in a sentence"),
        Result("questions.<n>", "", "each question to the engineer"),
        Result("links.<n>.state", "", "passes, provided, question, fails or missing"),
        Result("links.<n>.carries.<case>", "force", "what an existing link carries already"),
        Result(
            "links.<n>.check.<demand|capacity|ratio|combination|steps>", "", "its check, with what it carries"
        ),
    ],
    doc="Is every link from a reaction down to the soil there, and does each carry its load?",
)
