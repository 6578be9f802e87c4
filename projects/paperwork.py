"""Every legal change of state of a permit, an inspection and an engineering request, and the dates that follow.

Pure: no Django, no database, no clock.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from projects.days import DayKind, add_days

PERMIT_MOVES: Mapping[str, frozenset[str]] = {
    "preparing": frozenset({"submitted", "withdrawn"}),
    "submitted": frozenset({"in_review", "corrections", "issued", "withdrawn"}),
    "in_review": frozenset({"corrections", "issued", "withdrawn"}),
    "corrections": frozenset({"submitted", "withdrawn"}),
    "issued": frozenset({"closed", "expired", "withdrawn"}),
    # An authority may extend or reinstate what ran out, in writing.
    "expired": frozenset({"issued", "withdrawn"}),
    "closed": frozenset(),
    "withdrawn": frozenset(),
}

INSPECTION_MOVES: Mapping[str, frozenset[str]] = {
    "needed": frozenset({"booked", "passed", "failed", "dropped"}),
    # Booked again: the date moved.
    "booked": frozenset({"booked", "needed", "passed", "failed", "dropped"}),
    "passed": frozenset(),
    "failed": frozenset(),
    "dropped": frozenset({"needed"}),
}

REQUEST_MOVES: Mapping[str, frozenset[str]] = {
    "preparing": frozenset({"sent", "withdrawn"}),
    "sent": frozenset({"questions", "answered", "withdrawn"}),
    "questions": frozenset({"sent", "answered", "withdrawn"}),
    # A revised design is recorded against the same request.
    "answered": frozenset({"questions", "answered"}),
    "withdrawn": frozenset(),
}

#: Warn this many days before a permit lapses or expires (common practice).
WARN_DAYS = 30


def may_move(moves: Mapping[str, frozenset[str]], source: str, target: str) -> bool:
    """True when the change of state is in the table."""
    return target in moves.get(source, frozenset())


Threat = Literal["lapsing", "lapsed", "expiring", "expired"]


@dataclass(frozen=True)
class Outlook:
    """How long an issued permit lives, and what threatens it first."""

    lapses_on: date
    expires_on: date
    ends_on: date
    threat: Threat | None
    days_left: int


def outlook(
    *,
    today: date,
    last_progress_on: date,
    lapse_days: int,
    lapse_kind: DayKind | str,
    expires_on: date,
    code: str,
    region: str,
    warn_days: int = WARN_DAYS,
) -> Outlook:
    """When an issued permit ends: without progress it lapses, and whatever happens it expires.

    IRC R105.5 lets a permit lapse 180 days after the work was last moved on; a jurisdiction may say otherwise.
    The last day of either still counts as valid.
    """
    lapses_on = add_days(last_progress_on, lapse_days, lapse_kind, code, region)
    ends_on = min(lapses_on, expires_on)
    days_left = (ends_on - today).days
    by_lapse = lapses_on < expires_on
    threat: Threat | None = None
    if days_left < 0:
        threat = "lapsed" if by_lapse else "expired"
    elif today >= ends_on - timedelta(days=warn_days):
        threat = "lapsing" if by_lapse else "expiring"
    return Outlook(lapses_on, expires_on, ends_on, threat, days_left)


def earliest_visit(
    asked_on: date, notice_days: int, notice_kind: DayKind | str, code: str, region: str
) -> date:
    """The first day an inspector can be expected when asked on `asked_on`."""
    return add_days(asked_on, notice_days, notice_kind, code, region)
