"""Permits: start, papers, submit, review, corrections, issue, progress, extension, close, withdraw."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from django.db import transaction
from django.utils import timezone

from projects.days import add_days
from projects.errors import Refused
from projects.models import Inspection, Job, Jurisdiction, Permit, PermitDocument, User
from projects.paperwork import PERMIT_MOVES, may_move
from projects.permissions import require
from projects.services.events import event_record
from projects.services.writing import (
    check_not_before,
    check_not_future,
    check_text,
    take_version,
)

Status = Permit.Status


def _begin(permit: Permit, actor: User, version: int, target: str) -> None:
    """Permission, version and the table of moves, in that order."""
    require(actor, "edit_permit", permit.job)
    take_version(permit, version)
    if not may_move(PERMIT_MOVES, permit.status, target):
        raise Refused(
            f"Permit: it is {permit.get_status_display()}, and from there it can not become "
            f"{Status(target).label}."
        )


def _finish(permit: Permit, actor: User, verb: str, detail: str) -> Permit:
    permit.full_clean(exclude=["created_by"])
    permit.save()
    event_record(job=permit.job, actor=actor, verb=verb, detail=detail, data={"permit": permit.pk})
    return permit


@transaction.atomic
def permit_start(
    *, job: Job, actor: User, jurisdiction: Jurisdiction, fee: Decimal | None = None, note: str = ""
) -> Permit:
    """An application in preparation, with the papers and inspections that the jurisdiction asks for.

    Raises Refused when the job has a live permit already or the jurisdiction is under another code.
    """
    require(actor, "edit_permit", job)
    if jurisdiction.company_id != job.company_id or jurisdiction.code != job.code:
        raise Refused(
            f"Jurisdiction: read {jurisdiction.name}; accepted is one of your own under the same country as the "
            f"property.",
            field="jurisdiction",
        )
    if fee is not None and fee < 0:
        raise Refused(f"Fee: read {fee}; accepted is zero or more.", field="fee")
    live = job.permits.filter(status__in=Permit.LIVE).first()
    if live:
        raise Refused(
            f"Permit: this job has one already ({live.get_status_display()}); withdraw or close it first."
        )
    permit = Permit(job=job, jurisdiction=jurisdiction, fee=fee, note=note.strip(), created_by=actor)
    permit.full_clean()
    permit.save()
    PermitDocument.objects.bulk_create(
        PermitDocument(permit=permit, order=paper.order, title=paper.title)
        for paper in jurisdiction.required_documents.all()
    )
    for rule in jurisdiction.inspection_rules.all():
        Inspection.objects.create(job=job, permit=permit, order=rule.order, kind=rule.kind, title=rule.title)
    event_record(
        job=job,
        actor=actor,
        verb="permit_started",
        detail=f"Permit application started at {jurisdiction.name}.",
        data={"permit": permit.pk},
    )
    return permit


@transaction.atomic
def permit_edit(
    *, permit: Permit, actor: User, version: int, fee: Decimal | None, alarms_required: bool, note: str
) -> Permit:
    """Fee, whether alarms are asked for, and the note. The state of the permit is not touched."""
    require(actor, "edit_permit", permit.job)
    take_version(permit, version)
    if fee is not None and fee < 0:
        raise Refused(f"Fee: read {fee}; accepted is zero or more.", field="fee")
    permit.fee, permit.alarms_required, permit.note = fee, alarms_required, note.strip()
    return _finish(permit, actor, "permit_edited", f"{permit}: fee, alarms or note changed.")


@transaction.atomic
def permit_document_set(
    *, document: PermitDocument, actor: User, ready: bool, on: date | None = None
) -> PermitDocument:
    """Tick a required paper as ready, or take the tick away. Only before the application is handed in."""
    permit = document.permit
    require(actor, "edit_permit", permit.job)
    if permit.status not in (Status.PREPARING, Status.CORRECTIONS):
        raise Refused(
            f"Papers: the permit is {permit.get_status_display()}; papers change before it is handed in."
        )
    day = on or timezone.localdate()
    check_not_future("on", "Ready on", day)
    document.ready_on, document.ready_by = (day, actor) if ready else (None, None)
    document.save(update_fields=["ready_on", "ready_by"])
    event_record(
        job=permit.job,
        actor=actor,
        verb="permit_paper",
        detail=f"{document.title}: {'ready' if ready else 'not ready after all'}.",
        data={"permit": permit.pk, "document": document.pk},
    )
    return document


@transaction.atomic
def permit_submit(*, permit: Permit, actor: User, version: int, on: date) -> Permit:
    """Handed in, for the first time or again after corrections. The review is due by the jurisdiction's own days.

    Raises Refused with the list of papers that are not ready.
    """
    _begin(permit, actor, version, Status.SUBMITTED)
    check_not_future("on", "Handed in on", on)
    if permit.submitted_on:
        check_not_before("on", "Handed in on", on, permit.submitted_on, "the day it was handed in before")
    missing = [paper.title for paper in permit.documents.filter(ready_on__isnull=True)]
    if missing:
        raise Refused(
            f"Papers: {len(missing)} not ready ({'; '.join(missing)}); accepted is every paper ready."
        )
    authority = permit.jurisdiction
    permit.status, permit.submitted_on = Status.SUBMITTED, on
    permit.review_due_on = add_days(
        on, authority.review_days, authority.review_kind, authority.code, authority.region
    )
    return _finish(
        permit,
        actor,
        "permit_submitted",
        f"Permit handed in at {authority.name}; an answer is due by {permit.review_due_on:%Y-%m-%d}.",
    )


@transaction.atomic
def permit_take_in(*, permit: Permit, actor: User, version: int) -> Permit:
    """The authority has begun its review."""
    _begin(permit, actor, version, Status.IN_REVIEW)
    permit.status = Status.IN_REVIEW
    return _finish(permit, actor, "permit_in_review", "The permit office has the application in review.")


@transaction.atomic
def permit_ask_corrections(
    *, permit: Permit, actor: User, version: int, on: date, corrections: str
) -> Permit:
    """The authority asks for corrections; the ball is with us again."""
    _begin(permit, actor, version, Status.CORRECTIONS)
    check_not_future("on", "Asked on", on)
    if permit.submitted_on:
        check_not_before("on", "Asked on", on, permit.submitted_on, "the day it was handed in")
    permit.corrections = check_text(
        "corrections", "Corrections", corrections, "what the permit office asks for"
    )
    permit.status, permit.review_due_on = Status.CORRECTIONS, None
    return _finish(
        permit, actor, "permit_corrections", f"Corrections asked on {on:%Y-%m-%d}: {permit.corrections}"
    )


@transaction.atomic
def permit_issue(
    *,
    permit: Permit,
    actor: User,
    version: int,
    on: date,
    number: str,
    fee: Decimal | None = None,
    expires_on: date | None = None,
    alarms_required: bool = False,
) -> Permit:
    """Issued: number, day, expiry. Without a stated expiry the jurisdiction's validity counts."""
    _begin(permit, actor, version, Status.ISSUED)
    if permit.status == Status.EXPIRED:
        raise Refused("Permit: it has run out; record the authority's extension instead.")
    check_not_future("on", "Issued on", on)
    if permit.submitted_on:
        check_not_before("on", "Issued on", on, permit.submitted_on, "the day it was handed in")
    if fee is not None and fee < 0:
        raise Refused(f"Fee: read {fee}; accepted is zero or more.", field="fee")
    permit.number = check_text("number", "Permit number", number, "the number on the permit")
    authority = permit.jurisdiction
    if expires_on is None:
        expires_on = add_days(
            on, authority.validity_days, authority.validity_kind, authority.code, authority.region
        )
    check_not_before("expires_on", "Expires on", expires_on, on, "the day of issue")
    permit.status, permit.issued_on, permit.expires_on, permit.last_progress_on = (
        Status.ISSUED,
        on,
        expires_on,
        on,
    )
    permit.fee = permit.fee if fee is None else fee
    permit.alarms_required = alarms_required
    permit.review_due_on = None
    return _finish(
        permit, actor, "permit_issued", f"Permit {permit.number} issued; it expires on {expires_on:%Y-%m-%d}."
    )


