"""Writing the record of a job."""

from __future__ import annotations

from typing import Any

from projects.models import Job, JobEvent


def event_record(
    *, job: Job, actor: Any, verb: str, detail: str, data: dict[str, Any] | None = None
) -> JobEvent:
    """Write one line. `actor` is a person, or None for the program itself."""
    name = "Carrydown" if actor is None else actor.display_name
    return JobEvent.objects.create(
        job=job, actor=actor, actor_name=name, verb=verb, detail=detail, data=data or {}
    )
