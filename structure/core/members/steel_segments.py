"""Unbraced segments of a steel beam, the moment in each and its gradient factor: C_b, in Canada omega_2.

Braces at a distance stand from either end of a bay on, whichever is worse: a bay that the distance does not
divide has one short segment, and nobody says at which end. A free end has no such factor, nor has the length
from a support to a point of contraflexure, which is no brace. AISC 360 F1, CSA S16 13.6.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from structure.core.clauses import Editions
from structure.core.codes.ca import steel_bending as s16
from structure.core.codes.us import steel_bending as aisc
from structure.core.members.beam_demand import Demands
from structure.core.members.beam_question import Bracing
from structure.core.statics.model import Bay
from structure.core.trace import Step

Array = npt.NDArray[np.float64]
MEMO = "steel segments"
MOST_SEGMENTS = 60  # braces closer than a sixtieth of the bay: their own gradient no longer counts


@dataclass(frozen=True, slots=True)
class Segment:
    """A length of one bay between braces of one edge: the top one where the beam sags, else the bottom one."""

    bay: int
    start: float
    end: float
    hogging: bool
    gradient: bool  # whether its factor is worked out; else it is 1
    length: float  # between braces


@dataclass(frozen=True, eq=False)
class Segments:
    """Every segment, and by row and segment: its length, gradient factor, its moment and where that is."""

    held: tuple[Segment, ...]
    L_b: Array
    C_b: Array
    moments: Array
    places: Array


def segments(demands: Demands) -> Segments:
    """The segments of a question, worked out once for all sections."""
    if MEMO not in demands.memo:
        demands.memo[MEMO] = _segments(demands)
    found: Segments = demands.memo[MEMO]
    return found


def _segments(demands: Demands) -> Segments:
    question = demands.question
    response = demands.strength.response
    held: list[Segment] = []
    for n, bay in enumerate(question.line.bays):
        held += _edge(n, bay, question.bracing, hogging=False)
        if question.bottom_bracing is not None:
            held += _edge(n, bay, question.bottom_bracing, hogging=True)
        elif question.bracing == "continuous":
            held.append(Segment(n, bay.start, bay.end, hogging=True, gradient=False, length=bay.length))
        else:
            held += _edge(n, bay, "ends", hogging=True)
    shape = (len(response), len(held))
    L_b, C_b, moments, places = np.zeros(shape), np.ones(shape), np.zeros(shape), np.zeros(shape)
    for n, each in enumerate(held):
        extremes = response.moment_extremes(each.start, each.end)
        moments[:, n] = np.maximum(-extremes.min if each.hogging else extremes.max, 0.0)
        places[:, n] = extremes.at_min if each.hogging else extremes.at_max
        bracing = question.bottom_bracing if each.hogging else question.bracing
        if bracing == "continuous":
            continue
        if each.hogging and bracing is None and question.bracing == "continuous":
            L_b[:, n] = demands.hogging_lengths[:, each.bay]
            continue
        L_b[:, n] = each.length
        if question.top_loaded:
            # What stands on the top flange pushes it further over: no gradient counts (CSA S16 13.6).
            L_b[:, n] *= s16.TOP_SPAN if len(question.line.bays) == 1 else s16.TOP_OTHER
        elif each.gradient:
            largest = np.maximum(np.abs(extremes.min), np.abs(extremes.max))
            quarters = [
                np.abs(response.moment(each.start + part * (each.end - each.start)))
                for part in (0.25, 0.5, 0.75)
            ]
            bent = largest > 1e-9 * max(float(largest.max()), 1e-9)
            C_b[bent, n] = _gradient(demands.code, largest[bent], *(each[bent] for each in quarters))
    if question.top_loaded:
        held = [replace(each, gradient=False) for each in held]
    return Segments(tuple(held), L_b, C_b, moments, places)


def _gradient(code: str, M_max: Array, M_a: Array, M_b: Array, M_c: Array) -> Array:
    if code == "us":
        return np.asarray(aisc.gradient_factor(M_max=M_max, M_A=M_a, M_B=M_b, M_C=M_c))
    omega_2 = s16.moment_gradient(M_max=M_max, M_a=M_a, M_b=M_b, M_c=M_c)
    return np.asarray(np.minimum(omega_2, s16.MOST_GRADIENT))


def gradient_steps(demands: Demands, segment: Segment, row: int, editions: Editions) -> tuple[Step, ...]:
    """The gradient factor of a segment under one sum, as a line of the sheet."""
    response = demands.strength.response[row : row + 1]
    M_max = abs(float(response.moment_extremes(segment.start, segment.end).largest[0]))
    length = segment.end - segment.start
    M_a, M_b, M_c = (abs(float(response.moment(segment.start + n * length)[0])) for n in (0.25, 0.5, 0.75))
    if demands.code == "us":
        return (aisc.gradient_factor.step(editions, M_max=M_max, M_A=M_a, M_B=M_b, M_C=M_c),)
    note = f"at most {s16.MOST_GRADIENT:g} is counted"
    return (s16.moment_gradient.step(editions, note=note, M_max=M_max, M_a=M_a, M_b=M_b, M_c=M_c),)


def _edge(number: int, bay: Bay, bracing: Bracing, *, hogging: bool) -> Iterator[Segment]:
    if isinstance(bracing, int | float) and bracing < bay.length / MOST_SEGMENTS:
        yield Segment(number, bay.start, bay.end, hogging, gradient=False, length=bracing)
        return
    gradient = bay.kind == "span"
    for start, end in dict.fromkeys(_layouts(bay, bracing)):
        yield Segment(number, start, end, hogging, gradient, end - start)


def _layouts(bay: Bay, bracing: Bracing) -> Iterator[tuple[float, float]]:
    """Braces at a distance, from the left end of the bay and from the right."""
    if not isinstance(bracing, int | float) or bracing >= bay.length * (1 - 1e-6):
        yield bay.start, bay.end
        return
    count = bay.length / bracing
    if abs(count - round(count)) <= 1e-4 * count:
        # Told in rounded feet and inches, yet meant to divide the bay.
        step = bay.length / round(count)
        for n in range(round(count)):
            yield bay.start + n * step, bay.start + (n + 1) * step
        return
    for n in range(int(count) + 1):
        yield bay.start + n * bracing, min(bay.start + (n + 1) * bracing, bay.end)
        yield max(bay.end - (n + 1) * bracing, bay.start), bay.end - n * bracing
