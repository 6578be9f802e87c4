"""What is asked of a post, whatever it is made of, and the answer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from structure.core.clauses import ClauseRef
from structure.core.codes.combination import heaviest
from structure.core.codes.us.combinations import asd
from structure.core.errors import InputError, OutOfScope
from structure.core.members.bearing import PlateQuestion
from structure.core.members.checkdata import Checked, check_data
from structure.core.members.post_fastening import Fastening
from structure.core.trace import Check, Step
from structure.core.units import quantity

CONTINUOUS = "continuous"
Brace = float | Literal["continuous"] | None
ACROSS_PLIES, ACROSS_DEPTH = "across the plies", "across the depth"


@dataclass(frozen=True, slots=True)
class PostQuestion:
    """A post between two plates, in the units of its code. Loads by case, down positive.

    `braced` may name an axis by `weak` or `strong` (of the whole section) or by `plies` or `depth` (the way
    it would buckle): the distance between braces, or `continuous`.
    """

    height: float
    loads: Mapping[str, float]
    section: Any
    end: float = 1.0
    braced: Mapping[str, Brace] = field(default_factory=dict)
    eccentricity: float = 0.0
    plate: PlateQuestion | None = None
    in_construction: bool = False
    fastening: str | None = None

    @property
    def fastened(self) -> str:
        """How the plies are held together: nailed unless something else is said."""
        return str(self.fastening or getattr(self.section, "fastening", "nailed"))


@dataclass(frozen=True, slots=True)
class Axis:
    """One way to buckle, under one combination. Braced without a gap it has no slenderness to speak of."""

    name: str
    direction: str
    slenderness: float
    factor: float
    capacity: float
    F_cE: float | None
    steps: tuple[Step, ...]

    def as_data(self, code: str = "us") -> dict[str, Any]:
        return {
            "direction": self.direction,
            "slenderness": self.slenderness,
            "factor": self.factor,
            "capacity": quantity(self.capacity, "force", code),
            "steps": [step.as_data() for step in self.steps],
        }


@dataclass(frozen=True, slots=True)
class PostResult(Checked):
    """Every check of a post under the combination that is worst for it.

    `more` is what one material has to say besides, as plain data.
    """

    question: PostQuestion
    checks: Mapping[str, Check]
    axes: Mapping[str, Axis]
    factors: Mapping[str, float]
    fastening: Fastening | None
    remarks: tuple[str, ...]
    more: Mapping[str, Any] = field(default_factory=dict)

    @property
    def capacity(self) -> float:
        """What the governing check allows [lbf]."""
        return self.governing.capacity

    def as_data(self) -> dict[str, Any]:
        """The result of the `post` kind."""
        code = self.question.section.code
        return {
            "capacity": quantity(self.capacity, "force", code),
            "ratio": self.ratio,
            "passes": self.passes,
            "governing": self.governing.name,
            "section": self.question.section.label,
            "height": quantity(self.question.height, "length", code),
            "axes": {name: axis.as_data(code) for name, axis in self.axes.items()},
            "checks": {name: check_data(check, code) for name, check in self.checks.items()},
            "factors": dict(self.factors),
            "fastening": self.fastening.as_data() if self.fastening else None,
            "remarks": list(self.remarks),
            **self.more,
        }


def check_question(question: PostQuestion, clause: ClauseRef) -> None:
    """Raise InputError for input that cannot be meant, and OutOfScope under `clause` for a load that pulls up."""
    if question.height <= 0:
        raise InputError("height", question.height, "a height of more than zero")
    if any(value < 0 for value in question.loads.values()):
        raise OutOfScope(clause, "a load that pulls up on the post: uplift is the engineer's")
    if sum(question.loads.values()) <= 0:
        raise InputError("loads", "no load", "at least one load of more than zero")
    if question.end <= 0:
        raise InputError("end", question.end, "an effective length factor of more than zero, such as 1.0")


def largest_load(question: PostQuestion) -> tuple[float, str]:
    """The largest stress sum [lbf] and the first combination that has it."""
    present = {case: value for case, value in question.loads.items() if value != 0}
    name, P = heaviest(asd(present), present)
    return P, name


def brace_of(question: PostQuestion, name: str, direction: str) -> Brace:
    """The brace of one axis, by its name or by its direction. Raises InputError where the two differ."""
    given = [key for key in (name, direction) if question.braced.get(key) is not None]
    if len(given) == 2 and question.braced[name] != question.braced[direction]:
        raise InputError(
            f"braced.{direction}",
            question.braced[direction],
            f"one brace for one axis: {direction} and {name} are the same one on this section",
        )
    return question.braced[given[0]] if given else None
