"""Loads carried down to one wall line, level by level from the roof. Lengths in, pressures psi, lbf.

Each level brings load per length by case: half of every simple span that lands on the line, the
middle reaction of joists that run unbroken over it, half a joist space of framing along it, the
reaction of a truss that bears on it, and the weight of a wall that stands on it. Concentrated loads
keep their case, value and place. The same in N, mm, MPa for a Canadian code.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from structure.core.clauses import Editions
from structure.core.codes.ca.loads import light_loads
from structure.core.codes.house import HOUSE
from structure.core.codes.us.loads import (
    LAYERS,
    both_sides,
    half_span,
    parallel_strip,
    spread_reaction,
    two_span_end,
    two_span_middle,
    wall_weight,
)
from structure.core.errors import InputError, OutOfScope
from structure.core.takedown_line import Point, Segment, peak, segments
from structure.core.trace import Step, Symbol, metric
from structure.core.units import in_words, place_in_words, quantity

Support = Literal["simple", "continuous", "none"]
Framing = Literal["perpendicular", "parallel", "truss_clear", "truss_interior"]
LevelKind = Literal["roof", "attic", "floor"]
NOTHING = 0.0


@dataclass(frozen=True, slots=True)
class Side:
    """What lands on the wall line from one side: how it is supported there, and its span [in]."""

    support: Support
    span: float | None = None


NO_SIDE = Side("none")


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of dead load [psi]."""

    name: str
    value: float


@dataclass(frozen=True, slots=True)
class Wall:
    """A wall that stands on the line: height [in] and weight per area of wall [psi]."""

    height: float
    weight: float


@dataclass(frozen=True, slots=True)
class Reaction:
    """What an interior truss bearing brings in one case: per length [lbf/in], or each truss [lbf]."""

    case: str
    value: float
    each: bool = False


@dataclass(frozen=True, slots=True)
class Level:
    """One level above the wall line. Pressures are on the horizontal projection, snow already roof snow."""

    name: str
    kind: LevelKind
    framing: Framing = "perpendicular"
    left: Side | None = None
    right: Side | None = None
    spacing: float | None = None
    dead: tuple[Layer, ...] = ()
    pressures: Mapping[str, float] = field(default_factory=dict)
    reactions: tuple[Reaction, ...] = ()
    wall_above: Wall | None = None
    points: tuple[Point, ...] = ()
    start: float | None = None
    end: float | None = None


@dataclass(frozen=True, slots=True)
class LevelResult:
    """What one level brings by case [lbf/in], what has come down to here, and how it was found."""

    name: str
    kind: str
    framing: str
    line: Mapping[str, float]
    total: Mapping[str, float]
    points: tuple[Point, ...]
    start: float | None
    end: float | None
    steps: tuple[Step, ...]
    remarks: tuple[str, ...]
    code: str = "us"

    def as_data(self) -> dict[str, Any]:
        return {
            "name": self.name,
            "kind": self.kind,
            "framing": self.framing,
            "line": line_data(self.line, self.code),
            "total": line_data(self.total, self.code),
            "points": [point.as_data(self.code) for point in self.points],
            "start": None if self.start is None else quantity(self.start, "length", self.code),
            "end": None if self.end is None else quantity(self.end, "length", self.code),
            "steps": [step.as_data() for step in self.steps],
            "remarks": list(self.remarks),
        }


@dataclass(frozen=True, slots=True)
class TakedownResult:
    """Line loads by case on the wall line, the largest along it; segments tell where they differ."""

    line: Mapping[str, float]
    segments: tuple[Segment, ...]
    points: tuple[Point, ...]
    by_level: tuple[LevelResult, ...]
    remarks: tuple[str, ...]
    code: str = "us"

    def as_data(self) -> dict[str, Any]:
        """The result of the `takedown` kind."""
        return {
            "line": line_data(self.line, self.code),
            "segments": [segment.as_data(self.code) for segment in self.segments],
            "points": [point.as_data(self.code) for point in self.points],
            "by_level": [level.as_data() for level in self.by_level],
            "remarks": list(self.remarks),
        }


