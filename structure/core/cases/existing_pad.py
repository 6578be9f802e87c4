"""The `existing_pad` kind: a pad, strip or thickened slab that is there, under a new post."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from structure.core.cases.ca_pads import CA_EXISTING_RESULTS, PART9, beside_existing, soil_of
from structure.core.cases.pad_fields import (
    CA_SOIL_FIELDS,
    OFFSET,
    POST,
    SOIL_FIELDS,
    read_base,
    read_offset,
)
from structure.core.cases.reader import (
    LOAD_CASE,
    POST_LOADS,
    Choice,
    Field,
    Kind,
    ListOf,
    Quantity,
    Record,
    Result,
    read_post_loads,
)
from structure.core.clauses import Editions
from structure.core.codes.pads import pad_rules
from structure.core.errors import InputError
from structure.core.members.existing_pad import ExistingQuestion, Found, check_existing
from structure.data.loader import table

_LENGTH = Quantity("length", positive=True)
_INSIDE = {"us": 1728.0, "ca": 1e6}  # lbf/ft**3 and kN/m**3 for one of the units worked in
_WALL = Record(
    [
        Field("height", _LENGTH, required=True, doc="of the wall between the post and the footing"),
        Field("thickness", _LENGTH, required=True),
        Field("material", Choice(("concrete", "masonry")), required=True, doc="masonry is refused"),
    ]
)
_FOUND = Record(
    [
        Field("kind", Choice(("pad", "strip", "thickened_slab", "slab")), required=True),
        Field("side", _LENGTH, doc="of a square pad"),
        Field("length", _LENGTH, doc="of a pad, along the post's length"),
        Field("width", _LENGTH, doc="of a pad, a strip or the bottom of a thickening"),
        Field("thickness", _LENGTH, doc="of a thickened slab the whole of it; unknown is refused"),
        Field("known", Choice(("measured", "assumed")), required=True, doc="seen, or taken from a drawing"),
        Field("wall", _WALL, doc="foundation wall between the post and a strip"),
        Field("to_end", _LENGTH, doc="middle of the post to the end of the strip; default it runs on"),
    ]
)
_CONCRETE = Record(
    [
        Field("fc", Quantity("stress", positive=True), doc="only from a core or a paper; else assumed"),
        Field("density", Quantity("density", positive=True)),
    ]
)
_LINE = ListOf(
    Record(
        [
            Field("case", LOAD_CASE, required=True),
            Field("value", Quantity("line_load", non_negative=True), required=True),
        ]
    ),
    min=1,
)
_EXISTING = Record(
    [
        Field("points", POST_LOADS, doc="on the middle of a pad"),
        Field("line", _LINE, doc="on a strip, per length"),
    ]
)


def _found(given: Mapping[str, Any]) -> Found:
    kind, wall = given["kind"], given["wall"]
    square = given["side"] is not None
    if square and (given["length"] is not None or given["width"] is not None):
        raise InputError("pad.side", "side", "side of a square pad, or length and width")
    if kind != "pad":
        for name in ("side", "length"):
            if given[name] is not None:
                raise InputError(f"pad.{name}", "given", f"width and thickness of a {kind}")
    if wall is not None and kind != "strip":
        raise InputError("pad.wall", "given", "a wall only on a strip")
    if given["to_end"] is not None and kind == "pad":
        raise InputError("pad.to_end", "given", "the end of a strip or a thickened slab")
    return Found(
        kind,
        given["side"] if square else given["length"],
        given["side"] if square else given["width"],
        given["thickness"],
        given["known"] == "measured",
        wall["height"] if wall else 0.0,
        wall["thickness"] if wall else 0.0,
        bool(wall and wall["material"] == "masonry"),
        given["to_end"],
    )


def _line(records: Sequence[Mapping[str, Any]] | None) -> dict[str, float] | None:
    if records is None:
        return None
    total: dict[str, float] = {}
    for record in records:
        total[record["case"]] = total.get(record["case"], 0.0) + record["value"]
    return total


def _read(given: dict[str, Any], soil: float, editions: Editions) -> ExistingQuestion:
    found = _found(given["pad"])
    held = given["existing"] or {"points": None, "line": None}
    off_length, off_width = read_offset(given["eccentricity"])
    if found.kind == "pad" and held["line"] is not None:
        raise InputError("existing.line", "given", "points on a pad")
    if found.kind != "pad" and held["points"] is not None:
        raise InputError("existing.points", "given", "line on a strip")
    if found.kind != "pad" and (off_length or off_width):
        raise InputError("eccentricity", "given", "a post on the middle of a strip")
    assumed = table(pad_rules(editions).assumed_table).content["assumed"]
    concrete = given["concrete"]
    return ExistingQuestion(
        loads=read_post_loads(given["loads"], editions.code),
        soil=soil,
        base=read_base(given["post"]),
        found=found,
        f_c=concrete["fc"] or float(assumed["strength"]),
        tested=concrete["fc"] is not None,
        density=concrete["density"] or float(assumed["density"]) / _INSIDE[editions.code],
        net=given["net"],
        soil_from=given["soil_from"],
        points=None if held["points"] is None else read_post_loads(held["points"], editions.code),
        line=_line(held["line"]),
        off_length=off_length,
        off_width=off_width,
    )


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    return check_existing(_read(given, given["soil"], editions), editions).as_data()


def _solve_ca(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    question = _read(given, soil_of(given, editions), editions)
    result = check_existing(question, editions)
    return beside_existing(result.as_data(), result, given, editions)


_LOADS = (Field("loads", POST_LOADS, required=True, doc="of the new post, by case"),)
_FIELDS = (
    Field("post", POST, required=True, doc="side of a square post, or its steel plate"),
    Field("pad", _FOUND, required=True, doc="the footing as it was found"),
    Field("existing", _EXISTING, doc="what it carries already, its own weight left out"),
    Field("concrete", _CONCRETE, default={}),
    Field("eccentricity", OFFSET, doc="of the post off the middle of a pad; all of the load counts there"),
)
KIND = Kind(
    "existing_pad",
    [*_LOADS, *SOIL_FIELDS, *_FIELDS],
    solve={"us": _solve, "ca": _solve_ca},
    fields_in={"ca": (*_LOADS, *CA_SOIL_FIELDS, *_FIELDS, PART9)},
    results=[
        Result("passes", "", "whether every check passes; the engineer decides all the same"),
        Result("governing"),
        Result("ratio"),
        Result("length", "length", "of the piece that carries the post"),
        Result("width", "length"),
        Result("thickness", "length"),
        Result("pressures.before.gross.max", "pressure", "also net, and min"),
        Result("pressures.after.gross.max", "pressure", "also net, and min"),
        Result("load.before", "force"),
        Result("load.after", "force"),
        Result("checks.<name>.ratio", "", "as the checks of a plain pad of the footing kind"),
        Result("questions.<n>", "", "for the engineer"),
        *CA_EXISTING_RESULTS,
    ],
    doc="A footing that is there under a new post: pressure before and after, checks as plain concrete.",
)
