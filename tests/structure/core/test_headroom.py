"""Clear heights under beams, dropped and flush."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from structure.core.clauses import US_DEFAULT
from structure.core.errors import InputError
from structure.core.members.headroom import HeadroomQuestion, check_headroom, clear_height, spaces


def test_the_clear_height_is_what_is_left() -> None:
    assert clear_height(96.0, 0.75, 14.0, 9.25, 0.5) == pytest.approx(90.0)
    assert clear_height(96.0, 0.75, 7.25, 9.25, 0.5) == pytest.approx(94.75)


@given(st.floats(4, 24), st.floats(0, 1), st.sampled_from(spaces()))
def test_a_flush_beam_never_leaves_less_and_neither_more_than_the_ceiling(
    depth: float, board: float, space: str
) -> None:
    dropped = check_headroom(HeadroomQuestion(110.0, depth, board=board, space=space), US_DEFAULT)
    flush = check_headroom(HeadroomQuestion(110.0, depth, True, 9.25, 0.0, board, space), US_DEFAULT)
    assert dropped.beam.clear <= flush.beam.clear <= flush.ceiling.clear
    assert dropped.ceiling.clear == flush.ceiling.clear
    assert dropped.beam.required <= dropped.ceiling.required


def test_a_beam_that_does_not_hang_down_is_ceiling() -> None:
    found = check_headroom(HeadroomQuestion(90.0, 9.25, True, 9.25, space="basement_habitable"), US_DEFAULT)
    assert found.beam.required == found.ceiling.required == 84.0


def test_a_hair_less_than_required_fails() -> None:
    assert check_headroom(HeadroomQuestion(98.5, 14.0), US_DEFAULT).beam.passes
    assert not check_headroom(HeadroomQuestion(98.49, 14.0), US_DEFAULT).beam.passes


def test_what_is_remembered_is_marked() -> None:
    found = check_headroom(HeadroomQuestion(98.5, 14.0, space="basement_existing"), US_DEFAULT)
    assert any("memory" in remark for remark in found.remarks)


@pytest.mark.parametrize(
    "question", [HeadroomQuestion(90.0, 90.0), HeadroomQuestion(90.0, 9.25, space="attic")]
)
def test_what_cannot_be_meant_is_told(question: HeadroomQuestion) -> None:
    with pytest.raises(InputError):
        check_headroom(question, US_DEFAULT)
