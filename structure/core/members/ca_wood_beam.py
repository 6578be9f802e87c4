"""A wood beam under the National Building Code of Canada: CSA O86:19 limit states, every check a force."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from structure.core.clauses import COMMON_PRACTICE, Editions
from structure.core.codes.ca import wood
from structure.core.codes.ca import wood_beams as o86
from structure.core.codes.us import glulam, vibration
from structure.core.codes.us.wood_beams import deflection as bent_down
from structure.core.materials.ca_wood import CaWoodSection
from structure.core.materials.section import Section
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_result import BeamResult, common_remarks, with_worst
from structure.core.members.ca_wood_bending import CaBending, bending, refuse_shape
from structure.core.members.ca_wood_notch import notch_checks
from structure.core.members.ca_wood_service import bearings, deflections, shear
from structure.core.members.ca_wood_values import CaValues, durations, values_of
from structure.core.members.wood_beam_notes import dead_deflection
from structure.core.units import quantity

GRAVITY = 9807.0  # mm/s**2
LONG_SPAN = 4572.0  # mm, 15 ft: common practice, as in us


def evaluate(demands: Demands, weight: int, section: Section, editions: Editions) -> BeamResult:
    """Check one wood section against forces already known; `weight` is the number of its self weight.

    Raises OutOfScope for a piece laid flat, C_B over 50 and wet composite lumber.
    """
    assert isinstance(section, CaWoodSection)  # noqa: S101 - the table of rules sends only wood here
    question = demands.question
    refuse_shape(section, editions)
    values = values_of(section, repetitive=question.repetitive, wet=question.wet, treated=question.treated)
    lasting = durations(demands, weight)
    bent = bending(demands, weight, values, lasting, editions)
    supports = tuple(bearings(demands, weight, values, editions))
    checks = [bent.check, shear(demands, weight, values, lasting, editions)]
    checks += deflections(demands, weight, values, editions)
    checks += notch_checks(demands, weight, values, lasting, editions)
    notes, more = _notes(demands, weight, values, editions)
    return BeamResult(
        question=question,
        section=section,
        demands=demands,
        weight=weight,
        checks=with_worst(checks, supports),
        supports=supports,
        factors=bent.factors,
        adjusted=_adjusted(values, bent),
        remarks=(*common_remarks(demands, weight, section), *_remarks(demands, values, bent), *notes),
        more=more,
    )


def _adjusted(values: CaValues, bent: CaBending) -> dict[str, float]:
    """Strengths with the factors of the governing bending sum [MPa]."""
    K_D = np.array(bent.factors["KD"])
    return {
        "Fb": bent.value,
        "Fv": float(values.strength("fv", K_D)),
        "Fcp": float(values.strength("fcp", K_D)),
        "E": values.specified("E") * values.K_S["E"] * values.K_T["E"],
    }


def _notes(
    demands: Demands, weight: int, values: CaValues, editions: Editions
) -> tuple[list[str], Mapping[str, Any]]:
    """How lively a long floor beam is, and the camber of glued laminated timber; common practice."""
    found: list[str] = []
    more: dict[str, Any] = {}
    EI_delta = dead_deflection(demands, weight)
    if EI_delta <= 0:
        return found, more
    E = values.stiffness_step(editions).result
    delta = bent_down.under(o86.DEFLECTION).step(
        editions, note="under dead load", EI_delta=EI_delta, E=E, I=values.section.inertia
    )
    if values.section.family == "glulam":
        camber = glulam.camber.step(editions, k=glulam.CAMBER_TIMES, delta=delta.result)
        found.append(
            f"Camber, {COMMON_PRACTICE.document}: {camber.result:.0f} mm, {glulam.CAMBER_TIMES:g} times the "
            f"{delta.result:.0f} mm under dead load; stock beams come with a radius of their own, ask the yard."
        )
        steps = [delta.as_data(), camber.as_data()]
        more["camber"] = {"amount": quantity(camber.result, "length", editions.code), "steps": steps}
    question = demands.question
    floor = any(load.case == "live" and (load.value or load.end_value) for load in question.loads)
    if floor and max(question.line.spans) > LONG_SPAN:
        frequency = vibration.first_frequency.step(editions, g=GRAVITY, delta=delta.result)
        side = "under" if frequency.result < vibration.LIVELY else "not under"
        found.append(
            f"A floor beam over {LONG_SPAN / 1000:.3g} m can be felt though its deflection is within the limit; the "
            f"vibration rules of O86 5.4.5 and NBC 9.23.4.2. are for joists ({COMMON_PRACTICE.document}): its first "
            f"frequency with the dead load on it is about {frequency.result:.1f} Hz, {side} the "
            f"{vibration.LIVELY:g} Hz that many ask for."
        )
        steps = [delta.as_data(), frequency.as_data()]
        more["vibration"] = {"frequency_hz": frequency.result, "steps": steps}
    return found, more


def _remarks(demands: Demands, values: CaValues, bent: CaBending) -> list[str]:
    section, question = values.section, demands.question
    found = [
        "Resistances are factored (CSA O86): loads by NBC 4.1.3.2., deflections under service loads, NBC 4.1.3.4."
    ]
    if section.family == "sawn" and section.depth > o86.DEEP_HELD * section.breadth:
        need = (
            "bridging or blocks no further apart than eight depths"
            if section.depth <= o86.DEEP_BLOCKED * section.breadth
            else "both edges held all along"
        )
        found.append(f"Over 6.5 times as deep as wide: K_L of 1 needs {need} as well (O86 6.5.3.2).")
    if wood.LONG_TERM_LEAST < bent.factors["KD"] < wood.STANDARD_TERM:
        found.append(
            "What stays is the greater part: K_D falls with what comes and goes (O86 5.3.2.3), so less live load or "
            "snow than was entered may be worse; enter no more of it than the code asks for."
        )
    if bent.factors["KL"] == 1.0 and question.bracing != "continuous":
        found.append("The beam must be held against rolling over at every support (O86 6.5.3.2).")
    if section.plies > 1:
        found.append("K_L takes the width of all plies together: they must be fastened to act as one.")
    if question.repetitive and values.K_H["fb"] == 1.0:
        found.append("No system factor is counted for this material: K_H is 1 on the safe side.")
    if section.family in ("lvl", "psl", "lsl"):
        found.append(
            "K_Zb = (305/d)^(1/9), at most 1, common practice: the maker's document governs (O86 15.3.2)."
        )
    if "hogging" in bent.check.note and section.hogging_value != "fb":
        found.append(
            "Where the top edge is in tension its own strength counts; lay the piece as it is marked, top up."
        )
    if question.treated == "preservative":
        found.append("Treated with preservative, not incised: K_T is 1 (O86 6.4.3).")
    if question.treated == "incised":
        found.append("Incised and treated: K_T of O86 table 6.11.")
    return found