@transaction.atomic
def permit_record_progress(*, permit: Permit, actor: User, version: int, on: date, what: str) -> Permit:
    """Work that keeps the permit alive: the lapse is counted from this day on."""
    require(actor, "edit_permit", permit.job)
    take_version(permit, version)
    if permit.status != Status.ISSUED or permit.issued_on is None:
        raise Refused(
            f"Permit: it is {permit.get_status_display()}; only an issued permit can have progress."
        )
    check_not_future("on", "Progress on", on)
    check_not_before("on", "Progress on", on, permit.issued_on, "the day of issue")
    said = check_text("what", "What was done", what, "a few words on the work")
    permit.last_progress_on = max(on, permit.last_progress_on or on)
    return _finish(permit, actor, "permit_progress", f"Progress on {on:%Y-%m-%d}: {said}")


@transaction.atomic
def permit_extend(
    *, permit: Permit, actor: User, version: int, on: date, expires_on: date, by: str
) -> Permit:
    """The authority's written extension, or its reinstatement of a permit that ran out. The lapse counts anew."""
    require(actor, "edit_permit", permit.job)
    take_version(permit, version)
    if permit.status not in (Status.ISSUED, Status.EXPIRED):
        raise Refused(
            f"Permit: it is {permit.get_status_display()}; only an issued or expired one is extended."
        )
    check_not_future("on", "Extended on", on)
    check_not_before("expires_on", "Expires on", expires_on, on, "the day of the extension")
    if permit.issued_on:
        check_not_before("on", "Extended on", on, permit.issued_on, "the day of issue")
    said_by = check_text("by", "Extended by", by, "who at the authority extended it, and how")
    other = permit.job.permits.filter(status__in=Permit.LIVE).exclude(pk=permit.pk).first()
    if other:
        raise Refused(f"Permit: this job has another one ({other}, {other.get_status_display()}).")
    permit.status, permit.expires_on = Status.ISSUED, expires_on
    permit.last_progress_on = max(on, permit.last_progress_on or on)
    permit.ended_on = None
    return _finish(
        permit, actor, "permit_extended", f"{permit} extended to {expires_on:%Y-%m-%d} by {said_by}."
    )


