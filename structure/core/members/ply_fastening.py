"""How the plies of a built-up beam are fastened, loaded from the top or from hangers on its sides.

Plies under one load on top bend together by themselves: the least pattern holds them. Hangers load the
outer ply alone, and the fasteners pass on what the other plies carry. Nothing is made up: where only the
maker's paper knows, the answer is the load to be passed and a question. US: lbf, inches, psi.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from structure.core.clauses import Clause, Editions
from structure.core.codes.us import fasteners as nds
from structure.core.codes.us import fasteners_plies as plies_of
from structure.core.codes.us.combinations import StressCombination, asd
from structure.core.codes.us.fasteners_value import group_of, held_table, wood_holding
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.section import Section
from structure.core.members.fastener import Fastener, PlaneValue, make_fastener, plane_value
from structure.core.members.ply_pattern import (
    Least,
    Pattern,
    closest_spacing,
    distances,
    least_pattern,
    most_rows,
    pattern_of,
    placing_clause,
    widest_spacing,
)
from structure.core.members.ply_question import PlyQuestion, PlyResult, Transfer
from structure.core.trace import Check, Step

__all__ = ["PlyQuestion", "PlyResult", "fasten_plies", "usual_fastener"]

WIDE = 7.0  # in: composite lumber of this breadth is loaded from both sides or from the top; common practice
ACROSS = 90.0  # degrees: a beam's load runs across the grain of its plies
ONE_PIECE = Clause("statics", "one piece needs no ply fastening")


def fasten_plies(question: PlyQuestion, editions: Editions) -> PlyResult:
    """The least pattern, and for loads on the sides the check of what passes from ply to ply. NDS chapter 12.

    Raises InputError for rows that do not fit the depth or for no load on the sides, OutOfScope for steel.
    """
    section = question.section
    if section.material != "wood":
        raise OutOfScope(
            ONE_PIECE.at(editions),
            f"{section.label}: plies of wood only; steel and flitch beams have their own",
        )
    if question.length <= 0:
        raise InputError("length", f"{question.length:g}", "more than zero")
    if section.plies == 1:
        return PlyResult(question, remarks=(f"{section.label} is one piece: no ply fastening.",))
    fastener = question.fastener or usual_fastener(section, editions)
    least = least_pattern(section.family, fastener, section.depth, editions)
    remarks = [f"{fastener.label}: {fastener.mark}"] if fastener.mark else []
    placing = placing_clause(fastener, editions)
    remarks.append(f"Distances of fasteners ({placing}): {distances(fastener)[1]}.")
    if fastener.length is not None and fastener.length > 2 * section.ply_width + 1e-9:
        remarks.append(
            f"{fastener.label}: its point comes through the second ply; take a shorter one or clinch it."
        )
    if least is not None:
        remarks.append(f"Least pattern of plies ({least.fastener}): {least.clause}, {least.mark}.")
    if question.loaded == "top":
        return _from_the_top(question, fastener, least, tuple(remarks))
    return _from_the_sides(question, fastener, least, remarks, editions)


def usual_fastener(section: Section, editions: Editions) -> Fastener:
    """The thickest nail held that reaches 10 diameters into the next ply and no further; else 1/2 in bolts.

    Wide composite beams take bolts from the start; common practice.
    """
    t = section.ply_width
    read: dict[str, Any] = dict.fromkeys(("name", "diameter", "length", "yield", "capacity", "source"))
    fitting = [
        row
        for row in held_table().content["nail"]
        if t + nds.FULL_PENETRATION * row["diameter"] <= row["length"] + 1e-9 <= 2 * t + 2e-9
    ]
    if not fitting or (section.family != "sawn" and section.breadth >= WIDE - 1e-9):
        return make_fastener(read | {"kind": "bolt", "diameter": 0.5}, editions)
    nail = max(fitting, key=lambda row: row["diameter"])
    return make_fastener(read | {"kind": "nail", "name": nail["name"]}, editions)


def _from_the_top(
    question: PlyQuestion, fastener: Fastener, least: Least | None, remarks: tuple[str, ...]
) -> PlyResult:
    if least is None:
        asked = f"{fastener.label} is thinner than the patterns held for plies name: what pattern holds them?"
        return PlyResult(question, fastener=fastener, questions=(asked,), remarks=remarks)
    room = most_rows(fastener, question.section.depth)
    rows = least.rows if question.rows is None else question.rows
    if rows > room:
        raise InputError("rows", question.rows, _room_for(room, fastener, question.section.depth))
    spacing = least.spacing if question.spacing is None else question.spacing
    pattern = pattern_of(fastener, rows, spacing, question.section.depth, question.length)
    return PlyResult(
        question,
        fastener=fastener,
        least=least,
        pattern=pattern,
        questions=tuple(_pattern_questions(pattern, fastener, least)),
        remarks=remarks,
    )


def _pattern_questions(pattern: Pattern, fastener: Fastener, least: Least) -> list[str]:
    """Fewer than the least pattern, or closer than wood bears without splitting."""
    found = []
    if pattern.rows < least.rows or pattern.spacing > least.spacing + 1e-9:
        found.append(
            f"{pattern.rows} rows at {pattern.spacing:g} in are fewer than {least.rows} rows at {least.spacing:g} "
            f"in, the least pattern ({least.clause}): who allows it?"
        )
    closest = distances(fastener)[0]["in_row"]
    if pattern.spacing < closest - 1e-9:
        found.append(
            f"{fastener.label}s {pattern.spacing:g} in apart are closer than {closest:.2f} in, which may split the "
            "plies: lead holes, or a thinner fastener?"
        )
    return found


def _room_for(room: int, fastener: Fastener, depth: float) -> str:
    return f"rows that fit: {room} of {fastener.label} in {depth:g} in"


def _from_the_sides(
    question: PlyQuestion, fastener: Fastener, least: Least | None, remarks: list[str], editions: Editions
) -> PlyResult:
    section = question.section
    stated = fastener.capacity is not None
    transfer, joints = _worst_transfer(question, editions, stated=stated)
    questions = _makers_questions(question, fastener, least, transfer)
    held = PlyResult(
        question,
        transfer=transfer,
        joints=joints,
        fastener=fastener,
        least=least,
        questions=tuple(questions),
        remarks=tuple(remarks),
    )
    if least is None or (not stated and (question.gravity is None or fastener.F_yb is None)):
        return held
    try:
        plane = _plane(question, fastener, editions)
    except OutOfScope as refusal:
        return replace(held, questions=(*questions, f"{refusal.reason} ({refusal.clause})"))
    pattern, adjusted, need, after = _pattern(question, fastener, least, plane, transfer, editions)
    capacity = plies_of.pattern_capacity.step(editions, r=pattern.rows, Z=adjusted, s=pattern.spacing)
    check = Check(
        "transfer",
        transfer.load,
        capacity.result,
        "line_load",
        transfer.combination,
        nds.PLANES.at(editions),
        (transfer.step, *plane.steps, *after, capacity),
        f"joint {transfer.joint} of {section.plies - 1}, each joint as a single shear plane",
    )
    questions += _pattern_questions(pattern, fastener, least)
    return replace(
        held,
        questions=tuple(questions),
        plane=plane,
        adjusted=adjusted,
        need=need,
        pattern=pattern,
        check=check,
    )


def _makers_questions(
    question: PlyQuestion, fastener: Fastener, least: Least | None, transfer: Transfer
) -> list[str]:
    """What only a maker's paper can decide, each a question that carries the load to be passed."""
    section = question.section
    asked = f"{transfer.load * 12:,.0f} lbf/ft pass from ply to ply ({transfer.combination})"
    found = []
    if question.gravity is None and fastener.capacity is None:
        found.append(
            f"{section.label}: {asked}; its maker's paper decides the fastening, or states the specific gravity "
            "that it counts as."
        )
    if fastener.F_yb is None and fastener.capacity is None:
        found.append(f"{fastener.label}: {asked}; what does its maker state for one screw in this wood?")
    if least is None:
        found.append(f"{fastener.label} is thinner than the patterns held for plies name: {asked}.")
    if section.family != "sawn" and section.breadth >= WIDE - 1e-9 and not (question.left and question.right):
        found.append(
            f"{section.label} is loaded from one side alone: {asked}; makers limit beams {WIDE:g} in wide and more "
            "to loads from both sides or from the top."
        )
    return found


