"""The `beam` kind: a section checked, or the whole catalogue tried."""

from __future__ import annotations

from typing import Any

from structure.core.cases.beam_fields import NOTCH, SPECIAL, TREATED, refuse_special
from structure.core.cases.grammars import SPECIES, ByCode
from structure.core.cases.live_reduction import FIELD as LIVE_REDUCTION
from structure.core.cases.live_reduction import reduced
from structure.core.cases.reader import (
    BEAM_OVERHANG,
    LOADS,
    SECTION,
    SPANS,
    Choice,
    Field,
    Flag,
    Integer,
    Kind,
    ListOf,
    Number,
    OneOf,
    Quantity,
    Record,
    Result,
    Text,
    read_line,
    read_loads,
    read_section,
)
from structure.core.catalogue import Search, search_beams
from structure.core.catalogue.stock import FAMILIES
from structure.core.clauses import Clause, Editions
from structure.core.codes.us import composite
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.ca_sawn import perpendicular_strength
from structure.core.materials.species import perpendicular_value
from structure.core.members.beam import BeamQuestion, Limits, Support, check_beam
from structure.core.members.beam_question import Notch

# Families that no catalogue can hold: they work on the values printed for the product in hand.
_ENTERED = {
    "us": {"psl": composite.MAKERS_VALUES, "lsl": composite.MAKERS_VALUES},
    "ca": dict.fromkeys(("lvl", "psl", "lsl", "flitch"), Clause("CSA O86", "15.3")),
}
_LENGTH = Quantity("length", positive=True)
SPECIES_NAME = ByCode({code: Choice(names) for code, names in SPECIES.items()})
GRADE_NAME = ByCode(
    {
        "us": Choice(("SS", "No.1&Btr", "No.1", "No.2", "No.3", "Stud")),
        "ca": Choice(("SS", "No.1/No.2", "No.1", "No.2", "No.3", "Stud")),
    }
)
# What each code calls the value that is crushed.
ACROSS = {"us": "Fc_perp", "ca": "fcp"}
_BRACING = OneOf(Choice(("continuous", "ends")), _LENGTH)


def solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    """Answer one beam question. Raises InputError under `given`, OutOfScope for what is not covered."""
    if (given["section"] is None) == (given["search"] is None):
        read = None if given["section"] is None else "both"
        raise InputError("given.section", read, "a section to check, or a search in its place")
    refuse_special(given["special"], editions)
    line = read_line(given["spans"], given["overhang"])
    loads = read_loads(given["loads"], "given.loads", editions.code, line)
    section = None
    if given["section"] is not None:
        section = read_section(given["section"], "given.section", editions.code, editions)
    bearing = given["bearing"]
    try:
        taken, said = reduced(given["live_reduction"], loads, line, editions)
        question = BeamQuestion(
            line=line,
            loads=taken,
            section=section,
            pattern=given["pattern"],
            self_weight=given["self_weight"],
            bracing=given["bracing"],
            bottom_bracing=given["bottom_bracing"],
            repetitive=given["repetitive"],
            wet=given["wet"],
            top_loaded=_top_loaded(given["top_loaded"], editions),
            deflection=Limits(**given["deflection"]),
            bearing=None if bearing is None else tuple(bearing) if isinstance(bearing, list) else (bearing,),
            support=_support(given["support"], editions.code),
            shear_at=given["shear_at"],
            treated=given["treated"],
            notch=None if given["notch"] is None else Notch(**given["notch"]),
        )
        if section is not None:
            return _with(check_beam(question, editions).as_data(), said)
        return _with(search_beams(question, read_search(given["search"], editions), editions).as_data(), said)
    except InputError as error:
        prefix = "given.section" if error.field.startswith("properties") else "given"
        raise error.under(prefix) from None


def _top_loaded(read: bool, editions: Editions) -> bool:
    if read and editions.code != "ca":
        raise InputError(
            "top_loaded", True, "false: it is a question of CSA S16; AISC 360 F1 has loads at mid-height"
        )
    return read


def _with(data: dict[str, Any], said: dict[str, Any]) -> dict[str, Any]:
    """The result with what was done to the live load."""
    if not said:
        return data
    remarks = [*data.get("remarks", []), said["remark"]]
    return data | {"live_reduction": said["live_reduction"], "remarks": remarks}


