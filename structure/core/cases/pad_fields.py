"""Fields that the kinds about pads share: what stands on it, soil, bars, sizes; read to typed values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.cases.reader import (
    Choice,
    Field,
    Flag,
    Integer,
    OneOf,
    Quantity,
    Record,
    Text,
    read_post_loads,
)
from structure.core.clauses import US_DEFAULT, Editions
from structure.core.errors import InputError
from structure.core.members.ca_footing_scope import soil_classes
from structure.core.members.footing_pad import Base, find_bar
from structure.core.members.footing_question import FootingQuestion, Reinforcement

LENGTH = Quantity("length", positive=True)
_FLAT = Quantity("length", non_negative=True)
POST = OneOf(
    LENGTH,
    Record(
        [
            Field("length", LENGTH, required=True, doc="along the length of the pad"),
            Field("width", LENGTH, required=True),
            Field("column", LENGTH, doc="side of the post on the plate; unknown counts as none"),
            Field("plate", Flag(), default=True, doc="false for a rectangular post without a plate"),
        ]
    ),
)
_COUNT = Integer(2, 100)
REINFORCEMENT = Record(
    [
        Field("bar", Text(8), required=True, doc="such as #4 or 15M"),
        Field(
            "count",
            OneOf(_COUNT, Record([Field("length", _COUNT), Field("width", _COUNT)])),
            doc="each way, or how many run along the length and along the width; solved if absent",
        ),
        Field("fy", Quantity("stress", positive=True), default="60 ksi", defaults={"ca": "400 MPa"}),
        Field(
            "cover",
            LENGTH,
            default="3 in",
            doc="clear, below and at the ends of the bars",
            defaults={"ca": "75 mm"},
        ),
    ]
)
OFFSET = OneOf(
    _FLAT,
    Record(
        [
            Field("length", _FLAT, default="0 in", defaults={"ca": "0 mm"}),
            Field("width", _FLAT, default="0 in", defaults={"ca": "0 mm"}),
        ]
    ),
)
CONCRETE = Record(
    [
        Field("fc", Quantity("stress", positive=True), default="2500 psi", defaults={"ca": "20 MPa"}),
        Field(
            "density",
            Quantity("density", positive=True),
            default="150 lbf/ft**3",
            defaults={"ca": "24 kN/m**3"},
        ),
    ]
)
_ORIGIN = Choice(["presumptive", "investigation"])
_NET = Field("net", Flag(), default=False, doc="true where the soil value leaves out the weight of the pad")
SOIL_FIELDS = (
    Field(
        "soil",
        Quantity("pressure", positive=True),
        required=True,
        doc="allowable, gross unless net is true",
    ),
    _NET,
    Field(
        "soil_from",
        _ORIGIN,
        doc="where the value comes from; a presumptive one is never under 1,500 psf (IRC R401.4.1)",
    ),
)
CA_SOIL_FIELDS = (
    Field(
        "soil",
        Quantity("pressure", positive=True),
        doc="allowable, gross unless net is true; may be left out where soil_class or soil_from says it",
    ),
    _NET,
    Field("soil_class", Choice([each.id for each in soil_classes()]), doc="row of NBC Table 9.4.4.1."),
    Field(
        "soil_from",
        _ORIGIN,
        doc="where the value comes from; presumptive without a value or class is 75 kPa (NBC 9.15.1.1.)",
    ),
)

PAD_FIELDS = (
    Field("post", POST, required=True, doc="side of a square post, or its steel plate"),
    Field("concrete", CONCRETE, default={}),
    Field(
        "side",
        OneOf(LENGTH, Record([Field("length", LENGTH), Field("width", LENGTH)])),
        doc="of a square pad, or length and width of a rectangular one; what is left out is solved",
    ),
    Field("thickness", LENGTH, doc="solved if absent"),
    Field("step", LENGTH, default="2 in", doc="rounding of what is solved", defaults={"ca": "50 mm"}),
    Field("plain", Flag(), doc="plain concrete; so taken where there is no reinforcement"),
    Field("reinforcement", REINFORCEMENT, doc="straight bars both ways near the bottom"),
    Field("existing", Flag(), default=False, doc="an existing pad, by its measured side and thickness"),
    Field(
        "eccentricity",
        OFFSET,
        doc="of the post off the middle of the pad, along its length or both ways; within the kern",
    ),
)


def read_base(post: Any) -> Base:
    """What stands on the pad, from the typed value of a POST field. Raises InputError for a post on no plate."""
    if not isinstance(post, Mapping):
        return Base(post, post)
    if post["column"] is not None and not post["plate"]:
        raise InputError("post.column", "given", "the post on a plate; without a plate there is none")
    return Base(post["length"], post["width"], plate=post["plate"], column=post["column"] or 0.0)


def read_reinforcement(
    given: Mapping[str, Any] | None, editions: Editions = US_DEFAULT
) -> Reinforcement | None:
    """The bars from the typed record of a REINFORCEMENT field. Raises InputError for an unknown bar."""
    if given is None:
        return None
    count = given["count"]
    both = (count["length"], count["width"]) if isinstance(count, Mapping) else (count, count)
    return Reinforcement(find_bar(given["bar"], editions), both[0], both[1], given["fy"], given["cover"])


@dataclass(frozen=True, slots=True)
class SideFields:
    """`side` as it was given: of a square pad, or one or both sides of a rectangular one."""

    side: float | None
    length: float | None
    width: float | None

    @classmethod
    def of(cls, given: Any) -> SideFields:
        """From one length, or a record of which one side may be left out."""
        if isinstance(given, Mapping):
            return cls(None, given["length"], given["width"])
        return cls(given, None, None)

    @property
    def measured(self) -> bool:
        return self.side is not None or None not in (self.length, self.width)


def read_offset(given: Any) -> tuple[float, float]:
    """`eccentricity` as one length, along the length of the pad, or a record."""
    if isinstance(given, Mapping):
        return given["length"], given["width"]
    return given or 0.0, 0.0


def one_kind_of_pad(given: Mapping[str, Any]) -> None:
    """Raises InputError for an existing pad that was not measured, or one that is plain and has bars."""
    if given["existing"]:
        if not SideFields.of(given["side"]).measured:
            raise InputError("given.side", None, "the measured size of the existing pad")
        if given["thickness"] is None:
            raise InputError("given.thickness", None, "the measured size of the existing pad")
    if given["reinforcement"] is not None and given["plain"]:
        raise InputError("given.plain", True, "plain: true or a reinforcement, not both")
    if given["reinforcement"] is None and given["plain"] is False:
        raise InputError("given.plain", False, "plain: true, or a reinforcement")


def pad_question(
    given: Mapping[str, Any], soil: float, editions: Editions, least_area: float = 0.0
) -> FootingQuestion:
    """The question about a pad from typed values. Raises InputError for bars or posts that cannot be."""
    sides = SideFields.of(given["side"])
    off_length, off_width = read_offset(given["eccentricity"])
    return FootingQuestion(
        loads=read_post_loads(given["loads"], editions.code),
        soil=soil,
        base=read_base(given["post"]),
        f_c=given["concrete"]["fc"],
        density=given["concrete"]["density"],
        net=given["net"],
        soil_from=given["soil_from"],
        thickness=given["thickness"],
        step=given["step"],
        existing=given["existing"],
        reinforcement=read_reinforcement(given["reinforcement"], editions),
        side=sides.side,
        length=sides.length,
        width=sides.width,
        off_length=off_length,
        off_width=off_width,
        least_area=least_area,
    )
