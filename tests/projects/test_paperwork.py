"""The tables of legal changes and the outlook of a permit."""

from datetime import date, timedelta

import pytest

from projects.models import EngineeringRequest, Inspection, Permit
from projects.paperwork import INSPECTION_MOVES, PERMIT_MOVES, REQUEST_MOVES, may_move, outlook
from projects.views.permits import INSPECTION_ACTS, INSPECTION_OFFERS, PERMIT_ACTS, PERMIT_OFFERS

TABLES = [
    (PERMIT_MOVES, Permit.Status),
    (INSPECTION_MOVES, Inspection.Status),
    (REQUEST_MOVES, EngineeringRequest.Status),
]


@pytest.mark.parametrize(("table", "status"), TABLES)
def test_each_table_speaks_of_each_state_and_no_other(table, status):
    assert set(table) == set(status.values)
    assert {target for targets in table.values() for target in targets} <= set(status.values)


def test_what_is_over_stays_over():
    assert PERMIT_MOVES["closed"] == PERMIT_MOVES["withdrawn"] == frozenset()
    assert INSPECTION_MOVES["passed"] == INSPECTION_MOVES["failed"] == frozenset()
    assert not may_move(PERMIT_MOVES, "preparing", "issued")
    assert not may_move(PERMIT_MOVES, "unheard of", "issued")


def test_pages_offer_acts_exactly_where_there_is_a_way_on():
    assert set(PERMIT_OFFERS) == {state for state, ways in PERMIT_MOVES.items() if ways}
    assert set(INSPECTION_OFFERS) == {state for state, ways in INSPECTION_MOVES.items() if ways}
    assert {act for offers in PERMIT_OFFERS.values() for act in offers} == set(PERMIT_ACTS)
    assert {act for offers in INSPECTION_OFFERS.values() for act in offers} == set(INSPECTION_ACTS)


PROGRESS = date(2026, 1, 1)
LAPSE = date(2026, 6, 30)  # 180 calendar days later


@pytest.mark.parametrize(
    ("today", "threat", "left"),
    [
        (LAPSE - timedelta(days=31), None, 31),
        (LAPSE - timedelta(days=30), "lapsing", 30),
        (LAPSE, "lapsing", 0),
        (LAPSE + timedelta(days=1), "lapsed", -1),
    ],
)
def test_a_permit_without_progress_lapses_after_180_days(today, threat, left):
    """IRC R105.5: 180 days. The last day still counts, the warning comes 30 days ahead (common practice)."""
    seen = outlook(
        today=today,
        last_progress_on=PROGRESS,
        lapse_days=180,
        lapse_kind="calendar",
        expires_on=date(2027, 1, 1),
        code="us",
        region="OH",
    )
    assert (seen.lapses_on, seen.ends_on, seen.threat, seen.days_left) == (LAPSE, LAPSE, threat, left)


@pytest.mark.parametrize(
    ("today", "threat"),
    [
        (date(2026, 3, 1), None),
        (date(2026, 3, 2), "expiring"),
        (date(2026, 4, 1), "expiring"),
        (date(2026, 4, 2), "expired"),
    ],
)
def test_an_expiry_before_the_lapse_counts(today, threat):
    seen = outlook(
        today=today,
        last_progress_on=PROGRESS,
        lapse_days=180,
        lapse_kind="calendar",
        expires_on=date(2026, 4, 1),
        code="us",
        region="OH",
    )
    assert (seen.ends_on, seen.threat) == (date(2026, 4, 1), threat)
