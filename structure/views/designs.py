"""Sizes: work them out, look at every option, every member, the way to the ground and the shoring."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
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


Fill = Callable[[SignedIn, Job, DesignRun], dict[str, Any]]


def run_page(here: str) -> Callable[[Fill], Callable[[SignedIn, int], HttpResponse]]:
    """A page of one run: who may look, what is not covered, which run, and how it stands.

    What it wraps adds what the page shows of an answered run; it is not asked for a refused one or for none.
    """

    def around(fill: Fill) -> Callable[[SignedIn, int], HttpResponse]:
        @require_GET
        @wraps(fill)
        def view(request: SignedIn, job_pk: int) -> HttpResponse:
            job = page_job(request, job_pk)
            closed = refused_here(request, job, here)
            if closed is not None:
                return closed
            run, shown = _shown_run(job)
            context = page(request, job, here, **shown)
            if run is not None and not shown["refused"]:
                context |= fill(request, job, run)
            return render(request, f"structure/{here}.html", context)

        return view

    return around


@run_page("options")
def options(request: SignedIn, job: Job, run: DesignRun) -> dict[str, Any]:
    """All candidates: those that pass with how close, those that fail with why."""
    rows = candidates(run.results)
    table = CandidateTable(rows)
    table.caption = f"{len(rows)} beams tried"
    RequestConfig(request, paginate={"per_page": 60}).configure(table)
    return {
        "may_choose": can(request.user, "choose_schedule", job),
        "table": table,
        "passing": [row for row in rows if row["passes"]],
        "tried": len(rows),
        "section_svg": run_section_picture(run),
        "refusals": refusals(run.results),
        "remarks": remarks(run.results),
    }


@run_page("members")
def members(request: SignedIn, job: Job, run: DesignRun) -> dict[str, Any]:
    """Beam, posts, bearing and footings with every check unfolding to its last number."""
    return member_pages(run) | {
        "plan_svg": plan_picture(run),
        "refusals": refusals(run.results),
        "blocks": run.results["blocks"],
        "remarks": remarks(run.results),
    }


@run_page("load_path")
def load_path(request: SignedIn, job: Job, run: DesignRun) -> dict[str, Any]:
    """Every reaction followed to the ground; a missing link stands out."""
    return {"chains": chains(run.results)}


@run_page("shoring")
def shoring(request: SignedIn, job: Job, run: DesignRun) -> dict[str, Any]:
    """The shoring plan: both sides, checks, order of work, cut list, when to stop."""
    return shoring_pages(run)
