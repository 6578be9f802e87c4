"""A wood beam under US rules: bending with stability, shear, bearing, deflection. NDS 2018 ch. 3, 4, 8."""

from __future__ import annotations

from structure.core.clauses import COMMON_PRACTICE, Editions
from structure.core.codes.us import wood
from structure.core.materials.section import Section, WoodSection
from structure.core.members.beam_bending import Bending, Values, bending, refuse_flat, values_of
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_result import BeamResult, common_remarks, with_worst
from structure.core.members.beam_service import bearings, deflections, shear
from structure.core.members.beam_stability import unbraced


def evaluate(demands: Demands, weight: int, section: Section, editions: Editions) -> BeamResult:
    """Check one wood section against forces already known; `weight` is the number of its self weight.

    Raises OutOfScope for a piece laid flat, R_B over 50 and wet composite lumber.
    """
    assert isinstance(section, WoodSection)  # noqa: S101 - the table of rules sends only wood here
    question = demands.question
    refuse_flat(section, editions)
    values = values_of(section, repetitive=question.repetitive, wet=question.wet)
    bent = bending(demands, weight, values, unbraced(demands), editions)
    supports = tuple(bearings(demands, weight, values, editions))
    checks = [bent.check, shear(demands, weight, values, editions)]
    checks += deflections(demands, weight, values, editions)
    return BeamResult(
        question=question,
        section=section,
        demands=demands,
        weight=weight,
        checks=with_worst(checks, supports),
        supports=supports,
        factors=bent.factors,
        adjusted=_adjusted(values, bent),
        remarks=(*common_remarks(demands, weight, section), *_remarks(demands, values, bent)),
    )


def _adjusted(values: Values, bent: Bending) -> dict[str, float]:
    """Adjusted design values of the governing bending combination [psi]."""
    C_D, C_M = bent.factors["CD"], values.C_M
    held = values.section.reference.values
    found = {"Fb": bent.value}
    if "Fv" in held:
        found["Fv"] = float(wood.shear_value(F=held["Fv"], C_D=C_D, C_M=C_M["Fv"]))
    for name in ("Fc_perp", "E", "Emin"):
        if name in held:
            found[name] = float(wood.stiffness_value(F=held[name], C_M=C_M[name]))
    return found


def _remarks(demands: Demands, values: Values, bent: Bending) -> list[str]:
    section, found = values.section, []
    if section.volume_factor is not None:
        found.append(
            f"C_V = (12/d)^(1/9), {COMMON_PRACTICE.document}: the maker's document governs (NDS 8.3.6)."
        )
    if section.plies > 1 and bent.slender > 0:
        found.append(
            f"C_L takes the width of all plies together, {COMMON_PRACTICE.document}: "
            "they must be fastened to act as one."
        )
    if demands.question.repetitive and values.C_r == 1.0:
        found.append("Timbers take no repetitive member factor (NDS 4.3.9).")
    return found
