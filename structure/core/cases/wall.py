"""The `wall` kind: the whole wall at once, from the house section to the soil and the shoring."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.cases import beam, hangers, headroom, shoring
from structure.core.cases.carry_in import WAY, read_way
from structure.core.cases.fastener_fields import FASTENER
from structure.core.cases.grammars import GRADES, SPECIES, ByCode
from structure.core.cases.pad_fields import REINFORCEMENT, read_reinforcement
from structure.core.cases.reader import (
    POST_LOADS,
    SECTION,
    Choice,
    Field,
    Flag,
    Kind,
    ListOf,
    Number,
    Quantity,
    Record,
    Result,
    Text,
    Type,
    read_post_loads,
    read_section,
)
from structure.core.cases.scope import HOUSE
from structure.core.cases.squash_blocks import BLOCKS, read_blocks
from structure.core.cases.takedown import LEVELS, read_levels
from structure.core.clauses import Editions
from structure.core.errors import InputError
from structure.core.materials.species import held_species
from structure.core.members.beam import Limits
from structure.core.members.ca_footing_scope import allowable_soil, find_soil, soil_classes
from structure.core.members.footing_question import Reinforcement
from structure.core.members.hangers import Rating
from structure.core.members.plies import make_fastener
from structure.core.members.post_search import STEEL
from structure.core.members.squash_blocks import BlocksQuestion
from structure.core.scope import House
from structure.core.wall import design_wall
from structure.core.wall_connections import Connections, Room
from structure.core.wall_question import Beneath, Opening, Pads, PostLumber, Stated, WallQuestion

_LENGTH = Quantity("length", positive=True)
_SPECIES = ByCode({"us": Choice(held_species()), "ca": Choice(SPECIES["ca"])})


def _type(kind: Kind, name: str) -> Type:
    """The type of a field of another kind, so that both take the same."""
    return next(each.type for each in kind.fields if each.name == name)


_ROOM = ("space", "floor_finish", "board")
_OPENING = Record(
    (
        Field("clear_width", _LENGTH, required=True, doc="face to face of the posts"),
        Field("ceiling_height", _LENGTH, required=True, doc="floor to the underside of the joists"),
        Field(
            "end_bearing",
            _LENGTH,
            default="4 1/2 in",
            defaults={"ca": "114 mm"},
            doc="length of the beam on each post",
        ),
        Field(
            "mounting",
            Choice(("dropped", "flush")),
            default="dropped",
            doc="under the joists, or level with them",
        ),
        Field(
            "joist_depth",
            _LENGTH,
            default="9 1/4 in",
            defaults={"ca": "235 mm"},
            doc="of the joists over the wall, for a flush beam",
        ),
        Field("headroom", _LENGTH, doc="what must stay clear under the beam; default nothing is asked"),
        Field(
            "bracing",
            _type(beam.KIND, "bracing"),
            doc="of the top edge; default continuous where joists cross the beam, else its ends",
        ),
        *(each for each in headroom.KIND.fields if each.name in _ROOM),
    )
)
_PLATE = Field("base_plate", _LENGTH, required=True, doc="side of the plate that stands on the pad")
_LONGEST = Field("longest", _LENGTH, doc="height up to which the capacity is stated")
_FORCE = Quantity("force", positive=True)
_STATED = ByCode(
    {
        "us": Record(
            (
                Field("capacity", _FORCE, required=True, doc="allowable, at this height"),
                Field("source", Text(), required=True, doc="the maker's paper"),
                _PLATE,
                _LONGEST,
            )
        ),
        "ca": Record(
            (
                Field(
                    "capacity", _FORCE, doc="working load, by its own report; default 36 kN, NBC 9.17.3.4."
                ),
                Field("source", Text(), doc="the report"),
                _PLATE,
                _LONGEST,
            )
        ),
    }
)
_BELOW = Record(
    (
        Field("ground", Choice(("slab", "crawl", "basement")), required=True, doc="what is under this floor"),
        Field("height", _LENGTH, doc="pad or slab down there to the underside of the floor framing"),
        Field(
            "way",
            Choice(("new_post", "stated_post", "existing_wall", "existing_beam", "unknown")),
            default="new_post",
            doc="how the load goes on down there; unknown breaks the load path",
        ),
        Field("blocked", Flag(), default=True, doc="solid blocking through the floor cavity is put in"),
        Field("stated", _STATED, doc="for an adjustable or pipe post, which stands on a pad of its own"),
        Field("existing_loads", POST_LOADS, doc="what an existing wall or beam carries there already"),
        Field("blocks", BLOCKS, doc="the squash blocks of the floor cavity, which are then checked"),
    )
)
_SOIL = Record(
    (
        Field("allowable", Quantity("pressure", positive=True), required=True, doc="gross unless net"),
        Field("source", Text(), doc="where the value comes from, in words"),
        Field("from", Choice(("presumptive", "investigation"))),
        Field("net", Flag(), default=False),
    )
)
_PAD = Record(
    (
        Field("fc", Quantity("stress", positive=True), default="2500 psi", defaults={"ca": "20 MPa"}),
        Field(
            "density",
            Quantity("density", positive=True),
            default="150 lbf/ft**3",
            defaults={"ca": "24 kN/m**3"},
        ),
        Field("step", _LENGTH, default="2 in", defaults={"ca": "50 mm"}, doc="rounding of what is solved"),
        Field("side", _LENGTH, doc="solved if absent"),
        Field("thickness", _LENGTH, doc="solved if absent"),
        Field("reinforcement", REINFORCEMENT, doc="bars of the pads; without them they are plain"),
    )
)
_POSTS = Record(
    (
        Field("species", ListOf(_SPECIES, min=1), default=["SPF"]),
        Field(
            "grade",
            ByCode(
                {
                    "us": Choice(("SS", "No.1&Btr", "No.1", "No.2", "No.3", "Stud")),
                    "ca": Choice(GRADES["ca"]),
                }
            ),
            default="Stud",
        ),
        Field("solid", Flag(), default=False, doc="try small solid timbers too"),
        Field("deepest", _LENGTH, doc="stud depth of the wall that hides them; default nothing hides them"),
        Field("plate_species", _SPECIES, default="SPF"),
        Field("plate_thickness", _LENGTH, default="1 1/2 in", defaults={"ca": "38 mm"}),
        Field("steel", Choice(tuple(STEEL)), doc="posts of steel pipe or square tube in the place of lumber"),
    )
)
_CONNECTIONS = Record(
    (
        Field("fastener", FASTENER, doc="of the plies; default as for ply_fastening"),
        Field(
            "specific_gravity", Number(min=0.2, max=0.8), doc="that composite lumber counts as, by its maker"
        ),
        Field("gravity_source", Text(), doc="where it is stated"),
        Field("hanger", hangers.RATING, doc="rating of the hangers in hand"),
        Field("way", WAY, default=[], doc="what the beam must pass on its way in, as for carry_in"),
        Field(
            "limit_per_person",
            Quantity("force", positive=True),
            default="51 lbf",
            defaults={"ca": "226 N"},
        ),
    )
)
_CA_SOIL = Record(
    (
        Field(
            "allowable",
            Quantity("pressure", positive=True),
            doc="gross unless net; may be left out where class or from says it",
        ),
        Field("source", Text(), doc="where the value comes from, in words"),
        Field("class", Choice([each.id for each in soil_classes()]), doc="row of NBC Table 9.4.4.1."),
        Field(
            "from",
            Choice(("presumptive", "investigation")),
            doc="presumptive without a value or class is 75 kPa (NBC 9.15.1.1.)",
        ),
        Field("net", Flag(), default=False),
    )
)
# What the wall itself tells the shoring plan.
_TOLD = ("levels", "clear_opening")
_SHORING = Record([each for each in shoring.KIND.fields if each.name not in _TOLD])


def read_wall(given: Mapping[str, Any], editions: Editions) -> WallQuestion:
    """The question from the typed fields of the `wall` kind. InputError paths begin under `given`."""
    code = editions.code
    soil, pad, posts, below = given["soil"], given["pad"], given["posts"], given["below"]
    chosen = given["beam"]
    return WallQuestion(
        levels=tuple(read_levels(given["levels"])),
        opening=_opening(given["opening"]),
        pads=Pads(
            soil=_allowable(soil, editions),
            soil_source=soil["source"] or "",
            soil_from=soil["from"],
            net=soil["net"],
            f_c=pad["fc"],
            density=pad["density"],
            step=pad["step"],
            side=pad["side"],
            thickness=pad["thickness"],
            reinforcement=_bars(pad["reinforcement"], editions),
        ),
        beneath=_beneath(below, editions),
        connections=_connections(given["connections"], editions),
        search=beam.read_search(given["search"], editions),
        beam=None if chosen is None else read_section(chosen, "beam", code, editions),
        posts=PostLumber(
            species=tuple(posts["species"]),
            grade=posts["grade"],
            solid=posts["solid"],
            deepest=posts["deepest"],
            plate_species=posts["plate_species"],
            plate_thickness=posts["plate_thickness"],
            steel=posts["steel"],
        ),
        limits=Limits(**given["deflection"]),
        repetitive=given["repetitive"],
        house=House(**(given.get("house") or {})),
        shoring=_shoring(given, editions),
    )


def _allowable(soil: Mapping[str, Any], editions: Editions) -> float:
    """What the soil may carry: as given, or in Canada by its class or presumed."""
    if editions.code == "us":
        return float(soil["allowable"])
    try:
        return allowable_soil(soil["allowable"], find_soil(soil["class"]), soil["from"], editions)
    except InputError as error:
        field = {"soil": "soil.allowable"}.get(error.field, error.field)
        raise InputError(field, error.read, error.accepted) from None


def _bars(given: Mapping[str, Any] | None, editions: Editions) -> Reinforcement | None:
    try:
        return read_reinforcement(given, editions)
    except InputError as error:
        raise error.under("pad") from None


def _opening(read: Mapping[str, Any]) -> Opening:
    plain = {name: value for name, value in read.items() if name not in _ROOM}
    return Opening(**plain, room=Room(**{name: read[name] for name in _ROOM}))


def _connections(read: Mapping[str, Any], editions: Editions) -> Connections:
    if read["specific_gravity"] is not None and not read["gravity_source"]:
        raise InputError("connections.gravity_source", None, "where the specific gravity is stated")
    fastener = None
    if read["fastener"] is not None:
        try:
            fastener = make_fastener(read["fastener"], editions)
        except InputError as error:
            raise error.under("connections.fastener") from None
    return Connections(
        fastener=fastener,
        gravity=read["specific_gravity"],
        gravity_source=read["gravity_source"] or "",
        rating=None if read["hanger"] is None else Rating(**read["hanger"]),
        way=read_way(read["way"]),
        limit=read["limit_per_person"],
    )


def _beneath(read: Mapping[str, Any] | None, editions: Editions) -> Beneath | None:
    if read is None:
        return None
    stated = read["stated"]
    return Beneath(
        ground=read["ground"],
        height=read["height"],
        way=read["way"],
        blocked=read["blocked"],
        stated=None if stated is None else _stated(stated),
        carries={}
        if read["existing_loads"] is None
        else read_post_loads(read["existing_loads"], editions.code),
        blocks=_read_blocks(read["blocks"], editions),
    )


def _stated(read: Mapping[str, Any]) -> Stated:
    if read["capacity"] is not None and not read["source"]:
        raise InputError("below.stated.source", None, "where the capacity is stated")
    return Stated(**{**read, "source": read["source"] or ""})


def _read_blocks(read: Mapping[str, Any] | None, editions: Editions) -> BlocksQuestion | None:
    try:
        return None if read is None else read_blocks(read, {}, editions)
    except InputError as error:
        raise error.under("below.blocks") from None


def _shoring(given: Mapping[str, Any], editions: Editions) -> Any:
    held = dict(given["shoring"])
    told = {"levels": given["levels"], "clear_opening": given["opening"]["clear_width"]}
    if held["height"] is None:
        held["height"] = given["opening"]["ceiling_height"]
    if held["floor_below"] is None:
        held["floor_below"] = _floors(given["below"])
    try:
        return shoring.read_question(held | told, editions)
    except InputError as error:
        raise error.under("shoring") from None


def _floors(below: Mapping[str, Any] | None) -> list[Any] | None:
    """What the sill stands on, from what is known of the storey below."""
    if below is None:
        return None
    if below["ground"] == "slab":
        return ["slab"]
    framed = {"kind": "framed", "name": None, "thickness": None, "soil": None, "height": below["height"]}
    return [framed, "slab" if below["ground"] == "basement" else "soil"]


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    try:
        return design_wall(read_wall(given, editions), editions)
    except InputError as error:
        raise error.under("given") from None


_FIELDS = (
    Field("levels", LEVELS, required=True, doc="above the wall, from the top down, as for takedown"),
    Field("opening", _OPENING, required=True),
    Field("soil", ByCode({"us": _SOIL, "ca": _CA_SOIL}), required=True),
    Field("pad", _PAD, default={}, doc="concrete of the pads, and sizes to check in place of solving"),
    Field("below", _BELOW, doc="what is under the floor; left out, the load path is broken"),
    Field("search", _type(beam.KIND, "search"), default={}, doc="beams to try"),
    Field("beam", SECTION, doc="the section to design for; default the lightest that passes"),
    Field("repetitive", Flag(), default=False, doc="as for a beam"),
    Field("deflection", _type(beam.KIND, "deflection"), default={}, doc="as for a beam"),
    Field("posts", _POSTS, default={}, doc="lumber of the posts"),
    Field("connections", _CONNECTIONS, default={}, doc="fasteners, hangers and the way in, as told"),
    Field("shoring", _SHORING, default={}, doc="as for shoring; levels and opening are those of the wall"),
)
_HOUSE = Field("house", HOUSE, default={}, doc="what decides whether Part 9 covers it, as for scope")

KIND = Kind(
    "wall",
    _FIELDS,
    solve={"us": _solve, "ca": _solve},
    fields_in={"ca": (*_FIELDS, _HOUSE)},
    results=(
        Result("takedown", "", "result of the takedown kind"),
        Result("beam.candidates", "", "every stock size with ratio, governing check and why it fails"),
        Result("beam.chosen", "", "result of the beam kind for the chosen section, with headroom and member"),
        Result("beam.fastening", "", "result of the ply_fastening kind for the chosen section"),
        Result("beam.hangers_data", "", "result of the hangers kind for a flush beam"),
        Result("beam.headroom", "", "result of the headroom kind: the code's least height"),
        Result("beam.carry", "", "result of the carry_in kind"),
        Result("beam.length", "length", "with the bearing at both ends"),
        Result("posts.<n>.result", "", "result of the post kind; marks P1, P2 and, below, P1B, P2B"),
        Result("bearing.<n>.result", "", "result of the bearing kind, beam on post"),
        Result("footings.<n>.result", "", "result of the footing kind; marks F1, F2"),
        Result("shoring", "", "result of the shoring kind"),
        Result("loadpath.<n>", "", "result of the loadpath kind for each end"),
        Result("refusals.<n>.<part|clause|reason>", "", "parts that the rules held do not cover"),
        Result("scope", "", "ca: result of the scope kind"),
        Result("blocks", "", "what blocks the engineering package, in words"),
        Result("blocks_package", "", "true while anything blocks"),
        Result("versions.<core|data|code|editions>", "", "what answered"),
    ),
    doc="The whole wall: loads down, beam, posts, bearing, pads, shoring and the way to the soil.",
)
