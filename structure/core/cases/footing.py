"""The `footing` kind: a square plain concrete pad under one post."""

from __future__ import annotations

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
from structure.core.codes.us import concrete
from structure.core.errors import InputError, OutOfScope
from structure.core.members.footing import FootingQuestion, size_pad
from structure.core.members.footing_checks import Base

_LENGTH = Quantity("length", positive=True)
_PLATE = Record(
    [
        Field("length", _LENGTH, required=True),
        Field("width", _LENGTH, required=True),
        Field("column", _LENGTH, doc="side of the post on the plate; unknown counts as none"),
    ]
)
_REINFORCEMENT = Record(
    [
        Field("bar", Text(8), required=True, doc="such as #4 or 15M"),
        Field("count", Integer(1, 100), required=True, doc="each way"),
        Field("fy", Quantity("stress", positive=True), required=True),
        Field("cover", _LENGTH),
    ]
)
_CONCRETE = Record(
    [
        Field("fc", Quantity("stress", positive=True), default="2500 psi"),
        Field("density", Quantity("density", positive=True), default="150 lbf/ft**3"),
    ]
)


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    _plain_only(given, editions)
    post = given["post"]
    if isinstance(post, dict):
        base = Base(post["length"], post["width"], plate=True, column=post["column"] or 0.0)
    else:
        base = Base(post, post)
    question = FootingQuestion(
        loads=read_post_loads(given["loads"]),
        soil=given["soil"],
        base=base,
        f_c=given["concrete"]["fc"],
        density=given["concrete"]["density"],
        net=given["net"],
        soil_from=given["soil_from"],
        side=given["side"],
        thickness=given["thickness"],
        step=given["step"],
        existing=given["existing"],
    )
    try:
        return size_pad(question, editions).as_data()
    except InputError as error:
        raise error.under("given") from None


def _plain_only(given: dict[str, Any], editions: Editions) -> None:
    if given["existing"]:
        for size in ("side", "thickness"):
            if given[size] is None:
                raise InputError(f"given.{size}", None, "the measured size of the existing pad")
    if given["reinforcement"] is not None:
        if given["plain"]:
            raise InputError("given.plain", True, "plain: true or a reinforcement, not both")
        raise OutOfScope(concrete.REINFORCED_FOOTING.at(editions), "not covered yet: reinforced pads")
    if given["plain"] is False:
        raise InputError("given.plain", False, "plain: true, or a reinforcement")
    if given["eccentricity"]:
        raise OutOfScope(
            concrete.CRITICAL_SECTION.at(editions),
            "a post off the middle of its pad bends it: engineered design",
        )


KIND = Kind(
    "footing",
    [
        Field("loads", POST_LOADS, required=True, doc="on the post, by case; no weight of the pad"),
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
        Field("post", OneOf(_LENGTH, _PLATE), required=True, doc="side of a square post, or its steel plate"),
        Field("concrete", _CONCRETE, default={}),
        Field("side", _LENGTH, doc="of the square pad; solved if absent"),
        Field("thickness", _LENGTH, doc="solved if absent"),
        Field("step", _LENGTH, default="2 in", doc="rounding of what is solved"),
        Field("plain", Flag(), doc="plain concrete; so taken where there is no reinforcement"),
        Field("reinforcement", _REINFORCEMENT, doc="reinforced pads are not covered yet"),
        Field("existing", Flag(), default=False, doc="an existing pad, by its measured side and thickness"),
        Field("eccentricity", Quantity("length", non_negative=True), doc="of the post on the pad; only zero"),
    ],
    solve={"us": _solve},
    results=[
        Result("side", "length"),
        Result("thickness", "length"),
        Result("pressure", "pressure", "service pressure on the soil, gross unless net"),
        Result("required_side", "length", "before rounding, at the thickness taken"),
        Result("passes", "", "whether every check passes"),
        Result("governing", "", "the check with the largest ratio"),
        Result("ratio", "", "its demand over capacity"),
        Result("volume", "volume", "concrete without waste"),
        Result("bars", "", "none in a plain pad"),
        Result("checks.soil.ratio", "", "service pressure against the soil"),
        Result("checks.punching.ratio", "", "two-way shear at h/2; ACI 318 14.5.5.1(b)"),
        Result("checks.one_way_shear.ratio", "", "shear at h; ACI 318 14.5.5.1(a)"),
        Result("checks.flexure.ratio", "", "ACI 318 14.5.2.1"),
        Result("checks.bearing.ratio", "", "post or plate on the concrete; ACI 318 14.5.6.1"),
        Result("checks.projection.ratio", "", "not more than the thickness; IRC R403.1.1"),
        Result("checks.projection_least.ratio", "", "at least 2 in; IRC R403.1.1"),
        Result("checks.thickness.ratio", "", "at least 6 in; IRC R403.1.1"),
        Result("checks.thickness_plain.ratio", "", "at least 8 in; ACI 318 14.3.2.1"),
    ],
    doc="A square plain concrete pad under one post, sized or checked.",
)
