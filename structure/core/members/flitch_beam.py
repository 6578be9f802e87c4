"""A flitch beam under US rules: wood and plates share every load by stiffness; each is checked by its own.

Wood by the NDS for the moment it takes, the plates by AISC 360 F11 up to their first yield, held sideways
all along by the plies on both faces. Shear and bearing are the wood's alone: the plates stop short of the
bearings, and the bolts bring their part back. Creep counts on all of the dead load, as if there were no steel.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from structure.core.clauses import Editions
from structure.core.codes.us import flitch as rules
from structure.core.codes.us import steel, wood, wood_notches
from structure.core.codes.us import wood_beams as nds
from structure.core.errors import OutOfScope
from structure.core.materials.flitch import FlitchSection
from structure.core.materials.section import Section
from structure.core.members.beam_bending import Values, bending, refuse_flat, values_of
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_result import BeamResult, common_remarks, with_worst
from structure.core.members.beam_service import bay_name, bearings, deflection_checks, shear
from structure.core.members.beam_stability import unbraced
from structure.core.members.flitch_bolts import bolts_of
from structure.core.members.wood_beam_notes import vibration_note
from structure.core.trace import Check, Step
from structure.core.units import quantity


@dataclass(frozen=True, slots=True)
class Sharing:
    """What part of every load the plates take, and the stiffness of the whole turned into wood."""

    E_w: float
    inertia: float
    share: float
    steps: tuple[Step, ...]


def evaluate(demands: Demands, weight: int, section: Section, editions: Editions) -> BeamResult:
    """Check one flitch section against forces already known; `weight` is the number of its self weight.

    Raises OutOfScope for a notch, for plies laid flat and for what the NDS does not cover of the wood.
    """
    assert isinstance(section, FlitchSection)  # noqa: S101 - the table of rules sends only flitch beams here
    question = demands.question
    if question.notch is not None:
        raise OutOfScope(wood_notches.NOTCHES.at(editions), f"{section.label}: a notch in a flitch beam")
    refuse_flat(section.wood, editions)
    values = values_of(
        section.wood, repetitive=question.repetitive, wet=question.wet, treated=question.treated
    )
    held = sharing(section, values, editions)
    bent = bending(demands, weight, values, unbraced(demands), editions, share=1 - held.share)
    M_w = rules.wood_moment.step(
        editions,
        M=bent.check.demand * section.wood.section_modulus / (1 - held.share),
        k_s=held.share,
    )
    timber = replace(bent.check, steps=(*held.steps, M_w, *bent.check.steps))

    def sagged(EI_delta: float) -> tuple[Step, ...]:
        return (nds.deflection.step(editions, EI_delta=EI_delta, E=held.E_w, I=held.inertia),)

    supports = tuple(bearings(demands, weight, values, editions))
    checks = [timber, _plates(demands, weight, section, held, editions)]
    checks += [
        shear(demands, weight, values, editions),
        *deflection_checks(demands, weight, sagged, editions),
    ]
    bolts = bolts_of(demands, weight, section, held.share, editions)
    notes, more = vibration_note(demands, weight, held.E_w, held.inertia, editions)
    return BeamResult(
        question=question,
        section=section,
        demands=demands,
        weight=weight,
        checks=with_worst([*checks, *bolts.checks], supports),
        supports=supports,
        factors={**bent.factors, "n": held.steps[0].result, "ks": held.share},
        adjusted={"Fb": bent.value, "E": held.E_w, "Fy": section.steel_value("Fy")},
        remarks=(*common_remarks(demands, weight, section), *_remarks(question.wet), *bolts.remarks, *notes),
        more={
            "sharing": {
                "steel": held.share,
                "wood": 1 - held.share,
                "inertia": quantity(held.inertia, "inertia"),
                "wood_moment": quantity(M_w.result, "moment"),
                "steps": [step.as_data() for step in held.steps],
            },
            "bolts": bolts.data,
            **more,
        },
    )


def sharing(section: FlitchSection, values: Values, editions: Editions) -> Sharing:
    """Transformed section with the adjusted E of the wood."""
    E_w = float(wood.stiffness_value(F=values.reference("E"), C_M=values.C_M["E"]))
    n = rules.modular_ratio.step(editions, E_s=section.steel_value("E"), E_w=E_w)
    I_s = rules.plate_inertia.step(editions, N=section.plates, t=section.thickness, h=section.plate_depth)
    whole = rules.transformed_inertia.step(editions, I_w=section.wood.inertia, n=n.result, I_s=I_s.result)
    share = rules.steel_share.step(editions, n=n.result, I_s=I_s.result, I_t=whole.result)
    return Sharing(E_w, whole.result, share.result, (n, I_s, whole, share))


def _plates(
    demands: Demands, weight: int, section: FlitchSection, held: Sharing, editions: Editions
) -> Check:
    """Bending of the plates under the largest moment of all sums; steel knows no load duration."""
    block = demands.strength
    rows = block.rows(weight)
    moments = np.stack([np.abs(each.largest[rows]) for each in demands.moments], axis=-1)
    row, bay = (int(i) for i in np.unravel_index(int(moments.argmax()), moments.shape))
    M = rules.plate_moment.step(editions, M=float(moments[row, bay]), k_s=held.share)
    M_n = rules.yield_moment.step(
        editions, F_y=section.steel_value("Fy"), I_s=section.plate_inertia, h=section.plate_depth
    )
    allowed = steel.allowable_moment.step(editions, M_n=M_n.result, Omega=steel.OMEGA_BENDING)
    return Check(
        "plate_bending",
        M.result,
        allowed.result,
        "moment",
        block.names[int(block.combination_of[row])],
        rules.PLATE.at(editions),
        (*held.steps, M, M_n, allowed),
        note=f"in {bay_name(demands.question.line.bays[bay])}, up to first yield, held sideways by the plies",
    )


def _remarks(wet: bool) -> tuple[str, ...]:
    rust = ("Wet place: galvanize plates and bolts; rust is not counted.",) if wet else ()
    return (
        *rust,
        "Wood and plates share every load by stiffness; the bolts must keep them to one curve.",
        "The plate is one piece over the whole length, without a splice; bolt holes are not taken off.",
        "Shear and bearing are the wood's alone; the plate may stop short of the bearings.",
    )
