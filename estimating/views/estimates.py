"""Quote, takeoff, cut list, options and settings of a job."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from estimating.core.settings import DEFAULT_SETTINGS
from estimating.forms import SettingsForm
from estimating.models import Estimate
from estimating.presenting import by_division, cut_plans
from estimating.selectors import (
    beam_costs,
    changes_since,
    estimates_of,
    latest_estimate,
    not_as_scheduled,
    out_of_date,
    previous_estimate,
    price_book_of,
)
from estimating.services.estimates import estimate_build, estimate_issue
from estimating.views.common import page, page_estimate, page_job, person
from estimating.views.workbooks import workbook_state
from projects.errors import Refused
from projects.models import Job
from structure.selectors import governing_schedule


def _shown(request: HttpRequest, job: Job, estimate: Estimate | None, here: str) -> dict[str, Any]:
    context = page(request, job, here, estimate=estimate, schedule=governing_schedule(job))
    if estimate is None:
        context["has_book"] = price_book_of(job.company, job.code) is not None
        return context
    before = previous_estimate(estimate)
    return context | {
        "document": estimate.document,
        "divisions": by_division(estimate.document),
        "reasons": not_as_scheduled(estimate) if estimate.issued else out_of_date(estimate),
        "revisions": estimates_of(job),
        "before": before,
        "changes": changes_since(before, estimate),
        **workbook_state(estimate),
    }


@require_GET
def quote(request: HttpRequest, job_pk: int) -> HttpResponse:
    """The newest revision: totals by division, what is added, alternates, exclusions, cautions."""
    job = page_job(request, job_pk, "see_prices")
    return render(request, "estimating/quote.html", _shown(request, job, latest_estimate(job), "quote"))


@require_GET
def revision(request: HttpRequest, job_pk: int, pk: int) -> HttpResponse:
    """One revision as it was."""
    estimate = page_estimate(request, job_pk, pk, "see_prices")
    return render(request, "estimating/quote.html", _shown(request, estimate.job, estimate, "quote"))


@require_GET
def takeoff(request: HttpRequest, job_pk: int) -> HttpResponse:
    """Every line, unfolding to the rule it came from."""
    job = page_job(request, job_pk, "see_prices")
    return render(request, "estimating/takeoff.html", _shown(request, job, latest_estimate(job), "takeoff"))


@require_GET
def cut_list(request: HttpRequest, job_pk: int) -> HttpResponse:
    """What to buy and how to cut it. No prices here: the crew reads this page."""
    job = page_job(request, job_pk, "view_job")
    estimate = latest_estimate(job)
    context = page(request, job, "cut_list")
    if estimate is not None:
        sealed = estimate.document["sealed"]
        context |= {"plans": cut_plans(estimate.document), "revision": estimate.revision, "sealed": sealed}
        context["reasons"] = not_as_scheduled(estimate)
    return render(request, "estimating/cut_list.html", context)


@require_GET
def options(request: HttpRequest, job_pk: int) -> HttpResponse:
    """Beams that pass, side by side at full installed cost."""
    job = page_job(request, job_pk, "see_prices")
    estimate = latest_estimate(job)
    context = page(request, job, "options", estimate=estimate)
    if estimate is not None:
        context |= {
            "options": beam_costs(estimate),
            "document": estimate.document,
            "reasons": out_of_date(estimate),
        }
    return render(request, "estimating/options.html", context)


@require_http_methods(["GET", "POST"])
def settings_edit(request: HttpRequest, job_pk: int) -> HttpResponse:
    """The contractor's settings; saving them builds the draft again."""
    job = page_job(request, job_pk, "design")
    last, metric = latest_estimate(job), job.units == "metric"
    if request.method == "POST":
        form = SettingsForm(request.POST, metric=metric)
        if form.is_valid():
            try:
                estimate_build(job=job, actor=person(request), settings=form.cleaned_data)
            except Refused as refused:
                form.add_error(None, refused.sentence)
            else:
                messages.success(request, "Taken off and priced with these settings.")
                return redirect("estimating:quote", job_pk=job.pk)
    else:
        initial = last.takeoff_settings if last else DEFAULT_SETTINGS.as_data()
        form = SettingsForm(initial=initial, metric=metric)
    status = 422 if form.errors else 200
    return render(
        request, "estimating/settings.html", page(request, job, "settings", form=form), status=status
    )


@require_POST
def build(request: HttpRequest, job_pk: int) -> HttpResponse:
    """Take off the governing schedule at today's prices."""
    job = page_job(request, job_pk, "design")
    try:
        estimate = estimate_build(job=job, actor=person(request))
    except Refused as refused:
        messages.error(request, refused.sentence)
    else:
        messages.success(request, f"Revision {estimate.revision} built from the schedule that governs.")
    return redirect("estimating:quote", job_pk=job.pk)


@require_POST
def issue(request: HttpRequest, job_pk: int, pk: int) -> HttpResponse:
    """Freeze the draft."""
    estimate = page_estimate(request, job_pk, pk, "edit_prices")
    typed = request.POST.get("version", "")
    try:
        estimate_issue(
            estimate=estimate,
            actor=person(request),
            version=int(typed) if typed.isdecimal() and len(typed) < 10 else 0,
        )
    except Refused as refused:
        messages.error(request, refused.sentence)
    else:
        messages.success(request, f"Revision {estimate.revision} issued; it does not change any more.")
    return redirect("estimating:quote", job_pk=estimate.job_id)
