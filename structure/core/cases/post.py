"""The `post` kind: a post of wood or steel, or one by the capacity that its maker states."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.cases.bearing import SPECIES_NAME
from structure.core.cases.reader import (
    POST_LOADS,
    SECTION,
    Choice,
    Field,
    Flag,
    Kind,
    Number,
    OneOf,
    Quantity,
    Record,
    Result,
    Text,
    read_post_loads,
    read_section,
)
from structure.core.clauses import Editions
from structure.core.errors import InputError
from structure.core.members.bearing import PlateQuestion
from structure.core.members.post import CONTINUOUS, PostQuestion, check_post
from structure.core.members.post_values import species_across_the_grain
from structure.core.members.stated_post import StatedPost, check_stated_post

_BRACE = OneOf(Choice([CONTINUOUS]), Quantity("length", positive=True))
BRACED = Record(
    [
        Field(
            "weak",
            _BRACE,
            doc="the less stiff axis of the whole section, braced or not; across the plies if equal",
        ),
        Field("strong", _BRACE),
        Field("plies", _BRACE, doc="buckling across the plies, where the built-up factor applies"),
        Field("depth", _BRACE, doc="buckling across the depth"),
    ]
)
PLATE = Record(
    [
        Field("species", SPECIES_NAME, required=True),
        Field("Fc_perp", Quantity("stress", positive=True), doc="us, in place of the tabulated value"),
        Field("fcp", Quantity("stress", positive=True), doc="ca, in place of the tabulated value"),
        Field("width", Quantity("length", positive=True), doc="of the plate; default as wide as the post"),
        Field(
            "along",
            Choice(["plies", "depth"]),
            default="plies",
            doc="which way of the post lies along the plate",
        ),
        Field(
            "distance_to_end",
            Quantity("length", non_negative=True),
            default="0 in",
            doc="to the end of the plate; C_b counts at 3 in or more and under 6 in long",
        ),
    ]
)
_STATED = Record(
    [
        Field(
            "capacity",
            Quantity("force", positive=True),
            doc="allowable, at this height; ca: left out, the 36 kN of NBC 9.17.3.4.",
        ),
        Field("source", Text(), doc="where it is stated"),
        Field("longest", Quantity("length", positive=True), doc="height up to which it is stated"),
        Field("base", Choice(["pad", "slab"]), default="pad", doc="never a bare slab"),
    ]
)


def read_plate(record: Mapping[str, Any] | None, editions: Editions) -> PlateQuestion | None:
    """The plate of a post from the typed record of a PLATE field."""
    if record is None:
        return None
    F_c_perp = record["fcp" if editions.code == "ca" else "Fc_perp"] or species_across_the_grain(
        record["species"], editions
    )
    return PlateQuestion(
        F_c_perp=F_c_perp,
        material=record["species"],
        width=record["width"],
        along=record["along"],
        distance_to_end=record["distance_to_end"],
    )


def _solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    if (given["section"] is None) == (given["stated"] is None):
        read = None if given["section"] is None else "a section and a stated capacity"
        raise InputError("given.section", read, "a section, or a stated capacity in its place")
    loads = read_post_loads(given["loads"], editions.code)
    try:
        if given["stated"] is not None:
            stated = given["stated"]
            if stated["capacity"] is not None and not (stated["source"] or "").strip():
                raise InputError("stated.source", None, "where the capacity is stated")
            # The maker states a load in the middle of the post, and of the post alone.
            for name in ("eccentricity", "braced", "plate"):
                if given[name]:
                    raise InputError(
                        name, f"{name} with a stated capacity", "nothing: a stated capacity does not cover it"
                    )
            return check_stated_post(
                StatedPost(
                    height=given["height"],
                    loads=loads,
                    capacity=stated["capacity"],
                    source=stated["source"] or "",
                    longest=stated["longest"],
                    on_slab=stated["base"] == "slab",
                ),
                editions,
            ).as_data()
        question = PostQuestion(
            height=given["height"],
            loads=loads,
            section=read_section(given["section"], "section", editions.code, editions),
            end=given["end"],
            braced={name: brace for name, brace in (given["braced"] or {}).items() if brace is not None},
            eccentricity=given["eccentricity"],
            plate=read_plate(given["plate"], editions),
            in_construction=given["in_construction"],
            fastening=given["section"].get("fastening"),
        )
        return check_post(question, editions).as_data()
    except InputError as error:
        raise error.under("given") from None


KIND = Kind(
    "post",
    [
        Field("height", Quantity("length", positive=True), required=True, doc="clear between plates"),
        Field("loads", POST_LOADS, required=True, doc="no self weight is added"),
        Field("section", SECTION, doc="fastening nailed or bolted for built-up posts"),
        Field(
            "stated",
            _STATED,
            doc="in place of a section: an adjustable or pipe column by the capacity its maker states",
        ),
        Field(
            "end", Number(min=0.5, max=2.4), default=1.0, doc="effective length factor K_e, NDS Appendix G"
        ),
        Field("braced", BRACED, doc="distance between braces, or continuous; by axis or by direction"),
        Field(
            "eccentricity",
            Quantity("length", non_negative=True),
            default="0 in",
            doc="of the load at the top",
        ),
        Field("plate", PLATE, doc="wood plate under and over the post"),
        Field(
            "in_construction", Flag(), default=False, doc="slenderness to 75 until the building is complete"
        ),
    ],
    solve={"us": _solve, "ca": _solve},
    results=[
        Result("capacity", "force", "of the governing check"),
        Result("ratio", "", "largest of all checks; exactly 1 passes"),
        Result("passes", "", "true or false"),
        Result("governing", "", "name of the check"),
        Result("axes.<strong|weak>.slenderness", "", "l_e/d, of steel L_c/r; 0 where held without a gap"),
        Result(
            "axes.<strong|weak>.factor",
            "",
            "C_P with K_f, or K_C, under the sum that governs buckling; of steel F_cr/F_y",
        ),
        Result("axes.<strong|weak>.capacity", "force", "what the post carries about this axis"),
        Result(
            "checks.<buckling|end_bearing|plate_bearing|eccentricity|stated>.<demand|capacity|ratio|...>",
            "force",
            "each check with its combination, clause, steps and note",
        ),
        Result("factors.<CD|CF|KD|KZc>", "", "of the combination that governs buckling"),
        Result("plate.<length|width|thickness>", "length", "of steel on wood, where `plate` is given"),
        Result(
            "local_buckling.<flange|web|wall>.<slenderness|limits|class>", "", "of steel, B4.1a; S16 table 1"
        ),
        Result("bending_classes.<flange|web|wall>.<slenderness|limits|class>", "", "ca, of steel off centre"),
        Result("fastening.<rows|spacing|name|...>", "", "of a built-up post, NDS 15.3.3 or 15.3.4"),
    ],
    doc="A post under axial load: buckling both ways, end bearing, plate crushing, load off centre.",
)
