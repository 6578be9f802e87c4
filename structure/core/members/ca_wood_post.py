"""Wood posts under the Canadian code: solid, and built up of plies. CSA O86:19 6.5.5, 6.5.9, 7.5.8.

As in every code here a post can buckle across its plies, where the factor of a built-up column applies, and across
its depth.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.ca import wood
from structure.core.codes.ca import wood_beams as beams
from structure.core.codes.ca import wood_columns as o86
from structure.core.errors import OutOfScope
from structure.core.materials.ca_wood import CaWoodSection
from structure.core.members.ca_bearing import Factored, factored_sums, plate_check
from structure.core.members.ca_post_fastening import ca_fastening_of
from structure.core.members.ca_wood_values import CaValues, values_of
from structure.core.members.post_question import (
    ACROSS_DEPTH,
    ACROSS_PLIES,
    CONTINUOUS,
    Axis,
    Brace,
    PostQuestion,
    PostResult,
    brace_of,
    check_question,
)
from structure.core.trace import Check, Step

EQUAL = 1e-9


@dataclass(frozen=True, slots=True)
class _Way:
    """One way to buckle: the dimension that bends, the other one, the part of a solid column, and the brace."""

    name: str
    direction: str
    d: float
    b: float
    plies: int
    part: float
    brace: Brace


def check_ca_wood_post(question: PostQuestion, editions: Editions) -> PostResult:
    """Buckling both ways, end bearing, the plate, and an end load off centre, under every factored sum.

    Raises InputError for input that cannot be meant and OutOfScope for a slenderness over 50, a built-up post
    outside 6.5.5.4, uplift, or a product without a compression strength.
    """
    section = question.section
    assert isinstance(section, CaWoodSection)  # noqa: S101 - the table of rules sends only wood here
    check_question(question, o86.COMPRESSION.at(editions))
    _guard(section, editions)
    values = values_of(section, repetitive=False, wet=False)
    ways = _ways(question)
    held: dict[str, list[tuple[Check, Factored, tuple[Axis, ...]]]] = {}
    for each in factored_sums(question.loads, editions):
        for check, axes in _checks(question, values, ways, each, editions):
            held.setdefault(check.name, []).append((check, each, axes))
        if question.plate is not None:
            check = plate_check(question.plate, section, each, editions)
            held.setdefault(check.name, []).append((check, each, ()))
    governing = {name: max(rows, key=lambda row: row[0].ratio) for name, rows in held.items()}
    _, worst, axes = governing["buckling"]
    return PostResult(
        question=question,
        checks={name: row[0] for name, row in governing.items()},
        axes={axis.name: axis for axis in axes},
        factors={
            "KD": worst.duration.K_D,
            "KZc": _size_of(min(axes, key=lambda axis: axis.capacity)),
        },
        fastening=ca_fastening_of(section, question.fastened, editions),
        remarks=_remarks(question, section),
    )


def _size_of(axis: Axis) -> float:
    """K_Zc or K_Zcg of one axis; 1 for composite lumber."""
    return next((step.result for step in axis.steps if step.symbol.startswith("K_Zc")), 1.0)


def _guard(section: CaWoodSection, editions: Editions) -> None:
    missing = [name for name in ("fc", "E05") if name not in section.reference.values]
    if missing:
        raise OutOfScope(
            o86.COMPRESSION.at(editions),
            f"{section.label}: no {' and no '.join(missing)} is held, so it cannot be checked as a post; enter the "
            "values that its maker prints for columns",
        )
    if section.plies > 1 and section.width < o86.LEAST_PLY - EQUAL:
        raise OutOfScope(
            o86.BUILT_UP.at(editions), f"plies of {section.width:g} mm: each must be 38 mm thick or more"
        )


def _ways(question: PostQuestion) -> tuple[_Way, _Way]:
    """Weak then strong: weak is the less stiff way of the whole section; across the plies if equal."""
    section = question.section
    across, depth = section.plies * section.width, section.depth
    part = o86.OF_SOLID[question.fastened] if section.plies > 1 else 1.0
    plies_weak = across <= depth + EQUAL
    names = ("weak", "strong") if plies_weak else ("strong", "weak")
    plies = _Way(
        names[0], ACROSS_PLIES, across, depth, section.plies, part, brace_of(question, names[0], "plies")
    )
    edge = _Way(names[1], ACROSS_DEPTH, depth, across, 1, 1.0, brace_of(question, names[1], "depth"))
    return (plies, edge) if plies_weak else (edge, plies)


def _size(question: PostQuestion, way: _Way, L: float, editions: Editions) -> Step | None:
    """K_Zc as a line of the sheet; None where it is 1, for composite lumber."""
    section = question.section
    if section.family == "sawn":
        return o86.size_factor.step(editions, note=f"{way.name} axis", d=way.d, L=L, d_1=1.0)
    if section.family == "glulam":
        return o86.glulam_size_factor.step(editions, Z=section.area * question.height, Z_1=1e9)
    return None


def _axis(
    question: PostQuestion, values: CaValues, way: _Way, F_c: Step, area: Step, editions: Editions
) -> Axis:
    """P_r of one way to buckle. Raises OutOfScope for a slenderness over 50."""
    held_all_along = way.brace == CONTINUOUS
    free = question.height if way.brace is None or held_all_along else min(float(way.brace), question.height)
    note = f"{way.name} axis, {way.direction}"
    steps: list[Step] = []
    size = _size(question, way, free, editions)
    K_Zc = size.result if size else 1.0
    steps += [size] if size else []
    clause = o86.GLULAM if question.section.family == "glulam" else o86.COMPRESSION
    held: dict[str, Any] = {"phi": wood.PHI_COMPRESSION, "F_c": F_c.result, "A": area.result, "K_Zc": K_Zc}
    if held_all_along:
        P_r = o86.column_resistance.under(clause).step(
            editions, note=f"{note}, held without a gap", K_C=1.0, **held
        )
        return Axis(way.name, way.direction, 0.0, 1.0, P_r.result, None, (*steps, P_r))
    length = o86.effective_length.step(editions, K_e=question.end, L=free, note=note)
    slender = o86.slenderness.step(editions, L_e=length.result, d=way.d, note=note)
    if slender.result > o86.MOST_SLENDER * (1 + EQUAL):
        raise OutOfScope(
            o86.SLENDERNESS.at(editions),
            f"{question.section.label}: slenderness {slender.result:.1f} {way.direction} is over "
            f"{o86.MOST_SLENDER:g}; brace it, or take a thicker post",
        )
    E05 = values.specified("E05") * values.K_S["E05"] * values.K_T["E05"]
    K_C = o86.stability_factor.step(
        editions, note=note, F_c=F_c.result, K_Zc=K_Zc, C_c=slender.result, E_05=E05
    )
    P_r = o86.column_resistance.under(clause).step(editions, note=note, K_C=K_C.result, **held)
    inertia = way.b * way.d**3 / 12
    P_E = o86.euler_load(E_05=E05, I=inertia, L_e=length.result) * way.part
    steps += [length, slender, K_C, P_r]
    if way.part < 1.0:
        steps.append(
            o86.built_up_resistance.step(editions, note=question.fastened, k=way.part, P_solid=P_r.result)
        )
    return Axis(way.name, way.direction, slender.result, K_C.result, steps[-1].result, P_E, tuple(steps))


def _checks(
    question: PostQuestion, values: CaValues, ways: tuple[_Way, _Way], each: Factored, editions: Editions
) -> list[tuple[Check, tuple[Axis, ...]]]:
    section = question.section
    area = o86.area.step(editions, n=section.plies, b=section.width, d=section.depth)
    F_c = values.strength_step("fc", each.duration.K_D, editions)
    axes = tuple(_axis(question, values, way, F_c, area, editions) for way in ways)
    buckling = min(axes, key=lambda axis: axis.capacity)
    ends = o86.end_resistance.step(
        editions, phi=wood.PHI_COMPRESSION, F_c=F_c.result, A=area.result, K_Zc=min(map(_size_of, axes))
    )
    first = (*each.duration.steps(editions), area, F_c)
    rows = [
        Check(
            "buckling",
            each.load,
            buckling.capacity,
            "force",
            each.name,
            (o86.GLULAM if section.family == "glulam" else o86.COMPRESSION).at(editions),
            (*first, *(step for axis in axes for step in axis.steps)),
            note=f"{buckling.name} axis, {buckling.direction}",
        ),
        Check(
            "end_bearing", each.load, ends.result, "force", each.name, ends.clause, (*first, ends),
            note="the end grain, K_C of 1",
        ),
    ]  # fmt: skip
    if question.eccentricity > 0:
        rows.append(_eccentric(question, values, ways, axes, each, editions))
    return [(check, axes) for check in rows]


def _eccentric(
    question: PostQuestion,
    values: CaValues,
    ways: tuple[_Way, _Way],
    axes: tuple[Axis, ...],
    each: Factored,
    editions: Editions,
) -> Check:
    """The top load off centre, in whichever direction is worse; the foot stands in the middle of what bears it.

    At the top its whole moment counts, half way down half of it, which grows as the post bends. The capacity is
    the load at which the larger sum is 1.
    """
    P_r = min(axis.capacity for axis in axes)
    F_b = values.strength_step("fb", each.duration.K_D, editions)
    rows = []
    for way, axis in zip(ways, axes, strict=True):
        if way.direction == ACROSS_DEPTH and way.brace is None and way.d > beams.DEEP_GLUED * way.b + EQUAL:
            raise OutOfScope(
                o86.COMBINED.at(editions),
                "a load off centre on a post more than 2.5 times as deep as wide: it may roll over; engineer",
            )
        # Plies bent flat slide on each other, so each bends on its own; a size factor over 1 is for bending on edge.
        ply = way.d / way.plies
        M_r = beams.moment_resistance.step(
            editions,
            phi=wood.PHI_BENDING,
            F_b=F_b.result,
            S=way.plies * way.b * ply**2 / 6,
            K_Zb=min(1.0, values.section.size_factors["fb"]),
            K_L=1.0,
        )
        P_E = axis.F_cE if axis.F_cE is not None else 1e15  # held all along: it does not bend further
        held: dict[str, Any] = {"P_r": P_r, "e": question.eccentricity, "M_r": M_r.result}
        low, high = 0.0, min(P_r, P_E)
        for _ in range(80):
            middle = (low + high) / 2
            fits = (
                middle < P_E
                and o86.interaction_at_the_top(P_f=middle, **held) <= 1.0
                and o86.interaction_at_the_middle(P_f=middle, P_E=P_E, **held) <= 1.0
            )
            low, high = (middle, high) if fits else (low, middle)
        kept = [M_r, o86.interaction_at_the_top.step(editions, P_f=each.load, **held)]
        if each.load < P_E:
            kept.append(o86.interaction_at_the_middle.step(editions, P_f=each.load, P_E=P_E, **held))
        rows.append((low, kept, way))
    capacity, kept, way = min(rows, key=lambda row: row[0])
    return Check(
        "eccentricity",
        each.load,
        capacity,
        "force",
        each.name,
        o86.COMBINED.at(editions),
        (F_b, *kept),
        note=f"off centre {way.direction}; the capacity is the load whose interaction is just 1",
    )


def _remarks(question: PostQuestion, section: CaWoodSection) -> tuple[str, ...]:
    remarks = ["Preliminary: dry, ordinary temperature, not treated by incising; no self weight."]
    remarks += section.remarks
    if question.plate is None:
        remarks.append("Crushing of a wood plate under or over the post was not asked for.")
    elif question.plate.width is None:
        remarks.append("K_Zcp of a plate laid flat counts only where the width of the plate is given.")
    if section.plies > 1:
        part = o86.OF_SOLID[question.fastened]
        remarks.append(
            f"{question.fastened.replace('_', ' ').capitalize()}: across the plies {part:.0%} of a solid post of "
            "the same size (O86 6.5.5.4). Every ply runs the full length, all of one depth, faces in contact."
        )
    for name, brace in question.braced.items():
        if brace == CONTINUOUS:
            remarks.append(
                f"{name}: counted as held sideways without a gap; the board or blocks that do it must stay."
            )
    if question.in_construction:
        remarks.append("O86 knows no higher slenderness during construction: 50 stands.")
    return tuple(remarks)
