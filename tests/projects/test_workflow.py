"""Stages, hold points and moves: the table itself, and every edge that is not in it."""

from __future__ import annotations

from itertools import combinations, product

import pytest

from projects.workflow import (
    HOLD_POINTS,
    MOVES,
    NEVER_OVERRIDDEN,
    ORDER,
    STRUCTURAL_STAGES,
    WORK_STAGES,
    HoldFacts,
    IllegalMove,
    Partition,
    Stage,
    check_move,
    guards,
    moves_from,
    obstacles,
    read_hold,
    read_holds,
    reopened_by,
)

MET = HoldFacts(True, "on record")
UNMET = HoldFacts(False, "not on record")
OVERRIDDEN = HoldFacts(False, "not on record", overridden=True, override_reason="the inspector is ill")
PARTITION = Partition(True, True, "no", "no", "no")
NAMES = [point.name for point in HOLD_POINTS]


def facts(**changed):
    return {name: changed.get(name, MET) for name in NAMES}


def test_ten_stages_and_fourteen_hold_points_in_order():
    assert [stage.value for stage in WORK_STAGES] == [
        "survey", "sizing", "engineering", "permit", "make_ready",
        "footings", "shoring", "opening", "inspection", "close_up",
    ]  # fmt: skip
    assert NAMES == [
        "verdict_recorded", "hazards_surveyed", "sealed_design", "permit_issued", "hazards_cleared",
        "services_cleared", "footing_inspected", "footing_cured", "material_matches", "shoring_checked",
        "members_installed", "framing_inspected", "alarms", "final_passed",
    ]  # fmt: skip
    numbers = [point.leaves.number for point in HOLD_POINTS]
    assert numbers == sorted(numbers)
    assert (
        frozenset({"hazards_cleared", "footing_cured", "shoring_checked", "members_installed"})
        == NEVER_OVERRIDDEN
    )


# --- the table --------------------------------------------------------------------------------------

FORWARD = {(a, b) for a, b in product(ORDER, ORDER) if b.number == a.number + 1}
BACK = {(a, b) for a, b in product(WORK_STAGES, WORK_STAGES) if b.number < a.number} | {
    (Stage.CLOSED, Stage.CLOSE_UP)
}
JUMPS = {(Stage.SURVEY, Stage.PERMIT), (Stage.MAKE_READY, Stage.OPENING)}
ILLEGAL = sorted(set(product(ORDER, ORDER)) - FORWARD - BACK - JUMPS)


def test_the_table_is_exactly_this():
    assert set(MOVES) == FORWARD | BACK | JUMPS
    assert len(ILLEGAL) == 11 * 11 - 10 - 46 - 2
    for (source, target), move in MOVES.items():
        assert (move.source, move.target) == (source, target)


@pytest.mark.parametrize(("source", "target"), ILLEGAL, ids=str)
def test_every_illegal_edge_is_refused_even_with_everything_met(source, target):
    for partition in (Partition(), PARTITION):
        with pytest.raises(IllegalMove, match="can not go from"):
            check_move(source, target, read_holds(facts(), partition), partition=partition, reason="please")


@pytest.mark.parametrize(("source", "target"), sorted(FORWARD), ids=str)
def test_every_forward_edge_goes_when_all_is_met(source, target):
    assert check_move(source, target, read_holds(facts())).kind == "forward"


@pytest.mark.parametrize(("source", "target"), sorted(BACK), ids=str)
def test_every_back_edge_goes_with_a_reason_and_only_with_one(source, target):
    nothing = read_holds(dict.fromkeys(NAMES, UNMET))
    assert check_move(source, target, nothing, reason="the design changed").kind == "back"
    for empty in ("", "  \n"):
        with pytest.raises(IllegalMove, match="written reason"):
            check_move(source, target, nothing, reason=empty)


@pytest.mark.parametrize("jump", sorted(JUMPS), ids=str)
def test_jumps_are_for_partitions_alone(jump):
    source, target = jump
    assert check_move(source, target, read_holds(facts(), PARTITION), partition=PARTITION).kind == "partition"
    with pytest.raises(IllegalMove, match="only a wall recorded as not bearing"):
        check_move(source, target, read_holds(facts()))
    between = {stage for stage in WORK_STAGES if source.number < stage.number < target.number}
    assert between <= STRUCTURAL_STAGES


