"""Hold points of a job: how each stands, the record that opens one, the override."""

from __future__ import annotations

from functools import partial

from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse

from projects.forms.holds import HoldRecordForm, OverrideForm, PourRecordForm
from projects.forms.survey import WhyForm
from projects.models import HoldPass, Job
from projects.requests import SignedIn
from projects.services.stages import (
    RECORDED_BY_HAND,
    hold_override,
    hold_pass,
    hold_pass_set_aside,
)
from projects.standing import facts_of, partition_of, standing_of
from projects.views.access import get_only, get_or_post, job_page
from projects.views.acts import Act, act_page
from projects.views.jobs import at_hand
from projects.workflow import HOLD_POINT_BY_NAME, HoldPoint, read_hold

#: Where the rows are that decide a hold point which is not recorded by hand.
DECIDED_ON = {
    "verdict_recorded": "projects:verdict",
    "hazards_surveyed": "projects:survey",
    "sealed_design": "projects:engineering",
    "permit_issued": "projects:permit",
    "footing_inspected": "projects:permit",
    "framing_inspected": "projects:permit",
    "final_passed": "projects:permit",
}

SET_ASIDE = Act(
    "Set the record aside",
    "Set it aside",
    WhyForm,
    hold_pass_set_aside,
    "The record is set aside. It stays visible, and counts no longer.",
    danger=True,
)


def _point(name: str) -> HoldPoint:
    point = HOLD_POINT_BY_NAME.get(name)
    if point is None:
        raise Http404("No such hold point.")
    return point


def _act_on(request: SignedIn, job: Job, point: HoldPoint, act: Act) -> HttpResponse:
    """The page of one act on a hold point, which quotes how the point stands."""
    reading = read_hold(point, facts_of(job, point.name, point.recorded), partition_of(job))
    return act_page(
        request,
        act,
        row=job,
        keyword="job",
        back=reverse("projects:holds", args=[job.pk]),
        context={"job": job, "back_title": "Hold points", "quoted": reading.why, "nav": "jobs"},
    )


@get_only
@job_page("view_job")
def holds(request: SignedIn, job: Job) -> HttpResponse:
    """Every hold point in order, with its records and overrides, those set aside too."""
    job = at_hand(request, job)
    rows = [
        {
            "reading": reading,
            "by_hand": reading.point.name in RECORDED_BY_HAND and not reading.open,
            "decided_on": (
                reverse(DECIDED_ON[reading.point.name], args=[job.pk])
                if reading.point.name in DECIDED_ON
                else ""
            ),
            "may_be_overridden": reading.point.may_override and not reading.open,
            "records": [row for row in job.hold_passes.all() if row.hold == reading.point.name],
            "overrides": [row for row in job.overrides.all() if row.hold == reading.point.name],
        }
        for reading in standing_of(job).readings
    ]
    return render(request, "projects/holds.html", {"job": job, "rows": rows, "nav": "jobs"})


@get_or_post
@job_page("pass_hold_point")
def hold_record(request: SignedIn, job: Job, name: str) -> HttpResponse:
    """Put the evidence of a hold point on record."""
    point = _point(name)
    if name not in RECORDED_BY_HAND:
        raise Http404("This hold point is met by its own record.")
    act = Act(
        point.title,
        "Put it on record",
        PourRecordForm if name == "footing_cured" else HoldRecordForm,
        partial(hold_pass, hold=name),
        "It is on record.",
        lead=""
        if point.may_override
        else "Nobody may override this hold point. Name a document or add a photo.",
        initial=lambda row: {"checked_by": request.user.display_name},
    )
    return _act_on(request, job, point, act)


@get_or_post
@job_page("override_hold_point")
def hold_go_past(request: SignedIn, job: Job, name: str) -> HttpResponse:
    """Override a hold point in writing."""
    point = _point(name)
    if not point.may_override:
        raise Http404("Nobody may override this hold point.")
    act = Act(
        f"Override: {point.title.lower()}",
        "Override it",
        OverrideForm,
        partial(hold_override, hold=name),
        "The override is on record, for ever.",
        danger=True,
    )
    return _act_on(request, job, point, act)


@get_or_post
@job_page("pass_hold_point")
def hold_record_set_aside(request: SignedIn, job: Job, pk: int) -> HttpResponse:
    """Set a record aside that turned out wrong."""
    record = get_object_or_404(HoldPass.objects.select_related("job__property__company"), pk=pk, job=job)
    return act_page(
        request,
        SET_ASIDE,
        row=record,
        keyword="record",
        back=reverse("projects:holds", args=[job.pk]),
        context={
            "job": job,
            "back_title": "Hold points",
            "quoted": f"{record}: {record.evidence}",
            "nav": "jobs",
        },
    )
