"""A steel shape on one bearing, without the beam around it: web yielding and crippling. AISC 360 J10."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from structure.core.clauses import Editions
from structure.core.codes.us import steel_shear as webs
from structure.core.codes.us.combinations import asd
from structure.core.errors import InputError, OutOfScope
from structure.core.materials.steel import SteelSection
from structure.core.members.checkdata import check_data, worst
from structure.core.members.steel_bearing import Place
from structure.core.members.steel_strength import strength
from structure.core.trace import Check
from structure.core.units import quantity


@dataclass(frozen=True, slots=True)
class SteelBearingResult:
    """Both checks of the web under the largest stress sum."""

    section: SteelSection
    checks: tuple[Check, Check]
    required: float

    def as_data(self) -> dict[str, Any]:
        """The result of the `bearing` kind."""
        least = worst(self.checks)
        return {
            "capacity": quantity(least.capacity, "force"),
            "ratio": least.ratio,
            "passes": all(check.passes for check in self.checks),
            "governing": least.name,
            "required_length": quantity(self.required, "length"),
            "factors": {},
            "reference": {"Fy": quantity(self.section.reference.value("Fy"), "stress")},
            "checks": {check.name: check_data(check) for check in self.checks},
            "remarks": [
                "The web over the bearing; what the steel bears on is a question of its own.",
                *self.section.remarks,
            ],
        }


def check_steel_bearing(
    section: SteelSection,
    length: float,
    distance_to_end: float,
    loads: Mapping[str, float],
    editions: Editions,
) -> SteelBearingResult:
    """The web of a steel shape over a bearing `length` long, its edge `distance_to_end` from the end [in].

    Raises InputError for no load, OutOfScope for uplift and for a round tube.
    """
    if section.rolled.form == "round":
        raise OutOfScope(webs.TUBE_FORCES.at(editions), f"{section.label}: a round tube needs a saddle")
    if any(value < 0 for value in loads.values()):
        raise OutOfScope(webs.WEB_YIELDING.at(editions), "a load that pulls up: uplift is the engineer's")
    present = {case for case, value in loads.items() if value > 0}
    if not present:
        raise InputError("loads", "no load", "at least one load of more than zero")
    sums = {each.name: sum(f * loads[case] for case, f in each.factors.items()) for each in asd(present)}
    name = max(sums, key=lambda key: sums[key])
    place = Place(strength(section, editions), distance_to_end + length / 2)
    checks = place.checks("", sums[name], name, length, editions)
    return SteelBearingResult(section, checks, place.required(sums[name], editions))