# --- guards -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("point", HOLD_POINTS, ids=lambda point: point.name)
@pytest.mark.parametrize(("source", "target"), sorted(FORWARD), ids=str)
def test_an_unmet_hold_point_stops_its_own_move_and_every_later_one(point, source, target):
    readings = read_holds(facts(**{point.name: UNMET}))
    if target.number > point.leaves.number:
        with pytest.raises(IllegalMove, match=point.title) as stopped:
            check_move(source, target, readings)
        assert [reading.point for reading in stopped.value.unmet] == [point]
    else:
        assert check_move(source, target, readings)


def test_the_guards_of_a_closed_job_are_all_of_them():
    assert guards(Stage.CLOSED) == HOLD_POINTS
    assert guards(Stage.SURVEY) == ()


def test_a_hold_point_that_was_not_read_stops_the_move():
    assert [r.point.name for r in obstacles(Stage.SIZING, [])] == ["verdict_recorded", "hazards_surveyed"]
    assert all(reading.status == "unmet" for reading in read_holds({}))


# --- overrides --------------------------------------------------------------------------------------


@pytest.mark.parametrize("point", HOLD_POINTS, ids=lambda point: point.name)
def test_an_override_opens_all_but_the_four(point):
    reading = read_hold(point, OVERRIDDEN)
    if point.name in NEVER_OVERRIDDEN:
        assert (reading.status, reading.open) == ("unmet", False)
    else:
        assert (reading.status, reading.open) == ("overridden", True)
        assert "the inspector is ill" in reading.why


def test_with_everything_else_overridden_the_four_still_stop_the_job():
    readings = read_holds(dict.fromkeys(NAMES, OVERRIDDEN))
    assert {reading.point.name for reading in obstacles(Stage.CLOSED, readings)} == NEVER_OVERRIDDEN


# --- partitions ---------------------------------------------------------------------------------------

DUTIES = ("bracing", "rafter_tie", "fire_or_party")


def test_a_partition_skips_the_structural_points_and_no_other():
    readings = {r.point.name: r for r in read_holds(dict.fromkeys(NAMES, UNMET), PARTITION)}
    skipped = {name for name, reading in readings.items() if reading.status == "skipped"}
    assert skipped == {
        "sealed_design", "footing_inspected", "footing_cured", "material_matches", "shoring_checked",
        "members_installed",
    }  # fmt: skip
    stopping = {reading.point.name for reading in obstacles(Stage.CLOSED, readings.values())}
    assert stopping == {
        "verdict_recorded", "hazards_surveyed", "permit_issued", "hazards_cleared", "services_cleared",
        "framing_inspected", "alarms", "final_passed",
    }  # fmt: skip


@pytest.mark.parametrize("missing", [c for n in (1, 2, 3) for c in combinations(DUTIES, n)], ids=str)
@pytest.mark.parametrize("answer", ["unknown", "yes", ""])
def test_a_partition_needs_each_duty_answered_no(missing, answer):
    assert not Partition(True, True, **(dict.fromkeys(DUTIES, "no") | dict.fromkeys(missing, answer))).holds


def test_a_partition_needs_a_decision_that_stands():
    no = dict.fromkeys(DUTIES, "no")
    assert Partition(True, True, **no).holds
    assert not Partition(False, True, **no).holds
    assert not Partition(True, False, **no).holds
    assert not Partition().holds


def test_not_needed_opens_only_when_the_facts_say_so():
    point = next(p for p in HOLD_POINTS if p.name == "footing_cured")
    assert read_hold(point, HoldFacts(True, "no new footing", not_needed=True)).status == "not needed"
    assert read_hold(point, HoldFacts(False, "no new footing", not_needed=True)).status == "unmet"


# --- going back ---------------------------------------------------------------------------------------


def test_going_back_reopens_what_lies_behind():
    names = [point.name for point in reopened_by(Stage.SHORING)]
    assert names == [
        "material_matches", "shoring_checked", "members_installed", "framing_inspected", "alarms", "final_passed",
    ]  # fmt: skip


def test_moves_from_lists_forward_first():
    assert [m.target for m in moves_from(Stage.PERMIT)] == [
        Stage.MAKE_READY, Stage.ENGINEERING, Stage.SIZING, Stage.SURVEY,
    ]  # fmt: skip
    assert [m.target for m in moves_from(Stage.SURVEY, PARTITION)] == [Stage.SIZING, Stage.PERMIT]
    assert [m.target for m in moves_from(Stage.CLOSED)] == [Stage.CLOSE_UP]
