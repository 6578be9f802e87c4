"""Canadian wood: the whole catalogue at once equals every section checked alone."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.catalogue import Search, SearchResult, bent, search_beams, stock_sections
from structure.core.clauses import CA_DEFAULT
from structure.core.errors import OutOfScope
from structure.core.materials.section import Section
from structure.core.members import beam_stability
from structure.core.members.beam import BeamQuestion, BeamResult, Limits, Support, check_beam
from structure.core.members.beam_stability import Row
from structure.core.members.ca_wood_bending import ANY_LOADING, EFFECTIVE
from structure.core.statics.model import BeamLine, Load

STOCK = Search(
    families=("sawn", "timber"), species=("SPF", "DF-L"), grades=("No.1/No.2",), max_plies=3, code="ca"
)
SAME = 1e-12
BRACING: st.SearchStrategy[str | float] = st.sampled_from(("continuous", "ends", 600.0, 900.0))


@st.composite
def questions(draw: st.DrawFn) -> BeamQuestion:
    spans = tuple(draw(st.lists(st.floats(1000.0, 6000.0), min_size=1, max_size=3)))
    overhangs = [draw(st.sampled_from((0.0, 0.3))) * spans[end] for end in (0, -1)]
    line = BeamLine(spans, *overhangs)
    loads = []
    for case in draw(
        st.lists(st.sampled_from(("dead", "live", "snow", "roof_live", "construction")), min_size=1)
    ):
        ends = sorted(draw(st.floats(0.0, 1.0)) * line.length for _ in range(2))
        kind = draw(st.sampled_from(("whole", "whole", "part", "slope", "point")))
        if kind == "point":
            loads.append(Load.point(case, draw(st.floats(500.0, 20_000.0)), ends[0]))
        elif kind == "whole" or ends[1] - ends[0] < 20.0:
            loads.append(Load.uniform(case, draw(st.floats(0.2, 12.0)), 0.0, line.length))
        elif kind == "part":
            loads.append(Load.uniform(case, draw(st.floats(0.2, 12.0)), *ends))
        else:
            loads.append(Load.trapezoid(case, draw(st.floats(0.0, 12.0)), draw(st.floats(0.2, 12.0)), *ends))
    return BeamQuestion(
        line=line,
        loads=tuple(loads),
        bracing=draw(BRACING),
        bottom_bracing=draw(st.sampled_from((None, None, "ends", 1500.0))),
        pattern=draw(st.sampled_from((None, False, True))),
        repetitive=draw(st.booleans()),
        wet=draw(st.sampled_from((False, False, True))),
        self_weight=draw(st.sampled_from((True, True, False))),
        deflection=Limits(draw(st.sampled_from((240.0, 360.0))), 240.0, creep=draw(st.booleans())),
        shear_at=draw(st.sampled_from(("face", "face", "d"))),
        bearing=draw(st.sampled_from((None, (89.0,), (140.0,)))),
        support=draw(st.sampled_from((None, Support(5.3, "SPF")))),
        treated=draw(st.sampled_from(("none", "none", "incised"))),
    )


def alone(question: BeamQuestion, section: Section) -> BeamResult | OutOfScope:
    try:
        return check_beam(replace(question, section=section), CA_DEFAULT)
    except OutOfScope as refusal:
        return refusal


def whole(question: BeamQuestion) -> SearchResult | OutOfScope:
    try:
        return search_beams(question, STOCK, CA_DEFAULT)
    except OutOfScope as refusal:
        return refusal


def hold(question: BeamQuestion) -> None:
    found = whole(question)
    if isinstance(found, OutOfScope):
        for section in stock_sections(STOCK)[::9]:
            answer = alone(question, section)
            assert isinstance(answer, OutOfScope)
            assert answer.clause == found.clause
        return
    for number, candidate in enumerate(found.candidates):
        answer = alone(question, candidate.section)
        if isinstance(answer, OutOfScope):
            assert candidate.refusal is not None
            assert (candidate.refusal.clause, candidate.refusal.reason) == (answer.clause, answer.reason)
            continue
        assert candidate.refusal is None
        assert list(candidate.checks) == list(answer.checks)
        for name, check in answer.checks.items():
            mine = candidate.checks[name]
            assert mine.ratio == pytest.approx(check.ratio, rel=SAME, abs=1e-300)
            assert (mine.passes, mine.clause, mine.dimension) == (check.passes, check.clause, check.dimension)
            assert mine.demand == pytest.approx(check.demand, rel=SAME)
            assert mine.capacity == pytest.approx(check.capacity, rel=SAME)
        assert found.ratios[number] == pytest.approx(answer.ratio, rel=SAME)
        assert candidate.passes == answer.passes


@pytest.mark.slow
@settings(max_examples=60, deadline=None)
@given(questions())
def test_all_at_once_equals_one_at_a_time(question: BeamQuestion) -> None:
    hold(question)


@pytest.mark.parametrize("bearing", [None, (89.0,)])
@pytest.mark.parametrize("bracing", ["continuous", "ends", 900.0])
def test_ordinary_beams_are_checked_at_once(bearing: tuple[float, ...] | None, bracing: str | float) -> None:
    line = BeamLine((3000.0, 4000.0))
    loads = tuple(
        Load.uniform(case, w, 0.0, line.length) for case, w in (("dead", 2.0), ("live", 8.0), ("snow", 3.0))
    )
    question = BeamQuestion(line=line, loads=loads, bracing=bracing, bearing=bearing)
    found = search_beams(question, STOCK, CA_DEFAULT)
    assert (found.place >= 0).sum() > 0.6 * len(found.sections)
    hold(question)


def test_what_rules_a_sum_out_under_one_table_does_so_under_the_other() -> None:
    rows = [
        each
        for each in (*vars(beam_stability).values(), *beam_stability.EQUAL_POINTS.values())
        if isinstance(each, Row)
    ]
    assert len(rows) > 10
    for row in rows:
        for top in rows:
            if bent._no_longer(row, top):
                assert EFFECTIVE.get(row, ANY_LOADING) <= EFFECTIVE.get(top, ANY_LOADING)
