"""From a reaction to the soil, link by link. Pure data in and out.

A reaction of the new beam is followed down through bearing, post, plates, the floor cavity, whatever
stands below, pad and soil. A link that nobody named is found and named: the chain is then broken, and
a broken chain blocks the engineering package. An existing beam, wall or pad that receives the new
load without a check of its own is a question to the engineer, and never a pass.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from structure.core.clauses import ClauseRef, Editions
from structure.core.codes.house import HOUSE
from structure.core.codes.us import irc
from structure.core.errors import InputError
from structure.core.trace import Check, Step, formula
from structure.core.units import in_words, quantity


class LinkKind(StrEnum):
    """What a load can pass through on its way down."""

    BEAM = "beam"
    BEARING = "bearing"
    HANGER = "hanger"
    POST = "post"
    PLATE = "plate"
    FLOOR_CAVITY = "floor_cavity"
    POST_BELOW = "post_below"
    WALL_BELOW = "wall_below"
    BEAM_BELOW = "beam_below"
    FOUNDATION_WALL = "foundation_wall"
    FOOTING_BELOW = "footing_below"
    SLAB = "slab"
    PAD = "pad"
    SOIL = "soil"


class State(StrEnum):
    """What is known of a link, and so of a chain, from good to bad."""

    PASSES = "passes"
    PROVIDED = "provided"
    QUESTION = "question"
    FAILS = "fails"
    MISSING = "missing"


K = LinkKind
_VERTICAL = (K.POST_BELOW, K.WALL_BELOW, K.BEAM_BELOW, K.FOUNDATION_WALL)
# What may carry each link. A slab stands nowhere in it: a slab on grade is no footing.
CARRIED_BY: Mapping[LinkKind, tuple[LinkKind, ...]] = {
    K.BEAM: (K.BEARING, K.HANGER),
    K.BEARING: (K.POST, K.WALL_BELOW, K.FOUNDATION_WALL, K.POST_BELOW),
    K.HANGER: (K.POST, K.BEAM_BELOW),
    K.POST: (K.PLATE, K.PAD),
    K.PLATE: (K.PAD, K.FLOOR_CAVITY, K.FOUNDATION_WALL, K.FOOTING_BELOW),
    K.FLOOR_CAVITY: _VERTICAL,
    K.POST_BELOW: (K.PLATE, K.PAD, K.FOOTING_BELOW),
    K.WALL_BELOW: (K.PLATE, K.FLOOR_CAVITY, K.FOUNDATION_WALL, K.FOOTING_BELOW),
    K.BEAM_BELOW: (K.BEARING, K.POST_BELOW, K.WALL_BELOW, K.FOUNDATION_WALL),
    K.FOUNDATION_WALL: (K.FOOTING_BELOW,),
    K.FOOTING_BELOW: (K.SOIL,),
    K.PAD: (K.SOIL,),
    K.SLAB: (),
    K.SOIL: (),
}
NAMES: Mapping[LinkKind, str] = {
    K.BEAM: "the new beam",
    K.BEARING: "the bearing of the beam",
    K.HANGER: "the hanger or hidden connection of the beam",
    K.POST: "the post",
    K.PLATE: "the plate under the post",
    K.FLOOR_CAVITY: "solid blocking through the floor cavity (squash blocks)",
    K.POST_BELOW: "the post below",
    K.WALL_BELOW: "the wall below",
    K.BEAM_BELOW: "the beam below",
    K.FOUNDATION_WALL: "the foundation wall",
    K.FOOTING_BELOW: "the footing below",
    K.SLAB: "the slab",
    K.PAD: "the pad",
    K.SOIL: "the soil",
}
# These are put in by rule or by the maker's load, and need no size of ours; the rest needs a check.
_PROVIDED = frozenset({K.PLATE, K.FLOOR_CAVITY, K.HANGER})
# An existing one of these may end a chain as a question: nobody can look past it from above.
_LAST_QUESTIONS = frozenset({K.BEAM_BELOW, K.PAD, K.FOOTING_BELOW})


@formula("P", "R + E", unit="lbf", clause=irc.COMPLETE_LOAD_PATH, R="lbf", E="lbf")
def with_existing(R: float, E: float) -> float:
    """Load of one case on a link that was loaded before. IRC R301.1.

    R: new reaction, E: what the link carries already [lbf]. [lbf].
    """
    return R + E


@dataclass(frozen=True, slots=True)
class Duty:
    """Demand against capacity of one link, as a report shows it: quantities with their units."""

    name: str
    ratio: float
    passes: bool
    demand: Mapping[str, Any] | None = None
    capacity: Mapping[str, Any] | None = None
    combination: str = ""
    clause: str = ""
    steps: tuple[Step, ...] = ()

    @classmethod
    def of(cls, check: Check, code: str = "us") -> Duty:
        """From a check of the engine."""
        return cls(
            check.name,
            check.ratio,
            check.passes,
            quantity(check.demand, check.dimension, code),
            quantity(check.capacity, check.dimension, code),
            check.combination,
            str(check.clause),
        )

    @classmethod
    def from_result(cls, result: Mapping[str, Any], name: str = "") -> Duty:
        """From a member's result as plain data: the check of that name, else the governing one."""
        held = result["checks"][name or result["governing"]]
        return cls(
            name or str(result["governing"]),
            float(held["ratio"]),
            bool(held["passes"]),
            held.get("demand"),
            held.get("capacity"),
            str(held.get("combination", "")),
            str(held.get("clause", "")),
        )

    def as_data(self) -> dict[str, Any]:
        return {
            "name": self.name,
            "demand": self.demand,
            "capacity": self.capacity,
            "ratio": self.ratio,
            "passes": self.passes,
            "combination": self.combination,
            "clause": self.clause,
            "steps": [step.as_data() for step in self.steps],
        }


