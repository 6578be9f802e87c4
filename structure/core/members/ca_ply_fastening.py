"""How the plies of a built-up beam are fastened in Canada, loaded from the top or from hangers on its sides.

From the top NBC 9.23.8.3. lays down the pattern. From the sides the nails pass on what the other plies carry:
factored loads against CSA O86 12.9. Bolts and composite lumber without stated values are questions. N, mm.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.ca import fasteners as o86
from structure.core.codes.ca.combinations import ultimate
from structure.core.codes.combination import Combination
from structure.core.codes.us import fasteners_plies as plies_of
from structure.core.errors import InputError, OutOfScope
from structure.core.members import ca_ply_pattern as patterns
from structure.core.members.ca_fastener import USUAL_BOLT, NailValue, Piece, held, make_fastener, nail_value
from structure.core.members.ca_wood_values import duration_factor, specified_part, usual_factor
from structure.core.members.fastener import Fastener
from structure.core.members.ply_pattern import Least, Pattern
from structure.core.members.ply_question import PlyQuestion, PlyResult, Transfer
from structure.core.trace import Check, Step
from structure.core.units import in_words

WIDE = (
    178.0  # mm: composite lumber of this breadth is loaded from both sides or from the top; common practice
)


@dataclass(frozen=True, slots=True)
class CaPlyResult(PlyResult):
    """The pattern with its check in limit states."""

    nail: NailValue | None = None

    def as_data(self) -> dict[str, Any]:
        """The result of the `ply_fastening` kind; K_D in place of C_D, resistance in place of a stress value."""
        # Named, since a class made anew for its slots is not the one that `super()` would look for.
        data = PlyResult.as_data(self)
        del data["per_foot"]
        if data["transfer"] is not None:
            data["transfer"]["KD"] = data["transfer"].pop("CD")
        if self.nail is not None and self.adjusted is not None:
            data["value"] = {
                "nu": self._force(self.nail.n_u),
                "resistance": self._force(self.adjusted),
                "mode": self.nail.mode,
            }
        data["per_metre"] = None if self.need is None else 1000 * self.need
        return data

    def _force(self, value: float) -> dict[str, Any]:
        return {"value": value / 1000, "unit": "kN"}

    def _words(self) -> str:
        if self.pattern is None or self.fastener is None:
            return ""
        section = self.question.section
        return patterns.in_words(self.fastener, self.pattern, section.family, section.plies)


def fasten_plies(question: PlyQuestion, editions: Editions) -> PlyResult:
    """The least pattern, and for loads on the sides the check of what passes from ply to ply.

    NBC 9.23.8.3., CSA O86 12.9. Raises InputError for rows that do not fit the depth or for no load on the sides.
    """
    section = question.section
    if section.plies == 1:
        told = (f"{section.label} is one piece: no ply fastening.",)
        return CaPlyResult(question, remarks=told, code="ca")
    fastener = question.fastener or usual_fastener(question, editions)
    least = patterns.least_pattern(section.family, fastener, section.depth, editions)
    remarks = [f"{fastener.label}: {fastener.mark}"] if fastener.mark else []
    placing = (o86.PLACING if fastener.kind == "nail" else o86.BOLTS).at(editions)
    remarks.append(f"Distances of fasteners ({placing}): {patterns.distances(fastener)[1]}.")
    if least is not None:
        mark = f", {least.mark}" if least.mark else ""
        remarks.append(f"Least pattern of plies: {least.fastener} ({least.clause}{mark}).")
    if fastener.length is not None and fastener.length > 2 * section.ply_width + 1e-9:
        remarks.append(
            f"{fastener.label}: its point comes through the second ply; it is driven at a slant or clinched."
        )
    start = CaPlyResult(question, fastener=fastener, least=least, remarks=tuple(remarks), code="ca")
    return _from_the_top(start) if question.loaded == "top" else _from_the_sides(start, editions)


def usual_fastener(question: PlyQuestion, editions: Editions) -> Fastener:
    """The 89 mm nail of NBC 9.23.8.3. for plies of 38 mm, longer for thicker ones; else bolts of 12.7 mm."""
    section = question.section
    read: dict[str, Any] = dict.fromkeys(("name", "diameter", "length", "yield", "capacity", "source"))
    fitting = [
        row
        for row in held().content["nail"]
        if row["length"] >= section.ply_width + o86.LEAST_POINT * row["diameter"] and row["length"] >= 82.0
    ]
    wanted = [row for row in fitting if section.family != "sawn" or row["length"] >= 89.0]
    if (
        not wanted
        or section.ply_width > 51.0
        or (section.family != "sawn" and section.breadth >= WIDE - 1e-9)
    ):
        return make_fastener(read | {"kind": "bolt", "diameter": USUAL_BOLT}, editions)
    return make_fastener(read | {"kind": "nail", "name": wanted[0]["name"]}, editions)


def _from_the_top(start: CaPlyResult) -> CaPlyResult:
    question, fastener, least = start.question, start.fastener, start.least
    assert fastener is not None  # noqa: S101 - chosen before
    section = question.section
    if least is None:
        asked = f"{fastener.label} is shorter or thinner than the patterns held for plies name"
        return replace(start, questions=(f"{asked}: what pattern holds them?",))
    room = patterns.most_rows(fastener, section.depth)
    rows = least.rows if question.rows is None else question.rows
    if rows > room:
        raise InputError("rows", question.rows, _room_for(room, fastener, section.depth))
    spacing = least.spacing if question.spacing is None else question.spacing
    pattern = patterns.pattern_of(section.family, fastener, rows, spacing, section.depth, question.length)
    return replace(start, pattern=pattern, questions=tuple(_pattern_questions(pattern, fastener, least)))


def _pattern_questions(pattern: Pattern, fastener: Fastener, least: Least) -> list[str]:
    found = []
    if pattern.rows < least.rows or pattern.spacing > least.spacing + 1e-9:
        found.append(
            f"{pattern.rows} rows at {pattern.spacing:g} mm are fewer than {least.rows} at {least.spacing:g} mm, the "
            f"least pattern ({least.clause}): who allows it?"
        )
    closest = patterns.distances(fastener)[0]["in_row"]
    if pattern.spacing < closest - 1e-9:
        found.append(
            f"{fastener.label}s {pattern.spacing:g} mm apart are closer than {closest:.0f} mm, which may split the "
            "plies: lead holes, or a thinner fastener?"
        )
    return found


def _room_for(room: int, fastener: Fastener, depth: float) -> str:
    return f"rows that fit: {room} of {fastener.label} in {depth:g} mm"


def _from_the_sides(start: CaPlyResult, editions: Editions) -> CaPlyResult:
    question, fastener, least = start.question, start.fastener, start.least
    assert fastener is not None  # noqa: S101 - chosen before
    section, gravity = question.section, question.gravity
    transfer, joints = _worst_transfer(question, editions)
    questions = _makers_questions(question, fastener, least, transfer)
    start = replace(start, transfer=transfer, joints=joints, questions=tuple(questions))
    if least is None or (fastener.capacity is None and gravity is None):
        return start
    ply = Piece(gravity or 0.0, section.ply_width)
    try:
        nail = nail_value(fastener, ply, ply, editions)
    except OutOfScope as refusal:
        asked = f"{refusal.reason} ({refusal.clause}); {_passes(transfer)}."
        return replace(start, questions=(*questions, asked))
    pattern, need, value, steps = _pattern(question, fastener, least, nail, transfer, editions)
    capacity = plies_of.pattern_capacity.step(editions, r=pattern.rows, Z=value, s=pattern.spacing)
    check = Check(
        "transfer",
        transfer.load,
        capacity.result,
        "line_load",
        transfer.combination,
        o86.LATERAL.at(editions),
        (transfer.step, *nail.steps, *steps, capacity),
        f"joint {transfer.joint} of {section.plies - 1}, each joint as a single shear plane",
    )
    return replace(
        start,
        questions=(*questions, *_pattern_questions(pattern, fastener, least)),
        nail=nail,
        adjusted=value,
        need=need,
        pattern=pattern,
        check=check,
    )


def _passes(transfer: Transfer) -> str:
    return f"{in_words(transfer.load, 'line_load', 'ca')} pass from ply to ply, factored ({transfer.combination})"


def _makers_questions(
    question: PlyQuestion, fastener: Fastener, least: Least | None, transfer: Transfer
) -> list[str]:
    section, found = question.section, []
    if question.gravity is None and fastener.capacity is None:
        found.append(
            f"{section.label}: {_passes(transfer)}; its maker's paper decides the fastening, or states the relative "
            "density that it counts as."
        )
    if least is None:
        found.append(
            f"{fastener.label} is shorter or thinner than the patterns held for plies name: {_passes(transfer)}."
        )
    if section.family != "sawn" and section.breadth >= WIDE - 1e-9 and not (question.left and question.right):
        found.append(
            f"{section.label} is loaded from one side alone: {_passes(transfer)}; makers limit beams {WIDE:g} mm "
            "wide and more to loads from both sides or from the top."
        )
    return found


def _worst_transfer(question: PlyQuestion, editions: Editions) -> tuple[Transfer, tuple[float, ...]]:
    """The joint and factored sum whose transfer over K_D is largest, and the largest transfer of every joint.

    What comes and goes may be on one side alone: that is when two like sides pass anything on at all.
    """
    left, right, n = question.left, question.right, question.section.plies
    sides = (left, right)
    if any(value < 0 for side in sides for value in side.values()):
        raise InputError("left", "a negative load", "loads of zero or more")
    present = {case for side in sides for case, value in side.items() if value > 0}
    if not present:
        raise InputError("left", "no load", "the load of the hangers on at least one side")
    worst: tuple[float, int, Combination, float, float, float] | None = None
    joints = [0.0] * (n - 1)
    for each in ultimate(present):
        full = [_summed(each.factors, side) for side in sides]
        dead = [_summed({"dead": each.factors.get("dead", 0.0)}, side) for side in sides]
        for w_1, w_2, loaded in (
            (full[0], full[1], (left, right)),
            (full[0], dead[1], (left, {})),
            (dead[0], full[1], ({}, right)),
        ):
            for i in range(1, n):
                T = plies_of.ply_transfer(w_1=w_1, w_2=w_2, n=n, i=i)
                K_D = _duration(each, sides, loaded, n, i)
                joints[i - 1] = max(joints[i - 1], T)
                if worst is None or worst[0] * (1 + 1e-12) < T / K_D:
                    worst = (T / K_D, i, each, w_1, w_2, K_D)
    assert worst is not None  # noqa: S101 - there is a load, two plies and a combination
    _, i, combination, w_1, w_2, K_D = worst
    step = plies_of.ply_transfer.step(editions, w_1=w_1, w_2=w_2, n=n, i=i)
    return Transfer(step.result, i, combination.name, K_D, step), tuple(joints)


def _summed(factors: Mapping[str, float], side: Mapping[str, float]) -> float:
    return sum(factor * side.get(case, 0.0) for case, factor in factors.items())


def _duration(
    each: Combination,
    sides: Sequence[Mapping[str, float]],
    loaded: Sequence[Mapping[str, float]],
    n: int,
    i: int,
) -> float:
    """K_D of what passes at one joint: from dead load on both sides, and from what comes and goes where it is."""
    P_L = plies_of.ply_transfer(w_1=sides[0].get("dead", 0.0), w_2=sides[1].get("dead", 0.0), n=n, i=i)
    parts = specified_part(each)
    P_S = plies_of.ply_transfer(w_1=_summed(parts, loaded[0]), w_2=_summed(parts, loaded[1]), n=n, i=i)
    return min(1.0, duration_factor(usual_factor(each), P_L, P_S))


def _pattern(
    question: PlyQuestion,
    fastener: Fastener,
    least: Least,
    nail: NailValue,
    transfer: Transfer,
    editions: Editions,
) -> tuple[Pattern, float, float, list[Step]]:
    """The fewest rows and the widest spacing that carry, else the densest that fits; with the value of one."""
    section = question.section
    room, asked = patterns.most_rows(fastener, section.depth), question.rows
    if room < 1 or (asked is not None and asked > room):
        raise InputError("rows", asked, _room_for(room, fastener, section.depth))
    # A stated resistance has its own factor in it; only the load duration is left.
    phi = 1.0 if fastener.capacity is not None else o86.PHI
    value = o86.lateral_resistance.step(editions, phi=phi, n_u=nail.n_u, K_D=transfer.C_D, n_s=1.0)
    need = plies_of.fasteners_per_length.step(editions, T=transfer.load, Z=value.result)
    for rows in range(min(least.rows, room), room + 1) if asked is None else (asked,):
        spacing = question.spacing or patterns.widest_spacing(fastener, least, rows, need.result)
        made = spacing or min(patterns.allowed(fastener, least), default=least.spacing)
        pattern = patterns.pattern_of(section.family, fastener, rows, made, section.depth, question.length)
        if spacing is not None and rows / made >= need.result:
            break
    return pattern, need.result, value.result, [value, need]
