"""How many nails or bolts hold plies together, counted from the fastening rule."""

from __future__ import annotations

import math
from dataclasses import dataclass

from estimating.core.lines import Rule
from estimating.core.schedule import Fasteners
from estimating.core.sections import Section
from structure.core.members.post_fastening import COMMON_NAILS

STEEL_LB_PER_IN3 = 0.2836  # steel, 490 lb/ft3
BOLT_IN = 0.5


@dataclass(frozen=True, slots=True)
class Fastening:
    """A count of one fastener with the rule that gave it. `pounds` is the weight of a nail."""

    kind: str
    name: str
    count: int
    rule: Rule
    pounds: float = 0.0


def nail_for(penetration: float) -> tuple[str, float, float] | None:
    """The shortest common nail at least `penetration` inches long; None if no common nail is."""
    return next((nail for nail in COMMON_NAILS if nail[1] >= penetration - 1e-9), None)


def nail_pounds(length: float, diameter: float) -> float:
    """Weight of a wire nail taken as a plain cylinder of steel, in pounds."""
    return math.pi / 4 * diameter**2 * length * STEEL_LB_PER_IN3


def in_row(length: float, end: float, spacing: float) -> int:
    """Fasteners in a row: one at each end distance and no gap wider than the spacing (inches)."""
    return math.ceil(round(max(length - 2 * end, 0.0) / spacing, 9)) + 1


def post_fastening(section: Section, height: float, fastening: str, code: str) -> Fastening | None:
    """Fasteners of one built-up post; None for a single ply.

    US: NDS 2018 15.3.3 (nails through all plies and three quarters into the last, spacing at most six
    times the thinnest ply, end distance 15 to 18 diameters, two rows where the depth is over three times
    the thinnest ply) and 15.3.4 (bolts). Canada: NBC 9.17.4.2, 76 mm nails at 300 mm or 9.52 mm bolts at
    450 mm.
    """
    if section.plies < 2:
        return None
    thin, rows = section.ply_width, 2 if section.depth > 3 * section.ply_width else 1
    if code == "ca":
        return _post_ca(section, height, fastening)
    nail = nail_for(thin * (section.plies - 1) + 0.75 * thin)
    if fastening == "nailed" and nail is not None:
        name, length, diameter = nail
        count = rows * in_row(height, 18 * diameter, 6 * thin)
        text = (
            f"{rows} row(s) of {name} common nails through all plies and three quarters into the last,"
            f" at most"
            f" {6 * thin:g} in apart (six times the thinnest ply), from alternate faces"
        )
        return Fastening(
            "nail",
            f"{name} common nail",
            count,
            Rule(text, "NDS 2018 15.3.3, memory"),
            nail_pounds(length, diameter),
        )
    count = rows * in_row(height, 8.4 * BOLT_IN, 6 * thin)
    text = f"{rows} row(s) of 1/2 in bolts at most {6 * thin:g} in apart (six times the thinnest ply)"
    if fastening == "nailed":
        text += "; no common nail is long enough for these plies"
    return Fastening("bolt", "1/2 in bolt", count, Rule(text, "NDS 2018 15.3.4, memory"))


def _post_ca(section: Section, height: float, fastening: str) -> Fastening:
    source = "NBC 9.17, restated in a provincial edition"
    if fastening == "nailed":
        count = in_row(height, 6.0, 300 / 25.4) * (section.plies - 1)
        rule = Rule("76 mm nails at 300 mm through each added ply", source)
        return Fastening("nail", "76 mm nail", count, rule, nail_pounds(76 / 25.4, 0.128))
    count = in_row(height, 6.0, 450 / 25.4)
    return Fastening("bolt", "9.52 mm bolt", count, Rule("9.52 mm bolts at 450 mm through all plies", source))


def counted_fastening(held: Fasteners) -> Fastening:
    """What the engine's rule counted for the plies of a beam, as the schedule carries it."""
    text = f"{held.rows} rows at {held.spacing:g} in in each joint, as the ply fastening rule counts them"
    rule = Rule(text, held.source)
    pounds = nail_pounds(held.length or 0.0, held.diameter) if held.kind == "nail" else 0.0
    return Fastening(held.kind, held.name, held.count, rule, pounds)


def beam_fastening(section: Section, length: float, code: str) -> Fastening | None:
    """Nails of a built-up sawn beam; None for one ply or for an engineered beam, whose maker gives the"
    " pattern.

    US: 10d box (3 in x 0.128 in) face nails at 24 in, top and bottom, each layer, with three more at each
    end, IRC 2021 table R602.3(1). Canada: 89 mm nails in two rows at 450 mm with end nails, NBC 9.23.8.3.
    """
    if section.plies < 2 or section.family != "sawn":
        return None
    joints = section.plies - 1
    if code == "ca":
        count = joints * (2 * in_row(length, 5.0, 450 / 25.4))
        rule = Rule(
            "89 mm nails in two rows at 450 mm in each added ply, end nails 100 to 150 mm from the end",
            "NBC 9.23.8.3, restated in a provincial edition",
        )
        return Fastening("nail", "89 mm nail", count, rule, nail_pounds(89 / 25.4, 0.144))
    count = joints * (2 * in_row(length, 2.0, 24.0) + 2 * 3)
    rule = Rule(
        "10d box nails at 24 in top and bottom, staggered, in each added ply, and three more at each end",
        "IRC 2021 table R602.3(1), memory",
    )
    return Fastening("nail", "10d box nail", count, rule, nail_pounds(3.0, 0.128))
