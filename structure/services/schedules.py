"""Choosing a schedule from a run, and entering the sealed one that replaces it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django.db import transaction

from projects.errors import Refused
from projects.models import Job, SealedDesign, User
from projects.permissions import require
from projects.services.events import event_record
from structure.marks import Mark, marks_of, still_counted
from structure.models import DesignRun, Schedule, ScheduleMark
from structure.selectors import current_schedules, latest_run, run_is_stale
from structure.services.designs import wall_design
from structure.shown import shown_in


def schedule_choose(*, job: Job, actor: User, run: DesignRun, beam: Mapping[str, Any]) -> Schedule:
    """Make the preliminary schedule from a run and one of its candidates.

    A candidate other than the one the run was worked out for gets a run of its own, since posts, pads and
    bearing follow the beam. Raises Refused for a run that is out of date, refused, or of another job, for
    a candidate the run does not hold or that fails.
    """
    require(actor, "choose_schedule", job)
    newest = latest_run(job)
    if run.job_id != job.pk or newest is None:
        raise Refused("This run is of another job.")
    if run_is_stale(run):
        raise Refused("The section was changed after these sizes were worked out; work them out again first.")
    if run.status != DesignRun.Status.OK:
        raise Refused("This run is a refusal; there is nothing to choose from.")
    if not beam.get("passes"):
        raise Refused(
            f"{beam.get('label', 'This beam')} does not pass; only a beam that passes can be chosen."
        )
    if not beam.get("chosen"):
        run = wall_design(job=job, actor=actor, beam=beam["given"])
        if run.status != DesignRun.Status.OK:
            raise Refused(f"With this beam the wall is not sized: {run.results['reason']}")
    with transaction.atomic():
        schedule = _schedule_new(
            job,
            actor,
            run,
            Schedule.Source.PRELIMINARY,
            _marks(job, run),
            section_version=run.section_version,
        )
        event_record(
            job=job,
            actor=actor,
            verb="schedule.chosen",
            detail=f"Preliminary schedule chosen: {beam['label']}.",
            data={"schedule": schedule.pk, "run": run.pk},
        )
    return schedule


def _marks(job: Job, run: DesignRun) -> list[Mark]:
    """The marks of a run, their titles in the units of the house."""
    with shown_in(job.units):
        return marks_of(run.results, run.inputs)


def _schedule_new(
    job: Job,
    actor: User,
    run: DesignRun,
    source: str,
    marks: Sequence[Mark],
    *,
    section_version: int,
    sealed_design: SealedDesign | None = None,
    note: str = "",
) -> Schedule:
    Schedule.objects.filter(job=job, source=source, current=True).update(current=False)
    schedule = Schedule.objects.create(
        job=job,
        run=run,
        source=source,
        chosen_by=actor,
        section_version=section_version,
        sealed_design=sealed_design,
        note=note,
    )
    ScheduleMark.objects.bulk_create(
        ScheduleMark(schedule=schedule, mark=m.mark, kind=m.kind, title=m.title, data=dict(m.data))
        for m in marks
    )
    return schedule


def schedule_seal(
    *, job: Job, actor: User, sealed_design: SealedDesign, marks: Sequence[Mark], note: str = ""
) -> Schedule:
    """Enter the sizes of the sealed design; from then on they govern buying and building.

    Shoring, plates and hangers stay as the preliminary schedule has them unless a mark says otherwise: the
    seal is for the permanent members. Raises Refused without a beam, without a preliminary schedule to
    differ from, for a design of another job or one that is not current, and for a mark given twice.
    """
    require(actor, "record_sealed_design", job)
    if sealed_design.job_id != job.pk or not sealed_design.current:
        raise Refused("The sealed design must be the current one of this job.")
    rows = {s.source: s for s in current_schedules(job)}
    preliminary = rows.get(Schedule.Source.PRELIMINARY)
    if preliminary is None:
        raise Refused(
            "Choose a preliminary schedule first: the sealed sizes are shown against it line by line."
        )
    if sum(mark.kind == ScheduleMark.Kind.BEAM for mark in marks) != 1:
        raise Refused("Beam: a sealed schedule has exactly one beam for this wall.")
    names = [mark.mark for mark in marks]
    if len(set(names)) != len(names):
        raise Refused("Marks: each mark stands once in a schedule.")
    held = [mark.data for mark in preliminary.marks.all() if mark.kind == "beam"]
    before: dict[str, Any] = held[0] if held else {}
    # How the beam sits under the joists is the section's, not typed from the drawing.
    told = {"mounting": before.get("mounting")}
    marks = [
        Mark(m.mark, m.kind, m.title, {**told, **still_counted(m, before), **m.data})
        if m.kind == "beam"
        else m
        for m in marks
    ]
    # Shoring that the engineer designed replaces the whole plan; otherwise the plan stands.
    standing = (
        {"plate", "hanger"} if any(m.kind == "shoring" for m in marks) else {"plate", "hanger", "shoring"}
    )
    kept = [
        Mark(m.mark, m.kind, m.title, m.data)
        for m in preliminary.marks.all()
        if m.kind in standing and m.mark not in names
    ]
    with transaction.atomic():
        schedule = _schedule_new(
            job,
            actor,
            preliminary.run,
            Schedule.Source.SEALED,
            [*marks, *kept],
            section_version=preliminary.section_version,
            sealed_design=sealed_design,
            note=note,
        )
        event_record(
            job=job,
            actor=actor,
            verb="schedule.sealed",
            detail=f"Sealed sizes of {sealed_design} entered; they govern from now on.",
            data={"schedule": schedule.pk, "sealed_design": sealed_design.pk},
        )
    return schedule
