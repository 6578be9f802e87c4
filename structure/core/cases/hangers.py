"""The `hangers` kind: joists in hangers on a flush beam."""

from __future__ import annotations

from typing import Any

from structure.core.cases.grammars import LOAD_CASE
from structure.core.cases.reader import Field, Kind, ListOf, Quantity, Record, Result, Text
from structure.core.clauses import Editions
from structure.core.errors import InputError
from structure.core.members.hangers import SIDES, HangerQuestion, HangingSide, Rating, check_hangers

_LENGTH = Quantity("length", positive=True)
_SIDE = Record(
    (
        Field("span", _LENGTH, required=True, doc="of the simple joist"),
        Field(
            "loads",
            ListOf(
                Record(
                    (
                        Field("case", LOAD_CASE, required=True),
                        Field("value", Quantity("pressure"), required=True),
                    )
                ),
                min=1,
                max=20,
            ),
            required=True,
        ),
    )
)
RATING = Record(
    (
        Field(
            "capacity",
            Quantity("force", positive=True),
            required=True,
            doc="us: allowable for normal duration; ca: factored, for standard term",
        ),
        Field("source", Text(), required=True, doc="the maker's paper"),
        Field("nail_length", _LENGTH, doc="of the nails into the beam that the rating asks for"),
        Field("least_breadth", _LENGTH, doc="of the beam that the rating asks for"),
    )
)


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    sides = {}
    for name in SIDES:
        read = given[name]
        if read is not None:
            pressures: dict[str, float] = {}
            for load in read["loads"]:
                pressures[load["case"]] = pressures.get(load["case"], 0.0) + load["value"]
            sides[name] = HangingSide(read["span"], pressures)
    rating = given["rating"]
    question = HangerQuestion(
        clear_width=given["clear_width"],
        spacing=given["spacing"],
        sides=sides,
        rating=None if rating is None else Rating(**rating),
        breadth=given["beam_width"],
    )
    try:
        return check_hangers(question, editions).as_data()
    except InputError as error:
        raise error.under("given") from None


KIND = Kind(
    "hangers",
    (
        Field("clear_width", _LENGTH, required=True, doc="of the opening, face to face of the posts"),
        Field("spacing", _LENGTH, default="16 in", defaults={"ca": "400 mm"}, doc="of the joists"),
        Field("left", _SIDE, doc="joists of one side"),
        Field("right", _SIDE, doc="joists of the other side"),
        Field("beam_width", _LENGTH, doc="all plies, for the nails of the hangers"),
        Field("rating", RATING, doc="of the hanger in hand; without it a question"),
    ),
    solve={"us": _solve, "ca": _solve},
    results=(
        Result("state", "", "passes, fails or question"),
        Result("count", "", "hangers of both sides"),
        Result("sides.<left|right>.<count|by_case|load|combination|line>", "", "of one side"),
        Result("required", "force", "the rating that is needed"),
        Result("combination", "", "that needs it"),
        Result("ratio", "", "of the stated rating"),
        Result("checks.rating.<demand|capacity|ratio|combination|clause|passes|steps>", "", "the check"),
        Result("questions.<n>", "", "what the maker's paper must say"),
        Result("fails.<n>", "", "what does not fit, in words"),
    ),
    doc="Joists in hangers on a flush beam: count, load of each by case, stated rating.",
)
