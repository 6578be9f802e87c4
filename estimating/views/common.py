"""What every page of a job's estimate does first."""

from __future__ import annotations

from typing import Any, cast

from django.http import Http404, HttpRequest

from estimating.models import Estimate
from estimating.selectors import estimate_for
from projects.models import Job, User
from projects.permissions import can, require
from projects.selectors import job_for


def person(request: HttpRequest) -> User:
    """Who asks; pages without a sign-in are never reached."""
    return cast(User, request.user)


def page_job(request: HttpRequest, job_pk: int, action: str) -> Job:
    """The job: 404 for one of another company, 403 where the role may not do `action`."""
    job: Job = job_for(request.user, job_pk)
    require(request.user, action, job)
    return job


def page_estimate(request: HttpRequest, job_pk: int, pk: int, action: str) -> Estimate:
    """One revision of the job, like `page_job`."""
    job = page_job(request, job_pk, action)
    estimate = estimate_for(request.user, pk)
    if estimate.job_id != job.pk:
        raise Http404("No such estimate.")
    return estimate


def page(request: HttpRequest, job: Job, here: str, **more: Any) -> dict[str, Any]:
    """The context every page of a job shares."""
    return {
        "job": job,
        "nav": "jobs",
        "here": here,
        "job_page": "cut_list" if here == "cut_list" else "estimate",
        "may_build": can(request.user, "design", job) and can(request.user, "see_prices", job),
        "may_issue": can(request.user, "edit_prices", job),
        "may_export": can(request.user, "export_quote", job),
        "may_price": can(request.user, "see_prices", job),
        **more,
    }
