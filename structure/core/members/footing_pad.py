"""What a pad is: sides, thickness, concrete, bars, what stands on it and where. In the units of its code."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from structure.core.clauses import US_DEFAULT, Editions
from structure.core.codes.pads import pad_rules
from structure.core.codes.us import concrete_pad
from structure.core.errors import InputError
from structure.core.trace import Step
from structure.data.loader import table

# Sums of decimal sizes miss each other by rounding; within this they are the same number.
SAME = 1e-9
NEWTONS = 9.80665  # weight of a kilogram


@dataclass(frozen=True, slots=True)
class Base:
    """What stands on the pad: a post, or a plate with the side of the post on it.

    `length` lies along the pad's length. The critical sections of a post are at its face; those of a steel
    plate halfway between the post's face and the plate's edge. A plate whose post is unknown counts as one
    with a post of no width.
    """

    length: float
    width: float
    plate: bool = False
    column: float = 0.0


@dataclass(frozen=True, slots=True)
class Bar:
    """One size of deformed bar: diameter, area, weight per length."""

    name: str
    diameter: float
    area: float
    weight: float


def bar_sizes(editions: Editions = US_DEFAULT) -> tuple[str, ...]:
    """The names of the bars that the table of that code holds, smallest first."""
    return tuple(table(pad_rules(editions).bars_table).content["bars"])


def find_bar(name: str, editions: Editions = US_DEFAULT) -> Bar:
    """The bar of that name, such as #4 or 15M. Raises InputError naming `reinforcement.bar`."""
    held = table(pad_rules(editions).bars_table).content["bars"].get(name)
    if held is None:
        raise InputError("reinforcement.bar", name, f"one of {', '.join(bar_sizes(editions))}")
    weight = held["weight"] / 12.0 if "weight" in held else held["mass"] * NEWTONS / 1000.0
    return Bar(name, held["diameter"], held["area"], weight)


@dataclass(frozen=True, slots=True)
class Mat:
    """Straight bars both ways near the bottom: how many run along the length and along the width.

    f_y, clear cover below and at the ends.
    """

    bar: Bar
    along_length: int
    along_width: int
    f_y: float
    cover: float


@dataclass(frozen=True, slots=True)
class Pad:
    """A pad: sides and thickness, f'c, density as weight, allowable soil pressure.

    `off_length` and `off_width`: how far the post stands off the middle each way. Without bars it is
    plain concrete. `least_area`: what a table of the code asks for.
    """

    length: float
    width: float
    thickness: float
    f_c: float
    density: float
    soil: float
    net: bool
    base: Base
    off_length: float = 0.0
    off_width: float = 0.0
    bars: Mat | None = None
    least_area: float = 0.0

    @property
    def side(self) -> float:
        """The longer side; the side of a square pad."""
        return max(self.length, self.width)

    @property
    def square(self) -> bool:
        return self.length == self.width

    @property
    def off_middle(self) -> bool:
        return bool(self.off_length or self.off_width)


@dataclass(frozen=True, slots=True)
class Force:
    """The load of the combination that governs."""

    combination: str
    value: float


@dataclass(frozen=True, slots=True)
class Way:
    """One way across the pad: its side that way and across, critical widths, post off the middle.

    `bars`: how many run this way; `sign` tells the two edges apart: 1 is the one the post stands towards.
    """

    name: str
    side: float
    across: float
    c: float
    c_across: float
    off: float
    bars: int
    sign: int = 1

    @property
    def towards(self) -> float:
        """How far the post stands off the middle towards the edge that is looked at."""
        return self.sign * self.off


def ways(pad: Pad, c_1: float, c_2: float) -> Iterator[Way]:
    """Every half of the pad to look at: one each way for a post on the middle, both where it stands off."""
    mat = pad.bars
    n_1, n_2 = (mat.along_length, mat.along_width) if mat else (0, 0)
    along = Way("along the length", pad.length, pad.width, c_1, c_2, pad.off_length, n_1)
    across = Way("along the width", pad.width, pad.length, c_2, c_1, pad.off_width, n_2)
    for way in (along, across):
        yield way
        if way.off:
            yield replace(way, sign=-1)


def critical_widths(
    base: Base, editions: Editions
) -> tuple[tuple[float, Step | None], tuple[float, Step | None]]:
    """Width between critical sections both ways, with its step where it is a plate."""
    if not base.plate:
        return (base.length, None), (base.width, None)
    along, across = (
        concrete_pad.plate_section.under(pad_rules(editions).clauses.critical_section).step(
            editions, c_post=base.column, c_plate=side
        )
        for side in (base.length, base.width)
    )
    return (along.result, along), (across.result, across)
