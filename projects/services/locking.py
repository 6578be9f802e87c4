"""One writer a job at a time, where what is decided rests on more rows than the job's own."""

from __future__ import annotations

from projects.errors import Refused
from projects.models import Job


def job_lock(job: Job) -> Job:
    """The job as it is now, held until the transaction ends. Refuses an archived one.

    PostgreSQL locks the row. SQLite has no row locks, but there a transaction is IMMEDIATE: it is the only writer
    already.
    """
    fresh = Job.objects.select_for_update(of=("self",)).select_related("property__company").get(pk=job.pk)
    if fresh.archived_at is not None:
        raise Refused("Job: it is archived; take it out of the archive first.")
    return fresh
