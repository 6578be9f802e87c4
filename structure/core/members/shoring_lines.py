"""What each shoring wall carries: the joists of one side with their overhang, and what stands on their ends."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.ca.shoring import light_dead
from structure.core.codes.us import shoring as rules
from structure.core.codes.us.loads import wall_weight
from structure.core.errors import InputError, OutOfScope
from structure.core.members.shoring_codes import SHORING
from structure.core.statics import BeamLine, Load, analyse
from structure.core.takedown import Level, take_down
from structure.core.trace import Step, Symbol, metric
from structure.core.units import in_words, place_in_words, quantity

SIDES = ("left", "right")
TRANSIENT = ("construction", "live")


@dataclass(frozen=True, slots=True)
class WallLine:
    """What comes down on the old wall line above the shored joists, by case [lbf/in]; steps that found it."""

    loads: Mapping[str, float]
    sources: tuple[str, ...]
    steps: tuple[Step, ...]

    @property
    def total(self) -> float:
        return sum(self.loads.values())


@dataclass(frozen=True, slots=True)
class ShoreLine:
    """Load per length on one shoring wall [lbf/in], spans and stand-off [in].

    `loads`: everything on at once. `worst`: with people and materials only where they are worst, which
    differs where joists run on over the wall. `uplift` and `held_down`: at the joists' far end.
    """

    side: str
    support: str
    span: float
    stand_off: float
    loads: Mapping[str, float]
    worst: Mapping[str, float]
    uplift: float
    held_down: float
    steps: tuple[Step, ...]
    prying: tuple[Step, ...]
    joists: tuple[tuple[BeamLine, tuple[Load, ...]], ...]

    @property
    def total(self) -> float:
        return sum(self.loads.values())

    def line_data(self, code: str) -> dict[str, Any]:
        """The whole line load as a quantity, with its part of each case beside it."""
        by_case = {case: quantity(value, "line_load", code) for case, value in self.loads.items()}
        return quantity(self.total, "line_load", code) | by_case


def wall_line(levels: Sequence[Level], editions: Editions) -> WallLine:
    """Line load on the joists' ends: the levels above the shored one, and the wall that stands on it.

    `levels` from the top down, the last one is the shored one, with the pressures of the season.
    """
    _no_points(levels, editions)
    *above, held = levels
    loads: dict[str, float] = {}
    sources: list[str] = []
    steps: list[Step] = []
    if above:
        for case, value in take_down(above, editions).line.items():
            if value > 0:
                loads[case] = loads.get(case, 0.0) + value
        for level in take_down(above, editions).by_level:
            if any(level.line.values()):
                sources.append(level.name)
                steps += level.steps
    if held.wall_above is not None:
        step = wall_weight.step(
            editions, q=held.wall_above.weight, H=held.wall_above.height, note=f"wall on {held.name}, dead"
        )
        loads["dead"] = loads.get("dead", 0.0) + step.result
        sources.append(f"the wall on {held.name}")
        steps.append(step)
    return WallLine({case: value for case, value in loads.items() if value > 0}, tuple(sources), tuple(steps))


def stacked_lines(
    levels: Sequence[Level], stand_off: Mapping[str, float], editions: Editions
) -> tuple[WallLine, dict[str, ShoreLine | None]]:
    """Shores on every level, one above the other on the same two lines: what the lowest ones carry.

    Each floor and attic is picked up by shores of its own, so only walls, and roofs that no shore can hold,
    stand on joists' ends. Raises as `shore_lines` does, for the lowest level and for each that is shored.
    """
    _no_points(levels, editions)
    lowest = levels[-1]
    resting: list[Level] = []
    walls: list[WallLine] = []
    found: dict[str, list[ShoreLine]] = {name: [] for name in SIDES}
    for level in levels:
        landing = any(side is not None and side.support != "none" for side in (level.left, level.right))
        shored = level.kind != "roof" and level.framing == "perpendicular" and landing
        if not shored and level is not lowest:
            resting.append(level)
            continue
        wall = wall_line([*resting, level], editions)
        resting = []
        walls.append(wall)
        for name, line in shore_lines(level, stand_off, wall, editions).items():
            if line is not None:
                found[name].append(line)
    together = WallLine(
        _summed([wall.loads for wall in walls]),
        tuple(source for wall in walls for source in wall.sources),
        tuple(step for wall in walls for step in wall.steps),
    )
    return together, {name: _added(lines) if lines else None for name, lines in found.items()}


def _added(lines: Sequence[ShoreLine]) -> ShoreLine:
    """Lines of shores that stand on each other; the far end that is pried hardest is the one told."""
    pried = max(lines, key=lambda line: line.uplift / line.held_down if line.held_down > 0 else line.uplift)
    return replace(
        lines[-1],
        loads=_summed([line.loads for line in lines]),
        worst=_summed([line.worst for line in lines]),
        uplift=pried.uplift,
        held_down=pried.held_down,
        prying=pried.prying,
        steps=tuple(step for line in lines for step in line.steps),
        joists=tuple(joist for line in lines for joist in line.joists),
    )


def _summed(parts: Sequence[Mapping[str, float]]) -> dict[str, float]:
    cases = dict.fromkeys(case for part in parts for case in part)
    return {case: sum(part.get(case, 0.0) for part in parts) for case in cases}


def shore_lines(
    held: Level, stand_off: Mapping[str, float], wall: WallLine, editions: Editions
) -> dict[str, ShoreLine | None]:
    """The two shoring walls under one level of joists; None where no joists land from that side.

    Raises OutOfScope for framing that a shoring wall cannot pick up, InputError for a stand-off that does
    not fit the span.
    """
    _can_be_picked_up(held, editions)
    left, right = held.left, held.right
    if left is None or right is None:
        missing = "left" if left is None else "right"
        raise InputError(missing, None, "a span with support simple or continuous, or support none")
    q = {"dead": sum(layer.value for layer in held.dead), **held.pressures}
    q = {case: value for case, value in q.items() if value > 0}
    if left.support == right.support == "none":
        raise OutOfScope(
            rules.WHERE_SHORES_HOLD.at(editions), f"{held.name}: no joists land on the wall from either side"
        )
    if left.support == "continuous":
        return _continuous(held, q, stand_off, wall, editions)
    found: dict[str, ShoreLine | None] = {}
    for name, side in (("left", left), ("right", right)):
        if side.support == "none":
            found[name] = None
            continue
        if side.span is None:
            raise InputError(f"{name}.span", None, "a span of more than zero to the wall line")
        found[name] = _lapped(name, side.span, q, stand_off[name], wall, editions)
    return found


def _no_points(levels: Sequence[Level], editions: Editions) -> None:
    for level in levels:
        for point in level.points:
            raise OutOfScope(
                rules.WHERE_SHORES_HOLD.at(editions),
                f"{level.name}: a load of {in_words(point.value, 'force', editions.code)} on one place of the wall "
                "needs a shore of its own, straight to ground: engineer",
            )


def _can_be_picked_up(held: Level, editions: Editions) -> None:
    clause = rules.WHERE_SHORES_HOLD.at(editions)
    if held.kind == "roof":
        raise OutOfScope(
            clause,
            f"{held.name}: sloped rafters push a shoring wall over; pick the roof up by struts that an "
            "engineer draws (a flat roof is given as an attic with its snow)",
        )
    if held.framing == "parallel":
        raise OutOfScope(
            clause,
            f"{held.name}: joists along the wall: a shoring wall beside it stands between two joists and holds "
            "nothing up; use needles or cross beams that an engineer draws",
        )
    if held.framing != "perpendicular":
        raise OutOfScope(
            clause,
            f"{held.name}: a truss must not be propped where it was not made to bear; ask the truss designer and "
            "the engineer",
        )


def _lapped(
    name: str, L: float, q: Mapping[str, float], a: float, wall: WallLine, editions: Editions
) -> ShoreLine:
    """Joists that end over the wall: their free end hangs over the shore by the stand-off."""
    _fits(name, a, L / 2, "half the joist span, or the far end lifts", editions.code)
    loads: dict[str, float] = {}
    steps: list[Step] = []
    for case, pressure in q.items():
        step = rules.overhang_reaction.step(editions, w=pressure, L=L, a=a, note=f"{name} side, {case}")
        loads[case] = step.result
        steps.append(step)
    for case, P in wall.loads.items():
        step = rules.overhang_end_load.step(
            editions, P=P, L=L, a=a, note=f"{name} side, {case} on the joists' ends, all of it on this side"
        )
        loads[case] = loads.get(case, 0.0) + step.result
        steps.append(step)
    uplift, held_down, prying = _far_end(name, L, q, a, wall, editions)
    line = BeamLine((L - a,), overhang_right=a)
    joist = (
        *(Load.uniform(case, pressure, 0.0, L) for case, pressure in q.items()),
        *(Load.point(case, P, L) for case, P in wall.loads.items()),
    )
    return ShoreLine(
        name, "simple", L, a, loads, loads, uplift, held_down, tuple(steps), tuple(prying), ((line, joist),)
    )


def _far_end(
    name: str, L: float, q: Mapping[str, float], a: float, wall: WallLine, editions: Editions
) -> tuple[float, float, list[Step]]:
    """Prying at the far end of lapped joists, and the dead load there that holds it down [lbf/in].

    A wall on the free end is held against 0.6 of the dead load, since that prying never goes away; with people
    on the free end as well, against the dead load as it is. The worse of the two is told. Limit states hold factored
    prying against 0.9 of the dead load.
    """
    held = SHORING[editions.code]
    people = held.live_factor * sum(q.get(case, 0.0) for case in TRANSIENT)
    far = rules.overhang_far_reaction.step(
        editions, w=q.get("dead", 0.0), L=L, a=a, note=f"{name} side, far end, dead load alone"
    )
    steps = [far]
    uplift = strip = 0.0
    if people > 0:
        step = rules.overhang_strip_uplift.step(
            editions, q=people, L=L, a=a, note=f"{name} side, people or materials on the free end alone"
        )
        steps.append(step)
        strip = step.result
    if wall.total > 0:
        pry = rules.overhang_uplift.step(
            editions, P=_prying(wall.loads, editions), L=L, a=a, note=f"{name} side, wall on the free end"
        )
        hold = _holding(far.result, editions)
        steps += [pry, hold]
        uplift = pry.result
        if uplift * far.result * held.people >= (uplift + strip) * hold.result:
            return uplift, hold.result, steps
    return uplift + strip, held.people * far.result, steps


def _prying(loads: Mapping[str, float], editions: Editions) -> float:
    """What pries up a far end, with the factors that the code puts on it; plain in stress design."""
    held = SHORING[editions.code]
    return sum((held.dead_factor if case == "dead" else held.live_factor) * w for case, w in loads.items())


def _holding(R_far: float, editions: Editions) -> Step:
    """The dead load that may be counted on at a far end."""
    if editions.code == "us":
        return rules.holding_down.step(editions, R_far=R_far)
    return light_dead.step(editions, R_far=R_far)


def _continuous(
    held: Level, q: Mapping[str, float], stand_off: Mapping[str, float], wall: WallLine, editions: Editions
) -> dict[str, ShoreLine | None]:
    """Joists that run on over the wall: a beam on the two shores and the two far supports."""
    assert held.left is not None  # noqa: S101 - the caller has seen to it
    assert held.right is not None  # noqa: S101 - likewise
    spans = {"left": held.left.span, "right": held.right.span}
    for name, span in spans.items():
        if span is None:
            raise InputError(f"{name}.span", None, "a span of more than zero to the wall line")
        _fits(name, stand_off[name], span / 2, "half the joist span", editions.code)
    outer = {name: float(spans[name] or 0.0) - stand_off[name] for name in SIDES}
    line = BeamLine((outer["left"], stand_off["left"] + stand_off["right"], outer["right"]))
    ends = line.supports
    middle = outer["left"] + stand_off["left"]
    reactions: dict[str, tuple[float, float]] = {}
    worst: dict[str, tuple[float, float]] = {}
    loads: list[Load] = []
    for case, pressure in q.items():
        bays = [
            analyse(line, [Load.uniform(case, pressure, ends[n], ends[n + 1])]).reactions for n in range(3)
        ]
        reactions[case] = tuple(sum(float(bay[n]) for bay in bays) for n in (1, 2))  # type: ignore[assignment]
        worst[case] = (
            tuple(sum(max(float(bay[n]), 0.0) for bay in bays) for n in (1, 2))  # type: ignore[assignment]
            if case in TRANSIENT
            else reactions[case]
        )
        loads.append(Load.uniform(case, pressure, 0.0, line.length))
    for case, P in wall.loads.items():
        at_wall = analyse(line, [Load.point(case, P, middle)]).reactions
        for held_by in (reactions, worst):
            before = held_by.get(case, (0.0, 0.0))
            held_by[case] = (before[0] + float(at_wall[1]), before[1] + float(at_wall[2]))
        loads.append(Load.point(case, P, middle))
    dead = analyse(
        line, [load for load in loads if load.case == "dead" and load.shape == "uniform"]
    ).reactions
    factored = SHORING[editions.code]
    pry = analyse(
        line,
        [
            replace(
                load,
                value=load.value * (factored.dead_factor if load.case == "dead" else factored.live_factor),
            )
            for load in loads
            if load.shape == "point"
        ],
    ).reactions
    found: dict[str, ShoreLine | None] = {}
    for n, name in enumerate(SIDES):
        end = 0 if n == 0 else 3
        steps = tuple(
            _solved_step(name, case, values[n], q.get(case, 0.0), line, editions)
            for case, values in reactions.items()
        )
        found[name] = ShoreLine(
            name,
            "continuous",
            float(spans[name] or 0.0),
            stand_off[name],
            {case: values[n] for case, values in reactions.items()},
            {case: values[n] for case, values in worst.items()},
            max(0.0, -float(pry[end])) if wall.loads else 0.0,
            max(0.0, factored.holding * float(dead[end])) if wall.loads else 0.0,
            steps,
            (),
            ((line, tuple(loads)),),
        )
    return found


def _solved_step(name: str, case: str, value: float, q: float, line: BeamLine, editions: Editions) -> Step:
    """A reaction that the beam solver found, put as pressure times the length it amounts to."""
    us = editions.code == "us"
    spans = ", ".join(f"{span:g}" for span in line.spans)
    note = f"{name} side, {case}: joists over spans of {spans} {'in' if us else 'mm'}, solved as a continuous beam"
    line_unit, unit = (each if us else metric(each) for each in ("lbf/in", "lbf/in**2"))
    return Step(
        "R",
        "R",
        (Symbol("R", value, line_unit), Symbol("w", q, unit)),
        value,
        line_unit,
        rules.OVERHANG.at(editions),
        note,
    )


def _fits(name: str, a: float, most: float, why: str, code: str) -> None:
    if a <= 0:
        raise InputError(f"stand_off.{name}", place_in_words(a, code), "a stand-off of more than zero")
    if a >= most:
        under = f"a stand-off under {place_in_words(most, code)}, {why}"
        raise InputError(f"stand_off.{name}", place_in_words(a, code), under)
