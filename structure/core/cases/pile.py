"""The `pile` kind: a pile under one post, by its stated capacity."""

from __future__ import annotations

from typing import Any

from structure.core.cases.reader import (
    POST_LOADS,
    Field,
    Integer,
    Kind,
    Quantity,
    Result,
    Text,
    read_post_loads,
)
from structure.core.clauses import Editions
from structure.core.members.pile import PileQuestion, check_pile


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    question = PileQuestion(
        read_post_loads(given["loads"], editions.code), given["capacity"], given["source"], given["count"]
    )
    return check_pile(question, editions).as_data()


KIND = Kind(
    "pile",
    [
        Field("loads", POST_LOADS, required=True, doc="on the post, by case"),
        Field("capacity", Quantity("force", positive=True), required=True, doc="allowable, of one pile"),
        Field("source", Text(), required=True, doc="who states it: the installer's or the engineer's paper"),
        Field("count", Integer(1, 12), default=1, doc="piles that share alike under one cap"),
    ],
    solve={"us": _solve, "ca": _solve},
    results=[
        Result("passes"),
        Result("governing"),
        Result("ratio", "", "service load over what is stated"),
        Result("capacity", "force", "of all piles"),
        Result("load", "force", "service load of the combination that governs"),
        Result("load_each", "force", "on one pile"),
        Result("checks.stated.combination"),
    ],
    doc="A pile under one post: service load against a stated allowable load.",
)
