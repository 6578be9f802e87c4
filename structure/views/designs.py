"""Sizes: work them out, look at every member, the way to the ground and the shoring."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_POST

from projects.errors import Refused
from projects.models import Job
from projects.requests import SignedIn
from structure.member_pictures import member_pages, plan_picture, shoring_pages
from structure.models import DesignRun
from structure.results import chains, refusals, remarks
from structure.services.designs import wall_design
from structure.views.common import page_job
from structure.views.runs import run_page


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
