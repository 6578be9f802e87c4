"""Plies fastened together: what passes between them, patterns that fit and carry, questions left open."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structure.core.clauses import US_DEFAULT
from structure.core.codes.us.fasteners_plies import (
    fasteners_per_length,
    pattern_capacity,
    ply_transfer,
)
from structure.core.errors import InputError
from structure.core.materials.lvl import LvlSection
from structure.core.materials.sawn import SawnSection
from structure.core.members.fastener import make_fastener
from structure.core.members.ply_fastening import PlyQuestion, fasten_plies, usual_fastener
from structure.core.members.ply_pattern import distances, least_pattern, most_rows

NONE: dict[str, Any] = dict.fromkeys(("name", "diameter", "length", "yield", "capacity", "source"))
BOLT = make_fastener(NONE | {"kind": "bolt", "diameter": 0.5}, US_DEFAULT)


def nail(name: str = "10d common") -> Any:
    return make_fastener(NONE | {"kind": "nail", "name": name}, US_DEFAULT)


def sawn(plies: int = 2, depth: float = 9.25) -> SawnSection:
    return SawnSection(species="SPF", grade="No.2", plies=plies, width=1.5, depth=depth)


def asked(plies: int = 2, depth: float = 9.25, **changes: Any) -> PlyQuestion:
    made = PlyQuestion(
        section=sawn(plies, depth), loaded="side", length=144.0, left={"live": 20.0}, gravity=0.42
    )
    return replace(made, **changes)


def test_of_three_plies_two_thirds_pass_the_first_joint_and_one_third_the_second() -> None:
    assert ply_transfer(300.0, 0.0, 3, 1) == pytest.approx(200.0)
    assert ply_transfer(300.0, 0.0, 3, 2) == pytest.approx(100.0)
    assert ply_transfer(300.0, 300.0, 3, 1) == pytest.approx(100.0)
    assert ply_transfer(300.0, 300.0, 2, 1) == pytest.approx(0.0)


@given(st.floats(0, 500), st.floats(0, 500), st.integers(2, 5))
def test_every_ply_ends_up_with_the_same_share(w_1: float, w_2: float, n: int) -> None:
    """What comes in less what goes on is one n-th, signs by the direction of the first joint."""
    passed = [w_1 * (n - i) / n - w_2 * i / n for i in range(n + 1)]
    shares = [passed[i - 1] - passed[i] for i in range(1, n + 1)]
    assert shares == pytest.approx([(w_1 + w_2) / n] * n, abs=1e-9)
    for i in range(1, n):
        assert ply_transfer(w_1, w_2, n, i) == pytest.approx(abs(passed[i]), abs=1e-9)
        assert ply_transfer(w_1, w_2, n, i) == pytest.approx(ply_transfer(w_2, w_1, n, n - i), abs=1e-9)


def test_the_small_formulas() -> None:
    assert fasteners_per_length(20.0, 100.0) == pytest.approx(0.2)
    assert pattern_capacity(2, 100.0, 16.0) == pytest.approx(12.5)


@settings(max_examples=150, deadline=None)
@given(
    st.floats(1, 200),
    st.floats(0, 200),
    st.integers(2, 4),
    st.sampled_from([5.5, 7.25, 9.25, 11.25]),
    st.sampled_from(["10d common", "10d box", "16d common", "bolt"]),
)
def test_a_solved_pattern_fits_and_passes_or_is_the_densest(
    live: float, other: float, plies: int, depth: float, name: str
) -> None:
    fastener = BOLT if name == "bolt" else nail(name)
    found = fasten_plies(
        asked(plies, depth, left={"dead": 5.0, "live": live}, right={"snow": other}, fastener=fastener),
        US_DEFAULT,
    )
    assert found.pattern is not None
    assert found.check is not None
    assert found.least is not None
    least, _ = distances(fastener)
    rows, spacing = found.pattern.rows, found.pattern.spacing
    assert rows <= most_rows(fastener, depth)
    assert least["in_row"] - 1e-9 <= spacing <= found.least.spacing
    if rows > 1:
        assert found.pattern.between >= least["between_rows"] - 1e-9
    if not found.check.passes:
        assert rows == most_rows(fastener, depth)
    # Checked as given, the same pattern answers alike.
    again = fasten_plies(replace(found.question, rows=rows, spacing=spacing), US_DEFAULT)
    assert again.check is not None
    assert again.check.ratio == pytest.approx(found.check.ratio, rel=1e-12)


def test_more_load_never_needs_fewer_fasteners() -> None:
    counts = []
    for live in (5.0, 20.0, 40.0, 80.0):
        found = fasten_plies(asked(left={"live": live}), US_DEFAULT)
        assert found.pattern is not None
        counts.append(found.pattern.count)
    assert counts == sorted(counts)
    assert counts[0] < counts[-1]


def test_the_sides_may_change_places() -> None:
    one = fasten_plies(asked(3, left={"dead": 9.0, "live": 20.0}, right={"snow": 7.0}), US_DEFAULT)
    two = fasten_plies(asked(3, right={"dead": 9.0, "live": 20.0}, left={"snow": 7.0}), US_DEFAULT)
    assert one.check is not None
    assert two.check is not None
    assert one.check.ratio == pytest.approx(two.check.ratio, rel=1e-12)


def test_dead_load_alone_may_govern_by_its_duration() -> None:
    found = fasten_plies(asked(left={"dead": 20.0, "live": 1.0}), US_DEFAULT)
    assert found.transfer is not None
    assert (found.transfer.combination, found.transfer.C_D) == ("D", 0.9)


def test_a_stated_capacity_is_not_raised_for_short_loads() -> None:
    screw = make_fastener(
        NONE | {"kind": "structural_screw", "diameter": 0.25, "capacity": 200.0, "source": "paper"},
        US_DEFAULT,
    )
    found = fasten_plies(asked(left={"snow": 20.0}, fastener=screw), US_DEFAULT)
    assert found.adjusted == pytest.approx(200.0)


def test_without_a_stated_screw_or_gravity_there_is_a_question_and_no_capacity() -> None:
    screw = make_fastener(NONE | {"kind": "structural_screw", "diameter": 0.25}, US_DEFAULT)
    lvl = LvlSection(grade="2.0E-2900F", plies=2, width=1.75, depth=11.875)
    for question in (asked(fastener=screw), asked(section=lvl, gravity=None)):
        found = fasten_plies(question, US_DEFAULT)
        assert found.state == "question"
        assert found.check is None
        assert "120 lbf/ft" in found.questions[0]


def test_a_nail_too_short_for_the_plies_is_a_question() -> None:
    found = fasten_plies(asked(fastener=nail("8d common"), section=_thick()), US_DEFAULT)
    assert found.state == "question"
    assert "6 diameters" in found.questions[-1]


def _thick() -> LvlSection:
    return LvlSection(grade="2.0E-2900F", plies=2, width=1.75, depth=9.5)


def test_the_usual_fastener_stays_inside_two_plies() -> None:
    assert usual_fastener(sawn(), US_DEFAULT).label == "10d common nail"
    assert usual_fastener(_thick(), US_DEFAULT).label == "16d common nail"
    wide = LvlSection(grade="2.0E-2900F", plies=4, width=1.75, depth=14.0)
    assert usual_fastener(wide, US_DEFAULT).kind == "bolt"


def test_thin_nails_have_no_least_pattern() -> None:
    thin = make_fastener(NONE | {"kind": "nail", "diameter": 0.12, "length": 3.0}, US_DEFAULT)
    assert least_pattern("sawn", thin, 9.25, US_DEFAULT) is None
    found = fasten_plies(asked(loaded="top", left={}, fastener=thin), US_DEFAULT)
    assert found.state == "question"


def test_fewer_than_the_least_pattern_is_a_question() -> None:
    found = fasten_plies(asked(loaded="top", left={}, spacing=36.0), US_DEFAULT)
    assert found.state == "question"


def test_nails_closer_than_wood_bears_are_a_question() -> None:
    found = fasten_plies(asked(spacing=1.0), US_DEFAULT)
    assert found.check is not None
    assert found.check.passes
    assert found.state == "question"
    assert "split" in found.questions[0]


def test_the_crew_reads_rows_spacing_and_sides() -> None:
    words = fasten_plies(asked(3), US_DEFAULT).as_data()["words"]
    assert words.startswith("2 rows of 10d common nails, every further ply")
    assert "staggered" in words
    bolts = fasten_plies(asked(3, fastener=BOLT), US_DEFAULT).as_data()["words"]
    assert "through all 3 plies" in bolts
    assert fasten_plies(asked(1), US_DEFAULT).as_data()["words"] == ""


def test_a_nail_longer_than_two_plies_is_told() -> None:
    found = fasten_plies(asked(fastener=nail("20d common")), US_DEFAULT)
    assert any("comes through" in remark for remark in found.remarks)


@pytest.mark.parametrize(
    "changes",
    [{"rows": 40}, {"left": {}}, {"left": {"live": -1.0}}, {"length": 0.0}, {"loaded": "top", "rows": 40}],
)
def test_what_cannot_be_meant_is_told(changes: dict[str, Any]) -> None:
    with pytest.raises(InputError):
        fasten_plies(asked(**changes), US_DEFAULT)


@pytest.mark.parametrize(
    "read",
    [
        {"kind": "nail"},
        {"kind": "nail", "name": "16d common", "diameter": 0.162},
        {"kind": "bolt"},
        {"kind": "bolt", "name": "16d common", "diameter": 0.5},
        {"kind": "structural_screw", "diameter": 0.25, "capacity": 200.0},
    ],
)
def test_a_fastener_half_told_is_told_back(read: dict[str, Any]) -> None:
    with pytest.raises(InputError):
        make_fastener(NONE | read, US_DEFAULT)
