"""The bars that can be held in any run of the tests: ratios of processor time within one process.

`python -m tests.benchmarks` measures all of them, with the two libraries, and writes RESULTS.md. Here each bar
has a slack of one half, since tests run beside each other, and the libraries only have to agree.
"""

from __future__ import annotations

import time
import tracemalloc

import numpy as np
import pytest

from structure.core.catalogue import stock_sections
from structure.core.statics import response
from tests.benchmarks import catalogue as cat
from tests.benchmarks.beams import BEAMS, by_anastruct, by_pynite, here
from tests.benchmarks.timing import in_turns

pytestmark = pytest.mark.benchmark
SLACK = 1.5


@pytest.mark.parametrize("name", BEAMS)
def test_libraries_agree_on_the_beams_that_are_timed(name: str) -> None:
    beam = BEAMS[name]
    ours, pynite, anastruct = here(beam), by_pynite(beam, tuned=False), by_anastruct(beam)
    for what in ("moment", "shear", "reactions"):
        mine = getattr(ours, what)
        size = np.abs(mine).max()
        assert np.abs(mine - getattr(pynite, what)).max() <= 1e-9 * size
        assert np.abs(mine - getattr(anastruct, what)).max() <= 1e-4 * size
    size = np.abs(ours.deflection).max()
    for other in (pynite.deflection, anastruct.deflection):
        # Both sample: they may fall short of the extreme, not go beyond it.
        assert np.all(other[:, 1] <= ours.deflection[:, 1] + 1e-9 * size)
        assert np.all(other[:, 0] >= ours.deflection[:, 0] - 1e-9 * size)
        assert np.abs(ours.deflection - other).max() <= 1e-3 * size


@pytest.mark.parametrize("question", [cat.SIMPLE, cat.TWO_SPANS, cat.PATTERNED])
def test_the_search_and_a_closed_form_a_section_have_the_same_ratios(question: cat.BeamQuestion) -> None:
    with cat.sums(9):
        found, alone = cat.search(question, cat.STOCK), cat.Alone(question)
        assert len(found.sections) >= 600
        for number in range(0, len(found.sections), 7):
            ratio = found.ratios[number]
            if not np.isnan(ratio):
                assert alone.ratio(found.sections[number]) == pytest.approx(ratio, rel=1e-9)


def test_one_beam_in_plain_floats_is_faster_than_in_arrays(monkeypatch: pytest.MonkeyPatch) -> None:
    beam = BEAMS["two spans, live load by bay"]
    floats = in_turns({"floats": lambda: here(beam)}, {"floats": 50})["floats"].least
    monkeypatch.setattr(response, "FEW", 0)
    arrays = in_turns({"arrays": lambda: here(beam)}, {"arrays": 50})["arrays"].least
    assert arrays >= 2.5 / SLACK * floats


def test_the_search_costs_few_floors_and_a_closed_form_a_section_a_hundred_times_more() -> None:
    with cat.sums(9):
        sections = stock_sections(cat.STOCK)
        alone = cat.Alone(cat.SIMPLE)
        middle = sections[len(sections) // 2]
        timed = in_turns(
            {
                "floor": cat.floor(len(sections), 9),
                "search": lambda: cat.search(cat.SIMPLE, cat.STOCK),
                "alone": lambda: alone.ratio(middle),
            },
            {"floor": 80, "search": 80, "alone": 40},
        )
    assert timed["search"].least <= 12 * SLACK * timed["floor"].least
    assert timed["alone"].least * len(sections) >= 100 / SLACK * timed["search"].least


def test_cost_grows_no_faster_than_sections_and_sums() -> None:
    ways = {plies: lambda plies=plies: cat.search(cat.SIMPLE, cat.sized(plies)) for plies in (1, 5)}
    named = {str(plies): way for plies, way in ways.items()}
    timed = in_turns(named, dict.fromkeys(named, 40))
    assert timed["5"].least <= 5 * timed["1"].least
    by_sums = {}
    for count in (9, 36):
        with cat.sums(count):
            search = in_turns({"search": lambda: cat.search(cat.SIMPLE, cat.STOCK)}, {"search": 40})["search"]
            by_sums[count] = search.least
    assert by_sums[36] <= 4 * by_sums[9]


@pytest.mark.parametrize("bracing", ["ends", "continuous"])
def test_six_spans_with_every_pattern_take_seconds_and_little_memory(bracing: str) -> None:
    search = cat.patterns(bracing)
    search()
    start = time.thread_time()
    search()
    assert time.thread_time() - start < 5.0
    tracemalloc.start()
    try:
        search()
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert peak < 300e6
