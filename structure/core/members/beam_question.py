"""What is asked of a beam."""

from __future__ import annotations

from dataclasses import dataclass, field

from structure.core.clauses import COMMON_PRACTICE, Clause, Editions
from structure.core.codes.us.irc import ENGINEERED_DESIGN
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.section import Section
from structure.core.statics.model import BeamLine, Load

Bracing = str | float  # "continuous", "ends" or a length in inches

MOST_SPAN = 36.0 * 12.0  # in; common practice: what a house beam of wood may span here
MOST_SPAN_STEEL = 50.0 * 12.0  # in; common practice: a steel beam comes in one piece up to this length
LEAST_SPAN = 6.0  # in
MOST_LINE_LOAD = 10_000.0 / 12.0  # lbf/in; common practice
MOST_LINE_LOAD_STEEL = 40_000.0 / 12.0  # lbf/in; common practice: what the heaviest shapes held carry
MOST_POINT_LOAD = 100_000.0  # lbf; common practice
UPLIFT = Clause("ASCE 7", "2.4.1")
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
    """What the beam bears on: the value that is crushed [psi], and its name. No C_b is counted for it."""

    F_c_perp: float
    material: str


@dataclass(frozen=True, slots=True)
class Notch:
    """A notch cut into the beam: `side` tension or compression, `at` end or interior, depth and length [in]."""

    side: str
    depth: float
    length: float
    at: str = "end"


@dataclass(frozen=True)
class BeamQuestion:
    """A beam on its supports under its loads. US: lbf, inches, psi.

    `section` may be left out for a search. `bracing` is of the top edge: `continuous`, `ends` or the distance
    between braces; `bottom_bracing` likewise of the bottom edge where it is pressed. `pattern` left out means
    patterns of live load from two spans on. `bearing` is a length for all supports or one each.
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


def check_span(told: str, span: float, editions: Editions, most: float = MOST_SPAN) -> None:
    """Raise OutOfScope for a span [in] that no preliminary house beam covers. `told` names it in the reason."""
    if not LEAST_SPAN <= span <= most:
        raise OutOfScope(
            ENGINEERED_DESIGN.at(editions),
            f"{told} of {span / 12:.4g} ft is outside the {LEAST_SPAN / 12:g} to {most / 12:g} ft "
            "that a preliminary size covers; ask the engineer",
        )


def check_range(question: BeamQuestion, editions: Editions) -> None:
    """Raise OutOfScope for spans and loads outside what house framing covers, InputError for no load."""
    line = question.line
    steel = question.section is not None and question.section.material == "steel"
    for n, span in enumerate(line.spans):
        check_span(f"span {n + 1}", span, editions, MOST_SPAN_STEEL if steel else MOST_SPAN)
    for side, overhang, span in (
        ("left", line.overhang_left, line.spans[0]),
        ("right", line.overhang_right, line.spans[-1]),
    ):
        if overhang > span:
            raise OutOfScope(
                CANTILEVER.at(editions),
                f"the {side} overhang of {overhang / 12:.4g} ft is longer than its span of {span / 12:.4g} ft",
            )
    for load in question.loads:
        if min(load.value, load.end_value) < 0:
            # No stress combination held here keeps the dead load low against what lifts (0.6D).
            raise OutOfScope(
                UPLIFT.at(editions),
                f"a {load.case} load that pulls up on the beam: uplift is the engineer's",
            )
        point = load.shape == "point"
        spread = MOST_LINE_LOAD_STEEL if steel else MOST_LINE_LOAD
        limit, worst = MOST_POINT_LOAD if point else spread, max(load.value, load.end_value)
        if worst > limit:
            unit, shown = ("lbf", 1.0) if point else ("lbf/ft", 12.0)
            raise OutOfScope(
                HOUSE_LOADS.at(editions),
                f"a {load.case} load of {worst * shown:,.0f} {unit} is no load of a house: "
                f"at most {limit * shown:,.0f} {unit} are covered",
            )
    if not question.self_weight and not any(load.value or load.end_value for load in question.loads):
        raise InputError("loads", "none", "at least one load that is not zero, or the self weight")
