"""The `shoring` kind: temporary walls on both sides of a wall that comes out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.cases.post import BRACED
from structure.core.cases.reader import (
    SECTION,
    Choice,
    Field,
    Flag,
    Kind,
    ListOf,
    OneOf,
    Quantity,
    Record,
    Result,
    Text,
    read_record,
    read_section,
)
from structure.core.cases.takedown import LEVELS, read_levels
from structure.core.clauses import Editions
from structure.core.codes.house import HOUSE
from structure.core.errors import InputError
from structure.core.members.shoring import ShoringQuestion, plan_shoring
from structure.core.members.shoring_loads import Season
from structure.core.members.shoring_parts import FRAMED, SLAB, SOIL, Floor, Joists

# Words for what a sill stands on, and what each means.
GROUND_WORDS = {
    "slab": SLAB,
    "concrete": SLAB,
    "soil": SOIL,
    "ground": SOIL,
    "framed": FRAMED,
    "joists": FRAMED,
    "wood": FRAMED,
}
_LENGTH = Quantity("length", positive=True)
_PRESSURE = Quantity("pressure", non_negative=True)
_GROUND = Choice(list(GROUND_WORDS))
_FLOOR = Record(
    [
        Field(
            "kind",
            _GROUND,
            required=True,
            doc="framed (joists, wood), slab (concrete) on ground, or soil (ground)",
        ),
        Field("name", Text(80)),
        Field("thickness", _LENGTH, doc="of a slab; default 3 1/2 in, IRC R506.1, or 75 mm, NBC 9.16.4.3."),
        Field(
            "soil",
            Quantity("pressure", positive=True),
            doc="allowable; default 1,500 psf, IRC Table R401.4.1, or 75 kPa, NBC 9.15.1.1.",
        ),
        Field("height", _LENGTH, doc="of the storey under a framed floor, where the load is shored again"),
    ]
)
_STAND_OFF = Record([Field("left", _LENGTH), Field("right", _LENGTH)])
_REASONS = Record([Field(name, Text()) for name in ("construction", "occupancy", "snow")])
_JOISTS = Record(
    [
        Field("section", SECTION, required=True, doc="one joist"),
        Field("spacing", _LENGTH, doc="default that of the lowest level, else 16 in or 400 mm"),
    ]
)
_SPF = {"family": "sawn", "species": "SPF", "grade": "No.2"}
DEFAULTS: Mapping[str, dict[str, Any]] = {
    "header": _SPF | {"plies": 2, "width": "1.5 in", "depth": "9.25 in"},
    "shore": _SPF | {"plies": 1, "width": "3.5 in", "depth": "3.5 in"},
    "sill": _SPF | {"plies": 1, "width": "1.5 in", "depth": "9.25 in"},
}
DEFAULT_HEIGHT = {"us": "8 ft", "ca": "2440 mm"}
DEFAULT_STAND_OFF = {"us": "3 ft", "ca": "900 mm"}


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    try:
        return plan_shoring(read_question(given, editions), editions).as_data()
    except InputError as error:
        raise error.under("given") from None


def read_question(given: Mapping[str, Any], editions: Editions) -> ShoringQuestion:
    """The question from the typed fields of the kind; what is left out is assumed and told."""
    code = editions.code
    assumed: list[str] = []
    sections = {}
    for name, default in DEFAULTS.items():
        record = given[name]
        if record is None:
            record = SECTION.read(default, name, code)
        sections[name] = read_section(record, name, code, editions)
        if given[name] is None:
            assumed.append(f"The {name} was not given: {sections[name].label} is taken (common practice).")
    height = given["height"]
    if height is None:
        usual = DEFAULT_HEIGHT[code]
        height = _LENGTH.read(usual, "height", code)
        assumed.append(f"The height was not given: {usual} is taken (common practice); measure it.")
    levels = tuple(read_levels(given["levels"]))
    joists = given["joists"]
    return ShoringQuestion(
        levels=levels,
        season=Season(
            construction=given["construction"],
            occupancy=given["occupancy"],
            cleared=given["cleared"],
            snow=given["snow"],
            reasons={name: reason for name, reason in (given["reasons"] or {}).items() if reason is not None},
        ),
        clear_opening=given["clear_opening"],
        stand_off=_stand_off(given["stand_off"], assumed, code),
        height=height,
        spacing=given["spacing"],
        floors=_floors(given["floor_below"], code),
        joists=None
        if joists is None
        else Joists(
            read_section(joists["section"], "joists.section", code, editions),
            joists["spacing"] or levels[-1].spacing or HOUSE[code].joist_spacing,
        ),
        past_end=given["past_end"],
        braced={name: brace for name, brace in (given["shore_braced"] or {}).items() if brace is not None},
        assumed=tuple(assumed),
        every_level=given["every_level"],
        code=code,
        **sections,
    )


def _stand_off(read: Any, assumed: list[str], code: str) -> dict[str, float]:
    if read is None:
        usual = DEFAULT_STAND_OFF[code]
        assumed.append(f"The stand-off was not given: {usual} is taken (common practice).")
        read = _LENGTH.read(usual, "stand_off", code)
    if isinstance(read, float):
        return {"left": read, "right": read}
    if read["left"] is None and read["right"] is None:
        raise InputError("stand_off", "neither side", "a length, or left and right")
    either = read["left"] or read["right"]
    return {"left": read["left"] or either, "right": read["right"] or either}


def _floors(read: Any, code: str) -> tuple[Floor, ...]:
    """From the sill down to the ground; one word or one record is a list of one."""
    if read is None:
        return ()
    records = [
        read_record(_FLOOR.fields, {"kind": each}, "floor_below", code) if isinstance(each, str) else each
        for each in (read if isinstance(read, list) else [read])
    ]
    floors = tuple(
        Floor(GROUND_WORDS[each["kind"]], each["name"] or "", each["thickness"], each["soil"], each["height"])
        for each in records
    )
    for n, floor in enumerate(floors[:-1]):
        if floor.kind != FRAMED:
            raise InputError(
                f"floor_below[{n}].kind",
                records[n]["kind"],
                "a framed floor; slab or soil only as the last one",
            )
    return floors


KIND = Kind(
    "shoring",
    [
        Field(
            "levels",
            LEVELS,
            required=True,
            doc="carried, from the top down, as for takedown; the last one's joists are what the shores hold, and "
            "what the others bring stands on those joists' ends",
        ),
        Field(
            "construction",
            _PRESSURE,
            doc="people and materials while working, on every floor and attic; default 20 psf or 1 kPa unless "
            "cleared (memory: ASCE 37, very light duty)",
        ),
        Field(
            "occupancy",
            _PRESSURE,
            doc="of the rooms above, on every floor, and on an attic without live; default own live",
        ),
        Field(
            "cleared",
            Flag(),
            default=False,
            doc="the rooms above are recorded as cleared: no occupancy, and no construction load unless given",
        ),
        Field("snow", _PRESSURE, doc="on the roof in season; default each roof's own snow"),
        Field(
            "reasons",
            _REASONS,
            doc="recorded reason for each load that is left out: construction, occupancy, snow",
        ),
        Field("clear_opening", _LENGTH, required=True),
        Field(
            "stand_off",
            OneOf(_STAND_OFF, _LENGTH),
            doc="centre of the old wall to centre of the shores, one length or left and right; default 3 ft or "
            "900 mm, common practice",
        ),
        Field("header", SECTION, doc="on edge, joists on top; default 2-2x10 SPF No.2"),
        Field("shore", SECTION, doc="plies along the wall; default 4x4 SPF No.2"),
        Field("sill", SECTION, doc="lies flat; default one 2x10 SPF No.2"),
        Field(
            "height",
            _LENGTH,
            doc="floor to underside of the joists; default 8 ft or 2440 mm, common practice",
        ),
        Field(
            "spacing",
            _LENGTH,
            doc="of the shores, 6 to 96 in or 150 to 2400 mm; left out, the largest of 48, 32, 24, 16 and 12 in, or "
            "of 1200, 800, 600, 400 and 300 mm, that passes",
        ),
        Field(
            "floor_below",
            OneOf(_GROUND, _FLOOR, ListOf(OneOf(_GROUND, _FLOOR), min=1, max=4)),
            doc="what the sill stands on, then each level below it down to slab or soil",
        ),
        Field(
            "joists",
            _JOISTS,
            doc="needed where a wall stands on the joists' ends: their overhang is then checked",
        ),
        Field(
            "every_level",
            Flag(),
            default=False,
            doc="shores on every level on the same lines: each floor and attic is picked up where it is, and only "
            "walls and roofs stand on joists' ends",
        ),
        Field(
            "past_end",
            Quantity("length", non_negative=True),
            doc="past either end of the opening; default a joist",
        ),
        Field("shore_braced", BRACED, doc="of the shores, as for a post"),
    ],
    solve={"us": _solve, "ca": _solve},
    results=[
        Result("passes", "", "every check of both sides, and the path to the ground closed"),
        Result("<left|right>.line", "line_load", "everything on at once, with the overhang rule"),
        Result("<left|right>.line.<dead|construction|live|snow>", "line_load", "its part of each case"),
        Result("<left|right>.spacing", "length", "of the shores, as given or solved"),
        Result("<left|right>.shores", "", "how many"),
        Result("<left|right>.length", "length", "of the shoring wall"),
        Result("<left|right>.shore_load", "force", "on the worst shore"),
        Result(
            "<left|right>.checks.<header_bending|header_shear|shore_buckling|header_bearing|sill_bearing|ground|"
            "joist_bending|far_end_uplift|...>.<demand|capacity|ratio|passes|...>",
            "",
            "each check with its steps",
        ),
        Result("<left|right>.blocks", "", "what stops the plan outright, in words"),
        Result("<left|right>.reshore", "", "whether it is shored again on the levels below"),
        Result(
            "sides.<left|right>.<line|spacing|shores|length|reshore|ratio|passes>",
            "",
            "each side at a glance",
        ),
        Result("loads", "", "each load of each level: counted, or left out with its reason"),
        Result("wall_line.line.<case>", "line_load", "what stands on the joists' ends"),
        Result("jacking.limit", "length", "movement above at most; common practice"),
        Result("raising, lowering, bracing, stop_work", "", "the crew's part, marked common practice"),
    ],
    doc="Temporary walls on both sides of a wall that comes out: line loads, timbers, spacing, path to ground. "
    "Each combination of the stress design, and everything at once where snow meets people or materials; in ca every "
    "factored sum.",
)
