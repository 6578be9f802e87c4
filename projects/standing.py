"""How a job stands: verdict, decision, partition and hold points, read from its rows.

Everything goes through the job's related managers with `.all()`, so rows that were prefetched for a list are
used as they are. `OWN_PREFETCH` is what this module reads.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.db.models import QuerySet
from django.utils import timezone

from projects import holdpoints
from projects.evidence import Evidence, levels_above
from projects.models import Decision, HoldPass, Job, Override
from projects.verdict import NOTHING, Verdict, digest, not_bearing_blocks, verdict
from projects.workflow import (
    HOLD_POINTS,
    ORDER,
    WAITS_ON,
    HoldFacts,
    HoldReading,
    Partition,
    Stage,
    obstacles,
    read_hold,
)

OWN_PREFETCH = ("findings", "answers", "decisions", "hold_passes", "overrides")


def evidence_of(job: Job) -> list[Evidence]:
    """The findings that stand, as the verdict reads them."""
    return [finding.evidence for finding in job.findings.all() if finding.withdrawn_at is None]


def answers_of(job: Job) -> dict[str, str]:
    """Question name to answer."""
    return {answer.question: answer.answer for answer in job.answers.all()}


def verdict_of(job: Job) -> Verdict:
    """What the evidence shows now."""
    return verdict(evidence_of(job), levels_above(job.floors_above))


def digest_of(job: Job) -> str:
    """The fingerprint of the evidence now."""
    return digest(evidence_of(job), answers_of(job), levels_above(job.floors_above))


@dataclass(frozen=True)
class DecisionStanding:
    """The decision in force, whether evidence has changed since, and whether it still stands.

    A decision `bearing` stands whatever comes after it: it is the careful side. A decision `not bearing` falls
    when the evidence changes, until somebody decides again on what is known now.
    """

    decision: Decision | None
    stale: bool = False
    stands: bool = False

    @property
    def not_bearing(self) -> bool:
        """A decision `not bearing` that stands."""
        return self.stands and self.decision is not None and self.decision.decision == Decision.NOT_BEARING


def decision_of(job: Job) -> DecisionStanding:
    """The newest decision against the evidence of today."""
    decisions = list(job.decisions.all())
    if not decisions:
        return DecisionStanding(None)
    newest = max(decisions, key=lambda d: (d.recorded_at, d.pk))
    stale = newest.evidence_digest != digest_of(job)
    if newest.decision == Decision.BEARING:
        return DecisionStanding(newest, stale, True)
    return DecisionStanding(
        newest, stale, not stale and not not_bearing_blocks(verdict_of(job), answers_of(job))
    )


def partition_of(job: Job) -> Partition:
    """What the partition rule is read from."""
    standing = decision_of(job)
    answers = answers_of(job)
    return Partition(
        decided_not_bearing=standing.decision is not None
        and standing.decision.decision == Decision.NOT_BEARING,
        decision_stands=standing.stands,
        bracing=answers.get("bracing", "unknown"),
        rafter_tie=answers.get("rafter_tie", "unknown"),
        fire_or_party=answers.get("fire_or_party", "unknown"),
    )


def record_of(job: Job, name: str) -> HoldPass | None:
    """The newest evidence on record for a hold point that was not set aside."""
    records = [p for p in job.hold_passes.all() if p.hold == name and p.set_aside_at is None]
    return max(records, key=lambda p: (p.recorded_at, p.pk), default=None)


def override_of(job: Job, name: str) -> Override | None:
    """The newest override of a hold point that was not set aside."""
    rows = [o for o in job.overrides.all() if o.hold == name and o.set_aside_at is None]
    return max(rows, key=lambda o: (o.overridden_at, o.pk), default=None)


def facts_of(job: Job, name: str, recorded: bool) -> HoldFacts:
    """Facts of one hold point: what its checks say, the record where one is asked for, and an override."""
    state = holdpoints.state_of(job, name)
    met, why = state.met, state.why
    if met and not state.not_needed and (recorded or state.needs_record):
        record = record_of(job, name)
        if record is None:
            met, why = False, f"{why} Nobody has put it on record yet.".strip()
        else:
            why = f"{record.checked_by}, {record.checked_on:%Y-%m-%d}: {record.evidence}"
    override = override_of(job, name)
    return HoldFacts(
        met=met,
        why=why,
        overridden=override is not None,
        override_reason=f"{override.reason} ({override.overridden_by_name})" if override else "",
        not_needed=state.not_needed,
    )


def holds_of(job: Job) -> tuple[HoldReading, ...]:
    """Every hold point as it counts now."""
    partition = partition_of(job)
    return tuple(
        read_hold(point, facts_of(job, point.name, point.recorded), partition) for point in HOLD_POINTS
    )


def cured_on(record: HoldPass, engineer_days: int | None) -> date | None:
    """The day from which a footing may be loaded. The engineer's figure wins over what was typed at the pour."""
    days = engineer_days if engineer_days is not None else record.cure_days
    if record.poured_on is None or days is None:
        return None
    return record.poured_on + timedelta(days=days)


@dataclass(frozen=True)
class JobStanding:
    """A line of the dashboard: the stage, what stops the next one, and whose move it is."""

    job: Job
    readings: tuple[HoldReading, ...]
    blocked_by: tuple[HoldReading, ...]
    whose_move: str
    days_waiting: int


def standing_of(job: Job) -> JobStanding:
    """What stops the job from its next stage and who has to move."""
    readings = holds_of(job)
    stage = job.stage_now
    if stage is Stage.CLOSED:
        return JobStanding(job, readings, (), WAITS_ON[stage], 0)
    blocked = obstacles(ORDER[stage.number], readings)
    whose = blocked[0].point.waits_on if blocked else "project manager"
    return JobStanding(job, readings, blocked, whose, job.days_waiting)


def with_standing(jobs: QuerySet[Job]) -> QuerySet[Job]:
    """The jobs with everything at hand that any hold point reads."""
    return jobs.prefetch_related(*OWN_PREFETCH, *_others(holdpoints.prefetches()))


def _others(lookups: Iterable[Any]) -> list[Any]:
    return [lookup for lookup in lookups if lookup not in OWN_PREFETCH]


def today() -> date:
    """The day it is here."""
    return timezone.localdate()


__all__ = ["NOTHING", "DecisionStanding", "JobStanding"]
