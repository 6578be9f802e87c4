"""The `squash_blocks` kind, and the field of that name in a load path."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.cases.grammars import SPECIES, ByCode
from structure.core.cases.reader import (
    POST_LOADS,
    SECTION,
    Choice,
    Field,
    Integer,
    Kind,
    Quantity,
    Record,
    Result,
    read_post_loads,
    read_section,
)
from structure.core.clauses import Editions
from structure.core.errors import InputError
from structure.core.members.post_values import species_across_the_grain
from structure.core.members.squash_blocks import BlocksQuestion, check_blocks

_FIELDS = (
    Field("count", Integer(1, 12), required=True, doc="blocks that stand upright side by side"),
    Field("section", SECTION, required=True, doc="of one block"),
    Field("height", Quantity("length", positive=True), required=True, doc="of the floor cavity"),
    Field(
        "plate",
        ByCode({code: Choice(names) for code, names in SPECIES.items()}),
        doc="species of the softer piece that they stand on or under",
    ),
    Field(
        "post_area",
        Quantity("area", positive=True),
        doc="of the post above, which they must not fall short of",
    ),
)
BLOCKS = Record(_FIELDS)


def read_blocks(given: Mapping[str, Any], loads: Mapping[str, float], editions: Editions) -> BlocksQuestion:
    """The question from the typed fields, with loads by case [lbf]."""
    plate = given["plate"]
    return BlocksQuestion(
        count=given["count"],
        section=read_section(given["section"], "section", editions.code, editions),
        height=given["height"],
        loads=loads,
        F_c_perp=None if plate is None else species_across_the_grain(plate, editions),
        plate=plate or "",
        post_area=given["post_area"],
    )


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    try:
        question = read_blocks(given, read_post_loads(given["loads"], editions.code), editions)
        return check_blocks(question, editions).as_data()
    except InputError as error:
        raise error.under("given") from None


KIND = Kind(
    "squash_blocks",
    (*_FIELDS, Field("loads", POST_LOADS, required=True, doc="of the post above, by case")),
    solve={"us": _solve, "ca": _solve},
    results=(
        Result("passes", "", "true or false"),
        Result("ratio", "", "largest of all checks"),
        Result("governing", "", "its name"),
        Result("needed", "", "blocks that carry the load"),
        Result("share.<case>", "force", "load of one block"),
        Result("area", "area", "of all blocks"),
        Result("checks.<buckling|end_bearing|plate_bearing|area>...", "", "of one block; area of all"),
    ),
    doc="Squash blocks through a floor cavity, each a short post under its share, NDS 3.6 to 3.10, CSA O86 6.5.",
)
