"""A notched wood beam by CSA O86 6.5.4: cut on the tension side at a support, sawn lumber in one piece."""

from __future__ import annotations

import numpy as np

from structure.core.clauses import Editions
from structure.core.codes.ca import wood
from structure.core.codes.ca import wood_beams as o86
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.ca_wood import FACTORS
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_question import Notch
from structure.core.members.ca_wood_values import CaValues, Duration
from structure.core.trace import Check
from structure.data.loader import table


def notch_checks(
    demands: Demands, weight: int, values: CaValues, lasting: tuple[Duration, ...], editions: Editions
) -> list[Check]:
    """Shear on the depth that is left, and fracture from the corner of the notch; nothing without a notch.

    Raises OutOfScope for a notch that the clause does not cover, InputError for one as deep as the beam.
    """
    notch = demands.question.notch
    if notch is None:
        return []
    _refuse(demands, values, notch, editions)
    block, section, line = demands.strength, values.section, demands.question.line
    response = block.response[block.rows(weight)]
    # All loads count at a notch, at whichever end it is.
    V = np.stack((np.abs(response.shear(0.0, "right")), np.abs(response.shear(line.length, "left")))).max(
        axis=0
    )
    K_D = np.array([each.K_D for each in lasting])[block.combination_of]
    row = int((V / K_D).argmax())
    combination = int(block.combination_of[row])
    duration, d_n = lasting[combination], section.depth - notch.depth
    F_v = values.strength_step("fv", duration.K_D, editions)
    V_r = o86.shear_resistance.step(
        editions,
        phi=wood.PHI_SHEAR,
        F_v=F_v.result,
        A_n=section.breadth * d_n,
        K_Zv=section.size_factors["fv"],
    )
    wet = float(table(FACTORS).content["fracture"]["wet"]) if demands.question.wet else 1.0
    F_f = wood.strength.step(
        editions, note="fracture", f=o86.FRACTURE, K_D=duration.K_D, K_H=1.0, K_S=wet, K_T=values.K_T["fv"]
    )
    K_N = o86.notch_factor.step(
        editions, k=o86.NOTCH_DEPTH, d=section.depth, a=d_n / section.depth, n=notch.length / section.depth
    )
    F_r = o86.fracture_resistance.step(
        editions, phi=wood.PHI_SHEAR, F_f=F_f.result, A=section.area, K_N=K_N.result
    )
    name, note = block.names[combination], f"{d_n:g} mm left of {section.depth:g} mm at the support"
    first = duration.steps(editions)
    return [
        Check(
            "notch", float(V[row]), V_r.result, "force", name, V_r.clause, (*first, F_v, V_r), note=note
        ),
        Check(
            "notch_fracture", float(V[row]), F_r.result, "force", name, F_r.clause,
            (*first, F_f, K_N, F_r), note=note,
        ),
    ]  # fmt: skip


def _refuse(demands: Demands, values: CaValues, notch: Notch, editions: Editions) -> None:
    section, line = values.section, demands.question.line
    if notch.depth >= section.depth:
        raise InputError("notch.depth", f"{notch.depth:g} mm", f"less than the depth of {section.depth:g} mm")

    def refuse(reason: str) -> None:
        raise OutOfScope(o86.NOTCH.at(editions), f"{section.label}: {reason}")

    if section.family != "sawn" or section.plies > 1:
        refuse("a notch in glued, composite or built-up lumber; ask the engineer")
    if notch.at == "interior":
        refuse("a notch inside the span")
    if notch.side == "compression":
        refuse("a notch on the compression side is not covered")
    if len(line.bays) > len(line.spans):
        refuse("a notch in a beam with an overhang: which side is in tension changes along it")
    if notch.depth > o86.MOST_NOTCH * section.depth * (1 + 1e-9):
        refuse(f"a notch {notch.depth:g} mm deep; at most a quarter, {o86.MOST_NOTCH * section.depth:.0f} mm")
