"""The job page, its form, its archive, and its moves from stage to stage."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_POST

from projects.errors import Conflict, Refused
from projects.forms.holds import BackForm, ForwardForm
from projects.forms.paper import VersionedForm
from projects.forms.site import ArchiveForm, JobEditForm
from projects.models import Job
from projects.panels import panels_for
from projects.permissions import can
from projects.requests import SignedIn
from projects.selectors import jobs_visible_to, people_visible_to
from projects.services.jobs import FIELDS, job_archive, job_unarchive, job_update
from projects.services.stages import job_advance
from projects.standing import (
    decision_of,
    partition_of,
    standing_of,
    verdict_of,
    with_standing,
)
from projects.views.access import get_only, get_or_post, job_page
from projects.views.acts import Act, act_page
from projects.workflow import Move, moves_from, obstacles

LAST_EVENTS = 12

ARCHIVE = Act(
    "Archive the job",
    "Archive it",
    ArchiveForm,
    job_archive,
    "The job is in the archive. Everything on it stays readable.",
    danger=True,
)
UNARCHIVE = Act(
    "Take the job out of the archive", "Take it out", VersionedForm, job_unarchive, "The job is back."
)


def at_hand(request: SignedIn, job: Job) -> Job:
    """The same job with everything fetched that its standing reads."""
    return with_standing(
        jobs_visible_to(request.user)
        .filter(pk=job.pk)
        .select_related("contractor", "estimator", "project_manager", "crew_lead")
    ).get()


@get_only
@job_page("view_job")
def job_detail(request: SignedIn, job: Job) -> HttpResponse:
    """Stage rail, what blocks the next stage, hold points, panels, the last events."""
    job = at_hand(request, job)
    standing = standing_of(job)
    context = {
        "job": job,
        "standing": standing,
        "verdict": verdict_of(job),
        "decision": decision_of(job),
        "partition": partition_of(job),
        "panels": panels_for(job, request.user),
        "events": job.events.all()[:LAST_EVENTS],
        "overrides": list(job.overrides.all()),
        "nav": "jobs",
    }
    return render(request, "projects/job.html", context)


@get_only
@job_page("view_job")
def job_record(request: SignedIn, job: Job) -> HttpResponse:
    """Everything that happened on the job."""
    return render(request, "projects/record.html", {"job": job, "events": job.events.all(), "nav": "jobs"})


@get_or_post
@job_page("edit_job")
def job_edit(request: SignedIn, job: Job) -> HttpResponse:
    """Change what a job says of itself."""
    act = Act(
        "Change the job",
        "Save the job",
        JobEditForm,
        job_update,
        "Saved.",
        initial=lambda row: {field: getattr(row, field) for field in FIELDS},
    )
    return act_page(
        request,
        act,
        row=job,
        keyword="job",
        back=job.get_absolute_url(),
        context={"job": job, "back_title": "Job", "nav": "jobs"},
        form_kwargs={"people": people_visible_to(request.user)},
    )


@get_or_post
@job_page("archive_job")
def job_put_away(request: SignedIn, job: Job) -> HttpResponse:
    """Archive a job, or take it out again."""
    return act_page(
        request,
        UNARCHIVE if job.archived_at else ARCHIVE,
        row=job,
        keyword="job",
        back=job.get_absolute_url(),
        context={"job": job, "back_title": "Job", "nav": "jobs"},
    )


def _stage_page(
    request: SignedIn, job: Job, *, back_form: BackForm | None = None, refused: str = "", status: int = 200
) -> HttpResponse:
    job = at_hand(request, job)
    partition = partition_of(job)
    standing = standing_of(job)
    moves = moves_from(job.stage_now, partition)
    forward = [
        {
            "move": move,
            "obstacles": obstacles(move.target, standing.readings),
            "form": ForwardForm(initial={"to": move.target.value, "version": job.version}, prefix=""),
        }
        for move in moves
        if move.kind != "back"
    ]
    stages = _back_stages(moves)
    context: dict[str, Any] = {
        "job": job,
        "standing": standing,
        "forward": forward,
        "back_form": back_form or BackForm(stages=stages, initial={"version": job.version}),
        "has_back": bool(stages),
        "refused": refused,
        "decision": decision_of(job),
        "nav": "jobs",
        "may_move": can(request.user, "advance_job", job),
    }
    return render(request, "projects/stage.html", context, status=status)


def _back_stages(moves: tuple[Move, ...]) -> list[tuple[str, str]]:
    return [(move.target.value, move.target.label) for move in moves if move.kind == "back"]


@get_only
@job_page("view_job")
def job_stage(request: SignedIn, job: Job) -> HttpResponse:
    """Where the job can go from here, and what stands in the way of each."""
    return _stage_page(request, job)


@require_POST
@job_page("advance_job")
def job_move(request: SignedIn, job: Job) -> HttpResponse:
    """Move the job on or back. A refusal shows what stands in the way and keeps what was typed."""
    back = "reason" in request.POST
    stages = _back_stages(moves_from(job.stage_now, partition_of(job)))
    form = BackForm(request.POST, stages=stages) if back else ForwardForm(request.POST)
    back_form = form if isinstance(form, BackForm) else None
    if not form.is_valid():
        refused = "" if back else "Stage: the move was not understood; choose one below."
        return _stage_page(request, job, back_form=back_form, refused=refused, status=422)
    try:
        moved = job_advance(job=job, actor=request.user, **form.cleaned_data)
    except Conflict as conflict:
        return _stage_page(request, job, back_form=back_form, refused=conflict.sentence, status=409)
    except Refused as refusal:
        return _stage_page(request, job, back_form=back_form, refused=refusal.sentence, status=422)
    messages.success(request, f"The job is at {moved.stage_now.label} now.")
    return redirect(reverse("projects:job", args=[job.pk]))
