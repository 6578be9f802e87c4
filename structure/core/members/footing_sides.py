"""The sides of a pad from what the soil may carry. In the units of its code."""

from __future__ import annotations

import math
from dataclasses import dataclass

from structure.core.clauses import Editions
from structure.core.codes.pads import PadRules, pad_rules
from structure.core.codes.us import concrete_pad, soil
from structure.core.members.footing_pad import SAME, Force
from structure.core.members.footing_question import FootingQuestion
from structure.core.trace import Step

HALVINGS = 60


@dataclass(frozen=True, slots=True)
class Sides:
    """Length and width that were taken, and the side that the soil asks for before rounding."""

    length: float
    width: float
    needed: float
    steps: tuple[Step, ...]


def solve_sides(
    question: FootingQuestion, service: Force, thickness: float, editions: Editions
) -> Sides | None:
    """Sides at that thickness; None where the pad's own weight leaves nothing of the soil, or none is wide enough.

    With both sides given they are kept, and what a square pad would need is told beside them.
    """
    length, width = question.sides
    density = 0.0 if question.net else question.density
    room, base = question.soil - density * thickness, pad_rules(editions).clauses.base_area
    if room <= 0:
        if length is None or width is None:
            return None
        step = soil.required_side.under(base).step(
            editions,
            P=service.value,
            q_a=question.soil,
            gamma=0.0,
            t=0.0,
            note="before the weight of any pad",
        )
        return Sides(length, width, step.result, (step,))
    needed, steps = _needed(question, service, density, thickness, editions)
    if length is not None and width is not None:
        return Sides(length, width, math.inf if needed is None else needed, steps)
    if needed is None:
        return None
    rounded = _rounded(question, needed, thickness, pad_rules(editions))
    return Sides(length or rounded, width or rounded, needed, steps)


def _needed(
    question: FootingQuestion, service: Force, density: float, thickness: float, editions: Editions
) -> tuple[float | None, tuple[Step, ...]]:
    length, width = question.sides
    base = pad_rules(editions).clauses.base_area
    other = length or width if (length is None) != (width is None) else None
    if other is None:
        step = soil.required_side.under(base).step(
            editions, P=service.value, q_a=question.soil, gamma=density, t=thickness
        )
    else:
        step = soil.required_length.under(base).step(
            editions, P=service.value, W=other, q_a=question.soil, gamma=density, t=thickness
        )
    if not question.off_middle:
        return step.result, (step,)
    allowed = question.soil - density * thickness
    needed = _off_middle(question, service, allowed, step.result, pad_rules(editions).most_side)
    return needed, (step,)


def _off_middle(
    question: FootingQuestion, service: Force, allowed: float, least: float, most: float
) -> float | None:
    """The side at which the worst corner of an off-centre pad is just allowed, by halving; None past `most`.

    The pressure at that corner falls as the side grows, and so does the share of the kern that is used.
    """

    # Of a pad whose sides are given it is told what a square one would need.
    length, width = (None, None) if question.sides_given else question.sides

    def holds(side: float) -> bool:
        L, W = length or side, width or side
        k = concrete_pad.kern_ratio(question.off_length, question.off_width, L, W)
        q = soil.post_pressure(service.value, L, W)
        return bool(k <= 1 and soil.edge_pressure(q, k) <= allowed)

    low, high = least, most
    if not holds(high):
        return None
    if holds(low):
        return low
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high


def _rounded(question: FootingQuestion, needed: float, thickness: float, rules: PadRules) -> float:
    """The side that soil, edges, bars and perimeter ask for, up to the step."""
    base, mat = question.base, question.reinforcement
    least = _by_area(question)
    for given, stands, off in (
        (question.sides[0], base.length, question.off_length),
        (question.sides[1], base.width, question.off_width),
    ):
        if given is not None:
            continue
        c = (stands + base.column) / 2 if base.plate else stands
        asked = [stands + 2 * rules.least_projection]
        if mat is not None:
            # A straight bar is never developed in less beyond the critical section.
            asked.append(c + 2 * (rules.least_bar + mat.cover))
        if question.off_middle:
            # The punching perimeter of a post off the middle is worked only where it lies in the pad.
            lost = rules.face_loss if mat is None else mat.cover + mat.bar.diameter
            asked.append(c + thickness - lost)
        least = max(least, max(asked) + 2 * off)
    steps = max(needed, least) / question.step
    return math.ceil(steps * (1 - SAME)) * question.step


def _by_area(question: FootingQuestion) -> float:
    """The side that a table of areas asks for: of a square, or beside the side that is given."""
    length, width = question.sides
    other = length or width
    return question.least_area / other if other else question.least_area**0.5
