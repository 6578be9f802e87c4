"""What is asked of a beam."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from structure.core.clauses import COMMON_PRACTICE, Clause, Editions
from structure.core.codes.us.irc import ENGINEERED_DESIGN
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.section import Section
from structure.core.statics.model import BeamLine, Load
from structure.core.units import in_words

Bracing = str | float  # "continuous", "ends" or a length


@dataclass(frozen=True, slots=True)
class Range:
    """What a preliminary beam of a house covers, in the units of its code; common practice.

    `most_span_steel`: a steel beam comes in one piece up to this length. `most_spread_steel`: what the
    heaviest shapes held carry.
    """

    least_span: float
    most_span: float
    most_span_steel: float
    most_spread: float
    most_spread_steel: float
    most_point: float


RANGES: Mapping[str, Range] = {
    # in, lbf/in, lbf: 6 in, 36 ft, 50 ft, 10 and 40 klf, 100 kip
    "us": Range(6.0, 432.0, 600.0, 10_000.0 / 12.0, 40_000.0 / 12.0, 100_000.0),
    # mm, N/mm, N: 150 mm, 11 m, 15.2 m, 146 and 584 kN/m, 445 kN: the same in metric
    "ca": Range(150.0, 11_000.0, 15_200.0, 146.0, 584.0, 445_000.0),
}
UPLIFT: Mapping[str, Clause] = {"us": Clause("ASCE 7", "2.4.1"), "ca": Clause("NBC", "4.1.3.2.")}
ENGINEERED: Mapping[str, Clause] = {"us": ENGINEERED_DESIGN, "ca": Clause("NBC", "9.4.1.1.")}
HOUSE_LOADS = Clause(COMMON_PRACTICE.document, "loads of a house")
CANTILEVER = Clause(COMMON_PRACTICE.document, "an overhang no longer than the span beside it")


@dataclass(frozen=True, slots=True)
class Limits:
    """Deflection as parts of the span; with `creep` the dead part counts 1.5 times (2 when wet)."""

    live: float = 360.0
    total: float = 240.0
    creep: bool = True


@dataclass(frozen=True, slots=True)
class Support:
    """What the beam bears on: the value that is crushed [stress], and its name. No C_b is counted for it."""

    F_c_perp: float
    material: str


@dataclass(frozen=True, slots=True)
class Notch:
    """A notch cut into the beam: `side` tension or compression, `at` end or interior, depth and length."""

    side: str
    depth: float
    length: float
    at: str = "end"


@dataclass(frozen=True)
class BeamQuestion:
    """A beam on its supports under its loads. In the units of its code.

    `section` may be left out for a search. `bracing` is of the top edge: `continuous`, `ends` or the distance
    between braces; `bottom_bracing` likewise of the bottom edge where it is pressed. `pattern` left out means
    patterns of live load from two spans on. `bearing` is a length for all supports or one each. `top_loaded`: what
    stands on a steel beam neither holds it sideways nor from turning. `lifting_checked`: a check elsewhere holds
    what an overhang lifts against what keeps it down.
    """

    line: BeamLine
    loads: tuple[Load, ...]
    section: Section | None = None
    pattern: bool | None = None
    self_weight: bool = True
    bracing: Bracing = "ends"
    bottom_bracing: Bracing | None = None
    repetitive: bool = False
    wet: bool = False
    deflection: Limits = field(default_factory=Limits)
    bearing: tuple[float, ...] | None = None
    support: Support | None = None
    shear_at: str = "face"
    treated: str = "none"
    notch: Notch | None = None
    top_loaded: bool = False
    lifting_checked: bool = False

    @property
    def patterned(self) -> bool:
        """Whether live load is put on every set of bays."""
        return len(self.line.spans) > 1 if self.pattern is None else self.pattern

    @property
    def bearings(self) -> tuple[float, ...] | None:
        """Bearing length by support. Raises InputError for a list of another length."""
        supports = len(self.line.supports)
        if self.bearing is None:
            return None
        if len(self.bearing) == 1:
            return self.bearing * supports
        if len(self.bearing) != supports:
            raise InputError(
                "bearing", f"{len(self.bearing)} lengths", f"one length, or {supports}, one a support"
            )
        return self.bearing


def check_span(told: str, span: float, editions: Editions, *, steel: bool = False) -> None:
    """Raise OutOfScope for a span that no preliminary house beam covers. `told` names it in the reason."""
    held, code = RANGES[editions.code], editions.code
    most = held.most_span_steel if steel else held.most_span
    if not held.least_span <= span <= most:
        least = in_words(held.least_span, "length", code)
        raise OutOfScope(
            ENGINEERED[code].at(editions),
            f"{told} of {in_words(span, 'length', code)} is outside the {least} to "
            f"{in_words(most, 'length', code)} that a preliminary size covers; ask the engineer",
        )


def check_range(question: BeamQuestion, editions: Editions) -> None:
    """Raise OutOfScope for spans and loads outside what house framing covers, InputError for no load."""
    line, code, held = question.line, editions.code, RANGES[editions.code]
    steel = question.section is not None and question.section.material == "steel"
    for n, span in enumerate(line.spans):
        check_span(f"span {n + 1}", span, editions, steel=steel)
    for side, overhang, span in (
        ("left", line.overhang_left, line.spans[0]),
        ("right", line.overhang_right, line.spans[-1]),
    ):
        if overhang > span:
            raise OutOfScope(
                CANTILEVER.at(editions),
                f"the {side} overhang of {in_words(overhang, 'length', code)} is longer than its span of "
                f"{in_words(span, 'length', code)}",
            )
    for load in question.loads:
        if min(load.value, load.end_value) < 0:
            # What lifts needs sums that keep the dead load low and a beam that is held down.
            raise OutOfScope(
                UPLIFT[code].at(editions),
                f"a {load.case} load that pulls up on the beam: uplift is the engineer's",
            )
        dimension = "force" if load.shape == "point" else "line_load"
        spread = held.most_spread_steel if steel else held.most_spread
        limit, worst = held.most_point if load.shape == "point" else spread, max(load.value, load.end_value)
        if worst > limit:
            raise OutOfScope(
                HOUSE_LOADS.at(editions),
                f"a {load.case} load of {in_words(worst, dimension, code)} is no load of a house: "
                f"at most {in_words(limit, dimension, code)} are covered",
            )
    if not question.self_weight and not any(load.value or load.end_value for load in question.loads):
        raise InputError("loads", "none", "at least one load that is not zero, or the self weight")
