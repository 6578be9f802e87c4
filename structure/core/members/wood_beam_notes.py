"""What a wood beam's sheet says besides its checks: camber of glued timber, how lively a long floor is."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from structure.core.clauses import COMMON_PRACTICE, Editions
from structure.core.codes.us import glulam, vibration
from structure.core.codes.us import wood_beams as nds
from structure.core.members.beam_demand import Demands
from structure.core.trace import Step
from structure.core.units import quantity


def dead_deflection(demands: Demands, weight: int) -> float:
    """EI times the largest deflection of a span under dead load, at once [lbf*in**3]; 0 without dead load."""
    block = demands.total(1.0)
    if "D" not in block.names:
        return 0.0
    rows = block.rows(weight)
    alone = block.combination_of == block.names.index("D")
    spans = [n for n, bay in enumerate(demands.question.line.bays) if bay.kind == "span"]
    extremes = demands.total_deflections(1.0)
    return max(float(extremes[n].max[rows][alone].max()) for n in spans)


def camber_note(
    demands: Demands, weight: int, E: float, inertia: float, editions: Editions
) -> tuple[list[str], Mapping[str, Any]]:
    """The camber to order, common practice; nothing where no dead load bends the beam down."""
    EI_delta = dead_deflection(demands, weight)
    if EI_delta <= 0:
        return [], {}
    delta = nds.deflection.step(editions, note="under dead load", EI_delta=EI_delta, E=E, I=inertia)
    step = glulam.camber.step(editions, k=glulam.CAMBER_TIMES, delta=delta.result)
    text = (
        f"Camber, {COMMON_PRACTICE.document}: {step.result:.2f} in, {glulam.CAMBER_TIMES:g} times the "
        f"{delta.result:.2f} in under dead load; stock beams come with a radius of their own, ask the yard."
    )
    return [text], {"camber": {"amount": quantity(step.result, "length"), "steps": _data(delta, step)}}


def vibration_note(
    demands: Demands, weight: int, E: float, inertia: float, editions: Editions
) -> tuple[list[str], Mapping[str, Any]]:
    """What no limit on deflection says of a long floor beam, common practice; nothing for a short one."""
    question = demands.question
    floor = any(load.case == "live" and (load.value or load.end_value) for load in question.loads)
    if not floor or max(question.line.spans) <= vibration.LONG_SPAN:
        return [], {}
    text = (
        f"A floor beam over {vibration.LONG_SPAN / 12:g} ft can be felt though its deflection is within the "
        f"limit; no US clause limits it ({COMMON_PRACTICE.document})"
    )
    EI_delta = dead_deflection(demands, weight)
    if EI_delta <= 0:
        return [f"{text}."], {}
    delta = nds.deflection.step(editions, note="under dead load", EI_delta=EI_delta, E=E, I=inertia)
    step = vibration.first_frequency.step(editions, g=vibration.GRAVITY, delta=delta.result)
    side = "under" if step.result < vibration.LIVELY else "not under"
    text += f": its first frequency with the dead load on it is about {step.result:.1f} Hz, {side} the "
    text += f"{vibration.LIVELY:g} Hz that many ask for."
    return [text], {"vibration": {"frequency_hz": step.result, "steps": _data(delta, step)}}


def _data(*steps: Step) -> list[dict[str, Any]]:
    return [step.as_data() for step in steps]
