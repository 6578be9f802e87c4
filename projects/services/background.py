"""Background work: asked for once, run once, whatever happens to the worker.

The row is the truth. A message to a worker may be lost or come twice: a lost one is sent again by
`background_jobs_requeue`, a second one finds the row taken.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

from django.db import transaction
from django.utils import timezone
from django.utils.module_loading import import_string

from projects.models import BackgroundJob, Job, User

logger = logging.getLogger(__name__)

State = BackgroundJob.State
MAX_ATTEMPTS = 3
#: A message that has not been picked up for this long is sent again.
WAITING_TOO_LONG = timedelta(minutes=2)
#: Longer than the hard time limit of a task: a heartbeat older than this belongs to a dead worker.
SILENT_TOO_LONG = timedelta(minutes=15)

Report = Callable[[int], None]


def _send(pk: int, task_path: str) -> None:
    """Wake a worker, or do it here when tasks run in process. An unreachable broker leaves the row waiting."""
    task = import_string(task_path)
    try:
        task.delay(pk)
    except task.OperationalError:
        logger.warning("No broker answers; background job %s waits for the next sweep.", pk)


@transaction.atomic
def background_job_request(
    *,
    kind: str,
    key: str,
    task: str,
    actor: User | None,
    job: Job | None = None,
    inputs: dict[str, Any] | None = None,
) -> BackgroundJob:
    """Ask for a piece of work. The same key asked for again is the same row; a failed one gets another try.

    `task` is the dotted path of a shared task that takes the row's key and calls `background_job_run`. It is woken
    after the surrounding transaction has committed.
    """
    row, new = BackgroundJob.objects.get_or_create(
        key=key,
        defaults={"kind": kind, "task": task, "job": job, "requested_by": actor, "inputs": inputs or {}},
    )
    if not new:
        retried = BackgroundJob.objects.filter(pk=row.pk, version=row.version, state=State.FAILED).update(
            state=State.WAITING, attempts=0, error="", percent=0, finished_at=None, version=row.version + 1
        )
        if not retried:
            return row
        row.refresh_from_db()
    transaction.on_commit(lambda: _send(row.pk, row.task))
    return row


def _claim(pk: int, now: datetime) -> BackgroundJob | None:
    row = BackgroundJob.objects.filter(pk=pk, state=State.WAITING).first()
    if row is None:
        return None
    won = BackgroundJob.objects.filter(pk=pk, version=row.version, state=State.WAITING).update(
        state=State.RUNNING,
        started_at=now,
        heartbeat_at=now,
        attempts=row.attempts + 1,
        version=row.version + 1,
    )
    if not won:
        return None
    row.refresh_from_db()
    return row


def background_job_run(
    *, pk: int, work: Callable[[BackgroundJob, Report], dict[str, Any]]
) -> BackgroundJob | None:
    """Take the row, do the work, keep the result or the reason of failure.

    Returns None when the row is finished or somebody else has it. `work` gets the row and a function to report
    percent done; it must be safe to run twice, because a worker may die after its effect and before its report.
    """
    row = _claim(pk, timezone.now())
    if row is None:
        return None
    mine = BackgroundJob.objects.filter(pk=row.pk, version=row.version)

    def report(percent: int) -> None:
        mine.update(percent=min(max(percent, 0), 100), heartbeat_at=timezone.now())

    try:
        result = work(row, report)
    except Exception as trouble:
        logger.exception("Background job %s (%s) failed.", row.pk, row.kind)
        mine.update(
            state=State.FAILED,
            error=f"{type(trouble).__name__}: {trouble}"[:2000],
            finished_at=timezone.now(),
            version=row.version + 1,
        )
    else:
        mine.update(
            state=State.DONE,
            percent=100,
            result=result,
            error="",
            finished_at=timezone.now(),
            version=row.version + 1,
        )
    row.refresh_from_db()
    return row


def background_jobs_requeue(*, now: datetime) -> list[int]:
    """Send again what waits too long or whose worker went silent; give up after three tries. Returns keys."""
    lost = BackgroundJob.objects.filter(state=State.RUNNING, heartbeat_at__lt=now - SILENT_TOO_LONG)
    for row in lost:
        spent = row.attempts >= MAX_ATTEMPTS
        lost.filter(pk=row.pk, version=row.version).update(
            state=State.FAILED if spent else State.WAITING,
            error=f"The worker went silent {row.attempts} times." if spent else "",
            finished_at=now if spent else None,
            version=row.version + 1,
        )
    sent = []
    for row in BackgroundJob.objects.filter(state=State.WAITING).order_by("created_at"):
        since = row.heartbeat_at or row.created_at
        if since < now - WAITING_TOO_LONG:
            _send(row.pk, row.task)
            sent.append(row.pk)
    return sent
