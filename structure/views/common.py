"""What every page of this app does first: find the job the person may see, and say which page it is."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import PermissionDenied

from projects.models import Job
from projects.models.places import USUAL_UNITS
from projects.permissions import can
from projects.requests import SignedIn
from projects.selectors import job_for
from structure.shown import show_in

#: What the lines of a calculation and the engine's sentences are written in, whatever a house is shown in.
LINES_IN = {
    "us": "pounds and inches, as the United States codes",
    "ca": "newtons and millimetres, as the Canadian codes",
}


def page_job(request: SignedIn, job_pk: int, action: str = "view_job") -> Job:
    """The job, 404 for one of another company, 403 where the role may not do `action`."""
    job: Job = job_for(request.user, job_pk)
    if not can(request.user, action, job):
        raise PermissionDenied("Your role may not do this on this job.")
    show_in(job.units)
    return job


def page(request: SignedIn, job: Job, here: str, **more: Any) -> dict[str, Any]:
    """The context every page of a job shares."""
    return {
        "job": job,
        "nav": "jobs",
        "here": here,
        "job_page": "structure",
        "may_design": can(request.user, "design", job),
        "may_tick": can(request.user, "tick_off", job),
        "lines_in": "" if job.units == USUAL_UNITS[job.code] else LINES_IN[job.code],
        **more,
    }
