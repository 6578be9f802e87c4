"""Survey, verdict and photos."""

from __future__ import annotations

from functools import partial
from typing import Any

from django.contrib import messages
from django.http import FileResponse, Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse

from projects.errors import Refused
from projects.evidence import KIND_BY_NAME, KINDS
from projects.forms.survey import DecisionForm, FindingForm, PhotoForm, QuestionsForm, WhyForm
from projects.hazards import hazard_prompts
from projects.models import Decision, Finding, Job
from projects.permissions import require
from projects.requests import SignedIn
from projects.selectors import photo_for
from projects.services.photos import photo_store
from projects.services.survey import answers_record, decision_record, finding_record, finding_withdraw
from projects.standing import answers_of, decision_of, verdict_of
from projects.verdict import not_bearing_blocks
from projects.views.access import get_only, get_or_post, job_page
from projects.views.acts import Act, act_page
from projects.views.jobs import at_hand

WITHDRAW = Act(
    "Withdraw the finding",
    "Withdraw it",
    WhyForm,
    finding_withdraw,
    "The finding is withdrawn. It stays on the list, and counts no longer.",
    danger=True,
)
PHOTO = Act("Add a photo", "Keep the photo", PhotoForm, photo_store, "The photo is kept.")


def _prompts(job: Job) -> dict[str, str]:
    house = job.property
    return {
        prompt.question: f"{prompt.why} ({prompt.source})"
        for prompt in hazard_prompts(house.year_built, house.code, house.region)
    }


def _questions_form(job: Job, data: Any = None) -> QuestionsForm:
    initial: dict[str, str] = {}
    for row in job.answers.all():
        initial[row.question] = row.answer
        initial[f"{row.question}_note"] = row.note
    return QuestionsForm(data, initial=initial, why=_prompts(job))


@get_or_post
@job_page("view_job")
def survey(request: SignedIn, job: Job) -> HttpResponse:
    """Findings, questions and photos of the wall."""
    status = 200
    form = _questions_form(job)
    if request.method == "POST":
        require(request.user, "answer_question", job)
        form = _questions_form(job, request.POST)
        if form.is_valid():
            answers, notes = form.answers()
            try:
                changed = answers_record(job=job, actor=request.user, answers=answers, notes=notes)
            except Refused as refusal:
                form.put_refusal(refusal)
            else:
                messages.success(request, f"Answers saved: {len(changed)} changed.")
                return redirect(reverse("projects:survey", args=[job.pk]) + "#questions")
        status = 422
    job = at_hand(request, job)
    findings = job.findings.select_related("photo", "recorded_by", "withdrawn_by")
    context = {
        "job": job,
        "findings": findings,
        "kinds": KINDS,
        "form": form,
        "verdict": verdict_of(job),
        "photos": job.photos.select_related("uploaded_by"),
        "nav": "jobs",
    }
    return render(request, "projects/survey.html", context, status=status)


@get_or_post
@job_page("record_finding")
def finding_new(request: SignedIn, job: Job, kind: str) -> HttpResponse:
    """Record one finding of a kind."""
    known = KIND_BY_NAME.get(kind)
    if known is None:
        raise Http404("No such kind of evidence.")
    act = Act(
        known.title,
        "Record the finding",
        FindingForm,
        partial(finding_record, kind=kind),
        "The finding is on record.",
        lead=known.help,
        initial=lambda row: {"seen_by": request.user.display_name},
    )
    return act_page(
        request,
        act,
        row=job,
        keyword="job",
        back=reverse("projects:survey", args=[job.pk]),
        context={"job": job, "back_title": "Survey", "nav": "jobs"},
        form_kwargs={"kind": known, "job": job},
    )


@get_or_post
@job_page("record_finding")
def finding_take_back(request: SignedIn, job: Job, pk: int) -> HttpResponse:
    """Withdraw a finding with a reason."""
    finding = get_object_or_404(Finding.objects.select_related("job__property__company"), pk=pk, job=job)
    return act_page(
        request,
        WITHDRAW,
        row=finding,
        keyword="finding",
        back=reverse("projects:survey", args=[job.pk]),
        context={"job": job, "back_title": "Survey", "quoted": finding.evidence.sentence, "nav": "jobs"},
    )


@get_or_post
@job_page("view_job")
def verdict(request: SignedIn, job: Job) -> HttpResponse:
    """The finding with reasons, conflicts and next looks; the decision of a named person."""
    status = 200
    form = DecisionForm()
    if request.method == "POST":
        require(request.user, "decide_verdict", job)
        form = DecisionForm(request.POST)
        if form.is_valid():
            try:
                decision_record(job=job, actor=request.user, **form.cleaned_data)
            except Refused as refusal:
                form.put_refusal(refusal)
            else:
                messages.success(request, "The decision is on record.")
                return redirect(reverse("projects:verdict", args=[job.pk]))
        status = 422
    job = at_hand(request, job)
    found = verdict_of(job)
    context = {
        "job": job,
        "verdict": found,
        "blocks": not_bearing_blocks(found, answers_of(job)),
        "decision": decision_of(job),
        "decisions": Decision.objects.filter(job=job).select_related("decided_by"),
        "form": form,
        "nav": "jobs",
    }
    return render(request, "projects/verdict.html", context, status=status)


@get_or_post
@job_page("add_photo")
def photo_new(request: SignedIn, job: Job) -> HttpResponse:
    """Add a photo."""
    return act_page(
        request,
        PHOTO,
        row=job,
        keyword="job",
        back=reverse("projects:survey", args=[job.pk]),
        context={"job": job, "back_title": "Survey", "nav": "jobs"},
    )


@get_only
def photo(request: SignedIn, pk: int) -> FileResponse:
    """The picture itself, to people who may see the job. Never kept by a shared cache, never guessed at."""
    row = photo_for(request.user, pk)
    require(request.user, "view_job", row.job)
    try:
        response = FileResponse(row.file.open("rb"), content_type=row.content_type)
    except FileNotFoundError as lost:
        raise Http404("The file of this photo is missing.") from lost
    response["X-Content-Type-Options"] = "nosniff"
    response["Content-Disposition"] = f'inline; filename="photo-{row.pk}.{row.extension}"'
    response["Content-Security-Policy"] = "default-src 'none'; sandbox"
    response["Cache-Control"] = "private, no-store"
    return response
