"""What Part 9 asks of a footing by table, beside what the calculation asks. NBC 2020 9.15.3; mm, mm2."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.ca import nbc_footings as code
from structure.core.errors import InputError
from structure.core.members.footing_pad import SAME
from structure.core.trace import Step
from structure.core.units import quantity
from structure.data.loader import table

FOOTINGS = "ca/footings"
EXTERIOR = "exterior"
_AREAS_TOO = "the sentence speaks of widths; taken for the area under a column too"


@dataclass(frozen=True, slots=True)
class Part9Question:
    """What the table asks about: storeys supported, columns apart [mm], supported joist lengths by storey [mm].

    Joists that are not given count as 4.9 m or less. `water_near`: the water table is nearer below the footing
    than its width, in gravel, sand or silt. `wall` and the storeys of masonry are of a strip.
    """

    storeys: int
    spacing: float = code.TABLE_SPACING
    joists: tuple[float, ...] = ()
    water_near: bool = False
    wall: str = EXTERIOR
    veneer: int = 0
    masonry: int = 0


@dataclass(frozen=True, slots=True)
class Least:
    """A least area or width with the lines that lead to it."""

    value: float
    steps: tuple[Step, ...]


def least_area(question: Part9Question, editions: Editions) -> Least:
    """Least area of a pad under a column [mm2]. NBC 2020 9.15.3.4., 9.15.3.7."""
    k_j = _joists(question, editions, _AREAS_TOO)
    A = code.column_area.step(
        editions,
        k_w=_water(question),
        A_t=float(_row(question)["column"]),
        s=question.spacing,
        s_3=code.TABLE_SPACING,
        k_j=k_j.result,
    )
    return Least(A.result, (k_j, A))


def least_width(question: Part9Question, editions: Editions) -> Least:
    """Least width of a strip [mm]. NBC 2020 9.15.3.4. to 9.15.3.6. Raises InputError for veneer inside."""
    more = table(FOOTINGS).content["masonry"]
    exterior = question.wall == EXTERIOR
    if question.veneer and not exterior:
        raise InputError("part9.veneer_storeys", question.veneer, "none under an interior wall")
    if max(question.veneer, question.masonry) > question.storeys:
        raise InputError("part9.masonry_storeys", "more", f"up to the {question.storeys} storeys supported")
    k_j = _joists(question, editions)
    w = code.strip_width.under(code.EXTERIOR if exterior else code.INTERIOR).step(
        editions,
        k_w=_water(question),
        w_t=float(_row(question)[question.wall]),
        k_j=k_j.result,
        n_v=float(question.veneer),
        a_v=float(more["exterior_veneer"]),
        n_m=float(question.masonry),
        a_m=float(more[question.wall]),
    )
    return Least(w.result, (k_j, w))


def _row(question: Part9Question) -> dict[str, Any]:
    return next(dict(row) for row in table(FOOTINGS).rows if row["storeys"] == question.storeys)


def _water(question: Part9Question) -> float:
    return 2.0 if question.water_near else 1.0


def _joists(question: Part9Question, editions: Editions, note: str = "") -> Step:
    held = question.joists
    if held and len(held) != question.storeys:
        raise InputError(
            "part9.joists",
            f"{len(held)} lengths",
            f"one length, or one for each of {question.storeys} storeys",
        )
    n = float(question.storeys)
    total = sum(held) if held else n * code.TABLE_JOIST
    return code.joist_factor.step(editions, l_sum=total, n=n, l_49=code.TABLE_JOIST, note=note)


def pad_beside(
    least: Least | None, asked: float, base: float, side: float, editions: Editions
) -> dict[str, Any]:
    """`part9` of a result: Part 9's own pad, and a warning where the calculation asks for another.

    `asked`: area that the soil asks for [mm2], `base`: narrower side of what stands on the pad, `side`: longer
    side of the pad that was taken [mm]. Without the storeys only the thickness of that pad can be told.
    """
    steps: tuple[Step, ...] = ()
    if least is not None:
        b = code.square_side.step(editions, A_9=least.value)
        steps, side = (*least.steps, b), b.result
    t = code.least_thickness.step(editions, p=(side - base) / 2, t_100=code.LEAST_THICKNESS)
    return {
        "area": None if least is None else quantity(least.value, "area", "ca"),
        "side": None if least is None else quantity(side, "length", "ca"),
        "thickness": quantity(t.result, "length", "ca"),
        "clause": str((code.AREAS if least is not None else code.THICKNESS).at(editions)),
        "smaller": None if least is None else least.value * (1 + SAME) < asked,
        "warning": None if least is None else _warning(least.value, asked, "area", 1e6, "m2"),
        "steps": [step.as_data() for step in (*steps, t)],
    }


def strip_beside(least: Least, asked: float, projection: float, editions: Editions) -> dict[str, Any]:
    """`part9` of a strip: least width, thickness, and a warning where the soil asks for more [mm]."""
    t = code.least_thickness.step(editions, p=projection, t_100=code.LEAST_THICKNESS)
    return {
        "width": quantity(least.value, "length", "ca"),
        "thickness": quantity(t.result, "length", "ca"),
        "clause": str(code.AREAS.at(editions)),
        "smaller": least.value * (1 + SAME) < asked,
        "warning": _warning(least.value, asked, "width", 1.0, "mm"),
        "steps": [step.as_data() for step in (*least.steps, t)],
    }


def _warning(table_asks: float, soil_asks: float, what: str, scale: float, unit: str) -> str | None:
    """How far the table and the calculation lie apart, and which is taken; None where they agree."""
    if abs(table_asks - soil_asks) <= SAME * soil_asks:
        return None
    part9, part4 = f"{table_asks / scale:,.4g} {unit}", f"{soil_asks / scale:,.4g} {unit}"
    if table_asks < soil_asks:
        less = 100 * (1 - table_asks / soil_asks)
        return (
            f"The {what} of NBC Table 9.15.3.4. is {part9}, {less:.0f} % less than the {part4} that the load "
            "and the soil ask for: the larger is to be built."
        )
    return (
        f"NBC Table 9.15.3.4. asks for a {what} of {part9}, more than the {part4} by the load and the soil: the "
        "larger is to be built, unless Section 4.2 is followed with an engineer."
    )
