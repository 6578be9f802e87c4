"""Soil, concrete and bars that the Canadian rules held here cover. N, mm, MPa."""

from __future__ import annotations

from dataclasses import dataclass

from structure.core.clauses import Editions
from structure.core.codes.ca import concrete, nbc, nbc_footings
from structure.core.codes.ca import concrete_reinforced as bars
from structure.core.errors import InputError, OutOfScope
from structure.core.members.footing_pad import SAME
from structure.core.units import in_words
from structure.data.loader import table

SOILS = "ca/soil"
_KPA = 0.001  # MPa


@dataclass(frozen=True, slots=True)
class SoilClass:
    """A class of NBC Table 9.4.4.1.: what it may be taken to carry [MPa], and its group for frost."""

    id: str
    name: str
    value: float
    group: str


def soil_classes() -> tuple[SoilClass, ...]:
    """The classes of the table, in its order."""
    return tuple(
        SoilClass(row["id"], row["name"], row["value"] * _KPA, row["group"]) for row in table(SOILS).rows
    )


def find_soil(name: str | None) -> SoilClass | None:
    """The class of that id; None for none."""
    return next((each for each in soil_classes() if each.id == name), None)


def allowable_soil(
    value: float | None, held: SoilClass | None, origin: str | None, editions: Editions
) -> float:
    """What the soil may carry [MPa]: as given, by its class, or 75 kPa where that is said to be presumed.

    NBC 9.4.4.1. and 9.15.1.1. Raises InputError where nothing says it, OutOfScope for more than the class, or
    more than is presumed without a class.
    """
    presumed = table(SOILS).content["presumed"]["value"] * _KPA
    if value is None and held is None and origin != "presumptive":
        raise InputError(
            "soil",
            None,
            "an allowable pressure, such as 75 kPa; a soil_class; or soil_from: presumptive for 75 kPa",
        )
    most = held.value if held is not None else presumed
    if value is None:
        return most
    if origin == "investigation" or (held is None and origin is None):
        return value
    if value > most * (1 + SAME):
        what = held.name if held is not None else "soil that nobody has looked at"
        raise OutOfScope(
            nbc_footings.SOIL_TABLE.at(editions),
            f"{what} is taken at {in_words(most, 'pressure', 'ca')} at most; more needs an investigation",
        )
    return value


def soil_scope(value: float, origin: str | None, editions: Editions) -> None:
    """Soil that is never presumed, or past the table. NBC 9.15.1.1., Table 9.4.4.1."""
    most = max(each.value for each in soil_classes())
    if value * (1 + SAME) < nbc.LEAST_SOIL and origin == "presumptive":
        raise OutOfScope(
            nbc_footings.SCOPE.at(editions),
            "soil under 75 kPa is never presumed: Part 9 does not reach it, it needs an investigation",
        )
    if value > most * (1 + SAME):
        raise OutOfScope(
            nbc_footings.SOIL_TABLE.at(editions), "soil above 500 kPa is past the last row of the table"
        )


def concrete_scope(f_c: float, density: float, editions: Editions) -> None:
    """Strength and density that the rules cover. NBC 9.3.1.6., CSA A23.3:19 11.3.4 and 8.6.5."""
    slack = 1 + SAME
    if f_c * slack < nbc_footings.MIN_STRENGTH:
        raise OutOfScope(
            nbc_footings.STRENGTH.at(editions),
            f"f'c of {f_c:g} MPa; footings have {nbc_footings.MIN_STRENGTH:g} MPa or more",
        )
    if f_c > concrete.MAX_STRENGTH * slack:
        raise OutOfScope(
            concrete.ROOT_LIMIT.at(editions), f"f'c of {f_c:g} MPa; held: to {concrete.MAX_STRENGTH:g} MPa"
        )
    if density * slack < concrete.MIN_DENSITY or density > concrete.MAX_DENSITY * slack:
        raise OutOfScope(
            concrete.DENSITY.at(editions),
            f"concrete of {density * 1e6:g} kN/m**3; held: normal density, "
            f"{concrete.MIN_DENSITY * 1e6:g} to {concrete.MAX_DENSITY * 1e6:g} kN/m**3",
        )


def bars_scope(f_c: float, f_y: float, editions: Editions) -> None:
    """Concrete and bars of a reinforced pad. CSA A23.3:19 8.6.1.1, 8.5.1."""
    slack = 1 + SAME
    if f_c * slack < bars.MIN_STRENGTH:
        raise OutOfScope(
            bars.STRENGTH_RANGE.at(editions),
            f"f'c of {f_c:g} MPa; reinforced concrete has {bars.MIN_STRENGTH:g} MPa or more",
        )
    if f_y * slack < bars.MIN_YIELD or f_y > bars.MAX_YIELD * slack:
        raise OutOfScope(
            bars.YIELD_RANGE.at(editions),
            f"bars of {f_y:g} MPa; held: {bars.MIN_YIELD:g} to {bars.MAX_YIELD:g} MPa",
        )
