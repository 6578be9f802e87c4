"""The kinds about pads under the Canadian code: soil classes, Part 9 beside the calculation, frost."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from structure.core.cases.pad_fields import (
    CA_SOIL_FIELDS,
    LENGTH,
    PAD_FIELDS,
    one_kind_of_pad,
    pad_question,
)
from structure.core.cases.reader import (
    POST_LOADS,
    Choice,
    Field,
    Flag,
    Integer,
    ListOf,
    OneOf,
    Record,
    Result,
)
from structure.core.clauses import Editions
from structure.core.codes.ca import nbc
from structure.core.codes.us import soil
from structure.core.errors import InputError
from structure.core.members.ca_footing_remarks import PLAIN_MEMORY, frost_remark, weak_soil
from structure.core.members.ca_footing_scope import allowable_soil, find_soil
from structure.core.members.ca_part9 import (
    Least,
    Part9Question,
    least_area,
    least_width,
    pad_beside,
    strip_beside,
)
from structure.core.members.existing_pad import ExistingResult
from structure.core.members.footing import FootingResult, size_pad
from structure.core.members.footing_pad import SAME
from structure.core.members.footing_question import FootingQuestion

_STOREYS = Integer(0, 3)
PART9 = Field(
    "part9",
    Record(
        [
            Field("storeys", Integer(1, 3), required=True, doc="floors that the footing carries"),
            Field("spacing", LENGTH, default="3 m", doc="columns apart, centre to centre"),
            Field(
                "joists",
                OneOf(LENGTH, ListOf(LENGTH, min=1, max=3)),
                doc="supported joist length, of every storey or one for each; default 4.9 m or less",
            ),
            Field(
                "water_near",
                Flag(),
                default=False,
                doc="in gravel, sand or silt, water nearer below the footing than its width",
            ),
            Field("wall", Choice(("exterior", "interior")), default="exterior", doc="on a strip"),
            Field("veneer_storeys", _STOREYS, default=0, doc="of masonry veneer on an exterior wall"),
            Field("masonry_storeys", _STOREYS, default=0, doc="of masonry"),
        ]
    ),
    doc="what NBC Table 9.15.3.4. asks about; shown beside the calculation",
)
FOOTING_FIELDS = (
    Field("loads", POST_LOADS, required=True, doc="on the post, by case; no weight of the pad"),
    *CA_SOIL_FIELDS,
    *PAD_FIELDS,
    PART9,
    Field(
        "space", Choice(("heated", "unheated")), default="heated", doc="over the pad, for the note on frost"
    ),
)
_BESIDE = (
    Result("part9.thickness", "length", "ca: greater of its projection and 100 mm; NBC 9.15.3.8."),
    Result("part9.warning", "", "ca: where table and calculation lie apart"),
    Result("part9.smaller", "", "ca: whether the table asks for less than the calculation"),
)
FOOTING_RESULTS = (
    Result("part9.area", "area", "ca: least area under a column; NBC 9.15.3.4., 9.15.3.7."),
    Result("part9.side", "length", "ca: side of a square pad of that area"),
    Result("checks.part9_area.ratio", "", "ca: pad no smaller than that area"),
    *_BESIDE,
)
CA_EXISTING_RESULTS = (
    Result("part9.width", "length", "ca: least width of a strip; NBC 9.15.3.4. to 9.15.3.6."),
    *_BESIDE,
)


def soil_of(given: Mapping[str, Any], editions: Editions) -> float:
    """What the soil may carry, by value, class or presumption. NBC 9.4.4.1."""
    return allowable_soil(given["soil"], find_soil(given["soil_class"]), given["soil_from"], editions)


def solve_footing(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    """The `footing` kind under the Canadian code."""
    one_kind_of_pad(given)
    try:
        value = soil_of(given, editions)
        least = _area(given["part9"], value, editions)
        question = pad_question(given, value, editions, 0.0 if least is None else least.value)
        result = size_pad(question, editions)
    except InputError as error:
        raise error.under("given") from None
    group = find_soil(given["soil_class"])
    data = result.as_data()
    data["part9"] = pad_beside(
        least,
        _asked(question, result),
        min(question.base.length, question.base.width),
        result.pad.side,
        editions,
    )
    frost = frost_remark(None if group is None else group.group, given["space"] == "heated", editions)
    warning = data["part9"]["warning"]
    data["remarks"] += [frost] if warning is None else [frost, warning]
    return data


def _area(given: Mapping[str, Any] | None, value: float, editions: Editions) -> Least | None:
    """The least area by the table; none where it was not asked about, or the soil is weaker than the table's."""
    if given is None or value * (1 + SAME) < nbc.LEAST_SOIL:
        return None
    return least_area(_part9(given), editions)


def _part9(given: Mapping[str, Any]) -> Part9Question:
    joists = given["joists"]
    if joists is None:
        lengths: tuple[float, ...] = ()
    else:
        lengths = tuple(joists) if isinstance(joists, list) else (joists,) * given["storeys"]
    return Part9Question(
        given["storeys"],
        given["spacing"],
        lengths,
        given["water_near"],
        given["wall"],
        given["veneer_storeys"],
        given["masonry_storeys"],
    )


def _asked(question: FootingQuestion, result: FootingResult) -> float:
    """The area that the load and the soil ask for, before rounding."""
    needed, (length, width) = result.required.needed, question.sides
    one = length if width is None else width if length is None else None
    return needed * (needed if one is None else one)


def beside_existing(
    data: dict[str, Any], result: ExistingResult, given: Mapping[str, Any], editions: Editions
) -> dict[str, Any]:
    """The result of `existing_pad` with what Part 9 asks of such a footing, where it was asked about."""
    question, pad = result.question, result.pad
    data["remarks"] += [*weak_soil(question.soil, editions), PLAIN_MEMORY]
    if given["part9"] is None or question.soil * (1 + SAME) < nbc.LEAST_SOIL:
        return data
    asked, P, q = _part9(given["part9"]), result.after.value, question.soil
    density = 0.0 if question.net else question.density
    room = q - density * pad.thickness > 0
    if question.found.kind == "pad":
        needed = soil.required_side(P, q, density, pad.thickness) ** 2 if room else math.inf
        base = min(pad.base.length, pad.base.width)
        data["part9"] = pad_beside(least_area(asked, editions), needed, base, pad.side, editions)
    else:
        needed = soil.required_length(P, pad.length, q, density, pad.thickness) if room else math.inf
        projection = (pad.width - pad.base.width) / 2
        data["part9"] = strip_beside(least_width(asked, editions), needed, projection, editions)
    if data["part9"]["warning"] is not None:
        data["remarks"].append(data["part9"]["warning"])
    return data
