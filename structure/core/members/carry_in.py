"""The longest straight piece that can be got into the house, and how many people carry it. Inches, lbf; mm, N.

Every obstacle is a turn from one passage into another, in plan or, through a stairwell, in section. The
piece may be carried on edge or flat, level or tilted; what is counted is never longer than what fits.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import COMMON_PRACTICE, Clause, Editions
from structure.core.errors import InputError
from structure.core.trace import Step, formula
from structure.core.units import quantity

TURN = Clause("geometry", "longest piece round a right-angled turn")
TILT = Clause("geometry", "piece tilted in its vertical plane")
WEIGHT = Clause("statics", "weight of a piece")
LIFT = Clause(COMMON_PRACTICE.document, "load constant of the NIOSH lifting equation, 51 lbf a person")
LIFT_METRIC = Clause(COMMON_PRACTICE.document, "load constant of the NIOSH lifting equation, 23 kg a person")
PER_PERSON = 51.0  # lbf, the most in the best posture; NIOSH lifting equation
SPLICE = (
    "A piece is never cut inside a span: its plies are joined over a support alone, or it comes in another way "
    "(through a window, a wall opened for it, ply by ply)."
)
PEOPLE = (
    "People are counted at their most in the best posture: more where the way is narrow, steep or long, and "
    "lifting gear for setting it overhead."
)
_PARTS = 400  # of the quarter turn that is looked through before the least is closed in on


@formula("L_0", "(a ** (2 / 3) + b ** (2 / 3)) ** (3 / 2)", unit="inch", clause=TURN, a="inch", b="inch")
def ladder(a: float, b: float) -> float:
    """Longest thin piece round a right-angled turn between passages a and b wide. Geometry.

    A piece at an angle t to the second passage that touches the inner corner reaches both outer walls at
    the length a / cos t + b / sin t. That is least, and the piece passes, where tan t is the cube root of
    b / a; put in, the least is (a^(2/3) + b^(2/3))^(3/2). a, b [in]. [in].
    """
    length: float = (a ** (2 / 3) + b ** (2 / 3)) ** (3 / 2)
    return length


@formula(
    "L_t", "a / c + b / s - w / (s * c)", unit="inch", clause=TURN, a="inch", b="inch", w="inch", s="", c=""
)
def turn_at(a: float, b: float, w: float, s: float, c: float) -> float:
    """Room for a piece w wide at one angle of the turn. Geometry.

    As for a thin piece, less w (tan t + 1 / tan t): its outer edge touches the walls, its inner edge the
    corner. a, b, w [in], s and c: sine and cosine of the angle. [in].
    """
    return a / c + b / s - w / (s * c)


@formula(
    "L", "((L_p - d) ** 2 + (h - d) ** 2) ** 0.5", unit="inch", clause=TILT, L_p="inch", h="inch", d="inch"
)
def tilted(L_p: float, h: float, d: float) -> float:
    """Length of a piece tilted up to the height of the passage while it turns. Geometry.

    Its shadow on the floor is L cos t + d sin t, its height L sin t + d cos t; both are taken with the whole
    d, which is shorter than what fits. L_p: room in plan, h: height, d: upright side of the piece [in]. [in].
    """
    length: float = ((L_p - d) ** 2 + (h - d) ** 2) ** 0.5
    return length


@formula("W", "w * L", unit="lbf", clause=WEIGHT, w="lbf/inch", L="inch")
def piece_weight(w: float, L: float) -> float:
    """Weight of a piece. w: per length [lbf/in], L: length [in]. [lbf]."""
    return w * L


@formula("n", "W / P", unit="", clause=LIFT, W="lbf", P="lbf")
def carriers(W: float, P: float) -> float:
    """People that carry a weight, to be rounded up. W: weight, P: share of one person [lbf]. Plain number."""
    return W / P


@dataclass(frozen=True, slots=True)
class Turn:
    """A right-angled turn from a passage `first` wide into one `second` wide, `height` high over both [in]."""

    name: str
    first: float
    second: float
    height: float


@dataclass(frozen=True, slots=True)
class CarryQuestion:
    """A piece of `width` by `depth` [in], all plies together; `weight` [lbf/in] of the whole, `length` [in].

    `spans`: of the beam, where it may be joined over supports. `limit`: share of one person [lbf].
    """

    width: float
    depth: float
    length: float
    weight: float
    plies: int = 1
    turns: tuple[Turn, ...] = ()
    spans: tuple[float, ...] = ()
    limit: float = PER_PERSON


@dataclass(frozen=True, slots=True)
class Passed:
    """The longest piece through one turn, carried how, with the lines that give it."""

    turn: Turn
    thin: float
    longest: float
    carried: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class CarryResult:
    """The longest piece through every turn, and the people for the whole and for one ply."""

    question: CarryQuestion
    whole: tuple[Passed, ...]
    by_ply: tuple[Passed, ...]
    steps: tuple[Step, ...]
    weight: float
    people: int
    ply_weight: float
    ply_people: int
    code: str = "us"

    def as_data(self) -> dict[str, Any]:
        """The result of the `carry_in` kind."""
        question = self.question
        whole, ply = _tightest(self.whole), _tightest(self.by_ply)
        fits, ply_fits = _fits(question.length, whole), _fits(question.length, ply)
        lift = LIFT if self.code == "us" else LIFT_METRIC
        joined = len(question.spans) > 1 and _fits(max(question.spans), ply)
        return {
            "passes": fits or ply_fits if question.turns else None,
            "whole": fits if question.turns else None,
            "ply_by_ply": ply_fits if question.turns else None,
            "joined_over_supports": joined,
            "length": quantity(question.length, "length", self.code),
            "longest": None if whole is None else quantity(whole.longest, "length", self.code),
            "longest_ply": None if ply is None else quantity(ply.longest, "length", self.code),
            "governing": None if whole is None else whole.turn.name,
            "turns": [_passed_data(each, self.code) for each in self.whole],
            "plies": [_passed_data(each, self.code) for each in self.by_ply],
            "weight": quantity(self.weight, "force", self.code),
            "people": self.people,
            "two_can_carry": self.people <= 2,
            "ply_weight": quantity(self.ply_weight, "force", self.code),
            "ply_people": self.ply_people,
            "limit": quantity(question.limit, "force", self.code),
            "clause": f"{lift.document} {lift.number}",
            "splice": SPLICE if question.turns and not (fits or ply_fits) else "",
            "steps": [step.as_data() for step in self.steps],
            "remarks": self._remarks(),
        }

    def _remarks(self) -> list[str]:
        told = [PEOPLE]
        if not self.question.turns:
            told.append("Nothing was said of the way in: no longest piece is known.")
        return told


def carry_in(question: CarryQuestion, editions: Editions) -> CarryResult:
    """Longest piece by the turns on its way, whole and ply by ply; weight and people. Geometry, common practice.

    Raises InputError for sizes of nothing and for a passage that the piece's own section does not enter.
    """
    for name in ("width", "depth", "length", "weight", "limit"):
        if not getattr(question, name) > 0:
            raise InputError(name, f"{getattr(question, name):g}", "more than zero")
    thin = question.width / question.plies
    whole = tuple(_through(turn, question.width, question.depth, editions) for turn in question.turns)
    single = tuple(_through(turn, thin, question.depth, editions) for turn in question.turns)
    weight = piece_weight.step(editions, w=question.weight, L=question.length, note="whole")
    ply = piece_weight.step(editions, w=question.weight / question.plies, L=question.length, note="one ply")
    lift = carriers if editions.code == "us" else carriers.under(LIFT_METRIC)
    people = lift.step(editions, W=weight.result, P=question.limit, note="whole")
    ply_people = lift.step(editions, W=ply.result, P=question.limit, note="one ply")
    return CarryResult(
        question,
        whole,
        single,
        (weight, people, ply, ply_people),
        weight.result,
        _rounded_up(people.result),
        ply.result,
        _rounded_up(ply_people.result),
        editions.code,
    )


def longest_round(a: float, b: float, w: float) -> tuple[float, float]:
    """Longest piece w wide round a turn between passages a and b, and its angle [rad]; 0 if it does not enter.

    A thin piece has its closed form; a wide one is closed in on from the least of a fine look.
    """
    if w >= min(a, b):
        return 0.0, 0.0
    if w == 0:
        return ladder(a, b), math.atan((b / a) ** (1 / 3))

    def room(t: float) -> float:
        return float(turn_at(a=a, b=b, w=w, s=math.sin(t), c=math.cos(t)))

    part = math.pi / 2 / _PARTS
    near = min((n * part for n in range(1, _PARTS)), key=room)
    low, high = near - part * 0.999, near + part * 0.999
    for _ in range(100):
        third = (high - low) / 3
        if room(low + third) < room(high - third):
            high -= third
        else:
            low += third
    angle = (low + high) / 2
    return max(0.0, room(angle)), angle


def _through(turn: Turn, width: float, depth: float, editions: Editions) -> Passed:
    """The better of carrying it on edge and flat, level and tilted."""
    thin = ladder.step(editions, a=turn.first, b=turn.second, note="a thin piece")
    best = Passed(turn, thin.result, 0.0, "not at all", (thin,))
    for across, upright, how in ((width, depth, "on edge"), (depth, width, "flat")):
        if upright > turn.height:
            continue
        level, angle = longest_round(turn.first, turn.second, across)
        if level <= 0:
            continue
        s, c = math.sin(angle), math.cos(angle)
        steps = [thin, turn_at.step(editions, a=turn.first, b=turn.second, w=across, s=s, c=c, note=how)]
        longest, words = level, f"{how}, level"
        if level > upright:
            step = tilted.step(editions, L_p=level, h=turn.height, d=upright, note=how)
            if step.result > longest:
                longest, words = step.result, f"{how}, tilted"
                steps.append(step)
        if longest > best.longest:
            best = Passed(turn, thin.result, longest, words, tuple(steps))
    return best


def _tightest(passed: Sequence[Passed]) -> Passed | None:
    return min(passed, key=lambda each: each.longest, default=None)


def _fits(length: float, tightest: Passed | None) -> bool:
    return tightest is not None and length <= tightest.longest + 1e-9


def _rounded_up(people: float) -> int:
    return max(1, math.ceil(people - 1e-9))


def _passed_data(each: Passed, code: str) -> dict[str, Any]:
    return {
        "name": each.turn.name,
        "thin": quantity(each.thin, "length", code),
        "longest": quantity(each.longest, "length", code),
        "carried": each.carried,
        "steps": [step.as_data() for step in each.steps],
    }
