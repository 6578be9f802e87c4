"""The words of the survey: kinds of evidence and what can be seen of each.

Pure data. Each observation has one role towards the question "does this wall carry load":

- `bears`: a load was seen to arrive on the wall;
- `suggests`: it points at bearing without showing the load itself;
- `clears`: one of the pieces that all have to be there before nothing is found that bears;
- `neutral`: worth keeping, moves nothing.

Grading of the evidence follows public inspection guidance and is our own reading of it: common practice.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Role = Literal["bears", "suggests", "clears", "neutral"]
How = Literal["direct", "instrument", "drawing", "inferred"]

HOWS: dict[str, str] = {
    "direct": "seen directly",
    "instrument": "by instrument",
    "drawing": "from a drawing",
    "inferred": "inferred",
}

#: Levels as seen from the wall, from the ground up.
LEVELS: dict[str, str] = {
    "below": "below the wall",
    "this": "at the wall itself",
    "above_1": "the floor above",
    "above_2": "two floors above",
    "above_3": "three floors above",
    "roof": "ceiling and roof",
}
FLOORS_ABOVE: tuple[str, ...] = ("above_1", "above_2", "above_3")
ABOVE: tuple[str, ...] = (*FLOORS_ABOVE, "roof")


def levels_above(floors_above: int) -> tuple[str, ...]:
    """The levels that stand over a wall with this many storeys above its own; the roof is always one."""
    if not 0 <= floors_above <= len(FLOORS_ABOVE):
        raise ValueError(f"floors above: read {floors_above}; accepted is 0 to {len(FLOORS_ABOVE)}.")
    return (*FLOORS_ABOVE[:floors_above], "roof")


@dataclass(frozen=True)
class Observation:
    """One thing that can be seen of a kind of evidence. `said` completes a sentence about it."""

    name: str
    title: str
    role: Role
    said: str


@dataclass(frozen=True)
class Kind:
    """A kind of evidence, the levels where it can be found, and what can be seen."""

    name: str
    title: str
    levels: tuple[str, ...]
    observations: tuple[Observation, ...]
    help: str = ""

    def observation(self, name: str) -> Observation:
        """The observation of that name. Raises KeyError when the kind has no such one."""
        for observation in self.observations:
            if observation.name == name:
                return observation
        raise KeyError(name)


_UNSEEN = Observation("unseen", "Could not be seen", "neutral", "could not be seen")

KINDS: tuple[Kind, ...] = (
    Kind(
        "joist_direction",
        "Joist or truss direction above",
        ABOVE,
        (
            Observation("across", "Run across the wall", "suggests", "joists or trusses run across the wall"),
            Observation(
                "mixed",
                "Change direction or run at an angle",
                "suggests",
                "joists change direction or run at an angle over the wall",
            ),
            Observation("parallel", "Run along the wall", "clears", "joists run along the wall"),
            Observation(
                "clear_span",
                "Cross the wall but span clear from support to support elsewhere",
                "clears",
                "the framing spans clear between supports elsewhere and passes over the wall",
            ),
            _UNSEEN,
        ),
        "Look in the attic, at an open ceiling or through a small hole, not at floor boards alone.",
    ),
    Kind(
        "splice",
        "Joist splice or lap over the wall",
        ABOVE,
        (
            Observation(
                "lap", "Joists lap or are spliced over the wall", "bears", "joists lap over the wall"
            ),
            Observation("ends", "Joists end on the wall", "bears", "joists end on the wall"),
            Observation(
                "none", "No splice, joists run on unbroken", "clears", "joists run on over the wall unbroken"
            ),
            _UNSEEN,
        ),
    ),
    Kind(
        "roof_framing",
        "Roof shape and framing type",
        ("roof",),
        (
            Observation(
                "struts_to_wall",
                "Struts or braces come down to the wall",
                "bears",
                "roof struts come down to the wall",
            ),
            Observation(
                "interior_bearing_trusses",
                "Trusses with an interior bearing on the wall",
                "bears",
                "trusses take an interior bearing on the wall",
            ),
            Observation(
                "clear_span_trusses",
                "Trusses that span clear from outside wall to outside wall",
                "clears",
                "trusses span clear from outside wall to outside wall",
            ),
            Observation(
                "rafters_ridge",
                "Rafters with a ridge, no strut down to the wall",
                "neutral",
                "rafters meet at a ridge with no strut down to the wall",
            ),
            _UNSEEN,
        ),
    ),
    Kind(
        "stacked",
        "Wall or post stacked above",
        ABOVE,
        (
            Observation(
                "wall", "A wall stands on the line above", "bears", "a wall stands on the line of this one"
            ),
            Observation(
                "post", "A post stands on the line above", "bears", "a post stands on the line of this wall"
            ),
            Observation(
                "none", "Nothing stands on the line above", "clears", "nothing stands on the line of the wall"
            ),
            _UNSEEN,
        ),
    ),
    Kind(
        "point_load",
        "Point load from a header, girder or girder truss above",
        ABOVE,
        (
            Observation("header", "A header bears on the wall", "bears", "a header bears on the wall"),
            Observation(
                "girder", "A girder or beam bears on the wall", "bears", "a girder bears on the wall"
            ),
            Observation(
                "girder_truss",
                "A girder truss bears on the wall",
                "bears",
                "a girder truss bears on the wall",
            ),
            Observation(
                "landing",
                "A stair or landing hangs on the wall",
                "bears",
                "a stair or landing hangs on the wall",
            ),
            Observation(
                "none",
                "No point load comes down on the wall",
                "clears",
                "no point load comes down on the wall",
            ),
            _UNSEEN,
        ),
    ),
    Kind(
        "support_below",
        "Beam, wall or line of posts below",
        ("below",),
        (
            Observation("beam", "A beam runs below", "suggests", "a beam runs below the wall"),
            Observation("wall", "A wall stands below", "suggests", "a wall stands below the wall"),
            Observation(
                "posts", "A line of posts stands below", "suggests", "a line of posts stands below the wall"
            ),
            Observation("none", "Nothing stands below", "clears", "no support stands below the wall"),
            Observation(
                "explained",
                "A support below that belongs to something else (say what in the note)",
                "clears",
                "the support below belongs to something else",
            ),
            Observation("on_slab", "The wall stands on a slab", "neutral", "the wall stands on a slab"),
            _UNSEEN,
        ),
    ),
    Kind(
        "offset",
        "Measured offset from the line of support below",
        ("below",),
        (
            Observation(
                "on_line",
                "Stands over the support",
                "suggests",
                "measured, the wall stands over a support below",
            ),
            Observation(
                "off_line",
                "Stands off the support",
                "neutral",
                "measured, the wall stands off a support below: a defect, not a sign that it carries nothing",
            ),
        ),
        "Measure from the same outside face on both levels.",
    ),
    Kind(
        "short_span",
        "Direction of the short span of the space",
        ("this",),
        (
            Observation(
                "across",
                "The short way of the space crosses the wall",
                "suggests",
                "the short way of the space crosses the wall, and joists usually run the short way",
            ),
            Observation(
                "along",
                "The short way of the space runs along the wall",
                "neutral",
                "the short way of the space runs along the wall, which by itself clears nothing",
            ),
        ),
    ),
    Kind(
        "plans",
        "Plans from an archive or builder",
        ("this",),
        (
            Observation(
                "shows_bearing",
                "Plans show the wall as bearing",
                "suggests",
                "plans show the wall as bearing",
            ),
            Observation(
                "shows_partition",
                "Plans show the wall as a partition",
                "neutral",
                "plans show the wall as a partition, which clears nothing until each part is confirmed on site",
            ),
            Observation("not_found", "No plans found", "neutral", "no plans were found"),
        ),
        "What a plan shows of joists, trusses or supports is entered under that kind, obtained from a drawing.",
    ),
    Kind(
        "bracing",
        "Bracing or shear-wall duty",
        ("this",),
        (
            Observation(
                "seen",
                "Sheathing, let-in bracing, straps or hold-downs seen",
                "suggests",
                "bracing shows on the wall (sheathing, let-in brace, strap or hold-down)",
            ),
            Observation("none", "No bracing seen", "neutral", "no bracing shows on the wall"),
        ),
    ),
    Kind(
        "foundation",
        "Foundation thickening or pads below",
        ("below",),
        (
            Observation(
                "thickened",
                "A thickened slab or strip below",
                "suggests",
                "the slab is thickened below the wall",
            ),
            Observation("pads", "Pads below", "suggests", "pads stand below the wall"),
            Observation(
                "none", "No thickening and no pad below", "clears", "the slab is not thickened below the wall"
            ),
            _UNSEEN,
        ),
    ),
)

KIND_BY_NAME: dict[str, Kind] = {kind.name: kind for kind in KINDS}


@dataclass(frozen=True)
class Evidence:
    """One finding as the verdict reads it. `ref` names the row it came from."""

    kind: str
    observation: str
    how: How
    level: str
    full_length: bool = False
    confirmed_on_site: bool = False
    note: str = ""
    ref: str = ""

    def __post_init__(self) -> None:
        kind = KIND_BY_NAME.get(self.kind)
        if kind is None:
            raise ValueError(f"kind: read {self.kind!r}; accepted is one of {', '.join(KIND_BY_NAME)}.")
        names = [observation.name for observation in kind.observations]
        if self.observation not in names:
            raise ValueError(
                f"observation: read {self.observation!r}; accepted is one of {', '.join(names)}."
            )
        if self.level not in kind.levels:
            raise ValueError(f"level: read {self.level!r}; accepted is one of {', '.join(kind.levels)}.")
        if self.how not in HOWS:
            raise ValueError(f"how: read {self.how!r}; accepted is one of {', '.join(HOWS)}.")

    @property
    def role(self) -> Role:
        """What the observation does to the verdict."""
        return KIND_BY_NAME[self.kind].observation(self.observation).role

    @property
    def adverse(self) -> bool:
        """True when it points at the wall carrying load, however strongly."""
        return self.role in ("bears", "suggests")

    @property
    def seen(self) -> bool:
        """Direct sight, an instrument, or a drawing confirmed on site: good enough to show that a load arrives."""
        return self.how in ("direct", "instrument") or (self.how == "drawing" and self.confirmed_on_site)

    @property
    def can_clear(self) -> bool:
        """Direct sight or a drawing confirmed on site, over the whole wall: good enough to help clear it."""
        obtained = self.how == "direct" or (self.how == "drawing" and self.confirmed_on_site)
        return obtained and self.full_length and (self.observation != "explained" or bool(self.note.strip()))

    @property
    def sentence(self) -> str:
        """The finding as a sentence, with where and how."""
        said = KIND_BY_NAME[self.kind].observation(self.observation).said
        how = HOWS[self.how]
        if self.how == "drawing":
            how += ", confirmed on site" if self.confirmed_on_site else ", not confirmed on site"
        extent = "over the full length" if self.full_length else "over part of the length"
        where = "" if self.level in ("this", "below") else f" at {LEVELS[self.level]}"
        text = f"{said}{where} ({how}, {extent})."
        return text[0].upper() + text[1:]

    def as_data(self) -> dict[str, object]:
        """Plain data for a snapshot."""
        return {
            "kind": self.kind,
            "observation": self.observation,
            "how": self.how,
            "level": self.level,
            "full_length": self.full_length,
            "confirmed_on_site": self.confirmed_on_site,
            "note": self.note,
            "ref": self.ref,
        }
