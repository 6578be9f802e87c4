"""The one door through which a stage changes, and the records that open or override a hold point."""

from __future__ import annotations

from datetime import date

from django.core.files.uploadedfile import UploadedFile
from django.db import transaction
from django.utils import timezone

from projects import holdpoints
from projects.errors import Refused
from projects.models import HoldPass, Job, Override, Photo, User
from projects.permissions import require
from projects.services.events import event_record
from projects.services.locking import job_lock
from projects.services.photos import photo_attached
from projects.services.writing import (
    check_not_before,
    check_not_future,
    check_sentence,
    check_text,
    take_version,
)
from projects.standing import facts_of, holds_of, partition_of
from projects.workflow import (
    HOLD_POINT_BY_NAME,
    NEVER_OVERRIDDEN,
    HoldPoint,
    IllegalMove,
    Stage,
    check_move,
    read_hold,
    reopened_by,
)

#: Calendar days a footing cures before it is loaded where the engineer gave no figure: common practice.
CURE_DAYS = 7
MOST_CURE_DAYS = 90
#: Hold points met by rows of their own (a decision, a design, a permit, an inspection): nothing is recorded by hand.
RECORDED_BY_HAND = frozenset(
    {
        "hazards_cleared",
        "services_cleared",
        "footing_cured",
        "material_matches",
        "shoring_checked",
        "members_installed",
        "alarms",
    }
)


def _stage(text: str) -> Stage:
    try:
        return Stage(text)
    except ValueError as unknown:
        accepted = ", ".join(stage.value for stage in Stage)
        raise Refused(f"Stage: read {text!r}; accepted is one of {accepted}.", field="to") from unknown


def _point(name: str) -> HoldPoint:
    point = HOLD_POINT_BY_NAME.get(name)
    if point is None:
        raise Refused(f"Hold point: read {name!r}, which is none.", field="hold")
    return point


@transaction.atomic
def job_advance(*, job: Job, actor: User, to: str, version: int, reason: str = "") -> Job:
    """Move a job to another stage, forward or back.

    Compare-and-set on the version first: of two people who move the same job, one is told that it moved already.
    Going back sets aside the evidence and overrides of the hold points behind the work that is undone.
    Raises PermissionDenied, Conflict, or Refused with what stands in the way.
    """
    require(actor, "advance_job", job)
    target = _stage(to)
    take_version(job, version)
    job = job_lock(job)
    source = job.stage_now
    try:
        move = check_move(source, target, holds_of(job), partition=partition_of(job), reason=reason)
    except IllegalMove as illegal:
        raise Refused(str(illegal), field="to") from illegal
    job.stage = target.value
    job.stage_since = timezone.now()
    job.save()
    if move.kind == "back":
        _set_aside_behind(job, target, f"The job went back to {target.label}: {reason.strip()}")
    words = "back to" if move.kind == "back" else "on to"
    event_record(
        job=job,
        actor=actor,
        verb="stage.moved",
        detail=f"Moved {words} {target.label}.{' ' + reason.strip() if reason.strip() else ''}",
        data={"from": source.value, "to": target.value, "kind": move.kind},
    )
    return job


def _set_aside_behind(job: Job, target: Stage, why: str) -> None:
    names = [point.name for point in reopened_by(target)]
    now = timezone.now()
    for rows in (job.hold_passes, job.overrides):
        rows.filter(hold__in=names, set_aside_at__isnull=True).update(set_aside_at=now, set_aside_why=why)


@transaction.atomic
def hold_pass(
    *,
    job: Job,
    actor: User,
    hold: str,
    checked_by: str,
    checked_on: date,
    evidence: str,
    document: str = "",
    photo: Photo | None = None,
    upload: UploadedFile | None = None,
    poured_on: date | None = None,
    cure_days: int | None = None,
    cure_source: str = "",
) -> HoldPass:
    """Put on record who saw that a hold point is met, when, and by what.

    Refused where rows of their own decide (a permit, an inspection), where the facts do not agree yet, and, for the
    four hold points that nobody may override, without a document or a photo.
    """
    require(actor, "pass_hold_point", job)
    job = job_lock(job)
    point = _point(hold)
    if hold not in RECORDED_BY_HAND:
        raise Refused(f"{point.title}: this is met by its own record, not by hand.", field="hold")
    checked_by = check_text("checked_by", "Checked by", checked_by, "the name of the person who checked")
    evidence = check_text("evidence", "Evidence", evidence, "what was seen or measured")
    check_not_future("checked_on", "Checked on", checked_on)
    if photo is not None and photo.job_id != job.pk:
        raise Refused("Photo: choose one of this job.", field="photo")
    if not point.may_override and not document.strip() and photo is None and not upload:
        raise Refused("Document: name a document or choose a photo for this hold point.", field="document")
    if hold == "footing_cured":
        poured_on, cure_days = _check_pour(job, checked_on, poured_on, cure_days, cure_source)
    else:
        poured_on, cure_days, cure_source = None, None, ""
        state = holdpoints.state_of(job, hold)
        if not state.met:
            raise Refused(f"{point.title}: {state.why}", field="hold")
    with photo_attached(job=job, actor=actor, upload=upload, caption=point.title) as kept:
        row = HoldPass(
            job=job,
            hold=hold,
            checked_by=checked_by,
            checked_on=checked_on,
            evidence=evidence,
            document=document.strip(),
            photo=kept or photo,
            poured_on=poured_on,
            cure_days=cure_days,
            cure_source=cure_source,
            recorded_by=actor,
        )
        row.full_clean()
        row.save()
    event_record(
        job=job,
        actor=actor,
        verb="hold.recorded",
        detail=f"{point.title}: {checked_by}, {checked_on:%Y-%m-%d}. {evidence}",
        data={"hold": hold, "pass": row.pk},
    )
    return row


