"""What the pages of one run have in common."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.http import HttpResponse
from django.shortcuts import render
from django.utils.cache import patch_vary_headers
from django.views.decorators.http import require_GET

from projects.models import Job
from projects.requests import SignedIn
from structure.models import DesignRun
from structure.selectors import current_schedules, latest_run, run_is_stale
from structure.views.common import page, page_job


def _shown_run(job: Job) -> tuple[DesignRun | None, dict[str, Any]]:
    """The newest run, which is what a page shows, and how it stands to the schedules."""
    rows = {s.source: s for s in current_schedules(job, with_runs=False)}
    run = latest_run(job)
    return run, {
        "run": run,
        "stale": run is not None and run_is_stale(run),
        "sealed": rows.get("sealed"),
        "preliminary": rows.get("preliminary"),
        "refused": run is not None and run.status == DesignRun.Status.REFUSED,
    }


Fill = Callable[[SignedIn, Job, DesignRun], dict[str, Any]]


def run_page(here: str, part: str = "") -> Callable[[Fill], Callable[[SignedIn, int], HttpResponse]]:
    """A page of one run: who may look, which run, and how it stands.

    What it wraps adds what the page shows of an answered run; it is not asked for a refused one or for none.
    `part` is the id of the piece of the page that htmx may ask for alone, with a template of that name.
    """

    def around(fill: Fill) -> Callable[[SignedIn, int], HttpResponse]:
        @require_GET
        @wraps(fill)
        def view(request: SignedIn, job_pk: int) -> HttpResponse:
            job = page_job(request, job_pk)
            run, shown = _shown_run(job)
            context = page(request, job, here, **shown)
            answered = run is not None and not shown["refused"]
            if run is not None and answered:
                context |= fill(request, job, run)
            alone = part and answered and request.headers.get("HX-Target") == part
            name = f"structure/partials/{part.replace('-', '_')}.html" if alone else f"structure/{here}.html"
            answer = render(request, name, context)
            if part:
                patch_vary_headers(answer, ["HX-Target"])
            return answer

        return view

    return around
