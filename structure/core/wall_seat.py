"""How the end of the beam stands on its post: turned or not, and whether wood or web is crushed there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Protocol

from structure.core.clauses import Editions
from structure.core.materials.flitch import FlitchSection
from structure.core.materials.rolled import RolledSection
from structure.core.materials.section import Section
from structure.core.members.bearing import BearingQuestion, check_bearing
from structure.core.members.ca_bearing import CaBearingQuestion, check_ca_bearing
from structure.core.members.checkdata import worst
from structure.core.members.steel_web_bearing import check_steel_bearing
from structure.core.trace import Check


@dataclass(frozen=True, slots=True)
class Seat:
    """How a beam stands on a post: the length along the beam and the width across it.

    `capped`: on a plate that is welded to a steel post, as long and as wide as the beam needs.
    """

    along: float
    across: float
    turned: bool
    capped: bool = False


class _Answer(Protocol):
    def as_data(self) -> dict[str, Any]: ...


@dataclass(frozen=True, slots=True)
class SeatBearing:
    """The end of the beam on its seat: the check that governs, what it bears with, and the whole answer."""

    check: Check
    width: float
    required_length: float
    answer: _Answer

    @property
    def passes(self) -> bool:
        return self.check.passes

    def as_data(self) -> dict[str, Any]:
        """The result of the `bearing` kind."""
        return self.answer.as_data()


def seat_of(post: Section, beam: Section, bearing: float) -> Seat | None:
    """Plies along the wall if the post is deep enough for the beam, else turned; None if neither holds it.

    A steel post has a cap plate over the whole `bearing` of the beam's end.
    """
    if post.material == "steel":
        return Seat(bearing, beam.breadth, turned=False, capped=True)
    room = 1e-9
    if post.depth >= beam.breadth - room:
        return Seat(post.breadth, post.depth, turned=False)
    if post.breadth >= beam.breadth - room:
        return Seat(post.depth, post.breadth, turned=True)
    return None


def seat_bearing(beam: Section, seat: Seat, loads: Mapping[str, float], editions: Editions) -> SeatBearing:
    """The end of a beam crushed on its seat: wood across the grain (NDS 3.10), or a web (AISC 360 J10).

    The plates of a flitch beam stop short of its bearings, so its wood stands alone. `loads` by case. In Canada
    CSA O86 6.5.6, and CSA S16 14.3.
    Raises OutOfScope for a round tube, and for uplift.
    """
    if isinstance(beam, RolledSection):
        web = check_steel_bearing(beam, seat.along, 0.0, loads, editions)
        return SeatBearing(worst(web.checks), beam.breadth, web.required, web)
    if editions.code == "ca":
        return _canadian(beam, seat, loads, editions)
    wood = beam.wood if isinstance(beam, FlitchSection) else beam
    held = check_bearing(
        BearingQuestion(
            F_c_perp=wood.reference.value("Fc_perp"),
            width=wood.breadth,
            length=seat.along,
            loads=loads,
            material=beam.label,
        ),
        editions,
    )
    return SeatBearing(held.check, wood.breadth, held.required_length, held)


def _canadian(beam: Section, seat: Seat, loads: Mapping[str, float], editions: Editions) -> SeatBearing:
    """Wood across the grain; K_Zcp is 1, since a beam stands on edge. CSA O86 6.5.6.4."""
    held = check_ca_bearing(
        CaBearingQuestion(
            fcp=beam.reference.value("fcp"),
            width=beam.breadth,
            length=seat.along,
            loads=loads,
            material=beam.label,
        ),
        editions,
    )
    return SeatBearing(held.check, beam.breadth, held.required_length, held)
