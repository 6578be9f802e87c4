"""The `loadpath` kind: one reaction followed down to the soil."""

from __future__ import annotations

from collections.abc import Mapping
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
from structure.core.clauses import Editions
from structure.core.codes.us import irc
from structure.core.codes.us.combinations import asd
from structure.core.errors import InputError, OutOfScope
from structure.core.loadpath import Duty, Link, LinkKind, follow
from structure.core.trace import Check

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
    ]
)


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    reaction = read_post_loads(given["loads"])
    sums = {
        each.name: sum(factor * reaction[case] for factor, case in each.terms)
        for each in asd([case for case, value in reaction.items() if value])
    }
    if not sums or max(sums.values()) <= 0:
        raise InputError("given.loads", "no load", "at least one load of more than zero")
    if min(sums.values()) < 0:
        raise OutOfScope(irc.ENGINEERED_DESIGN.at(editions), "net uplift in the reaction: engineered design")
    worst = max(sums, key=lambda name: sums[name])
    links = [_link(read, worst, sums[worst], editions, n) for n, read in enumerate(given["links"])]
    try:
        return follow(mark=given["mark"], reaction=reaction, links=links, editions=editions).as_data()
    except InputError as error:
        raise error.under("given") from None


def _link(read: Mapping[str, Any], combination: str, service: float, editions: Editions, n: int) -> Link:
    kind, check = LinkKind(read["kind"]), None
    if read["capacity"] is not None:
        demand = service if read["demand"] is None else read["demand"]
        check = Duty.of(
            Check("load", demand, read["capacity"], "force", combination, irc.COMPLETE_LOAD_PATH.at(editions))
        )
    elif read["demand"] is not None:
        raise InputError(f"given.links[{n}].capacity", None, "the capacity against which the demand is held")
    return Link(
        kind,
        read["mark"] or "",
        read["title"] or "",
        read["existing"],
        check,
        read["provided"],
        read["note"] or "",
    )


KIND = Kind(
    "loadpath",
    [
        Field("mark", Text(40), default="reaction", doc="of the reaction, such as B1 left"),
        Field("loads", POST_LOADS, required=True, doc="the reaction, by case"),
        Field("links", ListOf(_LINK, min=1, max=40), required=True, doc="from the beam down to the soil"),
    ],
    solve={"us": _solve},
    results=[
        Result("state", "", "passes, question, fails or missing"),
        Result("complete", "", "whether no link is missing"),
        Result("blocks_package", "", "true with a missing link: no engineering package"),
        Result("missing.<n>", "", "each missing link in a sentence"),
        Result("questions.<n>", "", "each question to the engineer"),
        Result("links.<n>.state", "", "passes, provided, question, fails or missing"),
    ],
    doc="Is every link from a reaction down to the soil there, and does each carry its load?",
)
