"""What a section may say of the house, the beam and the lumber, in words."""

from __future__ import annotations

from django.db import models


class Shape(models.TextChoices):
    """House shapes that a starting guess exists for."""

    BUNGALOW = "bungalow", "One storey, rafters and ceiling joists on the wall"
    BUNGALOW_TRUSS = "bungalow_truss", "One storey under clear-span trusses"
    TWO_STOREY = "two_storey", "Two storeys, wall on the ground floor, roof on the wall"
    TWO_STOREY_TRUSS = "two_storey_truss", "Two storeys, wall on the ground floor, clear-span trusses"
    UPPER = "upper", "Wall on the top floor of two, rafters and ceiling joists on it"
    THREE_LEVEL = "three_level", "Two floors and a roof over the wall"
    BASEMENT = "basement", "Basement wall or beam line under two storeys"


class Mounting(models.TextChoices):
    DROPPED = "dropped", "Dropped: joists sit on top"
    FLUSH = "flush", "Flush: joists in hangers, ceiling stays flat"


class Below(models.TextChoices):
    SLAB = "slab", "Slab on ground"
    CRAWL = "crawl", "Crawl space"
    BASEMENT = "basement", "Basement"


class Way(models.TextChoices):
    """How the load of each post goes on under this floor, in the words of the engine."""

    UNKNOWN = "unknown", "Nobody has looked yet"
    NEW_POST = "new_post", "A new wood post on a pad of its own"
    STATED_POST = "stated_post", "An adjustable or pipe post on a pad of its own"
    EXISTING_WALL = "existing_wall", "A wall that is there"
    EXISTING_BEAM = "existing_beam", "A beam that is there"


class TopEdge(models.TextChoices):
    """What holds the top edge of the beam against moving sideways."""

    FRAMED = "framed", "As the joists meet it: all along where they cross it, else its ends"
    ENDS = "ends", "Only its two ends"
    EVERY = "every", "At a distance, given below"


class PadKind(models.TextChoices):
    PLAIN = "plain", "Plain concrete"
    BARS = "bars", "With bars both ways"


class PostKind(models.TextChoices):
    """What new posts are made of; steel in the words of the engine."""

    WOOD = "wood", "Wood"
    PIPE = "pipe", "Steel pipe"
    HSS = "hss", "Steel tube, square"


class SoilFrom(models.TextChoices):
    PRESUMPTIVE = "presumptive", "presumed from the kind of soil"
    INVESTIGATION = "investigation", "a soils investigation"


class SnowRule(models.TextChoices):
    """By what a Canadian roof takes its snow from the ground."""

    PART_9 = "part9", "Part 9, 9.4.2.2.: small light-frame roofs"
    PART_4 = "part4", "Part 4, 4.1.6.2.: by slope and shape"


# Plies, thickness of one and depth of what a yard keeps for shoring.
HEADERS = {
    "2-2x6": (2, "1.5 in", "5.5 in"),
    "2-2x8": (2, "1.5 in", "7.25 in"),
    "2-2x10": (2, "1.5 in", "9.25 in"),
    "2-2x12": (2, "1.5 in", "11.25 in"),
    "3-2x10": (3, "1.5 in", "9.25 in"),
    "3-2x12": (3, "1.5 in", "11.25 in"),
}
SHORES = {
    "2x4": (1, "1.5 in", "3.5 in"),
    "2-2x4": (2, "1.5 in", "3.5 in"),
    "2x6": (1, "1.5 in", "5.5 in"),
    "4x4": (1, "3.5 in", "3.5 in"),
}
SILLS = {
    "2x6": (1, "1.5 in", "5.5 in"),
    "2x8": (1, "1.5 in", "7.25 in"),
    "2x10": (1, "1.5 in", "9.25 in"),
    "2x12": (1, "1.5 in", "11.25 in"),
}
