"""Least pressures that the National Building Code asks for, beside those that were typed. MPa."""

from __future__ import annotations

from collections.abc import Mapping

from structure.core.clauses import Clause, Editions
from structure.core.codes.ca.snow import LEAST, PART_9
from structure.core.units import in_words

OCCUPANCY = Clause("NBC", "Table 4.1.5.3.")
ROOMS = 0.0019  # MPa: sleeping and living quarters
_SLACK = 1 + 1e-9


def light_loads(kind: str, pressures: Mapping[str, float], editions: Editions) -> list[str]:
    """What is said of a floor or roof that was given less than the code asks for; nothing where it was not given.

    NBC 2020 Table 4.1.5.3. and 9.4.2.2.(2). The loads stay as they were typed: an old house may have another use.
    """
    live = pressures.get("live")
    if kind == "floor" and live is not None and live * _SLACK < ROOMS:
        told = in_words(live, "pressure", "ca")
        return [
            f"live load of {told} is less than the 1.9 kPa of rooms to live in ({OCCUPANCY.at(editions)})."
        ]
    roof = [pressures[case] for case in ("snow", "roof_live") if case in pressures]
    if kind == "roof" and roof and max(roof) * _SLACK < LEAST:
        told = in_words(max(roof), "pressure", "ca")
        return [
            f"roof load of {told} is less than the 1 kPa that a roof has at least ({PART_9.at(editions)})."
        ]
    return []