@dataclass(frozen=True, slots=True)
class Link:
    """One link as it is known: its governing check if there is one, or that it is provided.

    `carries`: what an existing link carries already, by case [lbf]; its check must count it too.
    """

    kind: LinkKind
    mark: str = ""
    title: str = ""
    existing: bool = False
    check: Duty | None = None
    provided: bool = False
    note: str = ""
    carries: Mapping[str, float] = field(default_factory=dict)

    @property
    def name(self) -> str:
        words = self.title or NAMES[self.kind]
        return f"{words} {self.mark}".strip()

    @property
    def state(self) -> State:
        """An existing beam under a new load is a question even where a check was tried."""
        if self.check is not None and not self.check.passes:
            return State.FAILS
        if self.existing and self.kind is K.BEAM_BELOW:
            return State.QUESTION
        if self.check is not None:
            return State.PASSES
        if self.existing:
            return State.QUESTION
        return State.PROVIDED if self.provided and self.kind in _PROVIDED else State.MISSING

    def as_data(self, code: str = "us") -> dict[str, Any]:
        return {
            "kind": self.kind.value,
            "mark": self.mark,
            "name": self.name,
            "existing": self.existing,
            "state": self.state.value,
            "note": self.note,
            "carries": {case: quantity(value, "force", code) for case, value in self.carries.items()},
            "check": None if self.check is None else self.check.as_data(),
        }


@dataclass(frozen=True, slots=True)
class Chain:
    """One reaction [lbf by case] and the links that take it down, missing ones put in their place."""

    mark: str
    reaction: Mapping[str, float]
    links: tuple[Link, ...]
    missing: tuple[str, ...]
    questions: tuple[str, ...]
    fails: tuple[str, ...]
    clause: ClauseRef
    code: str = "us"

    @property
    def complete(self) -> bool:
        """Whether every link down to the soil, or to a question, is named and provided."""
        return not self.missing

    @property
    def blocks_package(self) -> bool:
        """A chain with a missing link is an error: no engineering package without it."""
        return bool(self.missing)

    @property
    def state(self) -> State:
        if self.missing:
            return State.MISSING
        if self.fails:
            return State.FAILS
        return State.QUESTION if self.questions else State.PASSES

    def as_data(self) -> dict[str, Any]:
        """The result of the `loadpath` kind."""
        return {
            "mark": self.mark,
            "reaction": {case: quantity(value, "force", self.code) for case, value in self.reaction.items()},
            "state": self.state.value,
            "passes": self.state is State.PASSES,
            "complete": self.complete,
            "blocks_package": self.blocks_package,
            "links": [link.as_data(self.code) for link in self.links],
            "missing": list(self.missing),
            "questions": list(self.questions),
            "fails": list(self.fails),
            "clause": str(self.clause),
        }


