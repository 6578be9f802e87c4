"""A wood beam under US rules: bending with stability, shear, bearing, deflection. NDS 2018 ch. 3, 4, 5, 8."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.clauses import COMMON_PRACTICE, Editions
from structure.core.codes.us import wood
from structure.core.materials.section import Section, WoodSection
from structure.core.members.beam_bending import Bending, Values, bending, refuse_flat, values_of
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_result import BeamResult, common_remarks, with_worst
from structure.core.members.beam_service import bearings, deflections, shear
from structure.core.members.beam_stability import unbraced
from structure.core.members.wood_beam_notch import notch_checks
from structure.core.members.wood_beam_notes import camber_note, vibration_note


def evaluate(demands: Demands, weight: int, section: Section, editions: Editions) -> BeamResult:
    """Check one wood section against forces already known; `weight` is the number of its self weight.

    Raises OutOfScope for a piece laid flat, R_B over 50 and wet composite lumber.
    """
    assert isinstance(section, WoodSection)  # noqa: S101 - the table of rules sends only wood here
    question = demands.question
    refuse_flat(section, editions)
    values = values_of(section, repetitive=question.repetitive, wet=question.wet, treated=question.treated)
    bent = bending(demands, weight, values, unbraced(demands), editions)
    supports = tuple(bearings(demands, weight, values, editions))
    checks = [bent.check, shear(demands, weight, values, editions)]
    checks += deflections(demands, weight, values, editions)
    checks += notch_checks(demands, weight, values, bent, editions)
    adjusted = _adjusted(values, bent)
    notes, more = _notes(demands, weight, section, adjusted, editions)
    return BeamResult(
        question=question,
        section=section,
        demands=demands,
        weight=weight,
        checks=with_worst(checks, supports),
        supports=supports,
        factors=bent.factors,
        adjusted=adjusted,
        remarks=(*common_remarks(demands, weight, section), *_remarks(demands, values, bent), *notes),
        more=more,
    )


def _notes(
    demands: Demands, weight: int, section: WoodSection, adjusted: Mapping[str, float], editions: Editions
) -> tuple[list[str], dict[str, Any]]:
    """Camber and vibration, where there is something to say."""
    if "E" not in adjusted:
        return [], {}
    at = (demands, weight, adjusted["E"], section.inertia, editions)
    found, more = vibration_note(*at)
    if section.family != "glulam":
        return found, dict(more)
    texts, camber = camber_note(*at)
    return [*texts, *found], {**camber, **more}


def _adjusted(values: Values, bent: Bending) -> dict[str, float]:
    """Adjusted design values of the governing bending combination [psi]."""
    C_D, C_M = bent.factors["CD"], values.C_M
    held = values.section.reference.values
    found = {"Fb": bent.value}
    if "Fv" in held:
        found["Fv"] = float(wood.shear_value(F=values.reference("Fv"), C_D=C_D, C_M=C_M["Fv"]))
    for name in ("Fc_perp", "E", "Emin"):
        if name in held:
            found[name] = float(wood.stiffness_value(F=values.reference(name), C_M=C_M[name]))
    return found


def _remarks(demands: Demands, values: Values, bent: Bending) -> list[str]:
    section, question, found = values.section, demands.question, []
    if section.volume_factor is not None:
        found.append(
            f"C_V = (12/d)^(1/9), {COMMON_PRACTICE.document}: the maker's document governs (NDS 8.3.6)."
        )
    other_side = section.hogging_value != "Fb" and section.hogging_value in section.reference.values
    if other_side and "hogging" in bent.check.note:
        found.append(
            f"Where the top edge is in tension {section.reference.value(section.hogging_value):,.0f} psi counts "
            f"(NDS 5.2.3); the piece must be laid as it is marked, top up."
        )
    if section.plies > 1 and bent.slender > 0:
        found.append(
            f"C_L takes the width of all plies together, {COMMON_PRACTICE.document}: "
            "they must be fastened to act as one."
        )
    if question.repetitive and values.C_r == 1.0:
        kind = "Glued laminated timber takes" if section.family == "glulam" else "Timbers take"
        found.append(f"{kind} no repetitive member factor (NDS {'5.3.1' if kind[0] == 'G' else '4.3.9'}).")
    if question.treated == "preservative":
        found.append("Treated with preservative, not incised: reference values stand (NDS 2.3.4).")
    if question.treated == "incised":
        found.append("Incised: factors of NDS table 4.3.8, for cuts no deeper than 0.4 in.")
    return found