def _support(record: dict[str, Any] | None, code: str) -> Support | None:
    if record is None:
        return None
    name = ACROSS[code]
    if (record["species"] is None) == (record[name] is None):
        read = None if record["species"] is None else "both"
        raise InputError(
            "support.species", read, f"the species of the wood it bears on, or {name} in its place"
        )
    if record["species"] is not None:
        return Support(_perpendicular(record["species"], code), record["species"])
    return Support(record[name], "as entered")


def _perpendicular(species: str, code: str) -> float:
    return perpendicular_strength(species)[0] if code == "ca" else perpendicular_value(species)


def read_search(record: dict[str, Any], editions: Editions) -> Search:
    """The catalogue search from the typed record of the `search` field. OutOfScope for a family not covered."""
    for family in record["families"]:
        if family in _ENTERED[editions.code]:
            raise OutOfScope(
                _ENTERED[editions.code][family].at(editions),
                f"a search over {family}: no generic values exist; check one with the values of the product in hand",
            )
    return Search(
        families=tuple(record["families"]),
        species=tuple(record["species"]),
        grades=tuple(record["grades"]),
        lvl_grades=tuple(record["lvl_grades"]) if record["lvl_grades"] else None,
        glulam_grades=tuple(record["glulam_grades"]) if record["glulam_grades"] else None,
        steel_forms=tuple(record["steel_forms"]) if record["steel_forms"] else None,
        products=tuple(
            read_section(each, f"search.products[{n}]", editions.code, editions)
            for n, each in enumerate(record["products"])
        ),
        max_depth=record["max_depth"],
        max_plies=record["max_plies"],
        code=editions.code,
    )