def follow(*, mark: str, reaction: Mapping[str, float], links: Sequence[Link], editions: Editions) -> Chain:
    """Follow one reaction down the links given from the top, to the soil. IRC R301.1, NBC 9.4.1.1.

    Gaps are filled with the missing links that the way down needs. The chain may end at an existing
    beam below, which is a question to the engineer with all that stands under it. Raises InputError
    for no links, or links in an order that no load can take.
    """
    if not links:
        raise InputError("links", None, "at least one link, from the beam down")
    whole = _filled(links)
    missing, questions, fails = [], [], []
    for link in whole:
        if link.state is State.MISSING:
            missing.append(f"{mark}: {link.name} is missing{_why(link)}.")
        elif link.state is State.QUESTION:
            questions.append(_question(mark, link, reaction, editions.code))
        elif link.state is State.FAILS and link.check is not None:
            fails.append(f"{mark}: {link.name} fails in {link.check.name} at {link.check.ratio:.2f}.")
    return Chain(
        mark,
        dict(reaction),
        whole,
        tuple(missing),
        tuple(questions),
        tuple(fails),
        HOUSE[editions.code].load_path.at(editions),
        editions.code,
    )


def _filled(links: Sequence[Link]) -> tuple[Link, ...]:
    whole: list[Link] = []
    for n, link in enumerate(links):
        if whole:
            between = _between(whole[-1].kind, link.kind)
            if between is None:
                raise InputError(
                    f"links[{n}].kind",
                    f"{link.kind.value} under {whole[-1].kind.value}",
                    "links in the order in which the load goes down",
                )
            whole += [Link(kind) for kind in between]
        if link.kind is K.SLAB:
            whole += [Link(K.PAD, note="a slab on grade is no footing: the post needs a pad of its own")]
            return (*whole, Link(K.SOIL))
        whole.append(link)
    last = whole[-1]
    asked = last.existing and last.state in (State.QUESTION, State.FAILS)
    ends = last.kind is K.SOIL or (last.kind in _LAST_QUESTIONS and asked)
    if not ends:
        whole += [Link(kind) for kind in (*(_between(last.kind, K.SOIL) or ()), K.SOIL)]
    return tuple(whole)


def _between(above: LinkKind, below: LinkKind) -> tuple[LinkKind, ...] | None:
    """The fewest links that let a load pass from one kind to another; None if none can."""
    if below is K.SLAB:
        below = K.PAD
    ways: deque[tuple[LinkKind, tuple[LinkKind, ...]]] = deque([(above, ())])
    seen = {above}
    while ways:
        kind, taken = ways.popleft()
        for under in CARRIED_BY[kind]:
            if under is below:
                return taken
            if under not in seen:
                seen.add(under)
                ways.append((under, (*taken, under)))
    return None


def _why(link: Link) -> str:
    if link.note:
        return f" ({link.note})"
    return "" if link.kind in _PROVIDED else ", or has no check"


def _question(mark: str, link: Link, reaction: Mapping[str, float], code: str) -> str:
    total = in_words(sum(reaction.values()), "force", code)
    what = f"existing, receives the new load of {mark} ({total} of all cases together)"
    if link.carries:
        carried = in_words(sum(link.carries.values()), "force", code)
        what += f" on top of the {carried} that it carries already"
    if link.kind is K.BEAM_BELOW:
        return f"{link.name}: {what}. Can it, its bearings and what stands under them carry it?"
    if link.kind in _LAST_QUESTIONS:
        return f"{link.name}: {what}. Can it and the soil under it carry it?"
    return f"{link.name}: {what}. Can it carry it?"


@dataclass(frozen=True, slots=True)
class Below:
    """One storey under the post: whether its floor cavity is blocked, and what stands there.

    `support` None means that nobody has looked; the chain then lacks it.
    """

    support: LinkKind | None
    blocked: bool = False
    mark: str = ""
    title: str = ""
    existing: bool = True
    check: Duty | None = None
    carries: Mapping[str, float] = field(default_factory=dict)
    blocks: Duty | None = None


def post_links(
    *,
    beam: Link,
    bearing: Link,
    post: Link,
    plate: bool,
    storeys: Iterable[Below] = (),
    pad: Link | None = None,
    soil: Duty | None = None,
) -> list[Link]:
    """The usual way down: beam, bearing, post, plate, each storey below, pad and soil.

    What is absent is left out, so that `follow` names it as missing.
    """
    links = [beam, bearing, post]
    if plate:
        links.append(Link(K.PLATE, provided=True))
    for storey in storeys:
        if storey.support not in (K.PAD, K.SLAB):
            links.append(Link(K.FLOOR_CAVITY, check=storey.blocks, provided=storey.blocked))
        if storey.support is None:
            return links
        links.append(
            Link(
                storey.support,
                storey.mark,
                storey.title,
                storey.existing,
                storey.check,
                carries=storey.carries,
            )
        )
    if pad is not None:
        links.append(pad)
        if soil is not None:
            links.append(Link(K.SOIL, check=soil))
    return links
