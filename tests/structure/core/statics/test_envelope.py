"""Patterns of live load and envelopes over combinations, held against sums made one at a time."""

from __future__ import annotations

import itertools
import time

import pytest

from structure.core.codes.us.combinations import asd
from structure.core.statics import BeamLine, Load, analyse
from structure.core.statics.envelope import analyse_cases

LINE = BeamLine((120.0, 150.0), 30.0, 24.0)
LOADS = [
    Load.uniform("dead", 10.0, 0.0, LINE.length),
    Load.uniform("live", 25.0, 0.0, LINE.length),
    Load.point("live", 800.0, 200.0),
    Load.point("live", 300.0, LINE.length),
    Load.uniform("snow", 8.0, 40.0, 200.0),
    Load.uniform("roof_live", 0.0, 0.0, LINE.length),
]


def _live_on(bays: tuple[int, ...]) -> list[Load]:
    kept = []
    for n in bays:
        bay = LINE.bays[n]
        end = float("inf") if n == len(LINE.bays) - 1 else bay.end
        parts = [load.clipped(bay.start, end) for load in LOADS if load.case == "live"]
        kept += [part for part in parts if part is not None]
    return kept


def test_patterns_are_all_sets_of_bays() -> None:
    analysis = analyse_cases(LINE, LOADS, pattern=True)
    assert analysis.cases == ("dead", "live", "snow")
    envelope = analysis.envelope([{"dead": 1.0, "live": 1.0}], empty_patterns=True)
    assert len(envelope.rows) == 2**4
    fixed = [load for load in LOADS if load.case == "dead"]
    by_hand = [
        analyse(LINE, fixed + _live_on(bays))
        for count in range(5)
        for bays in itertools.combinations(range(4), count)
    ]
    for n in range(3):
        assert envelope.reactions_max[n] == pytest.approx(max(float(r.reactions[n]) for r in by_hand))
        assert envelope.reactions_min[n] == pytest.approx(min(float(r.reactions[n]) for r in by_hand))
    assert envelope.moment.max.max() == pytest.approx(max(float(r.moment_extremes().max) for r in by_hand))
    assert envelope.moment.min.min() == pytest.approx(min(float(r.moment_extremes().min) for r in by_hand))
    assert envelope.deflection.max.max() == pytest.approx(
        max(float(r.deflection_extremes().max) for r in by_hand)
    )


def test_the_bays_of_a_case_add_up_to_the_case() -> None:
    analysis = analyse_cases(LINE, LOADS, pattern=True)
    whole = analyse(LINE, [load for load in LOADS if load.case == "live"])
    assert list(analysis.case("live").reactions) == pytest.approx(list(whole.reactions))
    assert float(analysis.case("live").moment(100.0)) == pytest.approx(float(whole.moment(100.0)))


def test_combinations_with_patterns_name_their_row() -> None:
    analysis = analyse_cases(LINE, LOADS, pattern=True)
    combinations = asd(analysis.cases)
    envelope = analysis.envelope([each.factors for each in combinations])
    row = envelope.rows[int(envelope.moment.max.argmax())]
    factors = combinations[row.combination].factors
    assert row.bays is not None
    again = analyse(
        LINE,
        [
            Load(
                x.case,
                x.shape,
                x.value * factors.get(x.case, 0),
                x.start,
                x.end,
                x.end_value * factors.get(x.case, 0),
            )
            for x in [load for load in LOADS if load.case != "live"] + _live_on(row.bays)
        ],
    )
    assert float(again.moment_extremes().max) == pytest.approx(float(envelope.moment.max.max()))
    assert all(r.bays for r in envelope.rows if "live" in combinations[r.combination].factors)


def test_a_zero_load_is_no_load() -> None:
    assert analyse_cases(LINE, [Load.uniform("live", 0.0, 0, 10)]).cases == ()
    assert float(analyse_cases(LINE, []).case("dead").reactions.sum()) == 0.0


def test_three_spans_with_overhangs_and_all_patterns_take_milliseconds() -> None:
    line = BeamLine((120.0, 150.0, 120.0), 30.0, 20.0)
    loads = [
        Load.uniform("dead", 10, 0, 440),
        Load.uniform("live", 20, 0, 440),
        Load.point("snow", 2000, 100),
    ]
    best = float("inf")
    for _ in range(3):
        start = time.perf_counter()
        analysis = analyse_cases(line, loads, pattern=True)
        envelope = analysis.envelope([each.factors for each in asd(analysis.cases)])
        assert envelope.moment.max.shape == envelope.shear.max.shape == envelope.deflection.max.shape == (64,)
        best = min(best, time.perf_counter() - start)
    assert best < 0.2