def _worst_transfer(
    question: PlyQuestion, editions: Editions, *, stated: bool
) -> tuple[Transfer, tuple[float, ...]]:
    """The joint and sum whose transfer over C_D is largest, and the largest transfer of every joint.

    What comes and goes may be on one side alone: that is when two like sides pass anything on at all.
    """
    left, right, n = question.left, question.right, question.section.plies
    present = {case for side in (left, right) for case, value in side.items() if value > 0}
    if any(value < 0 for side in (left, right) for value in side.values()):
        raise InputError("left", "a negative load", "loads of zero or more")
    if not present:
        raise InputError("left", "no load", "the load of the hangers on at least one side")
    worst: tuple[float, int, StressCombination, float, float] | None = None
    joints = [0.0] * (n - 1)
    for each in asd(present):
        full, lasting = (_sides(each, left, right, cases) for cases in (None, ("dead",)))
        for w_1, w_2 in {full, (full[0], lasting[1]), (lasting[0], full[1])}:
            for i in range(1, n):
                T = plies_of.ply_transfer(w_1=w_1, w_2=w_2, n=n, i=i)
                joints[i - 1] = max(joints[i - 1], T)
                if worst is None or worst[0] * (1 + 1e-12) < T / each.C_D:
                    worst = (T / each.C_D, i, each, w_1, w_2)
    assert worst is not None  # noqa: S101 - there is a load, two plies and a combination
    _, i, combination, w_1, w_2 = worst
    step = plies_of.ply_transfer.step(editions, w_1=w_1, w_2=w_2, n=n, i=i)
    C_D = duration(combination.C_D, stated=stated)
    return Transfer(step.result, i, combination.name, C_D, step), tuple(joints)


