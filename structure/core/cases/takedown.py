"""The `takedown` kind: loads of a house section carried down to one wall line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from structure.core.cases.reader import (
    LOAD_CASE,
    Choice,
    Field,
    Kind,
    ListOf,
    OneOf,
    Quantity,
    Record,
    Result,
    Text,
)
from structure.core.clauses import Editions
from structure.core.errors import InputError
from structure.core.takedown import Layer, Level, Reaction, Side, Wall, take_down
from structure.core.takedown_line import Point

_PRESSURES = ("live", "roof_live", "snow")
_PRESSURE = Quantity("pressure", non_negative=True)


class PerLengthOrEach:
    """A truss reaction: a load per length, or a force for each truss. Read to (value, each)."""

    def read(self, value: Any, path: str, code: str) -> tuple[float, bool]:
        try:
            return Quantity("line_load").read(value, path, code), False
        except InputError:
            pass
        try:
            return Quantity("force").read(value, path, code), True
        except InputError:
            raise InputError(path, value, self.accepted()) from None

    def fits(self, value: Any) -> bool:
        return isinstance(value, str)

    def accepted(self) -> str:
        return "a load per length, such as 450 lbf/ft or 6.5 kN/m, or a force for each truss, such as 900 lbf or 4 kN"

    def schema(self, code: str) -> dict[str, Any]:
        return {
            "type": "one_of",
            "types": [Quantity("line_load").schema(code), Quantity("force").schema(code)],
        }


_SIDE = Record(
    [
        Field("span", Quantity("length", positive=True), doc="to the wall line; may be left out with none"),
        Field("support", Choice(["simple", "continuous", "none"]), required=True, doc="at the wall line"),
    ]
)
_REACTION_BY_CASE = Record([Field(case, PerLengthOrEach()) for case in ("dead", *_PRESSURES)])
_REACTION_LIST = ListOf(
    Record([Field("case", LOAD_CASE, required=True), Field("value", PerLengthOrEach(), required=True)]), min=1
)
_LEVEL = Record(
    [
        Field("name", Text(80)),
        Field("kind", Choice(["roof", "attic", "floor"]), required=True),
        Field("left", _SIDE),
        Field("right", _SIDE),
        Field(
            "spacing",
            Quantity("length", positive=True),
            doc="of joists or trusses; default 16 in, 400 mm in ca",
        ),
        Field(
            "dead",
            OneOf(
                _PRESSURE,
                ListOf(
                    Record(
                        [Field("layer", Text(80), required=True), Field("value", _PRESSURE, required=True)]
                    )
                ),
            ),
            doc="a pressure or a list of layers, on the horizontal projection",
        ),
        *(Field(case, _PRESSURE, doc="on the horizontal projection") for case in _PRESSURES),
        Field(
            "framing",
            Choice(["perpendicular", "parallel", "truss_clear", "truss_interior"]),
            default="perpendicular",
            doc="as it lies to the wall line",
        ),
        Field(
            "reaction",
            OneOf(PerLengthOrEach(), _REACTION_BY_CASE, _REACTION_LIST),
            doc="for truss_interior: by case, or one value shared out as the level's pressures are",
        ),
        Field(
            "wall_above",
            Record(
                [
                    Field("height", Quantity("length", positive=True), required=True),
                    Field("weight", _PRESSURE, required=True, doc="per area of wall"),
                ]
            ),
            doc="a wall that stands on the line at this level",
        ),
        Field(
            "points",
            ListOf(
                Record(
                    [
                        Field("case", LOAD_CASE, required=True),
                        Field("value", Quantity("force"), required=True),
                        Field(
                            "at",
                            Quantity("length", non_negative=True),
                            required=True,
                            doc="along the wall line",
                        ),
                    ]
                )
            ),
            default=[],
        ),
        Field(
            "start", Quantity("length", non_negative=True), doc="where the level starts along the wall line"
        ),
        Field("end", Quantity("length", non_negative=True), doc="where it ends; default the whole line"),
    ]
)


LEVELS = ListOf(_LEVEL, min=1, max=12)


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    try:
        return take_down(read_levels(given["levels"]), editions).as_data()
    except InputError as error:
        raise error.under("given") from None


def read_levels(records: Sequence[Mapping[str, Any]]) -> list[Level]:
    """Levels for `take_down` from the typed records of a LEVELS field. InputError paths begin at `levels`."""
    return [_level(read, n) for n, read in enumerate(records)]


def _level(read: Mapping[str, Any], n: int) -> Level:
    name = read["name"] or f"level {n + 1}"
    pressures = {case: read[case] for case in _PRESSURES if read[case] is not None}
    layers = _layers(read["dead"])
    return Level(
        name=name,
        kind=read["kind"],
        framing=read["framing"],
        left=_side(read["left"]),
        right=_side(read["right"]),
        spacing=read["spacing"],
        dead=layers,
        pressures=pressures,
        reactions=_reactions(read["reaction"], layers, pressures, f"levels[{n}].reaction"),
        wall_above=None if read["wall_above"] is None else Wall(**read["wall_above"]),
        points=tuple(Point(p["case"], p["value"], p["at"], name) for p in read["points"]),
        start=read["start"],
        end=read["end"],
    )


def _layers(read: Any) -> tuple[Layer, ...]:
    if isinstance(read, list):
        return tuple(Layer(layer["layer"], layer["value"]) for layer in read)
    return () if read is None else (Layer("dead", read),)


def _side(read: Mapping[str, Any] | None) -> Side | None:
    return None if read is None else Side(read["support"], read["span"])


def _reactions(
    read: Any, layers: tuple[Layer, ...], pressures: Mapping[str, float], path: str
) -> tuple[Reaction, ...]:
    if read is None:
        return ()
    if isinstance(read, dict):
        return tuple(Reaction(case, *value) for case, value in read.items() if value is not None)
    if isinstance(read, list):
        return tuple(Reaction(each["case"], *each["value"]) for each in read)
    value, each = read
    shares = {"dead": sum(layer.value for layer in layers), **pressures}
    whole = sum(shares.values())
    if whole <= 0:
        raise InputError(
            path, "one value without a case", "a value for each case, such as {dead: ..., snow: ...}"
        )
    return tuple(Reaction(case, value * share / whole, each) for case, share in shares.items() if share)


KIND = Kind(
    "takedown",
    [Field("levels", LEVELS, required=True, doc="from the top down")],
    solve={"us": _solve, "ca": _solve},
    results=[
        Result(
            "line.<case>", "line_load", "on the wall line; the largest along it where extents are partial"
        ),
        Result("segments.<n>.line.<case>", "line_load", "pieces of the line with constant loads"),
        Result("points.<n>.value", "force", "concentrated loads, with case, at and level"),
        Result("by_level.<n>.line.<case>", "line_load", "what each level brings, with its steps"),
        Result("by_level.<n>.total.<case>", "line_load", "what has come down to below that level"),
    ],
    doc="Loads of the levels above, from the roof down, as load per length on a wall line.",
)
