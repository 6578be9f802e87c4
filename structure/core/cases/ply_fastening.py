"""The `ply_fastening` kind: how the plies of a built-up beam are held together."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.cases.fastener_fields import FASTENER
from structure.core.cases.grammars import LOAD_CASE
from structure.core.cases.reader import (
    SECTION,
    Choice,
    Field,
    Integer,
    Kind,
    ListOf,
    Number,
    Quantity,
    Record,
    Result,
    Text,
    read_section,
)
from structure.core.clauses import Editions
from structure.core.errors import InputError
from structure.core.members.plies import fasten_plies, gravity_of, make_fastener
from structure.core.members.ply_fastening import PlyQuestion

LINE_LOADS = ListOf(
    Record(
        (
            Field("case", LOAD_CASE, required=True),
            Field("value", Quantity("line_load", non_negative=True), required=True, doc="down is positive"),
        )
    ),
    max=20,
)


def read_line_loads(records: list[Mapping[str, Any]] | None) -> dict[str, float]:
    """Load per length by case, added up."""
    total: dict[str, float] = {}
    for record in records or ():
        total[record["case"]] = total.get(record["case"], 0.0) + record["value"]
    return total


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    try:
        return fasten_plies(_question(given, editions), editions).as_data()
    except InputError as error:
        raise error.under("given") from None


def _question(given: Mapping[str, Any], editions: Editions) -> PlyQuestion:
    section = read_section(given["section"], "section", editions.code, editions)
    gravity, source = given["specific_gravity"], given["gravity_source"] or ""
    if gravity is not None and not source:
        raise InputError("gravity_source", None, "where the specific gravity is stated")
    if gravity is None:
        gravity, source = gravity_of(section, editions)
    fastener = None
    if given["fastener"] is not None:
        try:
            fastener = make_fastener(given["fastener"], editions)
        except InputError as error:
            raise error.under("fastener") from None
    if given["loaded"] == "top" and (given["left"] or given["right"]):
        raise InputError("loaded", "top with loads on the sides", "loads on the sides with `side` alone")
    return PlyQuestion(
        section=section,
        loaded=given["loaded"],
        length=given["length"],
        left=read_line_loads(given["left"]),
        right=read_line_loads(given["right"]),
        gravity=gravity,
        gravity_source=source,
        fastener=fastener,
        rows=given["rows"],
        spacing=given["spacing"],
    )


KIND = Kind(
    "ply_fastening",
    (
        Field("section", SECTION, required=True),
        Field(
            "loaded", Choice(("top", "side")), required=True, doc="joists on top, or in hangers on its sides"
        ),
        Field("length", Quantity("length", positive=True), required=True, doc="of the beam, to count"),
        Field("left", LINE_LOADS, doc="load of the hangers on one side, by case"),
        Field("right", LINE_LOADS, doc="load of the hangers on the other side"),
        Field(
            "fastener", FASTENER, doc="default the thickest nail that stays inside two plies, or 1/2 in bolts"
        ),
        Field("specific_gravity", Number(min=0.2, max=0.8), doc="that the maker states for composite lumber"),
        Field("gravity_source", Text(), doc="where it is stated"),
        Field("rows", Integer(1, 12), doc="to check; solved if absent"),
        Field("spacing", Quantity("length", positive=True), doc="in each row, to check; solved if absent"),
    ),
    solve={"us": _solve, "ca": _solve},
    results=(
        Result("state", "", "passes, fails, or question where only a maker or the engineer can say"),
        Result("passes", "", "true for state passes"),
        Result("one_piece", "", "no ply fastening needed"),
        Result(
            "transfer.<demand|joint|combination|CD or KD|by_joint>",
            "",
            "load passed from ply to ply per length",
        ),
        Result("value.<Z|adjusted|mode|Cp>", "", "one fastener in one joint; ca: nu, resistance, mode"),
        Result("per_foot", "", "fasteners needed per foot in the worst joint; ca: per_metre"),
        Result("rows", "", "of the pattern"),
        Result("spacing", "length", "in each row"),
        Result("count", "", "over the length, all joints"),
        Result("least.<fastener|rows|spacing|at_each_end|clause|mark>", "", "prescribed least pattern"),
        Result("distances.<end|edge|between_rows>", "length", "of the pattern"),
        Result("words", "", "the pattern as the crew reads it"),
        Result("ratio", "", "of the transfer check"),
        Result("checks.transfer.<demand|capacity|ratio|combination|clause|passes|steps>", "", "the check"),
        Result("questions.<n>", "", "for the engineer"),
    ),
    doc="Fastening of plies: least pattern under a load on top, load per ply and yield equations from the sides.",
)
