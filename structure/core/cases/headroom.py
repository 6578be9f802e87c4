"""The `headroom` kind: the clear height under a beam against the code."""

from __future__ import annotations

from typing import Any

from structure.core.cases.grammars import ByCode
from structure.core.cases.reader import Choice, Field, Kind, Quantity, Result
from structure.core.clauses import Editions
from structure.core.errors import InputError
from structure.core.members.headroom import HeadroomQuestion, check_headroom, spaces

_LENGTH = Quantity("length", positive=True)
_FINISH = Quantity("length", non_negative=True)


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    flush = given["mounting"] == "flush"
    if flush and given["joist_depth"] is None:
        raise InputError("given.joist_depth", None, "the depth of the joists that a flush beam is level with")
    question = HeadroomQuestion(
        height=given["ceiling_height"],
        depth=given["beam_depth"],
        flush=flush,
        joist_depth=given["joist_depth"] or 0.0,
        floor_finish=given["floor_finish"],
        board=given["board"],
        space=given["space"],
    )
    try:
        return check_headroom(question, editions).as_data()
    except InputError as error:
        raise error.under("given") from None


KIND = Kind(
    "headroom",
    (
        Field("ceiling_height", _LENGTH, required=True, doc="rough floor to the underside of the joists"),
        Field("beam_depth", _LENGTH, required=True),
        Field("mounting", Choice(("dropped", "flush")), default="dropped"),
        Field("joist_depth", _LENGTH, doc="for a flush beam, whose top is level with theirs"),
        Field("floor_finish", _FINISH, default="0 in", doc="still to come on the floor"),
        Field("board", _FINISH, default="1/2 in", doc="under the beam and the joists"),
        Field(
            "space",
            ByCode({code: Choice(spaces(code)) for code in ("us", "ca")}),
            default="habitable",
            doc="what the room is",
        ),
    ),
    solve={"us": _solve, "ca": _solve},
    results=(
        Result("clear", "length", "finished floor to the finished underside of the beam"),
        Result("required", "length", "least height there"),
        Result("passes", "", "true or false"),
        Result("short_by", "length", "what is missing; 0 if it passes"),
        Result("clause", "", "of the least height"),
        Result("drop", "length", "of the beam below the joists"),
        Result("ceiling.<clear|required|passes|short_by|clause>", "", "beside the beam"),
    ),
    doc="Clear height under a beam, dropped or flush, IRC R305.1, NBC 9.5.3.1.",
)