@transaction.atomic
def permit_close(*, permit: Permit, actor: User, version: int, on: date) -> Permit:
    """Closed by the authority: every inspection held, the final one passed."""
    _begin(permit, actor, version, Status.CLOSED)
    check_not_future("on", "Closed on", on)
    if permit.issued_on:
        check_not_before("on", "Closed on", on, permit.issued_on, "the day of issue")
    waiting = [str(visit) for visit in permit.inspections.all() if visit.open]
    if waiting:
        raise Refused(
            f"Inspections: {'; '.join(waiting)} still to be held; accepted is every inspection held."
        )
    if not permit.inspections.filter(kind="final", status=Inspection.Status.PASSED).exists():
        raise Refused(
            "Inspections: no final inspection has passed; a permit closes after its final inspection."
        )
    permit.status, permit.ended_on = Status.CLOSED, on
    return _finish(permit, actor, "permit_closed", f"{permit} closed.")


@transaction.atomic
def permit_withdraw(*, permit: Permit, actor: User, version: int, on: date, reason: str) -> Permit:
    """Given up, with the reason. Inspections that were never held go with it."""
    _begin(permit, actor, version, Status.WITHDRAWN)
    check_not_future("on", "Withdrawn on", on)
    said = check_text("reason", "Reason", reason, "why it is withdrawn")
    for visit in permit.inspections.filter(status__in=[Inspection.Status.NEEDED, Inspection.Status.BOOKED]):
        visit.status, visit.version = Inspection.Status.DROPPED, visit.version + 1
        visit.note = f"{visit.note}\nPermit withdrawn: {said}".strip()
        visit.save()
    permit.status, permit.ended_on = Status.WITHDRAWN, on
    return _finish(permit, actor, "permit_withdrawn", f"{permit} withdrawn: {said}")
