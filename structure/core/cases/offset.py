"""The `offset` kind: a wall above against the support below."""

from __future__ import annotations

from typing import Any

from structure.core.cases.reader import Choice, Field, Flag, Kind, Quantity, Record, Result
from structure.core.clauses import Editions
from structure.core.offset import Measured, OffsetQuestion, check_offset

_MEASURED = Record(
    [
        Field("from", Choice(["exterior face"]), default="exterior face", doc="where the tape starts"),
        Field("distance", Quantity("length", non_negative=True), required=True),
        Field("to", Choice(["near_face", "centre"]), required=True),
        Field("thickness", Quantity("length", positive=True), required=True, doc="of the wall or beam"),
        Field("tolerance", Quantity("length", non_negative=True), doc="of this measurement alone"),
    ]
)


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    question = OffsetQuestion(
        above=_measured(given["above"]),
        below=_measured(given["below"]),
        joist_depth=given["joist_depth"],
        wall_shift=given["wall_shift"] or 0.0,
        tolerance=given["tolerance"] or 0.0,
        supports_floor=given["supports_floor"],
        parallel=given["framing"] == "parallel",
    )
    return check_offset(question, editions).as_data()


def _measured(read: dict[str, Any]) -> Measured:
    return Measured(read["distance"], read["to"], read["thickness"], read["tolerance"] or 0.0)


KIND = Kind(
    "offset",
    [
        Field("above", _MEASURED, required=True, doc="the wall above"),
        Field("below", _MEASURED, required=True, doc="the wall, beam or line of posts below"),
        Field("wall_shift", Quantity("length"), doc="reference face below minus reference face above"),
        Field("joist_depth", Quantity("length", positive=True), required=True),
        Field("tolerance", Quantity("length", non_negative=True), doc="of both measurements together"),
        Field("supports_floor", Flag(), default=True, doc="whether the wall above carries a floor"),
        Field("framing", Choice(["perpendicular", "parallel"]), default="perpendicular"),
    ],
    solve={"us": _solve, "ca": _solve},
    results=[
        Result("offset", "length", "centre to centre, absolute"),
        Result("tolerance", "length", "all tolerances added"),
        Result(
            "limit",
            "length",
            "IRC R502.4: the joist depth; NBC 9.23.9.8.: 600 or 900 mm; nothing along the joists",
        ),
        Result("aligned", "", "true, false or within tolerance: against the limit"),
        Result("stacks", "", "true, false or within tolerance: whether the two overlap in plan"),
    ],
    doc="Is a wall within the code limit of the support below it, and does it stack on it?",
)
