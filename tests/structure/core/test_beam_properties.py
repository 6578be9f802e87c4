"""What must hold of every wood beam: symmetry, more load is worse, more wood is better."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from structure.core.clauses import US_DEFAULT
from structure.core.errors import OutOfScope
from structure.core.materials import LvlSection, SawnSection
from structure.core.members.beam import BeamQuestion, BeamResult, check_beam
from structure.core.members.beam_demand import analyse_question
from structure.core.statics.model import BeamLine, Load

SECTIONS = (
    SawnSection("SPF", "No.2", 3, 1.5, 9.25),
    SawnSection("SP", "No.1", 2, 1.5, 11.25),
    LvlSection("2.0E-2900F", 2, 1.75, 14.0),
    SawnSection("DF-L", "No.1", 1, 5.5, 11.5),
)


@st.composite
def questions(draw: st.DrawFn) -> BeamQuestion:
    spans = tuple(draw(st.lists(st.floats(60.0, 240.0), min_size=1, max_size=3)))
    line = BeamLine(spans, draw(st.sampled_from((0.0, 30.0))), draw(st.sampled_from((0.0, 40.0))))
    loads = [
        Load.uniform(case, draw(st.floats(1.0, 40.0)), 0.0, line.length) for case in ("dead", "live", "snow")
    ]
    loads.append(Load.point("live", draw(st.floats(100.0, 3000.0)), draw(st.floats(0.0, 1.0)) * line.length))
    return BeamQuestion(
        line=line,
        loads=tuple(loads),
        section=draw(st.sampled_from(SECTIONS)),
        bracing=draw(st.sampled_from(("continuous", "ends", 48.0))),
        shear_at=draw(st.sampled_from(("face", "d"))),
        bearing=(draw(st.floats(1.5, 7.0)),),
    )


def answer(question: BeamQuestion) -> BeamResult:
    try:
        return check_beam(question, US_DEFAULT)
    except OutOfScope:
        assume(False)
        raise


def mirrored(question: BeamQuestion) -> BeamQuestion:
    line, length = question.line, question.line.length
    return replace(
        question,
        line=BeamLine(line.spans[::-1], line.overhang_right, line.overhang_left),
        loads=tuple(
            replace(
                load,
                start=length - load.end,
                end=length - load.start,
                value=load.end_value,
                end_value=load.value,
            )
            for load in question.loads
        ),
    )


@settings(max_examples=40, deadline=None)
@given(questions())
def test_a_mirrored_beam_has_the_same_ratios(question: BeamQuestion) -> None:
    # A point load on a support belongs to one bay or the other, which a mirror turns round.
    assume(
        all(
            abs(p.start - s) > 0.01
            for p in question.loads
            for s in question.line.supports
            if p.shape == "point"
        )
    )
    one, other = answer(question), answer(mirrored(question))
    for name, check in one.checks.items():
        assert other.checks[name].ratio == pytest.approx(check.ratio, rel=1e-6)


@settings(max_examples=30, deadline=None)
@given(questions(), st.floats(1.01, 2.0))
def test_all_loads_larger_are_worse_in_proportion(question: BeamQuestion, factor: float) -> None:
    question = replace(question, self_weight=False, bracing="continuous", bottom_bracing="continuous")
    more = replace(
        question,
        loads=tuple(
            replace(load, value=load.value * factor, end_value=load.end_value * factor)
            for load in question.loads
        ),
    )
    one, other = answer(question), answer(more)
    for name, check in one.checks.items():
        assert other.checks[name].ratio == pytest.approx(check.ratio * factor, rel=1e-9)


@settings(max_examples=30, deadline=None)
@given(questions())
def test_another_ply_is_never_worse(question: BeamQuestion) -> None:
    section = SECTIONS[0]
    question = replace(question, self_weight=False)
    one = answer(replace(question, section=section))
    other = answer(replace(question, section=replace(section, plies=4)))
    for name, check in one.checks.items():
        assert other.checks[name].ratio <= check.ratio * (1 + 1e-9)


@settings(max_examples=30, deadline=None)
@given(questions())
def test_reactions_by_case_carry_all_that_stands_on_the_beam(question: BeamQuestion) -> None:
    result = answer(question)
    carried = sum(sum(held.values()) for held in result.reactions_by_case())
    total = sum(load.total for load in question.loads) + result.self_weight * question.line.length
    assert carried == pytest.approx(total, rel=1e-9)


@settings(max_examples=30, deadline=None)
@given(questions())
def test_hogging_reaches_to_the_next_point_of_contraflexure(question: BeamQuestion) -> None:
    demands = analyse_question(question, (2.0,))
    response = demands.strength.response
    for row in range(len(response)):
        single = response[row]
        turns = single.contraflexures()
        for n, bay in enumerate(question.line.bays):
            lengths = []
            inside = [each for each in turns if bay.start + 1e-4 < each < bay.end - 1e-4]
            scale = float(abs(single.moments[:, 0]).max())
            if float(single.moment(bay.start)) < -1e-6 * scale:
                lengths.append(min([each - bay.start for each in inside], default=bay.length))
            if float(single.moment(bay.end)) < -1e-6 * scale:
                lengths.append(min([bay.end - each for each in inside], default=bay.length))
            if lengths:
                assert demands.hogging_lengths[row, n] == pytest.approx(max(lengths), abs=1e-3)
