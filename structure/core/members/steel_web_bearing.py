"""A steel shape on one bearing, without the beam around it: web yielding and crippling by the rules of its code."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Clause, Editions
from structure.core.codes.ca import steel_shear as s16
from structure.core.codes.combination import heaviest
from structure.core.codes.us import steel_shear as webs
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.ca_steel import CaSteelSection
from structure.core.materials.rolled import RolledSection
from structure.core.materials.steel import SteelSection
from structure.core.members.beam_sums import SUMS
from structure.core.members.ca_steel_service import CaWeb
from structure.core.members.ca_steel_strength import strength as ca_strength
from structure.core.members.checkdata import check_data, worst
from structure.core.members.steel_bearing import Place
from structure.core.members.steel_strength import strength
from structure.core.members.steel_supports import Web
from structure.core.trace import Check
from structure.core.units import quantity

YIELDING: Mapping[str, Clause] = {"us": webs.WEB_YIELDING, "ca": s16.BEARING}


@dataclass(frozen=True, slots=True)
class SteelBearingResult:
    """Both checks of the web under the largest sum of the code."""

    section: RolledSection
    checks: tuple[Check, ...]
    required: float

    def as_data(self) -> dict[str, Any]:
        """The result of the `bearing` kind."""
        least, code = worst(self.checks), self.section.code
        values = "reference" if code == "us" else "specified"
        return {
            "capacity": quantity(least.capacity, "force", code),
            "ratio": least.ratio,
            "passes": all(check.passes for check in self.checks),
            "governing": least.name,
            "required_length": quantity(self.required, "length", code),
            "factors": {},
            values: {"Fy": quantity(self.section.reference.value("Fy"), "stress", code)},
            "checks": {check.name: check_data(check, code) for check in self.checks},
            "remarks": [
                "The web over the bearing; what the steel bears on is a question of its own.",
                *self.section.remarks,
            ],
        }


def check_steel_bearing(
    section: RolledSection,
    length: float,
    distance_to_end: float,
    loads: Mapping[str, float],
    editions: Editions,
) -> SteelBearingResult:
    """The web of a steel shape over a bearing `length` long, its edge `distance_to_end` from the end.

    Raises InputError for no load, OutOfScope for uplift and for a round tube.
    """
    clause = YIELDING[editions.code].at(editions)
    if section.rolled.form == "round":
        refused = webs.TUBE_FORCES.at(editions) if editions.code == "us" else clause
        raise OutOfScope(refused, f"{section.label}: a round tube needs a saddle")
    if any(value < 0 for value in loads.values()):
        raise OutOfScope(clause, "a load that pulls up: uplift is the engineer's")
    present = {case for case, value in loads.items() if value > 0}
    if not present:
        raise InputError("loads", "no load", "at least one load of more than zero")
    name, R = heaviest(SUMS[editions.code].strength(present), loads)
    web = _web(section, distance_to_end + length / 2, editions)
    return SteelBearingResult(section, web.checks("", R, name, length, editions), web.required(R, editions))


def _web(section: RolledSection, end: float, editions: Editions) -> Web:
    """The web of one code. Raises OutOfScope for a shape whose strength is not covered."""
    if isinstance(section, CaSteelSection):
        _ = ca_strength(section, editions)
        return CaWeb(section, end)
    assert isinstance(section, SteelSection)  # noqa: S101 - no other rolled section is held
    return Place(strength(section, editions), end)
