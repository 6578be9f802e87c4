"""Pages of the engineer's part of a job."""

from __future__ import annotations

from pathlib import PurePath
from typing import Any

from django.http import FileResponse, Http404, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from projects.documents import CONTENT_TYPES
from projects.forms.paper import (
    AnswerForm,
    QuestionForm,
    ReasonForm,
    RequestEditForm,
    RequestForm,
    RequestSendForm,
    SealedDesignForm,
)
from projects.models import EngineeringQuestion, EngineeringRequest, Job, SealedDesign
from projects.package import package_obstacles, parts
from projects.permissions import can, require
from projects.permit_selectors import requests_for_page, sealed_design_of
from projects.requests import SignedIn
from projects.selectors import job_for
from projects.services import engineering
from projects.views.acts import Act, act_page

get_or_post = require_http_methods(["GET", "HEAD", "POST"])

NEW_REQUEST = Act(
    "New engineering request",
    "Save the request",
    RequestForm,
    engineering.engineering_request_create,
    "The request is in preparation. Look at the package, then send it.",
    initial=lambda job: {"engineer_name": job.engineer_name},
)
NEW_DESIGN = Act(
    "Design received",
    "Record the design",
    SealedDesignForm,
    engineering.sealed_design_record,
    "The design is on record. Enter its members as the sealed schedule, so that it governs buying and building.",
    lead="The engineer's sealed design, or the authority's written acceptance where it takes a prescriptive one.",
    initial=lambda job: {"signed_by": job.engineer_name},
)
REQUEST_ACTS: dict[str, Act] = {
    "edit": Act(
        "Change the request",
        "Save the request",
        RequestEditForm,
        engineering.engineering_request_edit,
        "The request is changed.",
        initial=lambda row: {
            "engineer_name": row.engineer_name,
            "engineer_contact": row.engineer_contact,
            "asks": row.asks,
            "due_on": row.due_on,
        },
    ),
    "send": Act(
        "Send the package",
        "Record as sent",
        RequestSendForm,
        engineering.engineering_request_send,
        "The package is on record as sent.",
        lead="Give the engineer the package page, printed or as a file, then record the day here.",
        initial=lambda row: {"due_on": row.due_on},
    ),
    "question": Act(
        "Question of the engineer",
        "Save the question",
        QuestionForm,
        engineering.engineering_question_add,
        "The question is on record; the request waits on us.",
    ),
    "withdraw": Act(
        "Withdraw the request",
        "Withdraw",
        ReasonForm,
        engineering.engineering_request_withdraw,
        "The request is withdrawn.",
        danger=True,
    ),
}
ANSWER = Act(
    "Answer the engineer",
    "Save the answer",
    AnswerForm,
    engineering.engineering_question_answer,
    "The answer is on record.",
)


def _context(job: Job, user: Any) -> dict[str, Any]:
    return {
        "job": job,
        "nav": "jobs",
        "job_nav": "engineering",
        "back_title": "Engineering",
        "may_edit": can(user, "edit_engineering", job),
        "may_record": can(user, "record_sealed_design", job),
    }


def _back(job: Job) -> str:
    return reverse("projects:engineering", args=[job.pk])


@require_safe
def engineering_page(request: SignedIn, job_pk: int) -> HttpResponse:
    """Requests, questions and designs of a job."""
    job = job_for(request.user, job_pk)
    return render(
        request,
        "projects/engineering.html",
        {
            **_context(job, request.user),
            "requests": requests_for_page(job),
            "design": sealed_design_of(job),
            "designs": job.sealed_designs.select_related("recorded_by"),
            "obstacles": package_obstacles(job),
        },
    )


@require_safe
def engineering_package(request: SignedIn, job_pk: int) -> HttpResponse:
    """One package for the engineer: evidence, framing, loads, preliminary sizes, questions. Made to be printed."""
    job = job_for(request.user, job_pk)
    require(request.user, "edit_engineering", job)
    shown = [
        {"part": part, "context": part.context(job), "obstacles": part.obstacles(job)} for part in parts()
    ]
    return render(
        request,
        "projects/engineering_package.html",
        {
            **_context(job, request.user),
            "parts": shown,
            "requests": requests_for_page(job),
            "findings": job.findings.all(),
            "obstacles": package_obstacles(job),
        },
    )


@get_or_post
def engineering_new(request: SignedIn, job_pk: int) -> HttpResponse:
    """A new request."""
    job = job_for(request.user, job_pk)
    require(request.user, "edit_engineering", job)
    return act_page(
        request, NEW_REQUEST, row=job, keyword="job", back=_back(job), context=_context(job, request.user)
    )


@get_or_post
def engineering_act(request: SignedIn, job_pk: int, pk: int, act: str) -> HttpResponse:
    """Change, send, question or withdraw a request."""
    job = job_for(request.user, job_pk)
    require(request.user, "edit_engineering", job)
    row = get_object_or_404(EngineeringRequest, pk=pk, job=job)
    return act_page(
        request,
        REQUEST_ACTS[act],
        row=row,
        keyword="request",
        back=_back(job),
        context=_context(job, request.user),
    )


@get_or_post
def engineering_answer(request: SignedIn, job_pk: int, pk: int) -> HttpResponse:
    """Answer a question."""
    job = job_for(request.user, job_pk)
    require(request.user, "edit_engineering", job)
    row = get_object_or_404(EngineeringQuestion, pk=pk, request__job=job)
    context = {**_context(job, request.user), "quoted": row.question}
    return act_page(request, ANSWER, row=row, keyword="question", back=_back(job), context=context)


@get_or_post
def sealed_design_new(request: SignedIn, job_pk: int) -> HttpResponse:
    """Record a design; it answers the latest request that was sent."""
    job = job_for(request.user, job_pk)
    require(request.user, "record_sealed_design", job)
    sent = (
        job.engineering_requests.filter(sent_on__isnull=False)
        .exclude(status=EngineeringRequest.Status.WITHDRAWN)
        .first()
    )

    def record(**values: Any) -> SealedDesign:
        return engineering.sealed_design_record(request=sent, **values)

    act = Act(
        NEW_DESIGN.title,
        NEW_DESIGN.button,
        NEW_DESIGN.form,
        record,
        NEW_DESIGN.done,
        NEW_DESIGN.lead,
        NEW_DESIGN.initial,
    )
    return act_page(
        request, act, row=job, keyword="job", back=_back(job), context=_context(job, request.user)
    )


@require_safe
def sealed_design_document(request: SignedIn, job_pk: int, pk: int) -> FileResponse:
    """The uploaded paper, always as a download: nothing that came from outside is opened inside our pages."""
    job = job_for(request.user, job_pk)
    design = get_object_or_404(SealedDesign, pk=pk, job=job)
    if not design.document:
        raise Http404("No document was uploaded.")
    ending = PurePath(design.document.name or "").suffix
    return FileResponse(
        design.document.open("rb"),
        as_attachment=True,
        filename=f"sealed-design-{design.pk}{ending}",
        content_type=CONTENT_TYPES.get(ending, "application/octet-stream"),
    )
