"""Temporary walls each side of a wall that comes out: what they carry, their timbers, and what they stand on.

What would fall down: joists that nothing picks up, a header or shore too weak, a shore kicked out sideways,
a sill through a floor that nobody shored below, a far joist end pried off its plate by the wall that stands
on the near one. Each has a check here, a refusal, or a line in the plan.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.house import HOUSE
from structure.core.codes.us import shoring as rules
from structure.core.errors import InputError, OutOfScope
from structure.core.members import shoring_practice as practice
from structure.core.members.checkdata import check_data
from structure.core.members.post import Brace
from structure.core.members.shoring_checks import try_spacing
from structure.core.members.shoring_codes import SHORING
from structure.core.members.shoring_lines import (
    SIDES,
    ShoreLine,
    WallLine,
    shore_lines,
    stacked_lines,
    wall_line,
)
from structure.core.members.shoring_loads import Counted, Season, seasonal
from structure.core.members.shoring_parts import FRAMED, Floor, Joists, Timber, Tried
from structure.core.members.shoring_remarks import shoring_remarks
from structure.core.takedown import Level, take_down
from structure.core.trace import Step
from structure.core.units import in_words, place_in_words, quantity


@dataclass(frozen=True)
class ShoringQuestion:
    """A wall to be shored. `levels` from the top down, the last one is held by the shores.

    `height`: floor to the underside of the joists. `spacing` left out is solved. `floors`: from what the
    sill stands on down to the ground. `past_end`: what the shoring runs past either end of the opening.
    `every_level`: the levels above are shored as well, on the same lines, instead of standing on the lowest
    joists' ends.
    """

    levels: tuple[Level, ...]
    season: Season
    clear_opening: float
    stand_off: Mapping[str, float]
    header: Any
    shore: Any
    sill: Any
    height: float
    spacing: float | None = None
    floors: tuple[Floor, ...] = ()
    joists: Joists | None = None
    past_end: float | None = None
    braced: Mapping[str, Brace] = field(default_factory=dict)
    assumed: tuple[str, ...] = ()
    every_level: bool = False
    code: str = "us"

    @property
    def joist_spacing(self) -> float:
        held = self.joists.spacing if self.joists else self.levels[-1].spacing
        return HOUSE[self.code].joist_spacing if held is None else held


@dataclass(frozen=True)
class ShoringSide:
    """One shoring wall: its line load, the spacing that was chosen, every check, and where it comes down."""

    line: ShoreLine
    tried: Tried
    length: Step
    shore_length: float
    bracing: Step
    refused_spacings: tuple[tuple[float, str], ...]
    blocks: tuple[str, ...]
    reshore: bool
    timber: Timber
    code: str = "us"

    @property
    def passes(self) -> bool:
        return self.tried.passes and not self.blocks

    def summary(self) -> dict[str, Any]:
        """The side at a glance."""
        return {
            "line": quantity(self.line.total, "line_load", self.code),
            "spacing": quantity(self.tried.spacing, "length", self.code),
            "shores": self.tried.shores,
            "length": quantity(self.length.result, "length", self.code),
            "reshore": self.reshore,
            "ratio": self.tried.ratio,
            "passes": self.passes,
        }

    def as_data(self) -> dict[str, Any]:
        """The side with its steps."""
        tried = self.tried
        return {
            "needed": True,
            "support": self.line.support,
            "span": quantity(self.line.span, "length", self.code),
            "stand_off": quantity(self.line.stand_off, "length", self.code),
            "line": self.line.line_data(self.code),
            "spacing": quantity(tried.spacing, "length", self.code),
            "shores": tried.shores,
            "length": quantity(self.length.result, "length", self.code),
            "shore_length": quantity(self.shore_length, "length", self.code),
            "shore_load": quantity(tried.shore_load, "force", self.code),
            "ratio": tried.ratio,
            "governing": tried.governing,
            "passes": self.passes,
            "checks": {name: check_data(check, self.code) for name, check in tried.checks.items()},
            "blocks": list(self.blocks + tried.blocks),
            "reshore": self.reshore,
            "bracing": {
                "sideways": quantity(self.bracing.result, "line_load", self.code),
                "step": self.bracing.as_data(),
            },
            "wider_spacings": [
                {"spacing": quantity(spacing, "length", self.code), "why": why}
                for spacing, why in self.refused_spacings
            ],
            "fastening": tried.fastening.as_data() if tried.fastening else None,
            "cut_list": self.cut_list(),
            "schedule": self.schedule_data(),
            "steps": [step.as_data() for step in (*self.line.steps, self.length)],
        }

    def schedule_data(self) -> dict[str, Any]:
        """The side as the takeoff reads it: lengths in inches, plain numbers."""
        inch = 1.0 if self.code == "us" else 25.4
        return {
            "side": self.line.side,
            "length_in": self.length.result / inch,
            "header": _member(self.timber.header, inch),
            "shores": self.tried.shores,
            "shore": _member(self.timber.shore, inch),
            "height_in": self.shore_length / inch,
            "sill": _member(self.timber.sill, inch),
            "reshore": self.reshore,
        }

    def cut_list(self) -> list[dict[str, Any]]:
        """Pieces of one shoring wall; braces are cut to fit."""
        length = quantity(self.length.result, "length", self.code)
        return [
            {"piece": "header ply", "size": self.timber.header.label, "count": self.timber.header.plies,
             "length": length},
            {"piece": "shore", "size": self.timber.shore.label, "count": self.tried.shores,
             "length": quantity(self.shore_length, "length", self.code)},
            {"piece": "sill", "size": self.timber.sill.label, "count": 1, "length": length},
        ]  # fmt: skip


def _member(section: Any, inch: float) -> dict[str, Any]:
    return {
        "family": section.family,
        "species": getattr(section, "species", ""),
        "grade": section.grade,
        "plies": section.plies,
        "ply_width_in": section.width / inch,
        "depth_in": section.depth / inch,
        "label": section.label,
    }


@dataclass(frozen=True)
class ShoringResult:
    """Both sides, or a refusal that still tells the line loads it would have come to."""

    question: ShoringQuestion
    sides: Mapping[str, ShoringSide | None]
    lines: Mapping[str, ShoreLine | None]
    wall: WallLine
    counted: tuple[Counted, ...]
    refusal: OutOfScope | None
    remarks: tuple[str, ...]

    @property
    def passes(self) -> bool:
        return self.refusal is None and all(side is None or side.passes for side in self.sides.values())

    def as_data(self) -> dict[str, Any]:
        """The result of the `shoring` kind."""
        code = self.question.code
        data: dict[str, Any] = {"passes": self.passes, "loads": [each.as_data() for each in self.counted]}
        if self.refusal is not None:
            data = {
                "status": "refused",
                "clause": str(self.refusal.clause),
                "reason": self.refusal.reason,
                **data,
            }
            for name, line in self.lines.items():
                if line is not None:
                    data[name] = {
                        "line": line.line_data(self.question.code),
                        "steps": [step.as_data() for step in line.steps],
                    }
        else:
            built = {name: side for name, side in self.sides.items() if side is not None}
            worst = max(built, key=lambda name: built[name].tried.ratio)
            data["ratio"] = built[worst].tried.ratio
            data["governing"] = f"{worst} {built[worst].tried.governing}"
            data["sides"] = {name: side.summary() for name, side in built.items()}
            data["reshore"] = any(side.reshore for side in built.values())
            for name in SIDES:
                side = built.get(name)
                data[name] = side.as_data() if side else {"needed": False}
        data["wall_line"] = {
            "line": {case: quantity(value, "line_load", code) for case, value in self.wall.loads.items()},
            "from": list(self.wall.sources),
        }
        return data | {
            "jacking": practice.jacking(code),
            "bracing": practice.rules(practice.BRACING, code),
            "raising": practice.rules(practice.RAISING),
            "lowering": practice.rules(practice.LOWERING),
            "stop_work": practice.rules(practice.STOP_WORK),
            "remarks": list(self.remarks),
        }


def plan_shoring(question: ShoringQuestion, editions: Editions) -> ShoringResult:
    """Line loads on both shoring walls and every check of each.

    Raises InputError for input that cannot be meant and OutOfScope for framing or loads that a shoring wall
    cannot pick up. A wall that stands on the joists' ends is refused with the line loads told, unless the
    joists are known, and then they are checked.
    """
    _sizes(question)
    levels, counted = seasonal(question.levels, question.season, editions.code)
    take_down(levels, editions)  # spans, sides and stories are read by one rule everywhere
    if question.every_level:
        wall, lines = stacked_lines(levels, question.stand_off, editions)
    else:
        wall = wall_line(levels, editions)
        lines = shore_lines(levels[-1], question.stand_off, wall, editions)
    refusal = None
    sides: dict[str, ShoringSide | None] = {}
    if wall.total > 0 and question.joists is None:
        refusal = OutOfScope(rules.STACKED_WALL.at(editions), _stacked(wall, editions.code))
    else:
        sides = {
            name: None if line is None else _side(question, line, editions) for name, line in lines.items()
        }
    return ShoringResult(
        question, sides, lines, wall, counted, refusal, shoring_remarks(question, levels, wall, lines, sides)
    )


def _stacked(wall: WallLine, code: str) -> str:
    much = in_words(wall.total, "line_load", code)
    return (
        f"{much} from {', '.join(wall.sources)} stands on the joists' ends between the two "
        "shore lines. Give the joists' section so that their overhang can be checked, carry that wall on needles "
        "(engineer), or pick the load up a level higher, by shores there on the same lines (every_level)"
    )


def _sizes(question: ShoringQuestion) -> None:
    if not question.levels:
        raise InputError("levels", None, "at least the level whose joists are shored")
    code, held = question.code, SHORING[question.code]
    if question.spacing is not None and not held.least_spacing <= question.spacing <= held.most_spacing:
        bounds = f"a spacing from {held.least_spacing:g} to {place_in_words(held.most_spacing, code)}"
        raise InputError("spacing", place_in_words(question.spacing, code), bounds)
    timber = _timber(question)
    if question.height <= question.header.depth + timber.sill_thickness + held.spare:
        raise InputError(
            "height",
            place_in_words(question.height, code),
            "a height that leaves room for header, shores and sill",
        )


def _timber(question: ShoringQuestion) -> Timber:
    return Timber(question.header, question.shore, question.sill, question.braced)


def _side(question: ShoringQuestion, line: ShoreLine, editions: Editions) -> ShoringSide:
    """The largest stock spacing that passes, or the given one; the closest one where none does."""
    timber = _timber(question)
    past = question.joist_spacing if question.past_end is None else question.past_end
    length = rules.wall_length.step(editions, l_o=question.clear_opening, l_p=past)
    refused: list[tuple[float, str]] = []
    spacings = SHORING[question.code].spacings if question.spacing is None else (question.spacing,)
    tried = None
    for spacing in spacings:
        tried = try_spacing(
            line,
            timber,
            spacing,
            length.result,
            question.height,
            question.floors,
            question.joists,
            question.joist_spacing,
            editions,
        )
        if tried.close_enough:
            break
        refused.append((spacing, _why(tried)))
    assert tried is not None  # noqa: S101 - there is at least one spacing
    if refused and refused[-1][0] == tried.spacing:
        refused.pop()
    return ShoringSide(
        line=line,
        tried=tried,
        length=length,
        shore_length=question.height - question.header.depth - timber.sill_thickness,
        bracing=rules.sideways.step(editions, w=line.total),
        refused_spacings=tuple(refused),
        blocks=_path(question.floors),
        reshore=not question.floors or any(floor.kind == FRAMED for floor in question.floors),
        timber=timber,
        code=question.code,
    )


def _why(tried: Tried) -> str:
    failing = sorted((c for c in tried.checks.values() if not c.passes), key=lambda c: -c.ratio)
    words = [f"{check.name.replace('_', ' ')} {check.ratio:.2f} ({check.combination})" for check in failing]
    return "; ".join((*words, *tried.blocks))


def _path(floors: Sequence[Floor]) -> tuple[str, ...]:
    """What is missing between the sill and the ground."""
    if not floors:
        return ("What the sill stands on is not given: the load must be followed to the ground.",)
    if floors[-1].kind == FRAMED:
        name = floors[-1].name or "the framed floor"
        missing = (
            f"Under {name} nothing is given: it is shored again, down to slab or soil; say what is there."
        )
        return (missing,)
    return ()