def _check_pour(
    job: Job, checked_on: date, poured_on: date | None, cure_days: int | None, cure_source: str
) -> tuple[date, int]:
    """A pour comes after its inspection, and cures for the engineer's days or the days of common practice."""
    before = _point("footing_inspected")
    reading = read_hold(before, facts_of(job, before.name, before.recorded), partition_of(job))
    if not reading.open:
        raise Refused(f"Poured on: nothing is poured before its inspection. {reading.why}", field="poured_on")
    if poured_on is None:
        raise Refused("Poured on: read nothing; accepted is the day of the pour.", field="poured_on")
    check_not_future("poured_on", "Poured on", poured_on)
    check_not_before("checked_on", "Checked on", checked_on, poured_on, "the day of the pour")
    if cure_source not in dict(HoldPass.CURE_SOURCES):
        raise Refused(
            "Whose figure: say if the days are the engineer's or common practice.", field="cure_source"
        )
    days = CURE_DAYS if cure_days is None and cure_source == "common_practice" else cure_days
    least = CURE_DAYS if cure_source == "common_practice" else 1
    if days is None or not least <= days <= MOST_CURE_DAYS:
        raise Refused(
            f"Curing days: read {days if days is not None else 'nothing'}; accepted is {least} to {MOST_CURE_DAYS} "
            f"calendar days{'; fewer are the engineer’s to allow' if least > 1 else ''}.",
            field="cure_days",
        )
    return poured_on, days


@transaction.atomic
def hold_override(*, job: Job, actor: User, hold: str, reason: str) -> Override:
    """A contractor goes past an unmet hold point, in writing, for ever visible. It changes no verdict.

    Refused for the four that nobody may override.
    """
    require(actor, "override_hold_point", job)
    job = job_lock(job)
    point = _point(hold)
    if hold in NEVER_OVERRIDDEN:
        raise Refused(f"{point.title}: nobody may override this hold point.", field="hold")
    reason = check_sentence("reason", "Reason", reason, "why the work goes on without it")
    reading = read_hold(point, facts_of(job, hold, point.recorded), partition_of(job))
    if reading.open:
        raise Refused(
            f"{point.title}: nothing stands in the way, there is nothing to override.", field="hold"
        )
    row = Override(
        job=job,
        hold=hold,
        reason=reason,
        unmet_why=reading.why,
        stage=job.stage,
        overridden_by=actor,
        overridden_by_name=actor.display_name,
    )
    row.full_clean()
    row.save()
    event_record(
        job=job,
        actor=actor,
        verb="hold.overridden",
        detail=f"Overrode {point.title.lower()}: {reason} (It stood at: {reading.why})",
        data={"hold": hold, "override": row.pk},
    )
    return row


@transaction.atomic
def hold_pass_set_aside(*, record: HoldPass, actor: User, reason: str) -> HoldPass:
    """Set a record aside that turned out wrong. It stays visible, and counts no longer."""
    require(actor, "pass_hold_point", record.job)
    job_lock(record.job)
    reason = check_text("reason", "Reason", reason, "why the record no longer counts")
    record.refresh_from_db()
    if record.set_aside_at is not None:
        raise Refused("Record: it was set aside already.")
    record.set_aside_at = timezone.now()
    record.set_aside_why = reason
    record.save()
    event_record(
        job=record.job,
        actor=actor,
        verb="hold.set_aside",
        detail=f"Set aside the record of {record.get_hold_display().lower()}: {reason}",
        data={"hold": record.hold, "pass": record.pk},
    )
    return record
