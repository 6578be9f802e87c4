"""Fields of a beam that say what is unusual about it: treatment, notches, loads that are not sized here."""

from __future__ import annotations

from collections.abc import Sequence

from structure.core.cases.types import Choice, Field, ListOf, Quantity, Record
from structure.core.clauses import COMMON_PRACTICE, Clause, Editions
from structure.core.errors import OutOfScope

_LENGTH = Quantity("length", positive=True)

TREATED = Field(
    "treated",
    Choice(("none", "preservative", "incised", "fire_retardant")),
    default="none",
    doc="incised: C_i of NDS 4.3.8; fire retardant is refused",
)
NOTCH = Field(
    "notch",
    Record(
        (
            Field("side", Choice(("tension", "compression")), required=True),
            Field("depth", _LENGTH, required=True),
            Field("length", _LENGTH, required=True, doc="past the inner edge of the support, or inside"),
            Field("at", Choice(("end", "interior")), default="end", doc="interior: outside the middle third"),
        )
    ),
    doc="NDS 3.2.3, 3.4.3.2; refused where the clauses do not allow it",
)

_HOUSE = Clause(COMMON_PRACTICE.document, "loads of a house")
# What may stand on a beam that no preliminary size covers: the clause by code, and why.
_REFUSED = {
    "braced_wall": (
        {"us": Clause("IRC", "R602.10"), "ca": Clause("NBC", "9.23.13.")},
        "a braced wall above: its ends press and lift in wind",
    ),
    "shear_wall": (
        {"us": Clause("ASCE 7", "2.4.1"), "ca": Clause("NBC", "4.1.3.2.")},
        "a shear wall above: its ends press and lift in wind",
    ),
    "masonry": (
        {"us": Clause("IRC", "R703.8.2"), "ca": Clause("NBC", "9.20.5.1.")},
        "masonry above: wood carries it only by an engineer's design",
    ),
    "hot_tub": ({}, "a hot tub above: a heavy load on a small place"),
    "water_tank": ({}, "a water tank above: a heavy load on a small place"),
    "aquarium": ({}, "a large aquarium above: a heavy load on a small place"),
    "vehicle": ({}, "vehicles above: wheel loads"),
    "machinery": ({}, "machinery above: it shakes what it stands on"),
}
SPECIAL = Field(
    "special",
    ListOf(Choice(tuple(_REFUSED)), max=len(_REFUSED)),
    default=[],
    doc="what stands on the beam and is not sized here; each is refused",
)


def refuse_special(special: Sequence[str], editions: Editions) -> None:
    """Raise OutOfScope for the first thing on the beam that a preliminary size does not cover."""
    for name in special:
        clauses, reason = _REFUSED[name]
        raise OutOfScope(clauses.get(editions.code, _HOUSE).at(editions), f"{reason}; ask the engineer")
