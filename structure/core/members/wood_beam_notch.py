"""A notched wood beam: what may be cut at all, and the shear that is left. NDS 3.2.3, 3.4.3.2, 4.4.3."""

from __future__ import annotations

import numpy as np

from structure.core.clauses import COMMON_PRACTICE, Clause, Editions
from structure.core.codes.us import glulam, wood
from structure.core.codes.us import wood_beams as nds
from structure.core.codes.us import wood_notches as notches
from structure.core.errors import InputError, OutOfScope
from structure.core.members.beam_bending import Bending, Values
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_question import Notch
from structure.core.trace import Check, Step
from structure.data.loader import table

BUILT_UP = Clause(COMMON_PRACTICE.document, "built-up members are not notched on the tension side")


def notch_checks(
    demands: Demands, weight: int, values: Values, bent: Bending, editions: Editions
) -> list[Check]:
    """Shear at the notch, and bending where it is inside the span; nothing for a beam without a notch.

    Raises OutOfScope for a notch that the clauses do not allow, InputError for one as deep as the beam.
    """
    notch = demands.question.notch
    if notch is None:
        return []
    _refuse(demands, values, notch, editions)
    shear = _shear(demands, weight, values, notch, editions)
    return [shear] if notch.at == "end" else [shear, _bending(values, bent, notch, editions)]


def _refuse(demands: Demands, values: Values, notch: Notch, editions: Editions) -> None:
    section, line = values.section, demands.question.line
    if notch.depth >= section.depth:
        raise InputError("notch.depth", f"{notch.depth:g} in", f"less than the depth of {section.depth:g} in")
    sawn = section.family == "sawn"
    clause = {"sawn": notches.SAWN, "glulam": notches.GLULAM}.get(section.family, notches.COMPOSITE)

    def refuse(reason: str, by: Clause = clause) -> None:
        raise OutOfScope(by.at(editions), f"{section.label}: {reason}")

    if len(line.bays) > len(line.spans):
        refuse(
            "a notch in a beam with an overhang: which side is in tension changes along it", notches.NOTCHES
        )
    if notch.side == "tension":
        if notch.at == "interior":
            refuse("a notch on the tension side inside the span")
        if not sawn:
            refuse("a notch on the tension side of glued or composite lumber")
        if section.plies > 1:
            refuse("a notch on the tension side of a built-up beam", BUILT_UP)
    if notch.at == "interior":
        if not sawn:
            refuse("a notch inside the span of glued or composite lumber")
        if len(line.spans) > 1:
            refuse("a notch inside a span of a continuous beam, where the moment changes its sign")
        if notch.length > section.depth / 3 * (1 + 1e-9):
            refuse("a notch inside the span that is longer than a third of the depth", notches.NOTCHES)
    most = notches.INSIDE_SAWN if notch.at == "interior" else notches.END_SAWN if sawn else notches.END_GLUED
    if notch.depth > most * section.depth * (1 + 1e-9):
        refuse(f"a notch {notch.depth:g} in deep; at most {most * section.depth:.3g} in may be cut there")
    if not sawn and notch.length > min(line.spans) * notches.MIDDLE_THIRD * (1 + 1e-9):
        refuse("a notch that reaches into the middle third of the span")


def _shear(demands: Demands, weight: int, values: Values, notch: Notch, editions: Editions) -> Check:
    block, section, line = demands.strength, values.section, demands.question.line
    rows = block.rows(weight)
    response = block.response[rows]
    if notch.at == "end":
        V = np.stack((np.abs(response.shear(0.0, "right")), np.abs(response.shear(line.length, "left"))))
        V = V.max(axis=0)
    else:
        V = np.stack([np.abs(each.largest[rows]) for each in demands.shears]).max(axis=0)
    C_D = np.array([each.C_D for each in block.combinations])[block.combination_of]
    row = int((V / C_D).argmax())
    allowed = wood.shear_value.step(
        editions, F=values.reference("Fv"), C_D=float(C_D[row]), C_M=values.C_M["Fv"]
    )
    steps: list[Step] = [*values.incised_step("Fv", editions), allowed]
    if section.family == "glulam":
        C_vr = float(table("us/glulam").content["shear_reduction"]["C_vr"])
        steps.append(glulam.reduced_shear_value.step(editions, F_v=allowed.result, C_vr=C_vr))
    d_n, F_v = section.depth - notch.depth, steps[-1].result
    if notch.side == "tension":
        left = notches.notched_tension.step(editions, F_v=F_v, b=section.breadth, d_n=d_n, d=section.depth)
    else:
        # Inside the span the notch is taken as long as it can matter: only d_n is left.
        e = d_n if notch.at == "interior" else min(notch.length, d_n)
        left = notches.notched_compression.step(
            editions, F_v=F_v, b=section.breadth, d=section.depth, d_n=d_n, e=e
        )
    return Check(
        "notch",
        float(V[row]),
        left.result,
        "force",
        block.names[int(block.combination_of[row])],
        left.clause,
        (*steps, left),
        note=f"{notch.side} side, {'at the end' if notch.at == 'end' else 'outside the middle third'}, "
        f"{d_n:g} in left of {section.depth:g} in",
    )


def _bending(values: Values, bent: Bending, notch: Notch, editions: Editions) -> Check:
    """The largest moment of the span on what the notch leaves: safe wherever in the outer thirds it is."""
    section = values.section
    d_n = section.depth - notch.depth
    M = bent.check.demand * section.section_modulus
    stress = nds.bending_stress.step(
        editions, note="on the depth that is left", M=M, S=section.breadth * d_n**2 / 6
    )
    return Check(
        "notch_bending",
        stress.result,
        bent.value,
        "stress",
        bent.check.combination,
        notches.NOTCHES.at(editions),
        (stress,),
        note="the largest moment of the span taken at the notch",
    )
