"""The `carry_in` kind: can the beam be got into the house, and who carries it?"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.cases.reader import (
    SECTION,
    Field,
    Integer,
    Kind,
    ListOf,
    Quantity,
    Result,
    Text,
    Variant,
    read_section,
)
from structure.core.clauses import Editions
from structure.core.errors import InputError
from structure.core.members.carry_in import CarryQuestion, Turn, carry_in

_LENGTH = Quantity("length", positive=True)
_NAME = Field("name", Text(60), doc="of the place")
WAY = ListOf(
    Variant(
        "kind",
        {
            "turn": (
                Field("first", _LENGTH, required=True, doc="width of the passage it comes from"),
                Field("second", _LENGTH, required=True, doc="width of the one it turns into"),
                Field("height", _LENGTH, required=True, doc="clear, over both"),
            ),
            "door": (
                Field("width", _LENGTH, required=True, doc="clear, of the door"),
                Field(
                    "passage", _LENGTH, required=True, doc="width of the passage behind it, across its way"
                ),
                Field("height", _LENGTH, required=True, doc="clear, of the door"),
            ),
            "stair": (
                Field("opening", _LENGTH, required=True, doc="length of the stairwell"),
                Field("width", _LENGTH, required=True, doc="of the stairwell"),
                Field("below", _LENGTH, required=True, doc="clear height of the storey below"),
                Field("above", _LENGTH, required=True, doc="clear height of the storey above"),
            ),
        },
        common=(_NAME,),
    ),
    max=20,
)


def read_way(records: list[Mapping[str, Any]] | None) -> tuple[Turn, ...]:
    """Turns from the typed records of a WAY field; a stairwell is two, seen from the side."""
    turns: list[Turn] = []
    for n, read in enumerate(records or (), start=1):
        name = read["name"] or f"{read['kind']} {n}"
        if read["kind"] == "turn":
            turns.append(Turn(name, read["first"], read["second"], read["height"]))
        elif read["kind"] == "door":
            turns.append(Turn(name, read["width"], read["passage"], read["height"]))
        else:
            # Seen from the side the storeys are the passages, and the width of the well is the height.
            turns.append(Turn(f"{name}, into the well", read["below"], read["opening"], read["width"]))
            turns.append(Turn(f"{name}, out of the well", read["opening"], read["above"], read["width"]))
    return tuple(turns)


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    try:
        return carry_in(_question(given, editions), editions).as_data()
    except InputError as error:
        raise error.under("given") from None


def _question(given: Mapping[str, Any], editions: Editions) -> CarryQuestion:
    if given["section"] is not None:
        typed = [name for name in ("width", "depth", "weight") if given[name] is not None]
        if typed:
            raise InputError(typed[0], given[typed[0]], "a section, or width, depth and weight")
        section = read_section(given["section"], "section", editions.code, editions)
        width, depth, weight, plies = section.breadth, section.depth, section.weight, section.plies
    else:
        for name in ("width", "depth", "weight"):
            if given[name] is None:
                raise InputError(name, None, "a section, or width, depth and weight")
        width, depth, weight, plies = given["width"], given["depth"], given["weight"], given["plies"]
    return CarryQuestion(
        width=width,
        depth=depth,
        length=given["length"],
        weight=weight,
        plies=plies,
        turns=read_way(given["way"]),
        spans=tuple(given["spans"] or ()),
        limit=given["limit_per_person"],
    )


KIND = Kind(
    "carry_in",
    (
        Field("section", SECTION, doc="of the beam; its plies may be carried one by one"),
        Field("width", _LENGTH, doc="of all plies, in place of a section"),
        Field("depth", _LENGTH, doc="in place of a section"),
        Field("weight", Quantity("line_load", positive=True), doc="in place of a section"),
        Field("plies", Integer(1, 8), default=1, doc="in place of a section"),
        Field("length", _LENGTH, required=True, doc="of the piece"),
        Field("way", WAY, default=[], doc="what it must pass, from the street to its place"),
        Field("spans", ListOf(_LENGTH, max=6), doc="of the beam, where plies may be joined over supports"),
        Field(
            "limit_per_person", Quantity("force", positive=True), default="51 lbf", defaults={"ca": "226 N"}
        ),
    ),
    solve={"us": _solve, "ca": _solve},
    results=(
        Result("passes", "", "whole or ply by ply"),
        Result("whole", "", "true if all plies together fit"),
        Result("ply_by_ply", "", "true if one ply fits"),
        Result("joined_over_supports", "", "true if every span fits as a piece of its own"),
        Result("longest", "length", "whole, through every turn"),
        Result("longest_ply", "length", "one ply"),
        Result("governing", "", "the tightest turn"),
        Result("turns.<n>.<name|thin|longest|carried>", "", "each turn; thin without width and level"),
        Result("weight", "force", "of the whole piece"),
        Result("people", "", "to carry the whole"),
        Result("two_can_carry", "", "true or false"),
        Result("ply_weight", "force", "of one ply"),
        Result("ply_people", "", "to carry one ply"),
        Result("splice", "", "what to do if it does not fit"),
    ),
    doc="Longest straight piece round the turns on its way, its weight and the people to carry it.",
)
