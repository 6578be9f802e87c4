"""The whole catalogue at once equals every section checked alone: order, ratios, what governs, what is refused."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.catalogue import Search, SearchResult, search_beams, stock_sections
from structure.core.clauses import US_DEFAULT
from structure.core.errors import OutOfScope
from structure.core.materials.section import Section
from structure.core.members.beam import BeamQuestion, BeamResult, Limits, Support, check_beam
from structure.core.statics.model import BeamLine, Load

STOCK = Search(species=("SPF", "SP"), grades=("No.2",), lvl_grades=("2.0E-2900F",), max_plies=3)
SAME = 1e-12


@st.composite
def questions(draw: st.DrawFn) -> BeamQuestion:
    spans = tuple(draw(st.lists(st.floats(40.0, 300.0), min_size=1, max_size=3)))
    overhangs = [draw(st.sampled_from((0.0, 0.3))) * spans[end] for end in (0, -1)]
    line = BeamLine(spans, *overhangs)
    loads = []
    for case in draw(
        st.lists(st.sampled_from(("dead", "live", "snow", "roof_live", "construction")), min_size=1)
    ):
        ends = sorted(draw(st.floats(0.0, 1.0)) * line.length for _ in range(2))
        kind = draw(st.sampled_from(("whole", "part", "slope", "point")))
        if kind == "point":
            loads.append(Load.point(case, draw(st.floats(100.0, 5000.0)), ends[0]))
        elif kind == "whole" or ends[1] - ends[0] < 1.0:
            loads.append(Load.uniform(case, draw(st.floats(1.0, 80.0)), 0.0, line.length))
        elif kind == "part":
            loads.append(Load.uniform(case, draw(st.floats(1.0, 80.0)), *ends))
        else:
            loads.append(Load.trapezoid(case, draw(st.floats(0.0, 80.0)), draw(st.floats(1.0, 80.0)), *ends))
    return BeamQuestion(
        line=line,
        loads=tuple(loads),
        bracing=draw(st.sampled_from(("continuous", "ends", 36.0))),
        bottom_bracing=draw(st.sampled_from((None, None, "ends", 60.0))),
        pattern=draw(st.sampled_from((None, False, True))),
        repetitive=draw(st.booleans()),
        wet=draw(st.sampled_from((False, False, True))),
        self_weight=draw(st.sampled_from((True, True, False))),
        deflection=Limits(draw(st.sampled_from((240.0, 360.0))), 240.0, creep=draw(st.booleans())),
        shear_at=draw(st.sampled_from(("face", "face", "d"))),
        bearing=draw(st.sampled_from((None, (3.5,), (9.0,)))),
        support=draw(st.sampled_from((None, Support(425.0, "SPF")))),
    )


def alone(question: BeamQuestion, section: Section) -> BeamResult | OutOfScope:
    try:
        return check_beam(replace(question, section=section), US_DEFAULT)
    except OutOfScope as refusal:
        return refusal


def whole(question: BeamQuestion, search: Search) -> SearchResult | OutOfScope:
    try:
        return search_beams(question, search, US_DEFAULT)
    except OutOfScope as refusal:
        return refusal


def hold(question: BeamQuestion, search: Search) -> None:
    found = whole(question, search)
    if isinstance(found, OutOfScope):
        # A question that is refused is so with any section.
        for section in stock_sections(search)[::9]:
            answer = alone(question, section)
            assert isinstance(answer, OutOfScope)
            assert answer.clause == found.clause
        return
    assert [each.section for each in found.candidates] == list(stock_sections(search))
    first = None
    for number, candidate in enumerate(found.candidates):
        answer = alone(question, candidate.section)
        if isinstance(answer, OutOfScope):
            assert candidate.refusal is not None
            assert (candidate.refusal.clause, candidate.refusal.reason) == (answer.clause, answer.reason)
            assert candidate.as_data()["governing"] == "scope"
            assert not candidate.passes
            continue
        assert candidate.refusal is None
        assert list(candidate.checks) == list(answer.checks)
        for name, check in answer.checks.items():
            mine = candidate.checks[name]
            assert mine.ratio == pytest.approx(check.ratio, rel=SAME, abs=1e-300)
            assert (mine.passes, mine.clause, mine.dimension) == (check.passes, check.clause, check.dimension)
            assert mine.demand == pytest.approx(check.demand, rel=SAME)
            assert mine.capacity == pytest.approx(check.capacity, rel=SAME)
        assert candidate.governing is not None
        assert candidate.governing.name == answer.governing.name
        assert found.ratios[number] == pytest.approx(answer.ratio, rel=SAME)
        assert candidate.passes == answer.passes
        if first is None and answer.passes:
            first = candidate.section
    assert (found.chosen.section if found.chosen else None) == first


@pytest.mark.slow
@settings(max_examples=60, deadline=None)
@given(questions())
def test_all_at_once_equals_one_at_a_time(question: BeamQuestion) -> None:
    hold(question, STOCK)