def duration(C_D: float, *, stated: bool) -> float:
    """C_D of a fastener; a stated capacity is not raised, since nobody said that it may be."""
    return min(1.0, C_D) if stated else C_D


def _sides(
    each: StressCombination,
    left: Mapping[str, float],
    right: Mapping[str, float],
    cases: tuple[str, ...] | None,
) -> tuple[float, float]:
    def summed(side: Mapping[str, float]) -> float:
        return sum(f * side.get(case, 0.0) for f, case in each.terms if cases is None or case in cases)

    return summed(left), summed(right)


def _plane(question: PlyQuestion, fastener: Fastener, editions: Editions) -> PlaneValue:
    t = question.section.ply_width
    if fastener.capacity is not None:
        return PlaneValue(None, fastener.capacity, None, 1.0, ())
    assert question.gravity is not None  # noqa: S101 - asked for before
    ply = wood_holding(question.gravity, fastener.diameter, t, ACROSS, editions)
    return plane_value(fastener, ply, ply, editions, angle=ACROSS)


def _pattern(
    question: PlyQuestion,
    fastener: Fastener,
    least: Least,
    plane: PlaneValue,
    transfer: Transfer,
    editions: Editions,
) -> tuple[Pattern, float, float, list[Step]]:
    """The fewest rows and the widest spacing that carry, else the densest that fits, with the value of one.

    The value depends on the rows: bolts in line with the load share unevenly (C_g).
    """
    section = question.section
    room = most_rows(fastener, section.depth)
    asked = question.rows
    if room < 1 or (asked is not None and asked > room):
        raise InputError("rows", asked, _room_for(room, fastener, section.depth))
    for rows in range(min(least.rows, room), room + 1) if asked is None else (asked,):
        C_g, steps = _group(question, fastener, rows, editions)
        value = nds.adjusted_value.step(editions, Z=plane.reference, C_D=transfer.C_D, C_p=plane.C_p, C_g=C_g)
        need = plies_of.fasteners_per_length.step(editions, T=transfer.load, Z=value.result)
        spacing = question.spacing or widest_spacing(fastener, least, rows, need.result)
        made = spacing or closest_spacing(fastener, least)
        pattern = pattern_of(fastener, rows, made, section.depth, question.length)
        if spacing is not None and rows / made >= need.result:
            break
    return pattern, value.result, need.result, [*steps, value, need]


def _group(
    question: PlyQuestion, fastener: Fastener, rows: int, editions: Editions
) -> tuple[float, tuple[Step, ...]]:
    """C_g of the bolts above each other: they are in line with the load. NDS 11.3.6."""
    if rows < 2 or fastener.diameter < nds.SMALL_DOWEL or fastener.capacity is not None:
        return 1.0, ()
    section = question.section
    least, _ = distances(fastener)
    # Across the grain a ply counts over the least spacing along the beam (NDS 11.3.6.3).
    EA = section.reference.value("E") * section.ply_width * least["in_row"]
    return group_of(
        count=rows,
        spacing=(section.depth - 2 * least["edge"]) / (rows - 1),
        diameter=fastener.diameter,
        EA_m=EA,
        EA_s=EA,
        editions=editions,
    )
