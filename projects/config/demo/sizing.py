"""Sizes, price and workbook of the demo walls, through the services that the pages call."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from estimating.models import Estimate
from estimating.selectors import latest_estimate, out_of_date
from estimating.services.estimates import estimate_build
from estimating.services.workbooks import workbook_path, workbook_request
from projects.models import BackgroundJob, Company, Job, User
from projects.standing import decision_of
from structure.marks import Mark, sealed_initial, sealed_mark
from structure.models import DesignRun, Schedule
from structure.results import candidates
from structure.selectors import current_schedules, governing_schedule, latest_run, run_is_stale, section_for
from structure.services.designs import wall_design
from structure.services.schedules import schedule_choose, schedule_seal


@dataclass(frozen=True)
class Sized:
    """What came of one wall."""

    job: Job
    outcome: str
    schedule: Schedule | None


def wall_size(*, job: Job, actor: User, family: str = "") -> Sized:
    """Sizes for a wall with a section, and a beam as its schedule: the lightest of `family`, else of all.

    What stands stays.
    """
    if section_for(job) is None:
        return Sized(job, _why_not(job), None)
    run = latest_run(job)
    if run is None or run_is_stale(run):
        run = wall_design(job=job, actor=actor)
    if run.status != DesignRun.Status.OK:
        return Sized(job, f"refused: {run.results['reason']}", None)
    schedule = governing_schedule(job)
    if schedule is None:
        passing = [row for row in candidates(run.results) if row["passes"]]
        beam = next((row for row in passing if (row["group"] == family if family else row["chosen"])), None)
        if beam is None:
            return Sized(job, "no candidate passes", None)
        schedule = schedule_choose(job=job, actor=actor, run=run, beam=beam)
    beams = [mark.title for mark in schedule.marks.all() if mark.kind == "beam"]
    return Sized(job, f"{schedule.get_source_display()}: {', '.join(beams)}", schedule)


def _why_not(job: Job) -> str:
    if decision_of(job).not_bearing:
        return "not sized: recorded as not bearing"
    return "not sized: no house section yet"


def schedule_seal_like(
    *, job: Job, actor: User, note: str, changes: Mapping[str, Mapping[str, str]] | None = None
) -> Schedule:
    """Enter the sealed sizes of the demo: the preliminary ones, and what the drawing changes by mark."""
    preliminary = next(row for row in current_schedules(job) if row.source == Schedule.Source.PRELIMINARY)
    changed = changes or {}
    permanent = [
        sealed_mark(mark.mark, mark.kind, sealed_initial(mark) | dict(changed[mark.mark]))
        if mark.mark in changed
        else Mark(mark.mark, mark.kind, mark.title, mark.data)
        for mark in preliminary.marks.all()
        if mark.kind in ("beam", "post", "footing")
    ]
    return schedule_seal(
        job=job,
        actor=actor,
        sealed_design=job.sealed_designs.get(current=True),
        marks=permanent,
        note=note,
    )


def walls_size(*, company: Company, actor: User) -> list[Sized]:
    """Every wall of the company."""
    jobs = Job.objects.filter(property__company=company).select_related("property__company").order_by("pk")
    return [wall_size(job=job, actor=actor) for job in jobs]


def estimate_current(*, job: Job, actor: User) -> Estimate:
    """The estimate of a job, built where there is none or it is out of date."""
    estimate = latest_estimate(job)
    if estimate is None or out_of_date(estimate):
        estimate = estimate_build(job=job, actor=actor)
    return estimate


def workbook_ready(*, estimate: Estimate, actor: User) -> tuple[BackgroundJob, Path]:
    """Ask for the workbook as the page does; with tasks in process it is there when this returns."""
    row = workbook_request(estimate=estimate, actor=actor)
    row.refresh_from_db()
    return row, workbook_path(estimate)
