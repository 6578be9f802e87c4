"""A pad, strip or thickened slab that is there, under a new post: pressure before and after, checks as plain.

Nothing here approves an old footing: what comes out is a reckoning and the questions that the engineer
has to answer. In the units of its code.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from structure.core.clauses import Editions
from structure.core.codes.combination import LETTERS
from structure.core.codes.pads import pad_rules
from structure.core.codes.us import concrete_pad, existing
from structure.core.errors import InputError, OutOfScope
from structure.core.members.checkdata import check_data, worst
from structure.core.members.existing_questions import questions
from structure.core.members.footing import pressures
from structure.core.members.footing_codes import CHECKS
from structure.core.members.footing_pad import Base, Force, Pad
from structure.core.members.footing_question import (
    concrete_scope,
    outside_the_kern,
    soil_scope,
    worst_factored,
    worst_service,
)
from structure.core.trace import Check, Step
from structure.core.units import place_in_words, quantity

_SPREAD = (
    "The post load is taken to spread at 45 degrees through wall and footing along the strip (common "
    "practice); what the strip carries already counts over that length, and bends it as if it stood "
    "under the post."
)
Kind = Literal["pad", "strip", "thickened_slab", "slab"]


@dataclass(frozen=True, slots=True)
class Found:
    """The footing as it was found. `length` is that of a pad; a strip and a thickened slab run on.

    `wall_height` and `wall_thickness`: a solid concrete wall between the post and a strip. `to_end`: middle
    of the post to the end of the strip. `measured`: its sizes were seen, not taken from a drawing.
    """

    kind: Kind
    length: float | None
    width: float | None
    thickness: float | None
    measured: bool = True
    wall_height: float = 0.0
    wall_thickness: float = 0.0
    masonry: bool = False
    to_end: float | None = None


@dataclass(frozen=True, slots=True)
class ExistingQuestion:
    """Loads of the new post by case, and what the footing carries already: `points` on a pad, `line` on a strip.

    `tested`: f'c comes from a core or a paper.
    """

    loads: Mapping[str, float]
    soil: float
    base: Base
    found: Found
    f_c: float
    tested: bool
    density: float
    net: bool = False
    soil_from: str | None = None
    points: Mapping[str, float] | None = None
    line: Mapping[str, float] | None = None
    off_length: float = 0.0
    off_width: float = 0.0


@dataclass(frozen=True, slots=True)
class ExistingResult:
    """The footing under the new post, its checks and what the engineer is asked."""

    question: ExistingQuestion
    pad: Pad
    checks: tuple[Check, ...]
    before: Force | None
    after: Force
    steps: tuple[Step, ...]
    asked: tuple[str, ...]
    editions: Editions

    @property
    def governing(self) -> Check:
        return worst(self.checks)

    @property
    def passes(self) -> bool:
        return all(check.passes for check in self.checks)

    def as_data(self) -> dict[str, Any]:
        """The result of the `existing_pad` kind."""
        pad, at = self.pad, self.editions
        code = at.code
        before = self.before or Force("", 0.0)
        return {
            "passes": self.passes,
            "governing": self.governing.name,
            "ratio": self.governing.ratio,
            "kind": self.question.found.kind,
            "length": quantity(pad.length, "length", code),
            "width": quantity(pad.width, "length", code),
            "thickness": quantity(pad.thickness, "length", code),
            "pressures": {
                "before": pressures(_on_the_middle(pad), before, at),
                "after": pressures(pad, self.after, at),
            },
            "load": {
                "before": quantity(before.value, "force", code),
                "after": quantity(self.after.value, "force", code),
            },
            "checks": {check.name: check_data(check, code) for check in self.checks},
            "steps": [step.as_data() for step in self.steps],
            "questions": list(self.asked),
            "remarks": [
                "A reckoning and no approval: an existing footing goes to the engineer with its questions.",
                *_model(self.question),
            ],
        }


def check_existing(question: ExistingQuestion, editions: Editions) -> ExistingResult:
    """The footing with the new post on it, as plain concrete: ACI 318-19 chapter 14 and IRC R403.1.1, or
    CSA A23.3:19 clause 22 and NBC 9.15.3.

    Raises OutOfScope for a slab without a footing, a footing of unknown size, a masonry wall, and for soil,
    concrete and loads that the rules do not cover; InputError for sizes that cannot be.
    """
    found = question.found
    width, thickness = _known(found, editions)
    soil_scope(question.soil, question.soil_from, editions)
    concrete_scope(question.f_c, question.density, editions)
    length, base, steps = _effective(question, width, thickness, editions)
    pad = Pad(
        length,
        width,
        thickness,
        question.f_c,
        question.density,
        question.soil,
        question.net,
        base,
        question.off_length,
        question.off_width,
    )
    _fits(question, pad, editions)
    held, more = _already(question, length, editions)
    total = {case: question.loads.get(case, 0.0) + held.get(case, 0.0) for case in LETTERS}
    after, factored = worst_service(total, editions), worst_factored(total, editions)
    before = worst_service(held, editions) if any(held.values()) else None
    worst_service(question.loads, editions)  # a new post without a load is a slip of the pen
    checks = list(CHECKS[editions.code].plain(pad, after, factored, editions))
    if found.wall_height:
        place = next(n for n, each in enumerate(checks) if each.name == "bearing")
        checks[place] = _on_the_wall(question, pad, editions)
    return ExistingResult(
        question,
        pad,
        tuple(checks),
        before,
        after,
        (*steps, *more),
        questions(question, tuple(checks), editions.code),
        editions,
    )


def _on_the_middle(pad: Pad) -> Pad:
    """What stood on the footing before stood on its middle."""
    return Pad(pad.length, pad.width, pad.thickness, pad.f_c, pad.density, pad.soil, pad.net, pad.base)


def _known(found: Found, editions: Editions) -> tuple[float, float]:
    rules = pad_rules(editions)
    clause = rules.clauses.sizes.at(editions)
    if found.kind == "slab":
        raise OutOfScope(
            clause,
            "a slab on ground alone carries no post: cut it and pour a pad, or show the thickening under it",
        )
    if found.masonry:
        raise OutOfScope(
            rules.clauses.engineered.at(editions),
            "a post load does not spread through a masonry wall by rule: engineered design",
        )
    missing = [name for name in ("width", "thickness") if getattr(found, name) is None]
    if found.kind == "pad" and found.length is None:
        missing.insert(0, "length")
    if missing or found.width is None or found.thickness is None:
        raise OutOfScope(
            clause,
            f"the {' and '.join(missing)} of the footing is not known: open it up and measure; "
            "a footing of unknown size is not reckoned with",
        )
    if found.thickness <= rules.face_loss:
        raise InputError(
            "pad.thickness",
            place_in_words(found.thickness, editions.code),
            f"a thickness of more than {place_in_words(rules.face_loss, editions.code)}",
        )
    return found.width, found.thickness


def _effective(
    question: ExistingQuestion, width: float, thickness: float, editions: Editions
) -> tuple[float, Base, tuple[Step, ...]]:
    """The piece of footing that carries the post, and what stands on it."""
    found, base = question.found, question.base
    if found.kind == "pad":
        assert found.length is not None  # noqa: S101 - an unknown one was refused
        return found.length, base, ()
    far = base.length / 2 + found.wall_height + thickness
    x_e = far if found.to_end is None else found.to_end
    spread = existing.spread_length.step(editions, c=base.length, h_w=found.wall_height, t=thickness, x_e=x_e)
    if not found.wall_height:
        return spread.result, base, (spread,)
    on_footing = existing.spread_on_footing.step(editions, c=base.length, h_w=found.wall_height, x_e=x_e)
    return (
        spread.result,
        Base(min(on_footing.result, spread.result), found.wall_thickness),
        (spread, on_footing),
    )


def _fits(question: ExistingQuestion, pad: Pad, editions: Editions) -> None:
    base, code = pad.base, editions.code

    def said(length: float) -> str:
        return place_in_words(length, code)

    if base.width >= pad.width or base.length > pad.length:
        raise InputError(
            "pad.width", said(pad.width), f"a footing wider than the {said(base.width)} that stands on it"
        )
    if question.found.wall_height and question.base.width > question.found.wall_thickness:
        raise InputError(
            "pad.wall.thickness",
            said(question.found.wall_thickness),
            f"a wall as thick as the {said(question.base.width)} of the post or plate on it",
        )
    if question.base.column > min(question.base.length, question.base.width):
        raise InputError("post.column", said(question.base.column), "a post no wider than its plate")
    k = concrete_pad.kern_ratio(pad.off_length, pad.off_width, pad.length, pad.width)
    if k > 1:
        raise outside_the_kern(editions)


def _already(
    question: ExistingQuestion, length: float, editions: Editions
) -> tuple[dict[str, float], tuple[Step, ...]]:
    """Loads by case that the piece carries already."""
    held = dict(question.points or {})
    steps = []
    for case, w in (question.line or {}).items():
        step = existing.line_on_length.step(editions, w=w, L=length, note=case)
        held[case] = held.get(case, 0.0) + step.result
        steps.append(step)
    return held, tuple(steps)


def _on_the_wall(question: ExistingQuestion, pad: Pad, editions: Editions) -> Check:
    """Bearing of the post on the top of the wall, in place of that on the footing."""
    found = question.found
    top = Pad(
        pad.base.length,
        found.wall_thickness,
        found.wall_height,
        question.f_c,
        question.density,
        question.soil,
        question.net,
        question.base,
    )
    factored = worst_factored(question.loads, editions)
    return CHECKS[editions.code].bearing(top, factored, editions, "post on the top of the wall")


def _model(question: ExistingQuestion) -> tuple[str, ...]:
    if question.found.kind == "pad":
        return ()
    return (_SPREAD,)
