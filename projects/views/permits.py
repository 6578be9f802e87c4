"""Pages of the authority's part of a job: permit, inspections, chases."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from projects.errors import Refused
from projects.forms import paper
from projects.models import Deficiency, Inspection, Job, Permit, PermitDocument
from projects.permissions import can, require
from projects.permit_selectors import (
    chases_for_page,
    inspections_for_page,
    jurisdictions_visible_to,
    next_chase_for,
    permit_outlook,
    permits_for_page,
)
from projects.requests import SignedIn
from projects.selectors import job_for
from projects.services import chases, inspections, permits
from projects.views.acts import Act, act_page

get_or_post = require_http_methods(["GET", "HEAD", "POST"])

START = Act(
    "Start a permit",
    "Start the application",
    paper.PermitStartForm,
    permits.permit_start,
    "The application is in preparation, with the papers and inspections of the jurisdiction.",
)
PERMIT_ACTS: dict[str, Act] = {
    "edit": Act(
        "Fee, alarms and note",
        "Save",
        paper.PermitEditForm,
        permits.permit_edit,
        "Saved.",
        initial=lambda row: {"fee": row.fee, "alarms_required": row.alarms_required, "note": row.note},
    ),
    "submit": Act(
        "Hand in the application",
        "Record as handed in",
        paper.PermitSubmitForm,
        permits.permit_submit,
        "The application is on record as handed in.",
    ),
    "take-in": Act(
        "In review",
        "Record as in review",
        paper.VersionedForm,
        permits.permit_take_in,
        "The application is in review.",
        lead="The permit office said that its review has begun.",
    ),
    "corrections": Act(
        "Corrections asked",
        "Record the corrections",
        paper.CorrectionsForm,
        permits.permit_ask_corrections,
        "The corrections are on record.",
        initial=lambda row: {"corrections": row.corrections},
    ),
    "issue": Act(
        "Permit issued",
        "Record the permit",
        paper.PermitIssueForm,
        permits.permit_issue,
        "The permit is on record as issued.",
        initial=lambda row: {"number": row.number, "alarms_required": row.alarms_required},
    ),
    "progress": Act(
        "Progress under the permit",
        "Record the progress",
        paper.ProgressForm,
        permits.permit_record_progress,
        "The progress is on record; the lapse counts from that day.",
    ),
    "extend": Act(
        "Extension by the authority",
        "Record the extension",
        paper.ExtendForm,
        permits.permit_extend,
        "The extension is on record.",
    ),
    "close": Act(
        "Close the permit", "Record as closed", paper.CloseForm, permits.permit_close, "The permit is closed."
    ),
    "withdraw": Act(
        "Withdraw the application",
        "Withdraw",
        paper.WithdrawForm,
        permits.permit_withdraw,
        "The application is withdrawn.",
        danger=True,
    ),
}
#: Which acts a permit in each state offers, the likeliest first.
PERMIT_OFFERS: dict[str, tuple[str, ...]] = {
    "preparing": ("submit", "edit", "withdraw"),
    "submitted": ("issue", "corrections", "take-in", "edit", "withdraw"),
    "in_review": ("issue", "corrections", "edit", "withdraw"),
    "corrections": ("submit", "edit", "withdraw"),
    "issued": ("progress", "close", "extend", "edit", "withdraw"),
    "expired": ("extend", "withdraw"),
}
INSPECTION_ACTS: dict[str, Act] = {
    "book": Act(
        "Book the inspection",
        "Record the booking",
        paper.BookForm,
        inspections.inspection_book,
        "The booking is on record.",
        initial=lambda row: {"booked_for": row.booked_for, "booked_with": row.booked_with},
    ),
    "pass": Act(
        "Inspection passed",
        "Record as passed",
        paper.PassForm,
        inspections.inspection_pass,
        "The inspection is on record as passed.",
        initial=lambda row: {"on": row.booked_for or timezone.localdate()},
    ),
    "fail": Act(
        "Inspection failed",
        "Record as failed",
        paper.FailForm,
        inspections.inspection_fail,
        "The failed inspection is on record, and a re-inspection is on the list.",
        initial=lambda row: {"on": row.booked_for or timezone.localdate()},
    ),
    "drop": Act(
        "Inspection not needed",
        "Record as not needed",
        paper.ReasonForm,
        inspections.inspection_drop,
        "The inspection is off the list.",
        danger=True,
    ),
    "restore": Act(
        "Inspection needed again",
        "Put it back on the list",
        paper.VersionedForm,
        inspections.inspection_restore,
        "The inspection is to be booked.",
        lead="Use this when a booking fell through, or an inspection was taken off the list too soon.",
    ),
}
INSPECTION_OFFERS: dict[str, tuple[str, ...]] = {
    "needed": ("book", "pass", "fail", "drop"),
    "booked": ("pass", "fail", "book", "restore", "drop"),
    "dropped": ("restore",),
}
ADD = Act(
    "One more inspection",
    "Add to the list",
    paper.InspectionAddForm,
    inspections.inspection_add,
    "The inspection is on the list.",
)
CLEAR = Act(
    "Deficiency put right",
    "Record as put right",
    paper.ClearForm,
    inspections.deficiency_clear,
    "The deficiency is on record as put right.",
)
CHASE = Act("New chase", "Record the chase", paper.ChaseForm, chases.chase_record, "The chase is on record.")

TONES = {
    "issued": "ok",
    "closed": "ok",
    "passed": "ok",
    "corrections": "warn",
    "booked": "note",
    "expired": "bad",
    "failed": "bad",
    "withdrawn": "muted",
    "dropped": "muted",
}


def _context(job: Job, user: Any, where: str = "permit") -> dict[str, Any]:
    return {
        "job": job,
        "nav": "jobs",
        "job_nav": where,
        "back_title": "Chases" if where == "chases" else "Permit and inspections",
        "may_edit": can(user, "edit_permit", job),
        "may_inspect": can(user, "edit_inspection", job),
        "may_chase": can(user, "log_chase", job),
        "may_see_prices": can(user, "see_prices", job),
    }


def _back(job: Job) -> str:
    return reverse("projects:permit", args=[job.pk])


@require_safe
def permit_page(request: SignedIn, job_pk: int) -> HttpResponse:
    """Permits and inspections of a job: where they stand, what threatens them, what can be recorded next."""
    job = job_for(request.user, job_pk)
    today = timezone.localdate()
    found = list(permits_for_page(job))
    shown_permits = [
        {
            "permit": permit,
            "tone": TONES.get(permit.status, "note"),
            "outlook": permit_outlook(permit, today),
            "review_late": bool(permit.review_due_on and permit.review_due_on < today),
            "offers": [(act, PERMIT_ACTS[act]) for act in PERMIT_OFFERS.get(permit.status, ())],
        }
        for permit in found
    ]
    shown_visits = [
        {
            "visit": visit,
            "tone": TONES.get(visit.status, "note"),
            "late": bool(visit.status == "booked" and visit.booked_for and visit.booked_for < today),
            "offers": [(act, INSPECTION_ACTS[act]) for act in INSPECTION_OFFERS.get(visit.status, ())],
        }
        for visit in inspections_for_page(job)
    ]
    return render(
        request,
        "projects/permit.html",
        {
            **_context(job, request.user),
            "permits": shown_permits,
            "visits": shown_visits,
            "may_start": not any(permit.live for permit in found),
        },
    )


@get_or_post
def permit_start(request: SignedIn, job_pk: int) -> HttpResponse:
    """Start an application."""
    job = job_for(request.user, job_pk)
    require(request.user, "edit_permit", job)
    known = jurisdictions_visible_to(request.user).filter(code=job.code)
    context = {**_context(job, request.user), "no_jurisdiction": not known.exists()}
    return act_page(
        request,
        START,
        row=job,
        keyword="job",
        back=_back(job),
        context=context,
        form_kwargs={"jurisdictions": known},
    )


@get_or_post
def permit_act(request: SignedIn, job_pk: int, pk: int, act: str) -> HttpResponse:
    """Everything that happens to a permit."""
    job = job_for(request.user, job_pk)
    require(request.user, "edit_permit", job)
    row = get_object_or_404(Permit.objects.select_related("jurisdiction", "job"), pk=pk, job=job)
    return act_page(
        request,
        PERMIT_ACTS[act],
        row=row,
        keyword="permit",
        back=_back(job),
        context=_context(job, request.user),
    )


@require_POST
def permit_document(request: SignedIn, job_pk: int, pk: int) -> HttpResponse:
    """Tick a required paper as ready, or take the tick away."""
    job = job_for(request.user, job_pk)
    require(request.user, "edit_permit", job)
    row = get_object_or_404(PermitDocument.objects.select_related("permit__job"), pk=pk, permit__job=job)
    try:
        permits.permit_document_set(
            document=row, actor=request.user, ready=request.POST.get("ready") == "yes"
        )
    except Refused as refusal:
        messages.error(request, refusal.sentence)
    return redirect(_back(job))


@get_or_post
def inspection_add(request: SignedIn, job_pk: int) -> HttpResponse:
    """One more inspection."""
    job = job_for(request.user, job_pk)
    require(request.user, "edit_inspection", job)
    return act_page(
        request, ADD, row=job, keyword="job", back=_back(job), context=_context(job, request.user)
    )


@get_or_post
def inspection_act(request: SignedIn, job_pk: int, pk: int, act: str) -> HttpResponse:
    """Everything that happens to an inspection."""
    job = job_for(request.user, job_pk)
    require(request.user, "edit_inspection", job)
    row = get_object_or_404(
        Inspection.objects.select_related("permit__jurisdiction", "job", "again_after"), pk=pk, job=job
    )
    context = {**_context(job, request.user), "quoted": str(row)}
    return act_page(
        request, INSPECTION_ACTS[act], row=row, keyword="inspection", back=_back(job), context=context
    )


@get_or_post
def deficiency_clear(request: SignedIn, job_pk: int, pk: int) -> HttpResponse:
    """A deficiency put right."""
    job = job_for(request.user, job_pk)
    require(request.user, "edit_inspection", job)
    row = get_object_or_404(Deficiency.objects.select_related("inspection__job"), pk=pk, inspection__job=job)
    context = {**_context(job, request.user), "quoted": row.text}
    return act_page(request, CLEAR, row=row, keyword="deficiency", back=_back(job), context=context)


@require_safe
def chase_list(request: SignedIn, job_pk: int) -> HttpResponse:
    """Every chase of a job, and the one that is due."""
    job = job_for(request.user, job_pk)
    due = next_chase_for(job)
    return render(
        request,
        "projects/chases.html",
        {
            **_context(job, request.user, "chases"),
            "chases": chases_for_page(job),
            "due": due,
            "overdue": bool(due and due.next_on and due.next_on < timezone.localdate()),
        },
    )


@get_or_post
def chase_new(request: SignedIn, job_pk: int) -> HttpResponse:
    """A new chase."""
    job = job_for(request.user, job_pk)
    require(request.user, "log_chase", job)
    return act_page(
        request,
        CHASE,
        row=job,
        keyword="job",
        back=reverse("projects:chases", args=[job.pk]),
        context=_context(job, request.user, "chases"),
    )
