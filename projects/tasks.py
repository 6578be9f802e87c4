"""Tasks: each fetches nothing and decides nothing, it calls one service."""

from __future__ import annotations

from celery import shared_task
from django.utils import timezone

from projects.services.background import background_jobs_requeue
from projects.services.lapses import lapsing_permits_look


@shared_task(name="projects.look_for_lapsing_permits")
def look_for_lapsing_permits() -> list[int]:
    """Nightly: say once which permits are about to run out, and set aside those that have."""
    return [notice.pk for notice in lapsing_permits_look(today=timezone.localdate())]


@shared_task(name="projects.requeue_stale_jobs")
def requeue_stale_jobs() -> list[int]:
    """Every few minutes: send again what a lost message or a dead worker left behind."""
    return background_jobs_requeue(now=timezone.now())
