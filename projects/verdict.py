"""What the evidence on a wall shows, what contradicts what, and where to look next.

Pure. The rule that everything here serves: a wall is treated as bearing until positive evidence, seen directly
or on a drawing confirmed on site, over its full length and on every level above, shows nothing that bears on
it, and no support below is left unexplained. Inference clears nothing. Evidence that contradicts itself clears
nothing. A large offset from the support below clears nothing. And no answer of this module says that a wall may
come out: a named person decides, and only within what the evidence allows.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from projects.evidence import LEVELS, Evidence
from projects.questions import DUTY_QUESTIONS

Outcome = Literal["bearing", "treat as bearing", "nothing found that bears"]

BEARING: Outcome = "bearing"
TREAT: Outcome = "treat as bearing"
NOTHING: Outcome = "nothing found that bears"

#: From cleared to bearing.
RANK: dict[Outcome, int] = {NOTHING: 0, TREAT: 1, BEARING: 2}


@dataclass(frozen=True)
class Conflict:
    """Findings that can not all be true, or that point both ways. They are listed, never averaged."""

    sentence: str
    refs: tuple[str, ...]
    area: str


@dataclass(frozen=True)
class Gap:
    """A piece of positive evidence that is not there. `area` is where it would be found."""

    sentence: str
    area: str


@dataclass(frozen=True)
class Look:
    """A next look: where, what it costs in effort, and which open points it would settle."""

    name: str
    title: str
    effort: str
    caution: str
    settles: tuple[str, ...]


@dataclass(frozen=True)
class Verdict:
    """The finding with its reasons. Nothing in it is a permission."""

    outcome: Outcome
    reasons: tuple[str, ...]
    conflicts: tuple[Conflict, ...]
    gaps: tuple[Gap, ...]
    next_looks: tuple[Look, ...]
    cautions: tuple[str, ...]

    @property
    def next_look(self) -> Look | None:
        """The cheapest look that settles something, if anything is open."""
        return self.next_looks[0] if self.next_looks else None

    def as_data(self) -> dict[str, object]:
        """Plain data for the record."""
        return {
            "finding": self.outcome,
            "reasons": list(self.reasons),
            "conflicts": [{"sentence": c.sentence, "refs": list(c.refs)} for c in self.conflicts],
            "missing": [gap.sentence for gap in self.gaps],
            "next_look": self.next_look.title if self.next_look else None,
            "cautions": list(self.cautions),
        }


# --- contradictions ---------------------------------------------------------------------------------

#: Observations of one kind and level that can be true together.
_TOGETHER: dict[str, tuple[frozenset[str], ...]] = {
    "splice": (frozenset({"lap", "ends"}),),
    "roof_framing": (frozenset({"rafters_ridge", "struts_to_wall"}),),
    "stacked": (frozenset({"wall", "post"}),),
    "point_load": (frozenset({"header", "girder", "girder_truss", "landing"}),),
    "support_below": (frozenset({"beam", "wall", "posts"}),),
    "foundation": (frozenset({"thickened", "pads"}),),
}
_SAYS_NOTHING = frozenset({"unseen", "not_found"})

#: Observations of different kinds that can not both be true. The last item says whether they must be on one level.
_APART: tuple[tuple[tuple[str, str], tuple[str, str], bool], ...] = (
    (("joist_direction", "parallel"), ("splice", "lap"), True),
    (("joist_direction", "parallel"), ("splice", "ends"), True),
    (("joist_direction", "clear_span"), ("splice", "lap"), True),
    (("joist_direction", "clear_span"), ("splice", "ends"), True),
    (("roof_framing", "clear_span_trusses"), ("splice", "lap"), True),
    (("roof_framing", "clear_span_trusses"), ("splice", "ends"), True),
    (("joist_direction", "parallel"), ("short_span", "across"), False),
    (("support_below", "none"), ("offset", "on_line"), False),
    (("support_below", "none"), ("offset", "off_line"), False),
    (("plans", "shows_partition"), ("splice", "lap"), False),
    (("plans", "shows_partition"), ("splice", "ends"), False),
    (("plans", "shows_partition"), ("roof_framing", "struts_to_wall"), False),
    (("plans", "shows_partition"), ("roof_framing", "interior_bearing_trusses"), False),
)


def _contradict(one: Evidence, other: Evidence) -> bool:
    """Can these two not both be true of the same stretch of wall?"""
    if _SAYS_NOTHING & {one.observation, other.observation}:
        return False
    if one.kind == other.kind:
        if one.level != other.level or one.observation == other.observation:
            return False
        pair = {one.observation, other.observation}
        return not any(pair <= together for together in _TOGETHER.get(one.kind, ()))
    named = {(one.kind, one.observation), (other.kind, other.observation)}
    return any(
        named == {first, second} and (one.level == other.level or not same_level)
        for first, second, same_level in _APART
    )


def _overlap(one: Evidence, other: Evidence) -> bool:
    """Two findings of part of the wall may describe different parts; one of the full length meets every other."""
    return one.full_length or other.full_length


def _area(evidence: Evidence) -> str:
    if evidence.kind in ("support_below", "offset", "foundation"):
        return "below"
    if evidence.level == "this":
        return "plans" if evidence.kind == "plans" else "above_1"
    return evidence.level


def _find_conflicts(evidence: Sequence[Evidence]) -> list[Conflict]:
    found = []
    for index, one in enumerate(evidence):
        for other in evidence[index + 1 :]:
            if _contradict(one, other) and _overlap(one, other):
                first, second = sorted((one.sentence, other.sentence))
                refs = tuple(sorted(ref for ref in (one.ref, other.ref) if ref))
                area = _area(one) if _area(one) != "plans" else _area(other)
                found.append(Conflict(f"{first} But: {second}", refs, area))
    return found


def _contested(item: Evidence, evidence: Sequence[Evidence]) -> bool:
    """Does well-obtained evidence of the other side contradict this?"""
    return any(
        not other.adverse and other.seen and _contradict(item, other) and _overlap(item, other)
        for other in evidence
    )


# --- what is needed to find nothing ------------------------------------------------------------------


def _clears(evidence: Sequence[Evidence], kind: str, level: str, *observations: str) -> bool:
    return any(
        item.kind == kind and item.level == level and item.observation in observations and item.can_clear
        for item in evidence
    )


def _where(level: str) -> str:
    return f"at {LEVELS[level]}"


def _framing_gaps(evidence: Sequence[Evidence], level: str) -> list[Gap]:
    along = _clears(evidence, "joist_direction", level, "parallel")
    clear = _clears(evidence, "joist_direction", level, "clear_span")
    gaps = []
    if level == "roof":
        if _clears(evidence, "roof_framing", level, "clear_span_trusses"):
            return []
        if not _clears(evidence, "roof_framing", level, "rafters_ridge"):
            gaps.append(
                Gap(
                    "The roof framing was not seen over the full length: trusses that span clear, or rafters "
                    "without a strut down to the wall.",
                    level,
                )
            )
    if not along and not clear:
        gaps.append(
            Gap(
                f"Framing {_where(level)} was not seen to run along the wall or to span clear of it, over the "
                "full length.",
                level,
            )
        )
    if clear and not along and not _clears(evidence, "splice", level, "none"):
        gaps.append(
            Gap(
                f"Framing that crosses the wall {_where(level)} was not seen to run on without a splice over the "
                "full length.",
                level,
            )
        )
    return gaps


def _gaps(evidence: Sequence[Evidence], levels: Sequence[str]) -> list[Gap]:
    gaps = []
    for level in levels:
        gaps.extend(_framing_gaps(evidence, level))
        if not _clears(evidence, "stacked", level, "none"):
            gaps.append(
                Gap(
                    f"It was not seen, over the full length, that nothing is stacked on the wall {_where(level)}.",
                    level,
                )
            )
        if not _clears(evidence, "point_load", level, "none"):
            gaps.append(
                Gap(
                    f"It was not seen, over the full length, that no point load comes down {_where(level)}.",
                    level,
                )
            )
    below_clear = _clears(evidence, "support_below", "below", "none", "explained")
    on_slab = _clears(evidence, "support_below", "below", "on_slab")
    if not below_clear and not (on_slab and _clears(evidence, "foundation", "below", "none")):
        gaps.append(
            Gap(
                "It was not seen, over the full length, that no line of support below is left unexplained"
                + (": the slab under the wall may be thickened." if on_slab else "."),
                "below",
            )
        )
    return gaps


# --- where to look ----------------------------------------------------------------------------------

_HOLE_CAUTION = (
    "Ask about asbestos and lead before making even a small hole, and keep clear of cables and pipes."
)

#: Cheapest first. Effort is common practice.
_LOOKS: tuple[tuple[str, str, str, str], ...] = (
    (
        "basement",
        "Look at the wall line from the basement or crawl space",
        "minutes with a torch, no damage",
        "",
    ),
    (
        "attic",
        "Look at the wall line from the attic",
        "half an hour at the hatch, no damage",
        "Walk on joists only; do not stir vermiculite or loose fill in an old house.",
    ),
    (
        "plans",
        "Ask the archive or the builder for the plans",
        "a request and some days, no damage",
        "A drawing counts only once what it shows is confirmed on site.",
    ),
    ("hole", "Open a small hole in the ceiling beside the wall", "an hour and a patch", _HOLE_CAUTION),
    ("engineer", "Ask an engineer to look", "a visit", ""),
)

_SETTLED_BY: dict[str, tuple[str, ...]] = {
    "below": ("basement", "plans", "engineer"),
    "roof": ("attic", "plans", "hole", "engineer"),
    "plans": ("plans", "engineer"),
}
_FLOOR_LOOKS = ("plans", "hole", "engineer")


def _tried(evidence: Iterable[Evidence]) -> set[tuple[str, str]]:
    """Looks that were made already and showed nothing, by area."""
    tried = set()
    for item in evidence:
        area = _area(item)
        if item.observation == "unseen" and item.how == "direct":
            tried.add((area, {"below": "basement", "roof": "attic"}.get(area, "hole")))
        if item.kind == "support_below" and item.observation == "on_slab":
            tried.add(("below", "basement"))
        if item.kind == "plans" and item.observation == "not_found":
            tried.update((place, "plans") for place in (*LEVELS, "plans"))
    return tried


def _next_looks(
    evidence: Sequence[Evidence], gaps: Sequence[Gap], conflicts: Sequence[Conflict]
) -> tuple[Look, ...]:
    tried = _tried(evidence)
    open_points = [(gap.area, gap.sentence) for gap in gaps]
    open_points += [(conflict.area, conflict.sentence) for conflict in conflicts]
    looks = []
    for name, title, effort, caution in _LOOKS:
        settles = tuple(
            dict.fromkeys(
                sentence
                for area, sentence in open_points
                if name in _SETTLED_BY.get(area, _FLOOR_LOOKS) and (area, name) not in tried
            )
        )
        if settles:
            looks.append(Look(name, title, effort, caution, settles))
    return tuple(looks)


# --- the verdict ------------------------------------------------------------------------------------


def _framing_passes_by(evidence: Sequence[Evidence], level: str) -> bool:
    return not _framing_gaps(evidence, level)


def _tension(evidence: Sequence[Evidence], levels: Sequence[str]) -> list[Conflict]:
    """A support below a wall that the framing above passes by is not understood yet."""
    supports = [item for item in evidence if _area(item) == "below" and item.adverse]
    if not supports or not _framing_passes_by(evidence, levels[0]):
        return []
    return [
        Conflict(
            f"{item.sentence} But: the framing {_where(levels[0])} passes the wall by, so what that support is for "
            "is not understood.",
            (item.ref,) if item.ref else (),
            "below",
        )
        for item in supports
    ]


def _shown(evidence: Sequence[Evidence], tension: bool) -> list[Evidence]:
    """Findings that show a load arriving: each on its own, or framing across the wall over a support below."""
    good = [item for item in evidence if item.adverse and item.seen and not _contested(item, evidence)]
    shown = [item for item in good if item.role == "bears"]
    across = [item for item in good if item.kind == "joist_direction" and item.observation == "across"]
    below = [item for item in good if item.kind in ("support_below", "foundation")]
    if across and below and not tension:
        shown += across + below
    return shown


def _cautions(evidence: Sequence[Evidence]) -> tuple[str, ...]:
    cautions = []
    if any(item.kind == "joist_direction" and item.observation == "parallel" for item in evidence):
        cautions.append("A wall along the joists may still carry a stacked wall, a landing or a point load.")
    if any(item.kind == "offset" and item.observation == "off_line" for item in evidence):
        cautions.append(
            "The offset from the support below is a defect to report; it does not show that the wall carries nothing."
        )
    if any(item.how == "inferred" for item in evidence):
        cautions.append("What is inferred can point at bearing; it never clears a wall.")
    if any(item.how == "drawing" and not item.confirmed_on_site for item in evidence):
        cautions.append("A drawing counts towards clearing only once what it shows is confirmed on site.")
    return tuple(cautions)


def verdict(findings: Iterable[Evidence], levels: Sequence[str] = ("roof",)) -> Verdict:
    """What these findings show of a wall with these levels above it, nearest first.

    The order of the findings makes no difference. Raises ValueError when no level is given: a wall always has
    at least a roof above it.
    """
    if not levels or levels[-1] != "roof":
        raise ValueError("levels: the levels above a wall end with the roof.")
    evidence = sorted(set(findings), key=lambda e: json.dumps(e.as_data(), sort_keys=True))
    tension = _tension(evidence, levels)
    conflicts = sorted({*_find_conflicts(evidence), *tension}, key=lambda c: (c.sentence, c.refs))
    gaps = _gaps(evidence, levels)
    adverse = [item for item in evidence if item.adverse]
    shown = _shown(evidence, bool(tension))

    if shown:
        outcome: Outcome = BEARING
        reasons = [item.sentence for item in shown]
        reasons += [item.sentence for item in adverse if item not in shown]
    elif adverse or conflicts or gaps:
        outcome = TREAT
        reasons = [item.sentence for item in adverse]
        if conflicts:
            reasons.append("The findings contradict each other, and that is not settled by weighing them.")
        if not evidence:
            reasons.append(
                "Nothing has been looked at yet, and a wall is treated as bearing until shown otherwise."
            )
        reasons += [gap.sentence for gap in gaps]
    else:
        outcome = NOTHING
        reasons = [item.sentence for item in evidence if item.can_clear]
        reasons.append(
            "Nothing was found that bears on the wall, over its full length and on every level above. That is a "
            "finding on this evidence, not a permission: a named person decides."
        )
    return Verdict(
        outcome=outcome,
        reasons=tuple(dict.fromkeys(reasons)),
        conflicts=tuple(conflicts),
        gaps=tuple(gaps),
        next_looks=_next_looks(evidence, gaps, conflicts),
        cautions=_cautions(evidence),
    )


# --- the person's decision ---------------------------------------------------------------------------


def duty_blocks(answers: Mapping[str, str]) -> tuple[str, ...]:
    """Why the duty questions keep a wall from being recorded as not bearing; empty when each is answered no."""
    blocks = []
    for question in DUTY_QUESTIONS:
        answer = answers.get(question.name, "")
        if answer == "no":
            continue
        if answer == "yes":
            blocks.append(question.yes)
        else:
            blocks.append(f"{question.title} This is not answered yet.")
    return tuple(blocks)


def not_bearing_blocks(found: Verdict, answers: Mapping[str, str]) -> tuple[str, ...]:
    """Why `not bearing` can not be recorded now; empty when a person may record it."""
    blocks = []
    if found.outcome != NOTHING:
        blocks.append(
            f"The finding is {found.outcome!r}: only {NOTHING!r} lets a wall be recorded as not bearing."
        )
    return (*blocks, *duty_blocks(answers))


def digest(findings: Iterable[Evidence], answers: Mapping[str, str], levels: Sequence[str]) -> str:
    """A fingerprint of everything the verdict and the blocks are read from; a decision is stale once it changes."""
    duties = {question.name: answers.get(question.name, "") for question in DUTY_QUESTIONS}
    rows = sorted(json.dumps(item.as_data(), sort_keys=True) for item in findings)
    text = json.dumps({"findings": rows, "answers": duties, "levels": list(levels)}, sort_keys=True)
    return hashlib.sha256(text.encode()).hexdigest()
