"""The `footing` kind: a plain or reinforced concrete pad under one post."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.cases.reader import (
    POST_LOADS,
    Choice,
    Field,
    Flag,
    Integer,
    Kind,
    OneOf,
    Quantity,
    Record,
    Result,
    Text,
    read_post_loads,
)
from structure.core.clauses import Editions
from structure.core.errors import InputError
from structure.core.members.footing import size_pad
from structure.core.members.footing_pad import Base, find_bar
from structure.core.members.footing_question import FootingQuestion, Reinforcement

_LENGTH = Quantity("length", positive=True)
_FLAT = Quantity("length", non_negative=True)
POST = OneOf(
    _LENGTH,
    Record(
        [
            Field("length", _LENGTH, required=True, doc="along the length of the pad"),
            Field("width", _LENGTH, required=True),
            Field("column", _LENGTH, doc="side of the post on the plate; unknown counts as none"),
            Field("plate", Flag(), default=True, doc="false for a rectangular post without a plate"),
        ]
    ),
)
_COUNT = Integer(2, 100)
REINFORCEMENT = Record(
    [
        Field("bar", Text(8), required=True, doc="such as #4"),
        Field(
            "count",
            OneOf(_COUNT, Record([Field("length", _COUNT), Field("width", _COUNT)])),
            doc="each way, or how many run along the length and along the width; solved if absent",
        ),
        Field("fy", Quantity("stress", positive=True), default="60 ksi"),
        Field("cover", _LENGTH, default="3 in", doc="clear, below and at the ends of the bars"),
    ]
)
OFFSET = OneOf(_FLAT, Record([Field("length", _FLAT, default="0 in"), Field("width", _FLAT, default="0 in")]))
CONCRETE = Record(
    [
        Field("fc", Quantity("stress", positive=True), default="2500 psi"),
        Field("density", Quantity("density", positive=True), default="150 lbf/ft**3"),
    ]
)
SOIL_FIELDS = (
    Field(
        "soil",
        Quantity("pressure", positive=True),
        required=True,
        doc="allowable, gross unless net is true",
    ),
    Field("net", Flag(), default=False, doc="true where the soil value leaves out the weight of the pad"),
    Field(
        "soil_from",
        Choice(["presumptive", "investigation"]),
        doc="where the value comes from; a presumptive one is never under 1,500 psf (IRC R401.4.1)",
    ),
)


def read_base(post: Any) -> Base:
    """What stands on the pad, from the typed value of a POST field. Raises InputError for a post on no plate."""
    if not isinstance(post, Mapping):
        return Base(post, post)
    if post["column"] is not None and not post["plate"]:
        raise InputError("post.column", "given", "the post on a plate; without a plate there is none")
    return Base(post["length"], post["width"], plate=post["plate"], column=post["column"] or 0.0)


def read_reinforcement(given: Mapping[str, Any] | None) -> Reinforcement | None:
    """The bars from the typed record of a REINFORCEMENT field. Raises InputError for an unknown bar."""
    if given is None:
        return None
    count = given["count"]
    both = (count["length"], count["width"]) if isinstance(count, Mapping) else (count, count)
    return Reinforcement(find_bar(given["bar"]), both[0], both[1], given["fy"], given["cover"])


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


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    _consistent(given)
    sides = SideFields.of(given["side"])
    off_length, off_width = read_offset(given["eccentricity"])
    try:
        question = FootingQuestion(
            loads=read_post_loads(given["loads"]),
            soil=given["soil"],
            base=read_base(given["post"]),
            f_c=given["concrete"]["fc"],
            density=given["concrete"]["density"],
            net=given["net"],
            soil_from=given["soil_from"],
            thickness=given["thickness"],
            step=given["step"],
            existing=given["existing"],
            reinforcement=read_reinforcement(given["reinforcement"]),
            side=sides.side,
            length=sides.length,
            width=sides.width,
            off_length=off_length,
            off_width=off_width,
        )
        return size_pad(question, editions).as_data()
    except InputError as error:
        raise error.under("given") from None


def _consistent(given: dict[str, Any]) -> None:
    if given["existing"]:
        if not SideFields.of(given["side"]).measured:
            raise InputError("given.side", None, "the measured size of the existing pad")
        if given["thickness"] is None:
            raise InputError("given.thickness", None, "the measured size of the existing pad")
    if given["reinforcement"] is not None and given["plain"]:
        raise InputError("given.plain", True, "plain: true or a reinforcement, not both")
    if given["reinforcement"] is None and given["plain"] is False:
        raise InputError("given.plain", False, "plain: true, or a reinforcement")


KIND = Kind(
    "footing",
    [
        Field("loads", POST_LOADS, required=True, doc="on the post, by case; no weight of the pad"),
        *SOIL_FIELDS,
        Field("post", POST, required=True, doc="side of a square post, or its steel plate"),
        Field("concrete", CONCRETE, default={}),
        Field(
            "side",
            OneOf(_LENGTH, Record([Field("length", _LENGTH), Field("width", _LENGTH)])),
            doc="of a square pad, or length and width of a rectangular one; what is left out is solved",
        ),
        Field("thickness", _LENGTH, doc="solved if absent"),
        Field("step", _LENGTH, default="2 in", doc="rounding of what is solved"),
        Field("plain", Flag(), doc="plain concrete; so taken where there is no reinforcement"),
        Field("reinforcement", REINFORCEMENT, doc="straight bars both ways near the bottom"),
        Field("existing", Flag(), default=False, doc="an existing pad, by its measured side and thickness"),
        Field(
            "eccentricity",
            OFFSET,
            doc="of the post off the middle of the pad, along its length or both ways; within the kern",
        ),
    ],
    solve={"us": _solve},
    results=[
        Result("side", "length", "of a square pad; length and width of a rectangular one"),
        Result("length", "length"),
        Result("width", "length"),
        Result("thickness", "length"),
        Result("pressure", "pressure", "largest service pressure on the soil, gross unless net"),
        Result("pressures.gross.max", "pressure", "with the weight of the pad; also min"),
        Result("pressures.net.max", "pressure", "without it; also min"),
        Result("required_side", "length", "before rounding, at the thickness taken"),
        Result("passes", "", "whether every check passes"),
        Result("governing", "", "the check with the largest ratio"),
        Result("ratio", "", "its demand over capacity"),
        Result("volume", "volume", "concrete without waste"),
        Result("solved", "", "what was not given"),
        Result("bars.count", "", "along the length; none in a plain pad"),
        Result("bars.total", "", "both ways"),
        Result("bars.spacing", "length", "centre to centre"),
        Result("bars.length", "length", "of a bar, straight"),
        Result("bars.weight", "force", "both ways, without laps and waste"),
        Result("bars.along_width.in_band", "", "of the short bars of a rectangular pad, under the post"),
        Result("checks.soil.ratio", "", "service pressure against the soil"),
        Result("checks.punching.ratio", "", "two-way shear; plain ACI 318 14.5.5.1(b), else 22.6.5.2"),
        Result("checks.one_way_shear.ratio", "", "plain ACI 318 14.5.5.1(a), else 22.5.5.1(c)"),
        Result("checks.flexure.ratio", "", "plain ACI 318 14.5.2.1, else 22.3.1.1"),
        Result("checks.bearing.ratio", "", "post or plate on the concrete; ACI 318 14.5.6.1 or 22.8.3.2"),
        Result("checks.projection.ratio", "", "plain: not more than the thickness; IRC R403.1.1"),
        Result("checks.projection_least.ratio", "", "at least 2 in; IRC R403.1.1"),
        Result("checks.thickness.ratio", "", "at least 6 in; IRC R403.1.1"),
        Result("checks.thickness_plain.ratio", "", "at least 8 in; ACI 318 14.3.2.1"),
        Result("checks.tension_controlled.ratio", "", "strain asked for over strain; ACI 318 8.3.3.1"),
        Result("checks.minimum_steel.ratio", "", "0.0018 of the concrete; ACI 318 8.6.1.1"),
        Result("checks.minimum_steel_punching.ratio", "", "bars at the post; ACI 318 8.6.1.2"),
        Result("checks.development.ratio", "", "straight bars from the section to their end; ACI 318 25.4.2"),
        Result("checks.cover.ratio", "", "3 in against the ground; ACI 318 20.5.1.3.1"),
        Result("checks.depth.ratio", "", "6 in over the bars; ACI 318 13.3.1.2"),
        Result("checks.spacing.ratio", "", "widest; ACI 318 8.7.2.2"),
        Result("checks.spacing_least.ratio", "", "closest; ACI 318 25.2.1"),
    ],
    doc="A plain or reinforced concrete pad under one post, sized or checked.",
)