def take_down(levels: Sequence[Level], editions: Editions) -> TakedownResult:
    """Carry the loads of all levels, given from the top down, to the wall line below them.

    Line loads in lbf/in by case. Raises InputError for joists continuous on one side alone, a missing
    span or side, or an extent that ends before it starts; OutOfScope for more stories or longer spans
    than the house rules cover, and for uplift.
    """
    if not levels:
        raise InputError("levels", None, "at least one level, from the top down")
    house = HOUSE[editions.code]
    if sum(level.kind == "floor" for level in levels) > house.most_stories:
        raise OutOfScope(
            house.stories.at(editions),
            f"more than {house.most_stories} floors above the wall line: engineered design",
        )
    results: list[LevelResult] = []
    total: dict[str, float] = {}
    for n, level in enumerate(levels):
        try:
            results.append(_level(level, total, editions))
        except InputError as error:
            raise error.under(f"levels[{n}]") from None
        total = dict(results[-1].total)
    pieces = segments((r.line, r.start, r.end) for r in results)
    return TakedownResult(
        line=peak(pieces),
        segments=pieces,
        points=tuple(point for result in results for point in result.points),
        by_level=tuple(results),
        remarks=(
            *(f"{r.name}: {remark}" for r in results for remark in r.remarks),
            "Gravity loads only: uplift, drifting snow and lateral loads are the engineer's.",
        ),
        code=editions.code,
    )


def _level(level: Level, above: Mapping[str, float], editions: Editions) -> LevelResult:
    _check(level, editions)
    steps: list[Step] = []
    remarks: list[str] = []
    line: dict[str, float] = dict.fromkeys(_cases(level), NOTHING)
    dead = _sum_of_layers(level.dead, editions, steps)
    for case, pressure in {"dead": dead, **level.pressures}.items():
        line[case] = line.get(case, NOTHING) + _framing_load(level, case, pressure, editions, steps)
    for reaction in level.reactions:
        line[reaction.case] = line.get(reaction.case, NOTHING) + _truss_load(level, reaction, editions, steps)
    if level.wall_above is not None:
        step = wall_weight.step(
            editions, q=level.wall_above.weight, H=level.wall_above.height, note="wall above, dead"
        )
        steps.append(step)
        line["dead"] += step.result
    _remark(level, dead, editions, remarks)
    total = dict(above)
    for case, value in line.items():
        total[case] = total.get(case, NOTHING) + value
    return LevelResult(
        level.name,
        level.kind,
        level.framing,
        line,
        total,
        level.points,
        level.start,
        level.end,
        tuple(steps),
        tuple(remarks),
        editions.code,
    )


def _cases(level: Level) -> tuple[str, ...]:
    return ("dead", *level.pressures, *(reaction.case for reaction in level.reactions))


def _framing_load(level: Level, case: str, q: float, editions: Editions, steps: list[Step]) -> float:
    if level.framing in ("truss_clear", "truss_interior") or q == 0:
        return NOTHING
    if level.framing == "parallel":
        spacing = HOUSE[editions.code].joist_spacing if level.spacing is None else level.spacing
        strips = [
            parallel_strip.step(editions, q=q, s=spacing, note=f"{name} side, {case}")
            for name, side in (("left", level.left), ("right", level.right))
            if side is None or side.support != "none"
        ]
        return _added(strips, case, editions, steps)
    left, right = level.left or NO_SIDE, level.right or NO_SIDE
    if left.support == "continuous":
        step = two_span_middle.step(
            editions,
            q=q,
            L_1=left.span or NOTHING,
            L_2=right.span or NOTHING,
            note=f"joists continuous over the wall, {case}",
        )
        steps.append(step)
        return step.result
    halves = [
        half_span.step(editions, q=q, L=side.span, note=f"{name} side, {case}")
        for name, side in (("left", left), ("right", right))
        if side.support == "simple" and side.span is not None
    ]
    return _added(halves, case, editions, steps)


def _added(parts: list[Step], case: str, editions: Editions, steps: list[Step]) -> float:
    steps += parts
    if len(parts) < 2:
        return parts[0].result if parts else NOTHING
    both = both_sides.step(
        editions, w_left=parts[0].result, w_right=parts[1].result, note=f"both sides, {case}"
    )
    steps.append(both)
    return both.result


def _truss_load(level: Level, reaction: Reaction, editions: Editions, steps: list[Step]) -> float:
    if not reaction.each:
        return reaction.value
    if level.spacing is None:
        raise InputError("spacing", None, "the truss spacing, since the reaction is given for each truss")
    step = spread_reaction.step(
        editions, R=reaction.value, s=level.spacing, note=f"interior truss bearing, {reaction.case}"
    )
    steps.append(step)
    return step.result


