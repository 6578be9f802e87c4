"""The `scope` kind: does Part 9 of the National Building Code cover the case by itself?"""

from __future__ import annotations

from typing import Any

from structure.core.cases.reader import Field, Flag, Integer, Kind, Quantity, Record, Result
from structure.core.cases.takedown import LEVELS, read_levels
from structure.core.clauses import Editions
from structure.core.codes.ca.scope import check_scope
from structure.core.errors import InputError
from structure.core.scope import House, facts_of

HOUSE_FIELDS = (
    Field("storeys", Integer(1, 20), doc="of the whole building, in building height"),
    Field("building_area", Quantity("area", positive=True), doc="of the whole building"),
)
HOUSE = Record(HOUSE_FIELDS)


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    try:
        levels = read_levels(given["levels"])
    except InputError as error:
        raise error.under("given") from None
    facts = facts_of(
        levels,
        House(given["storeys"], given["building_area"]),
        beam_span=given["beam_span"],
        soil=given["soil"],
        column_load=given["column_load"],
        adjustable=given["adjustable"],
    )
    return check_scope(facts, editions).as_data()


KIND = Kind(
    "scope",
    (
        Field("levels", LEVELS, required=True, doc="above the wall, from the top down, as for takedown"),
        *HOUSE_FIELDS,
        Field("beam_span", Quantity("length", positive=True), doc="of the new beam"),
        Field("soil", Quantity("pressure", positive=True), doc="allowable bearing pressure"),
        Field("column_load", Quantity("force", non_negative=True), doc="unfactored, on the heaviest post"),
        Field("adjustable", Flag(), default=False, doc="adjustable steel columns carry the beam"),
    ),
    solve={"ca": _solve},
    results=(
        Result("inside", "", "true, false, or unknown where something was not said"),
        Result("engineer", "", "true where Part 9 does not cover it"),
        Result(
            "limits.<storeys|building_area|span|joist_spacing|live_load|supported_length|footing_span|floors|roof|"
            "concentrated|soil|adjustable_column>.<value|limit|inside|clause>",
            "",
            "each limit",
        ),
        Result("outside.<n>", "", "names of the limits that are passed"),
        Result("unknown.<n>", "", "names of those that nobody has said anything about"),
        Result("remarks.<n>", "", "the same in sentences"),
    ),
    doc="Is the case inside what Part 9 of the National Building Code of Canada lays down by itself?",
)
