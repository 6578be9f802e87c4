"""Sizes: work them out, look at every option, every member, the way to the ground and the shoring."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_POST
from django_tables2 import RequestConfig

from projects.errors import Refused
from projects.models import Job
from projects.permissions import can
from projects.requests import SignedIn
from structure.member_pictures import member_pages, plan_picture, run_section_picture, shoring_pages
from structure.models import DesignRun
from structure.results import candidates, chains, refusals, remarks
from structure.selectors import current_schedules, latest_run, run_is_stale
from structure.services.designs import wall_design
from structure.tables import CandidateTable
from structure.views.common import page, page_job, refused_here


@require_POST
def design_run(request: SignedIn, job_pk: int) -> HttpResponse:
    """Work the sizes out from the section as it is stored."""
    job = page_job(request, job_pk, "design")
    try:
        run = wall_design(job=job, actor=request.user)
    except Refused as refusal:
        messages.error(request, refusal.sentence)
        return redirect("structure:section", job_pk=job.pk)
    if run.status == DesignRun.Status.OK:
        messages.success(request, "Sizes worked out. Look at the options and choose one.")
    else:
        messages.warning(request, "Not sized: see the reason and its clause.")
    return redirect("structure:options", job_pk=job.pk)


def _shown_run(job: Job) -> tuple[DesignRun | None, dict[str, Any]]:
    """The run a page shows: that of the current preliminary schedule, else the newest."""
    rows = {s.source: s for s in current_schedules(job)}
    chosen = rows.get("preliminary")
    newest = latest_run(job)
    run = chosen.run if chosen is not None and newest is not None and chosen.run_id == newest.pk else newest
    return run, {
        "run": run,
        "stale": run is not None and run_is_stale(run),
        "sealed": rows.get("sealed"),
        "preliminary": chosen,
        "refused": run is not None and run.status == DesignRun.Status.REFUSED,
    }


@require_GET
def options(request: SignedIn, job_pk: int) -> HttpResponse:
    """All candidates: those that pass with how close, those that fail with why."""
    job = page_job(request, job_pk)
    closed = refused_here(request, job, "options")
    if closed is not None:
        return closed
    run, shown = _shown_run(job)
    context = page(request, job, "options", may_choose=can(request.user, "choose_schedule", job), **shown)
    if run is not None and not shown["refused"]:
        rows = candidates(run.results)
        table = CandidateTable(rows)
        table.caption = f"{len(rows)} beams tried"
        RequestConfig(request, paginate={"per_page": 60}).configure(table)
        context |= {
            "table": table,
            "passing": [row for row in rows if row["passes"]],
            "tried": len(rows),
            "section_svg": run_section_picture(run),
            "refusals": refusals(run.results),
            "remarks": remarks(run.results),
        }
    return render(request, "structure/options.html", context)


@require_GET
def members(request: SignedIn, job_pk: int) -> HttpResponse:
    """Beam, posts, bearing and footings with every check unfolding to its last number."""
    job = page_job(request, job_pk)
    closed = refused_here(request, job, "members")
    if closed is not None:
        return closed
    run, shown = _shown_run(job)
    context = page(request, job, "members", **shown)
    if run is not None and not shown["refused"]:
        context |= member_pages(run) | {
            "plan_svg": plan_picture(run),
            "refusals": refusals(run.results),
            "blocks": run.results["blocks"],
            "remarks": remarks(run.results),
        }
    return render(request, "structure/members.html", context)


@require_GET
def load_path(request: SignedIn, job_pk: int) -> HttpResponse:
    """Every reaction followed to the ground; a missing link stands out."""
    job = page_job(request, job_pk)
    closed = refused_here(request, job, "load_path")
    if closed is not None:
        return closed
    run, shown = _shown_run(job)
    context = page(request, job, "load_path", **shown)
    if run is not None and not shown["refused"]:
        context["chains"] = chains(run.results)
    return render(request, "structure/load_path.html", context)


@require_GET
def shoring(request: SignedIn, job_pk: int) -> HttpResponse:
    """The shoring plan: both sides, checks, order of work, cut list, when to stop."""
    job = page_job(request, job_pk)
    closed = refused_here(request, job, "shoring")
    if closed is not None:
        return closed
    run, shown = _shown_run(job)
    context = page(request, job, "shoring", **shown)
    if run is not None and not shown["refused"]:
        context |= shoring_pages(run)
    return render(request, "structure/shoring.html", context)
