"""Wood posts: solid timbers, studs nailed or bolted together, and LVL where a column value is held.

A post can buckle two ways. Buckling *across the plies* bends every ply the flat way, so the plies slide
on each other and the built-up factor applies; buckling *across the depth* bends them edgewise together.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from structure.core.clauses import Editions
from structure.core.codes.us import wood_columns as nds
from structure.core.codes.us.combinations import StressCombination, asd
from structure.core.errors import OutOfScope
from structure.core.members.bearing import check_plate
from structure.core.members.ca_steel_post import check_ca_steel_post
from structure.core.members.ca_wood_post import check_ca_wood_post
from structure.core.members.post_fastening import Fastening, fastening_of
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
    largest_load,
)
from structure.core.members.post_values import ColumnValues, column_values
from structure.core.members.steel_post import check_steel_post
from structure.core.trace import Check, Step

__all__ = ["CONTINUOUS", "Axis", "Brace", "PostQuestion", "PostResult", "check_post"]

EQUAL = 1e-9
# Posts with rules of their own, by code and material; what is left is wood by the NDS.
RULES: Mapping[tuple[str, str], Callable[[PostQuestion, Editions], PostResult]] = {
    ("us", "steel"): check_steel_post,
    ("ca", "wood"): check_ca_wood_post,
    ("ca", "steel"): check_ca_steel_post,
}


@dataclass(frozen=True, slots=True)
class _Shape:
    """The two ways to buckle: the dimension bent, the factor for slip, and the brace."""

    name: str
    direction: str
    d: float
    b: float
    K_f: float
    brace: Brace


def check_post(question: PostQuestion, editions: Editions) -> PostResult:
    """Buckling both ways, end bearing, the plate, and an end load off centre, under every combination.

    Steel by its own rules; wood by NDS 3.6-3.10, 15.3, 15.4. Raises InputError for input that cannot be
    meant and OutOfScope for a slenderness over 50 (75 in construction), a built-up post outside 15.3.1,
    uplift, or a family without column values.
    """
    rules = RULES.get((editions.code, question.section.material))
    if rules is not None:
        return rules(question, editions)
    _guard(question, editions)
    section = question.section
    values = column_values(section, editions)
    shapes = _shapes(question)
    present = {case: value for case, value in question.loads.items() if value != 0}
    area = nds.area.step(editions, n=section.plies, b=section.width, d=section.depth)
    found: dict[str, list[tuple[Check, StressCombination, tuple[Axis, ...]]]] = {}
    for combination in asd(present):
        P = combination.total(present)
        for check, axes in _checks(question, values, shapes, combination, P, area, editions):
            found.setdefault(check.name, []).append((check, combination, axes))
    governing = {name: max(rows, key=lambda row: row[0].ratio) for name, rows in found.items()}
    checks = {name: row[0] for name, row in governing.items()}
    if question.plate is not None:
        load, name = largest_load(question)
        checks["plate_bearing"] = check_plate(question.plate, section, load, name, editions)
    _, combination, axes = governing["buckling"]
    fastening = fastening_of(section, question.fastened, editions) if section.plies > 1 else None
    return PostResult(
        question=question,
        checks=checks,
        axes={axis.name: axis for axis in axes},
        factors={"CD": combination.C_D, "CF": values.C_F},
        fastening=fastening,
        remarks=_remarks(question, checks, fastening, values),
    )


def _guard(question: PostQuestion, editions: Editions) -> None:
    section = question.section
    check_question(question, nds.COMPRESSION.at(editions))
    if section.plies == 1:
        return
    low, high = nds.LAMINATIONS
    if not low <= section.plies <= high:
        raise OutOfScope(
            nds.BUILT_UP.at(editions), f"{section.plies} plies: built-up columns have {low} to {high} plies"
        )
    if section.width < nds.MIN_LAMINATION - EQUAL:
        raise OutOfScope(
            nds.BUILT_UP.at(editions), f"plies of {section.width:g} in: each must be 1 1/2 in thick or more"
        )


def _shapes(question: PostQuestion) -> tuple[_Shape, _Shape]:
    """Weak then strong: weak is the less stiff way of the whole section; across the plies if equal."""
    section = question.section
    across, depth = section.plies * section.width, section.depth
    K_f = nds.K_F_ACROSS_THE_PLIES[question.fastened] if section.plies > 1 else 1.0
    plies_weak = across <= depth + EQUAL
    names = ("weak", "strong") if plies_weak else ("strong", "weak")
    plies = _Shape(names[0], ACROSS_PLIES, across, depth, K_f, brace_of(question, names[0], "plies"))
    edge = _Shape(
        names[1], ACROSS_DEPTH, depth, across, nds.K_F_ACROSS_THE_DEPTH, brace_of(question, names[1], "depth")
    )
    return (plies, edge) if plies_weak else (edge, plies)


def _axis(
    question: PostQuestion,
    values: ColumnValues,
    shape: _Shape,
    star: Step,
    area: Step,
    editions: Editions,
) -> Axis:
    if shape.brace == CONTINUOUS:
        capacity = nds.column_capacity.step(
            editions, F_c=star.result, C_P=1.0, A=area.result, note=f"{shape.name} axis held without a gap"
        )
        return Axis(shape.name, shape.direction, 0.0, 1.0, capacity.result, None, (capacity,))
    free = question.height if shape.brace is None else min(float(shape.brace), question.height)
    note = f"{shape.name} axis, {shape.direction}"
    length = nds.effective_length.step(editions, K_e=question.end, l=free, note=note)
    slender = nds.slenderness.step(editions, l_e=length.result, d=shape.d, note=note)
    limit = nds.MAX_SLENDERNESS_CONSTRUCTION if question.in_construction else nds.MAX_SLENDERNESS
    if slender.result > limit * (1 + EQUAL):
        raise OutOfScope(
            nds.SLENDERNESS.at(editions),
            f"{question.section.label}: slenderness {slender.result:.1f} {shape.direction} is over {limit:g}; "
            f"brace it, or take a thicker post",
        )
    critical = nds.critical_buckling.step(editions, E_min=values.E_min, s=slender.result, note=note)
    factor = nds.stability_factor.step(
        editions, F_cE=critical.result, F_c=star.result, c=values.c, K_f=shape.K_f, note=note
    )
    capacity = nds.column_capacity.step(
        editions, F_c=star.result, C_P=factor.result, A=area.result, note=note
    )
    steps = (length, slender, critical, factor, capacity)
    return Axis(
        shape.name,
        shape.direction,
        slender.result,
        factor.result,
        capacity.result,
        critical.result,
        steps,
    )


def _checks(
    question: PostQuestion,
    values: ColumnValues,
    shapes: tuple[_Shape, _Shape],
    combination: StressCombination,
    P: float,
    area: Step,
    editions: Editions,
) -> list[tuple[Check, tuple[Axis, ...]]]:
    star = nds.crushing_value.step(editions, F_c=values.F_c, C_D=combination.C_D, C_F=values.C_F)
    axes = tuple(_axis(question, values, shape, star, area, editions) for shape in shapes)
    buckling = min(axes, key=lambda axis: axis.capacity)
    stress = nds.compression_stress.step(editions, P=P, A=area.result)
    ends = nds.end_grain_capacity.step(editions, F_c=star.result, A=area.result)
    rows = [
        Check(
            "buckling",
            P,
            buckling.capacity,
            "force",
            combination.name,
            nds.STABILITY.at(editions),
            (*values.steps, area, star, *(step for axis in axes for step in axis.steps)),
            note=f"{buckling.name} axis, {buckling.direction}",
        ),
        Check(
            "end_bearing",
            P,
            ends.result,
            "force",
            combination.name,
            nds.END_GRAIN.at(editions),
            (area, star, stress, ends),
            note=_metal_plate(stress.result, star.result),
        ),
    ]
    if question.eccentricity > 0:
        rows.append(_eccentric(question, values, shapes, axes, combination, P, area, editions))
    return [(check, axes) for check in rows]


def _metal_plate(f_c: float, F_c_star: float) -> str:
    if f_c <= nds.PLATE_ABOVE * F_c_star:
        return ""
    return "over 0.75 F_c*: the ends must bear on a metal plate or strap (NDS 3.10.1.3)"


def _eccentric(
    question: PostQuestion,
    values: ColumnValues,
    shapes: tuple[_Shape, _Shape],
    axes: tuple[Axis, ...],
    combination: StressCombination,
    P: float,
    area: Step,
    editions: Editions,
) -> Check:
    """The end load off centre, taken in whichever direction is worse. The capacity is the load at u = 1."""
    F_cp = min(axis.capacity for axis in axes) / area.result
    rows = []
    for shape, axis in zip(shapes, axes, strict=True):
        if shape.direction == ACROSS_DEPTH and shape.brace is None and shape.d > 2 * shape.b + EQUAL:
            raise OutOfScope(
                nds.SIDE_AND_END.at(editions),
                "a load off centre on a post more than twice as deep as wide: it may roll over; engineer",
            )
        # Nailed or bolted plies bent flat slide on each other, so each bends on its own.
        plies = question.section.plies if shape.direction == ACROSS_PLIES else 1
        ply = shape.d / plies
        F_cE = axis.F_cE if axis.F_cE is not None else 1e12
        F_b = values.F_b * combination.C_D * values.C_F_bending

        def use(
            load: float,
            ply: float = ply,
            plies: int = plies,
            b: float = shape.b,
            F_cE: float = F_cE,
            F_b: float = F_b,
        ) -> tuple[Step, Step, Step] | None:
            f_c = nds.compression_stress.step(editions, P=load, A=area.result)
            if f_c.result >= F_cE:
                return None
            f_b = nds.eccentric_bending.step(editions, P=load / plies, e=question.eccentricity, b=b, d=ply)
            u = nds.eccentric_interaction.step(
                editions, f_c=f_c.result, F_cp=F_cp, f_b=f_b.result, F_b=F_b, F_cE=F_cE
            )
            return f_c, f_b, u

        low, high = 0.0, F_cp * area.result
        for _ in range(80):
            middle = (low + high) / 2
            steps = use(middle)
            low, high = (middle, high) if steps is not None and steps[2].result <= 1.0 else (low, middle)
        rows.append((low, use(P) or (), shape))
    capacity, kept, shape = min(rows, key=lambda row: row[0])
    return Check(
        "eccentricity",
        P,
        capacity,
        "force",
        combination.name,
        nds.SIDE_AND_END.at(editions),
        kept,
        note=f"off centre {shape.direction}; the capacity is the load whose interaction is just 1",
    )


def _remarks(
    question: PostQuestion,
    checks: Mapping[str, Check],
    fastening: Fastening | None,
    values: ColumnValues,
) -> tuple[str, ...]:
    remarks = ["Preliminary: dry, ordinary temperature, not treated by incising; no self weight."]
    remarks += values.remarks
    if checks["end_bearing"].note:
        remarks.append(f"End bearing is {checks['end_bearing'].note}.")
    if question.plate is None:
        remarks.append("Crushing of a wood plate under or over the post was not asked for.")
    if fastening is not None:
        remarks += fastening.remarks
        remarks.append(
            "Every ply runs the full length of the post, all of one depth, faces in contact (NDS 15.3.1)."
        )
    for name, brace in question.braced.items():
        if brace == CONTINUOUS:
            remarks.append(
                f"{name}: counted as held sideways without a gap; the board or blocks that do it must stay."
            )
    if question.in_construction:
        remarks.append("Slenderness up to 75 holds only until the building is complete (NDS 3.7.1.4).")
    return tuple(remarks)