KIND = Kind(
    "beam",
    (
        Field("spans", SPANS, required=True, doc="design spans from left to right, used as given"),
        Field("overhang", BEAM_OVERHANG, doc="beyond the first and the last support"),
        Field("loads", LOADS, default=[], doc="unfactored, by case; without the self weight"),
        Field("pattern", Flag(), doc="live on every set of bays; default true for two spans or more"),
        Field("self_weight", Flag(), default=True, doc="counted as dead load and reported apart"),
        Field(
            "bracing", _BRACING, default="ends", doc="of the top edge: all along, at supports, or a distance"
        ),
        Field("bottom_bracing", _BRACING, doc="of the bottom edge, where it is pressed over supports"),
        Field("repetitive", Flag(), default=False, doc="three or more joists or plies act as a system"),
        Field("wet", Flag(), default=False, doc="over 19 % moisture in service"),
        Field(
            "top_loaded",
            Flag(),
            default=False,
            doc="ca: what stands on a steel beam neither holds it sideways nor from turning (CSA S16 13.6)",
        ),
        Field(
            "deflection",
            Record(
                (
                    Field("live", Number(min=100, max=2000), default=360),
                    Field("total", Number(min=100, max=2000), default=240),
                    Field(
                        "creep",
                        Flag(),
                        default=True,
                        doc="dead part 1.5 times, 2 when wet (NDS 3.5.2); ca by O86 5.4.3",
                    ),
                )
            ),
            default={},
            doc="limits as parts of the span",
        ),
        Field("bearing", OneOf(_LENGTH, ListOf(_LENGTH, min=1, max=7)), doc="one length, or one a support"),
        Field(
            "support",
            Record(
                (
                    Field("species", SPECIES_NAME, doc="of the wood plate under the beam"),
                    Field("Fc_perp", Quantity("stress", positive=True), doc="us, in place of a species"),
                    Field("fcp", Quantity("stress", positive=True), doc="ca, in place of a species"),
                )
            ),
            doc="what the beam bears on, for crushing; needs bearing",
        ),
        Field("shear_at", Choice(("face", "d")), default="face", doc="d: NDS 3.4.3.1, loads on top only"),
        LIVE_REDUCTION,
        TREATED,
        NOTCH,
        SPECIAL,
        Field("section", SECTION),
        Field(
            "search",
            Record(
                (
                    Field(
                        "families",
                        ListOf(Choice((*FAMILIES, *_ENTERED["us"])), max=8),
                        default=["sawn", "lvl"],
                        defaults={"ca": ["sawn"]},
                    ),
                    Field(
                        "species",
                        ListOf(SPECIES_NAME, min=1),
                        default=["SPF", "DF-L", "HF", "SP"],
                        defaults={"ca": ["SPF", "DF-L", "HF"]},
                    ),
                    Field(
                        "grades",
                        ListOf(GRADE_NAME, min=1),
                        default=["No.2"],
                        defaults={"ca": ["No.1/No.2"]},
                        doc="of sawn lumber",
                    ),
                    Field("lvl_grades", ListOf(Text(40), min=1), doc="stress classes; default all held"),
                    Field(
                        "glulam_grades",
                        ListOf(Text(40), min=1),
                        doc="layups; default 24F-V4 and 24F-V3, ca 24f-E and 20f-E",
                    ),
                    Field("steel_forms", ListOf(Choice(("W", "C", "HSS")), min=1), doc="default all"),
                    Field(
                        "products",
                        ListOf(SECTION, max=200),
                        default=[],
                        doc="sections with the values of a product in hand, tried beside the families",
                    ),
                    Field("max_depth", _LENGTH),
                    Field("max_plies", Integer(1, 5), default=5),
                )
            ),
            doc="in place of a section: every stock size is tried",
        ),
    ),
    solve={"us": solve, "ca": solve},
    results=(
        Result("passes", "", "every check; a ratio of exactly 1 passes"),
        Result("governing", "", "name of the check with the largest ratio"),
        Result("ratio", "", "largest of all checks"),
        Result("section", "", "its label"),
        Result("size.<width|depth|area|section_modulus|inertia>", "", "of all plies"),
        Result("self_weight.line", "line_load", "counted in dead"),
        Result("reactions.<n>.max", "force", "over the stress combinations"),
        Result("reactions.<n>.min", "force", "below zero the support must hold the beam down"),
        Result("reactions.<n>.by_case.<case>", "force", "unfactored; dead with the self weight"),
        Result("moment.max", "moment", "signed, sagging positive"),
        Result("moment.min", "moment", "signed"),
        Result("shear.max", "force"),
        Result("checks.<bending|shear|bearing|support_bearing|notch_bending>.demand", "stress"),
        Result("checks.<bending>.demand", "moment", "of wood under code ca; shear and bearing are forces"),
        Result("checks.bearing_near_support.demand", "force", "code ca: loads within the depth of a support"),
        Result(
            "checks.deflection_permanent.demand",
            "length",
            "code ca: what stays, where it is the greater part",
        ),
        Result("checks.<notch|notch_fracture>.demand", "force", "shear at the notch"),
        Result("checks.<bending>.demand", "moment", "of steel; shear and web checks are forces"),
        Result("checks.<shear|web_yielding|web_crippling>.demand", "force", "of steel"),
        Result("checks.<deflection_live|deflection_total>.demand", "length"),
        Result("checks.<name>.<capacity|ratio|combination|clause|passes|steps>"),
        Result("bearing.<n>.required", "length", "length that each support needs"),
        Result("adjusted.<Fb|Fv|Fc_perp|E|Emin|Fy>", "stress", "of the governing bending combination"),
        Result("factors.<CD|CM|CL|CF|CV|Cr|Ci>", "", "of the governing bending combination"),
        Result("factors.<KD|KH|KSb|KT|KZb|KZbg|KL>", "", "likewise under code ca"),
        Result("checks.plate_bending.demand", "moment", "of a flitch beam; `bending` is its wood"),
        Result("checks.<bolts|support_bolts>.demand", "force", "of a flitch beam whose bolts are given"),
        Result("sharing.<steel|wood>", "", "parts of every load in a flitch beam"),
        Result("bolts.spacing", "length", "that a flitch beam needs; also value, at_supports, at_points"),
        Result("live_reduction.factor", "", "where asked for"),
        Result("camber.amount", "length", "of glued laminated timber, common practice"),
        Result("vibration.frequency_hz", "", "of a long floor beam, common practice"),
        Result("factors.<Cb|omega2>", "", "of steel, in the segment that governs"),
        Result("L_u", "length", "ca, of steel: unbraced up to here it loses nothing"),
        Result("section_class", "", "ca, of steel: 1 to 4"),
        Result(
            "local_buckling.<flange|web|wall>.<slenderness|limits|class>",
            "",
            "of steel, AISC 360 B4.1b, CSA S16 table 2",
        ),
        Result("plates.<n>.<length|width|thickness>", "length", "under steel on wood, where one is needed"),
        Result("candidates", "", "of a search: section, ratio, governing, passes, fails, close"),
    ),
    doc="A wood beam: bending with stability, shear, bearing, deflection, under every combination.",
)
