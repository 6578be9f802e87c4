"""The `bearing` kind: wood crushed across the grain, or the web of a steel shape over a bearing."""

from __future__ import annotations

from typing import Any

from structure.core.cases.grammars import SPECIES, ByCode
from structure.core.cases.reader import (
    POST_LOADS,
    SECTION,
    Choice,
    Field,
    Kind,
    Quantity,
    Result,
    read_post_loads,
    read_section,
)
from structure.core.clauses import Editions
from structure.core.codes.ca import wood_bearing
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.ca_wood import CaWoodSection
from structure.core.materials.rolled import RolledSection
from structure.core.members.bearing import BearingQuestion, check_bearing
from structure.core.members.ca_bearing import CaBearingQuestion, check_ca_bearing
from structure.core.members.post_values import across_the_grain, species_across_the_grain
from structure.core.members.steel_web_bearing import check_steel_bearing

SPECIES_NAME = ByCode({code: Choice(names) for code, names in SPECIES.items()})


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    if (given["section"] is None) == (given["species"] is None):
        read = None if given["section"] is None else "both"
        raise InputError("given.species", read, "either a section or a species, one of the two")
    try:
        if given["section"] is not None:
            section = read_section(given["section"], "section", editions.code, editions)
            if isinstance(section, RolledSection):
                return _steel(section, given, editions)
            F_c_perp, material = across_the_grain(section, editions), section.label
        else:
            F_c_perp, material = species_across_the_grain(given["species"], editions), given["species"]
        question = BearingQuestion(
            F_c_perp=F_c_perp,
            width=given["width"],
            length=given["length"],
            loads=read_post_loads(given["loads"], editions.code),
            distance_to_end=given["distance_to_end"],
            material=material,
        )
        return check_bearing(question, editions).as_data()
    except InputError as error:
        raise error.under("given") from None


def _steel(section: RolledSection, given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    loads = read_post_loads(given["loads"], editions.code)
    length, end = given["length"], given["distance_to_end"]
    return check_steel_bearing(section, length, end, loads, editions).as_data()


def _solve_ca(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    if (given["section"] is None) == (given["species"] is None):
        read = None if given["section"] is None else "both"
        raise InputError("given.species", read, "either a section or a species, one of the two")
    try:
        proportion, material = 1.0, given["species"]
        if given["section"] is not None:
            section = read_section(given["section"], "section", editions.code, editions)
            if isinstance(section, RolledSection):
                return _steel(section, given, editions)
            if not isinstance(section, CaWoodSection):
                raise OutOfScope(
                    wood_bearing.ALL_LOADS.at(editions), f"{section.label}: only wood is crushed here"
                )
            fcp, material = section.reference.value("fcp"), section.label
            if section.family == "sawn":
                proportion = section.ply_width / section.depth
        else:
            fcp = species_across_the_grain(given["species"], editions)
        question = CaBearingQuestion(
            fcp=fcp,
            width=given["width"],
            length=given["length"],
            loads=read_post_loads(given["loads"], editions.code),
            distance_to_end=given["distance_to_end"],
            proportion=proportion,
            material=material,
        )
        return check_ca_bearing(question, editions).as_data()
    except InputError as error:
        raise error.under("given") from None


KIND = Kind(
    "bearing",
    [
        Field("section", SECTION, doc="the member that is crushed; its own width does not count here"),
        Field("species", SPECIES_NAME, doc="in place of a section"),
        Field(
            "width", Quantity("length", positive=True), required=True, doc="of the contact, across the grain"
        ),
        Field(
            "length", Quantity("length", positive=True), required=True, doc="of the contact, along the grain"
        ),
        Field(
            "distance_to_end",
            Quantity("length", non_negative=True),
            default="0 in",
            doc="from the bearing to the end of the member; C_b counts at 3 in or more and under 6 in long",
        ),
        Field("loads", POST_LOADS, required=True),
    ],
    solve={"us": _solve, "ca": _solve_ca},
    results=[
        Result("capacity", "force", "what the bearing carries"),
        Result("ratio", "", "demand over capacity; exactly 1 passes"),
        Result("passes", "", "true or false"),
        Result("required_length", "length", "the shortest bearing that carries the load"),
        Result("factors.Cb", "", "bearing area factor used"),
        Result("factors.<KD|KB|KZcp>", "", "under code ca"),
        Result("checks.<web_yielding|web_crippling>.<capacity|ratio|...>", "force", "of a steel section"),
        Result("checks.bearing.<demand|capacity|ratio|combination|clause|passes|steps>", "", "the check"),
    ],
    doc="A bearing across the grain, NDS 3.10 or CSA O86 6.5.6. Of steel the web, AISC 360 J10, CSA S16 14.3.2.",
)
