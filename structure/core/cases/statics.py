"""The `statics` kind: reactions, moment, shear and deflection of a beam, with no material in it."""

from __future__ import annotations

from typing import Any

from structure.core.cases.reader import (
    BEAM_OVERHANG,
    LOADS,
    SPANS,
    Field,
    Flag,
    Kind,
    Quantity,
    Result,
    read_line,
    read_loads,
)
from structure.core.clauses import Editions
from structure.core.errors import InputError
from structure.core.statics.envelope import Analysis, Envelope, analyse_cases
from structure.core.units import quantity


def solve(given: dict[str, Any], editions: Editions) -> dict[str, Any]:
    """Forces of all loads together, unfactored; with `pattern` the envelope over sets of bays.

    Raises InputError for a load off the beam, or E without I.
    """
    code = editions.code
    line = read_line(given["spans"], given["overhang"])
    loads = read_loads(given["loads"], "given.loads", code, line)
    for one, other in (("E", "I"), ("I", "E")):
        if given[one] is not None and given[other] is None:
            raise InputError(f"given.{other}", None, f"{other} beside {one}, since deflection needs both")
    analysis = analyse_cases(line, loads, pattern=given["pattern"])
    envelope = analysis.envelope([dict.fromkeys(analysis.cases, 1.0)], empty_patterns=True)
    result = {"reactions": _reactions(analysis, envelope, code)} | _forces(envelope, code)
    if given["E"] is not None:
        result["deflection"] = _deflection(envelope, given["E"] * given["I"], code)
    return result


def _reactions(analysis: Analysis, envelope: Envelope, code: str) -> dict[str, Any]:
    cases = {case: analysis.case(case).reactions for case in analysis.cases}
    return {
        str(n): {
            "max": quantity(float(envelope.reactions_max[n]), "force", code),
            "min": quantity(float(envelope.reactions_min[n]), "force", code),
            "by_case": {case: quantity(float(held[n]), "force", code) for case, held in cases.items()},
        }
        for n in range(len(analysis.line.supports))
    }


def _forces(envelope: Envelope, code: str) -> dict[str, Any]:
    moment, shear = envelope.moment, envelope.shear
    high, low = int(moment.max.argmax()), int(moment.min.argmin())
    most = int(abs(shear.largest).argmax())
    return {
        "moment": {
            "max": quantity(float(moment.max[high]), "moment", code),
            "max_at": quantity(float(moment.at_max[high]), "length", code),
            "min": quantity(float(moment.min[low]), "moment", code),
            "min_at": quantity(float(moment.at_min[low]), "length", code),
        },
        "shear": {
            "max": quantity(abs(float(shear.largest[most])), "force", code),
            "max_at": quantity(float(shear.at_largest[most]), "length", code),
        },
    }


def _deflection(envelope: Envelope, EI: float, code: str) -> dict[str, Any]:
    held = envelope.deflection
    most = int(abs(held.largest).argmax())
    return {
        "max": quantity(float(held.largest[most]) / EI, "length", code),
        "max_at": quantity(float(held.at_largest[most]), "length", code),
    }


KIND = Kind(
    "statics",
    (
        Field("spans", SPANS, required=True, doc="from left to right between supports"),
        Field("overhang", BEAM_OVERHANG, doc="beyond the first and the last support"),
        Field("loads", LOADS, required=True, doc="unfactored; every load once, no self weight"),
        Field("pattern", Flag(), default=False, doc="live on every set of spans and overhangs"),
        Field("E", Quantity("stress", positive=True), doc="with I, to get deflections"),
        Field("I", Quantity("inertia", positive=True)),
    ),
    solve={"us": solve, "ca": solve},
    results=(
        Result("reactions.<n>.max", "force", "support n from 0 at the left; up is positive"),
        Result("reactions.<n>.min", "force", "below zero the support must hold the beam down"),
        Result("reactions.<n>.by_case.<case>", "force", "the case on all bays"),
        Result("moment.max", "moment", "signed, sagging positive"),
        Result("moment.max_at", "length"),
        Result("moment.min", "moment", "signed"),
        Result("moment.min_at", "length"),
        Result("shear.max", "force", "largest without its sign"),
        Result("shear.max_at", "length"),
        Result("deflection.max", "length", "largest without its sign, given with it: down is positive"),
        Result("deflection.max_at", "length"),
    ),
    doc="Forces in a beam of constant stiffness, without a material.",
)
