"""Lateral stability of a beam: which length is unbraced, and its effective length by NDS table 3.3.3."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from structure.core.clauses import Editions
from structure.core.codes.us import wood_beams as nds
from structure.core.codes.us.combinations import Combination
from structure.core.members.beam_demand import SELF, Demands
from structure.core.members.beam_question import BeamQuestion, Bracing
from structure.core.statics.model import Bay, Load
from structure.core.trace import Step

Array = npt.NDArray[np.float64]
SHORT, LONG = 7.0, 14.3  # l_u / d, table 3.3.3


@dataclass(frozen=True, slots=True)
class Row:
    """A row of table 3.3.3: numbers below l_u/d of 7, from there on (with 3 d), and over 14.3 if other."""

    text: str
    short: float
    deep: float | None
    long: float | None = None


UNIFORM = Row("single span, uniform load", 2.06, 1.63)
CENTRE = Row("single span, point load at the centre, no bracing between the ends", 1.80, 1.37)
CENTRE_BRACED = Row("single span, point load at the centre, braced there", 1.11, None)
EQUAL_POINTS = {
    2: Row("single span, two equal point loads at the third points, braced there", 1.68, None),
    3: Row("single span, three equal point loads at the quarter points, braced there", 1.54, None),
    4: Row("single span, four equal point loads at the fifth points, braced there", 1.68, None),
    5: Row("single span, five equal point loads at the sixth points, braced there", 1.73, None),
    6: Row("single span, six equal point loads at the seventh points, braced there", 1.78, None),
}
MANY_POINTS = Row("single span, seven or more equal point loads, evenly spaced, braced there", 1.84, None)
OVERHANG_UNIFORM = Row("cantilever, uniform load", 1.33, 0.90)
OVERHANG_TIP = Row("cantilever, point load at the free end", 1.87, 1.44)
OTHER = Row("footnote 1, other loads", 2.06, 1.63, 1.84)


def effective_length(row: Row, l_u: Array, d: float) -> Array:
    """Effective lengths of unbraced lengths by one row of the table."""
    slender = l_u / d
    if row.deep is None:
        return np.asarray(nds.effective_length_plain(k=row.short, l_u=l_u))
    result: Array = np.where(
        slender < SHORT,
        nds.effective_length_plain(k=row.short, l_u=l_u),
        nds.effective_length_deep(k=row.deep, l_u=l_u, d=d),
    )
    if row.long is not None:
        result = np.where(slender > LONG, nds.effective_length_plain(k=row.long, l_u=l_u), result)
    return result


def effective_length_step(row: Row, l_u: float, d: float, editions: Editions) -> Step:
    """The same for one length, as a line of the sheet."""
    slender = l_u / d
    if row.long is not None and slender > LONG:
        return nds.effective_length_plain.step(editions, note=row.text, k=row.long, l_u=l_u)
    if row.deep is None or slender < SHORT:
        return nds.effective_length_plain.step(editions, note=row.text, k=row.short, l_u=l_u)
    return nds.effective_length_deep.step(editions, note=row.text, k=row.deep, l_u=l_u, d=d)


@dataclass(frozen=True, eq=False)
class Unbraced:
    """Unbraced lengths (rows, bays) of one edge, and the table row by combination and bay."""

    lengths: Array
    rows: tuple[tuple[Row, ...], ...]


def unbraced(demands: Demands) -> tuple[Unbraced, Unbraced]:
    """Of the top edge where the beam sags and of the bottom edge where it hogs. 0 is braced all along."""
    if "unbraced" not in demands.memo:
        demands.memo["unbraced"] = _unbraced(demands)
    held: tuple[Unbraced, Unbraced] = demands.memo["unbraced"]
    return held


def _unbraced(demands: Demands) -> tuple[Unbraced, Unbraced]:
    question = demands.question
    bays = question.line.bays
    count = len(demands.strength.response)
    top = np.array([_length(question.bracing, bay) for bay in bays])
    sagging = np.broadcast_to(top, (count, len(bays)))
    if question.bottom_bracing is not None:
        bottom = np.array([_length(question.bottom_bracing, bay) for bay in bays])
        hogging = np.broadcast_to(bottom, (count, len(bays)))
    elif question.bracing == "continuous" and any((each.min < 0).any() for each in demands.moments):
        # A point of contraflexure holds the beam only where the other edge is held all along.
        hogging = demands.hogging_lengths
    else:
        hogging = np.broadcast_to(np.array([bay.length for bay in bays]), (count, len(bays)))
    own = [_with_own(each, question) for each in demands.strength.combinations]
    top_rows = tuple(tuple(_row(bay, loads, top[n], bays) for n, bay in enumerate(bays)) for loads in own)
    bottom_rows = tuple(tuple(_row(bay, loads, None, bays) for bay in bays) for loads in own)
    return Unbraced(sagging, top_rows), Unbraced(hogging, bottom_rows)


def _length(bracing: Bracing, bay: Bay) -> float:
    if bracing == "continuous":
        return 0.0
    if bracing == "ends":
        return bay.length
    return min(float(bracing), bay.length)


def _with_own(combination: Combination, question: BeamQuestion) -> list[Load]:
    factors = combination.factors
    loads = [load for load in question.loads if factors.get(load.case, 0.0) != 0.0]
    if question.self_weight and "dead" in factors:
        loads.append(Load.uniform(SELF, 1.0, 0.0, question.line.length))
    return loads


def _row(bay: Bay, loads: Sequence[Load], l_u: float | None, bays: Sequence[Bay]) -> Row:
    """The row of the table for the loads in a bay; anything that it does not list is footnote 1.

    `l_u` is None where the beam hogs: the table has no row for that but the overhangs.
    """
    kind = _kind(bay, loads)
    if bay.kind != "span":
        return {"uniform": OVERHANG_UNIFORM, "tip": OVERHANG_TIP}.get(kind, OTHER)
    if l_u is None:
        return OTHER
    if kind == "uniform":
        return UNIFORM
    if kind == "centre":
        if l_u >= bay.length * (1 - 1e-9):
            return CENTRE
        if abs(l_u - bay.length / 2) <= 1e-6 * bay.length:
            return CENTRE_BRACED
    if kind == "other" and len(bays) == 1:
        return _equal_points(bay, loads, l_u)
    return OTHER


def _equal_points(bay: Bay, loads: Sequence[Load], l_u: float) -> Row:
    """The row of equal point loads at even parts of a single span with a brace at each; else footnote 1."""
    force: dict[float, dict[str, float]] = {}
    slack = 1e-6 * bay.length
    for load in loads:
        if load.shape != "point":
            return OTHER
        if bay.start + slack < load.start < bay.end - slack:
            place = next((at for at in force if abs(at - load.start) <= slack), load.start)
            held = force.setdefault(place, {})
            held[load.case] = held.get(load.case, 0.0) + load.value
    count = len(force)
    part = bay.length / (count + 1)
    even = all(abs(at - bay.start - part * (n + 1)) <= slack for n, at in enumerate(sorted(force)))
    first = next(iter(force.values()), {})
    # Case by case, so that they are equal under every combination.
    alike = all(
        held.keys() == first.keys()
        and all(abs(held[case] - first[case]) <= 1e-6 * abs(first[case]) for case in held)
        for held in force.values()
    )
    if count < 2 or not even or not alike or abs(l_u - part) > slack:
        return OTHER
    return EQUAL_POINTS.get(count, MANY_POINTS)


def _kind(bay: Bay, loads: Sequence[Load]) -> str:
    """`uniform`, `centre`, `tip` or `other`: how the loads of one bay lie."""
    slack = 1e-6 * bay.length
    seen: set[str] = set()
    for load in loads:
        if load.shape == "point":
            # A force over a support bends nothing.
            over = [
                end for end in (bay.start, bay.end) if bay.kind == "span" and abs(load.start - end) <= slack
            ]
            if over or not bay.start - slack <= load.start <= bay.end + slack:
                continue
            tip = bay.start if bay.kind == "left" else bay.end
            if bay.kind == "span":
                middle = abs(load.start - (bay.start + bay.end) / 2) <= slack
                seen.add("centre" if middle else "other")
            elif abs(load.start - tip) <= slack:
                seen.add("tip")
            elif abs(load.start - (bay.start + bay.end - tip)) > slack:
                seen.add("other")
        elif load.end > bay.start + slack and load.start < bay.end - slack:
            whole = load.start <= bay.start + slack and load.end >= bay.end - slack
            seen.add("uniform" if whole and load.value == load.end_value else "other")
    return seen.pop() if len(seen) == 1 else "other"
