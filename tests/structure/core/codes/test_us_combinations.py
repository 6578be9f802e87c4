"""The US combination table by name, factor, clause and load duration."""

from __future__ import annotations

import itertools

import pytest

from structure.core.clauses import US_DEFAULT
from structure.core.codes.us.combinations import (
    ASD,
    DURATION,
    STRENGTH_CONCRETE,
    asd,
    service_live,
    strength_concrete,
)
from structure.core.statics import CASES


def test_the_stress_table() -> None:
    assert [each.name for each in ASD] == [
        "D",
        "D+L",
        "D+Lr",
        "D+S",
        "D+0.75L+0.75Lr",
        "D+0.75L+0.75S",
        "D+C",
    ]
    assert str(ASD[1].reference(US_DEFAULT)) == "ASCE 7-16 2.4.1"
    assert str(ASD[-1].reference(US_DEFAULT)).startswith("common practice")


def test_the_strength_table() -> None:
    assert [each.name for each in STRENGTH_CONCRETE] == [
        "1.4D",
        "1.2D+1.6L+0.5Lr",
        "1.2D+1.6L+0.5S",
        "1.2D+1.6Lr+1.0L",
        "1.2D+1.6S+1.0L",
        "1.2D+1.6C",
    ]
    assert str(STRENGTH_CONCRETE[0].reference(US_DEFAULT)) == "ACI 318-19 5.3.1"


@pytest.mark.parametrize(
    ("present", "names"),
    [
        ({"dead"}, ["D"]),
        ({"live"}, ["L"]),
        ({"dead", "live"}, ["D", "D+L"]),
        ({"dead", "snow"}, ["D", "D+S"]),
        ({"dead", "live", "snow"}, ["D", "D+L", "D+S", "D+0.75L+0.75S"]),
        ({"dead", "construction"}, ["D", "D+C"]),
        (set(), ["D"]),
    ],
)
def test_only_loads_that_are_present_are_combined(present: set[str], names: list[str]) -> None:
    assert [each.name for each in asd(present)] == names


@pytest.mark.parametrize(
    ("name", "C_D"),
    [
        ("D", 0.9),
        ("D+L", 1.0),
        ("D+S", 1.15),
        ("D+Lr", 1.25),
        ("D+0.75L+0.75S", 1.15),
        ("D+0.75L+0.75Lr", 1.25),
    ],
)
def test_load_duration_is_that_of_the_shortest_load_present(name: str, C_D: float) -> None:
    held = {each.name: each for each in asd(set(CASES))}
    assert held[name].C_D == C_D


def test_an_absent_load_does_not_shorten_the_duration() -> None:
    assert [each.C_D for each in asd({"dead", "live"})] == [0.9, 1.0]
    assert [each.C_D for each in asd({"live", "snow"})] == [1.0, 1.15, 1.15]


def test_service_loads() -> None:
    assert [each.name for each in service_live({"dead", "live", "snow"})] == ["L", "S", "0.75L+0.75S"]
    assert service_live({"dead"}) == ()


@pytest.mark.parametrize("table", [asd, strength_concrete])
def test_no_full_combination_is_ever_worse_than_those_formed(table: object) -> None:
    """Leaving combinations with an absent load out loses nothing: tried with every set of cases present."""
    full = {asd: ASD, strength_concrete: STRENGTH_CONCRETE}[table]  # type: ignore[index]
    sizes = {"dead": 3.0, "live": 5.0, "roof_live": 2.0, "snow": 4.0, "construction": 1.0}
    for count in range(1, len(CASES) + 1):
        for present in itertools.combinations(CASES, count):
            loads = {case: sizes[case] if case in present else 0.0 for case in CASES}

            def effect(factors: dict[str, float], loads: dict[str, float] = loads) -> float:
                held = [case for case, factor in factors.items() if loads[case]]
                if not held:
                    return 0.0
                duration = max(DURATION[case] for case in held) if table is asd else 1.0
                return sum(factor * loads[case] for case, factor in factors.items()) / duration

            formed = max(effect(each.factors) for each in table(present))  # type: ignore[operator]
            assert formed == pytest.approx(max(effect(each.factors) for each in full))