def _sum_of_layers(layers: tuple[Layer, ...], editions: Editions, steps: list[Step]) -> float:
    total = sum(layer.value for layer in layers)
    if len(layers) > 1:
        names = [f"g_{n}" for n in range(1, len(layers) + 1)]
        unit = "psi" if editions.code == "us" else metric("psi")
        steps.append(
            Step(
                symbol="q",
                text=" + ".join(names),
                values=tuple(Symbol(n, layer.value, unit) for n, layer in zip(names, layers, strict=True)),
                result=total,
                unit=unit,
                clause=LAYERS.at(editions),
                note="dead load: " + ", ".join(layer.name for layer in layers),
            )
        )
    return total


def _check(level: Level, editions: Editions) -> None:
    code = editions.code
    for name, value in (*((layer.name, layer.value) for layer in level.dead), *level.pressures.items()):
        if value < 0:
            raise InputError(
                name,
                in_words(value, "pressure", code),
                "a pressure of zero or more; uplift is not carried down",
            )
    if level.start is not None and level.end is not None and level.end <= level.start:
        start, end = place_in_words(level.start, code), place_in_words(level.end, code)
        raise InputError("end", end, f"a place beyond the start at {start}")
    if level.reactions and level.framing != "truss_interior":
        raise InputError("reaction", "a truss reaction", "a reaction only with framing truss_interior")
    if level.framing == "truss_interior" and not level.reactions:
        raise InputError("reaction", None, "the reaction that the trusses bring to the wall line")
    if any(reaction.value < 0 for reaction in level.reactions) or any(p.value < 0 for p in level.points):
        raise OutOfScope(HOUSE[code].uplift.at(editions), f"uplift on {level.name}: engineered design")
    if level.framing == "perpendicular":
        _check_spans(level, editions)


def _check_spans(level: Level, editions: Editions) -> None:
    house = HOUSE[editions.code]
    sides = (("left", level.left), ("right", level.right))
    for name, side in sides:
        if side is None:
            raise InputError(name, None, "a span with support simple or continuous, or support none")
        if side.support == "none":
            continue
        if side.span is None or side.span <= 0:
            raise InputError(f"{name}.span", side.span, "a span of more than zero to the wall line")
        if side.span > house.most_span:
            raise OutOfScope(
                house.long_span.at(editions),
                f"{level.name}: a span of {in_words(side.span, 'length', editions.code)} on the {name}; the house "
                f"rules end at {in_words(house.most_span, 'length', editions.code)}",
            )
    supports = [side.support for _, side in sides if side is not None]
    if supports.count("continuous") == 1:
        odd = sides[1 - supports.index("continuous")][0]
        raise InputError(
            f"{odd}.support",
            supports[1 - supports.index("continuous")],
            "continuous on both sides of the wall or on neither",
        )


def _remark(level: Level, dead: float, editions: Editions, remarks: list[str]) -> None:
    if level.kind == "roof" and not {"roof_live", "snow"} & level.pressures.keys() and not level.reactions:
        remarks.append("no roof live load and no snow was given.")
    if level.kind == "floor" and "live" not in level.pressures and not level.reactions:
        remarks.append("no live load was given.")
    if not level.dead and not level.reactions and level.framing in ("perpendicular", "parallel"):
        remarks.append("no dead load was given: none of this level was counted.")
    if editions.code == "ca":
        remarks += light_loads(level.kind, level.pressures, editions)
    if level.framing == "truss_clear":
        remarks.append("trusses taken to span clear: confirm that no web or block bears on the wall.")
    if level.framing == "truss_interior":
        remarks.append(
            "trusses bear on the wall: the reaction is as given; cutting or re-supporting a truss is "
            "the truss designer's and the engineer's."
        )
    left, right = level.left, level.right
    if level.framing != "perpendicular" or left is None or right is None:
        return
    if left.support == "continuous" and left.span and right.span and dead > 0:
        short, long = sorted((left.span, right.span))
        if two_span_end(dead, short, long) < 0:
            remarks.append("the far end of the short span wants to lift; the load found needs it held down.")


def line_data(line: Mapping[str, float], code: str) -> dict[str, Any]:
    """Line loads by case as quantities."""
    return {case: quantity(value, "line_load", code) for case, value in line.items()}
