"""What is asked about one whole wall: the house above, the opening, what is below, soil and lumber.

US: inches, psi, lbf; Canada: mm, MPa, N. Places along the wall are measured from the left end of the clear opening.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from structure.core.catalogue import Search
from structure.core.codes.us import concrete
from structure.core.materials.section import Section
from structure.core.members.beam_question import Bracing, Limits
from structure.core.members.footing_question import Reinforcement
from structure.core.members.shoring import ShoringQuestion
from structure.core.members.squash_blocks import BlocksQuestion
from structure.core.scope import House
from structure.core.takedown import Level
from structure.core.wall_connections import Connections, Room

Mounting = Literal["dropped", "flush"]
Ground = Literal["slab", "crawl", "basement"]
Way = Literal["new_post", "stated_post", "existing_wall", "existing_beam", "unknown"]


@dataclass(frozen=True, slots=True)
class Opening:
    """The hole that the beam spans. `headroom` is what must stay clear under the beam; None asks nothing.

    `room` is what the code's own least height is held against, whatever is asked for.
    """

    clear_width: float
    ceiling_height: float
    end_bearing: float = 4.5
    mounting: Mounting = "dropped"
    joist_depth: float = 9.25
    headroom: float | None = None
    bracing: Bracing | None = None
    room: Room = field(default_factory=Room)

    @property
    def span(self) -> float:
        """Design span: clear width and half of the bearing at each end."""
        return self.clear_width + self.end_bearing

    @property
    def beam_length(self) -> float:
        """What is cut: clear width and the whole bearing at each end."""
        return self.clear_width + 2 * self.end_bearing

    def under_beam(self, depth: float) -> float:
        """Floor to the underside of a beam of that depth: dropped under the joists, or flush with their top."""
        top = self.ceiling_height + (self.joist_depth if self.mounting == "flush" else 0.0)
        return top - depth


@dataclass(frozen=True, slots=True)
class PostLumber:
    """What posts are made of. `deepest` is the stud depth of the wall that hides them; None hides nothing.

    `steel`, pipe or hss, takes the place of lumber; the plate under a post stays of wood.
    """

    species: tuple[str, ...] = ("SPF",)
    grade: str = "Stud"
    solid: bool = False
    deepest: float | None = None
    plate_species: str = "SPF"
    plate_thickness: float = 1.5
    steel: str | None = None


@dataclass(frozen=True, slots=True)
class Stated:
    """An adjustable or pipe post by its maker's stated capacity, and the plate it stands on the pad with.

    Without a capacity it is an adjustable steel column of the National Building Code.
    """

    capacity: float | None
    source: str
    base_plate: float
    longest: float | None = None


@dataclass(frozen=True, slots=True)
class Beneath:
    """What lies under the floor that the posts stand on, and how the load goes on down there.

    `height`: pad or slab to the underside of the floor framing. `blocked`: solid blocking through the floor
    cavity is put in, and checked where `blocks` says what it is. `way` unknown means that nobody has looked: the
    load path is then broken. `carries`: what an existing wall or beam carries there already, by case [lbf].
    """

    ground: Ground
    height: float | None = None
    way: Way = "new_post"
    blocked: bool = True
    stated: Stated | None = None
    carries: Mapping[str, float] = field(default_factory=dict)
    blocks: BlocksQuestion | None = None


@dataclass(frozen=True, slots=True)
class Pads:
    """Soil, concrete and bars of the pads. `side`, `thickness` and count left out are solved; no bars is plain."""

    soil: float
    soil_source: str = ""
    soil_from: str | None = None
    net: bool = False
    f_c: float = concrete.MIN_STRENGTH
    density: float = 150.0 / 1728.0
    step: float = 2.0
    side: float | None = None
    thickness: float | None = None
    reinforcement: Reinforcement | None = None


@dataclass(frozen=True)
class WallQuestion:
    """The whole wall. `beam` is a section the user chose; without it the lightest passing one is taken."""

    levels: tuple[Level, ...]
    opening: Opening
    pads: Pads
    beneath: Beneath | None = None
    search: Search = field(default_factory=Search)
    beam: Section | None = None
    posts: PostLumber = field(default_factory=PostLumber)
    limits: Limits = field(default_factory=Limits)
    repetitive: bool = False
    shoring: ShoringQuestion | None = None
    connections: Connections = field(default_factory=Connections)
    house: House = field(default_factory=House)
    notes: Mapping[str, str] = field(default_factory=dict)
