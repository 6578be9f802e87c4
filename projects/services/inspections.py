"""Inspections: book with notice, pass, fail with deficiencies, clear them, go again."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.db import transaction

from projects.errors import Refused
from projects.models import Deficiency, Inspection, InspectionKind, Job, Permit, User
from projects.paperwork import INSPECTION_MOVES, earliest_visit, may_move
from projects.permissions import require
from projects.services.events import event_record
from projects.services.writing import (
    check_not_before,
    check_not_future,
    check_text,
    take_version,
)

Status = Inspection.Status


def _begin(visit: Inspection, actor: User, version: int, target: str) -> None:
    require(actor, "edit_inspection", visit.job)
    take_version(visit, version)
    if not may_move(INSPECTION_MOVES, visit.status, target):
        raise Refused(
            f"Inspection: {visit} is {visit.get_status_display()}, and from there it can not become "
            f"{Status(target).label}."
        )


def _finish(visit: Inspection, actor: User, verb: str, detail: str) -> Inspection:
    visit.full_clean()
    visit.save()
    event_record(job=visit.job, actor=actor, verb=verb, detail=detail, data={"inspection": visit.pk})
    return visit


def _check_permit(visit: Inspection) -> None:
    if visit.permit and visit.permit.status != Permit.Status.ISSUED:
        raise Refused(
            f"Permit: {visit.permit} is {visit.permit.get_status_display()}; inspections are held under an issued "
            f"permit."
        )


def _move_permit_on(visit: Inspection, on: date) -> None:
    """A visit that was held is progress: the lapse counts from it."""
    permit = visit.permit
    if permit and (permit.last_progress_on is None or permit.last_progress_on < on):
        permit.last_progress_on, permit.version = on, permit.version + 1
        permit.save()


@transaction.atomic
def inspection_add(*, job: Job, actor: User, kind: str, title: str) -> Inspection:
    """One more inspection than the jurisdiction's list has, such as the engineer's field review."""
    require(actor, "edit_inspection", job)
    if kind not in InspectionKind.values:
        raise Refused(
            f"Kind: read {kind!r}; accepted is one of {', '.join(InspectionKind.values)}.", field="kind"
        )
    named = check_text("title", "Inspection", title, "what is to be looked at")
    permit = None
    if kind != InspectionKind.FIELD_REVIEW:
        permit = job.permits.filter(status__in=Permit.LIVE).first()
    last = job.inspections.order_by("-order").first()
    visit = Inspection(job=job, permit=permit, kind=kind, title=named, order=last.order + 1 if last else 1)
    return _finish(visit, actor, "inspection_added", f"Inspection added: {named}.")


@transaction.atomic
def inspection_book(
    *,
    inspection: Inspection,
    actor: User,
    version: int,
    asked_on: date,
    booked_for: date,
    booked_with: str,
    short_notice_agreed: bool = False,
) -> Inspection:
    """Booked, or booked for another day. The jurisdiction's notice is kept unless the office agreed to less.

    Raises Refused, with the first day that keeps the notice.
    """
    _begin(inspection, actor, version, Status.BOOKED)
    _check_permit(inspection)
    check_not_future("asked_on", "Asked on", asked_on)
    check_not_before("booked_for", "Booked for", booked_for, asked_on, "the day it was asked for")
    with_whom = check_text("booked_with", "Booked with", booked_with, "who took the booking")
    short = ""
    if inspection.permit:
        authority = inspection.permit.jurisdiction
        first = earliest_visit(
            asked_on, authority.notice_days, authority.notice_kind, authority.code, authority.region
        )
        if booked_for < first:
            if not short_notice_agreed:
                raise Refused(
                    f"Booked for: read {booked_for:%Y-%m-%d}; accepted is {first:%Y-%m-%d} or later, because "
                    f"{authority.name} asks for {authority.notice} of notice. Tick short notice if the "
                    f"office agreed to come sooner.",
                    field="booked_for",
                )
            short = f", at short notice agreed with {with_whom}"
    inspection.status, inspection.asked_on = Status.BOOKED, asked_on
    inspection.booked_for, inspection.booked_with = booked_for, with_whom
    return _finish(
        inspection, actor, "inspection_booked", f"{inspection} booked for {booked_for:%Y-%m-%d}{short}."
    )


def _held(inspection: Inspection, on: date, inspector: str, note: str) -> None:
    _check_permit(inspection)
    check_not_future("on", "Held on", on)
    earlier = inspection.again_after
    if earlier and earlier.done_on:
        check_not_before("on", "Held on", on, earlier.done_on, "the day of the failed inspection")
    elif inspection.permit and inspection.permit.issued_on:
        check_not_before("on", "Held on", on, inspection.permit.issued_on, "the day the permit was issued")
    inspection.done_on = on
    inspection.inspector = check_text("inspector", "Inspector", inspector, "the inspector's name")
    if note.strip():
        inspection.note = f"{inspection.note}\n{note.strip()}".strip()


@transaction.atomic
def inspection_pass(
    *, inspection: Inspection, actor: User, version: int, on: date, inspector: str, note: str = ""
) -> Inspection:
    """Passed. A re-inspection passes only when each deficiency of the failed one is on record as put right."""
    _begin(inspection, actor, version, Status.PASSED)
    if inspection.again_after:
        left = inspection.again_after.deficiencies.filter(cleared_on__isnull=True).count()
        if left:
            raise Refused(
                f"Deficiencies: {left} of the failed inspection not recorded as put right; accepted is all of them "
                f"put right first."
            )
    _held(inspection, on, inspector, note)
    inspection.status = Status.PASSED
    _finish(
        inspection,
        actor,
        "inspection_passed",
        f"{inspection} passed on {on:%Y-%m-%d} ({inspection.inspector}).",
    )
    _move_permit_on(inspection, on)
    return inspection


@transaction.atomic
def inspection_fail(
    *,
    inspection: Inspection,
    actor: User,
    version: int,
    on: date,
    inspector: str,
    deficiencies: Sequence[str],
    note: str = "",
) -> Inspection:
    """Failed, with what was found wanting. A re-inspection is put on the list at once.

    Returns the re-inspection. Raises Refused without at least one deficiency.
    """
    _begin(inspection, actor, version, Status.FAILED)
    found = [text.strip() for text in deficiencies if text.strip()]
    if not found:
        raise Refused(
            "Deficiencies: read nothing; accepted is at least one, each on a line of its own.",
            field="deficiencies",
        )
    _held(inspection, on, inspector, note)
    inspection.status = Status.FAILED
    _finish(
        inspection,
        actor,
        "inspection_failed",
        f"{inspection} failed on {on:%Y-%m-%d} ({inspection.inspector}): {'; '.join(found)}",
    )
    Deficiency.objects.bulk_create(Deficiency(inspection=inspection, text=text) for text in found)
    _move_permit_on(inspection, on)
    return Inspection.objects.create(
        job=inspection.job,
        permit=inspection.permit,
        order=inspection.order,
        kind=inspection.kind,
        title=inspection.title,
        again_after=inspection,
    )


@transaction.atomic
def deficiency_clear(*, deficiency: Deficiency, actor: User, on: date, how: str) -> Deficiency:
    """Put right: when and how. Raises Refused when it was recorded before."""
    visit = deficiency.inspection
    require(actor, "edit_inspection", visit.job)
    check_not_future("on", "Put right on", on)
    if visit.done_on:
        check_not_before("on", "Put right on", on, visit.done_on, "the day of the inspection")
    said = check_text("how", "How", how, "what was done about it")
    won = Deficiency.objects.filter(pk=deficiency.pk, cleared_on__isnull=True).update(
        cleared_on=on, cleared_by=actor, how=said
    )
    if not won:
        raise Refused("Deficiency: it is on record as put right already.")
    deficiency.refresh_from_db()
    event_record(
        job=visit.job,
        actor=actor,
        verb="deficiency_cleared",
        detail=f"Put right: {deficiency.text} ({said})",
        data={"inspection": visit.pk, "deficiency": deficiency.pk},
    )
    return deficiency


@transaction.atomic
def inspection_drop(*, inspection: Inspection, actor: User, version: int, reason: str) -> Inspection:
    """Not needed after all, with the reason. It meets no hold point."""
    _begin(inspection, actor, version, Status.DROPPED)
    said = check_text("reason", "Reason", reason, "why it is not needed")
    inspection.status = Status.DROPPED
    inspection.note = f"{inspection.note}\nNot needed: {said}".strip()
    return _finish(inspection, actor, "inspection_dropped", f"{inspection} not needed after all: {said}")


@transaction.atomic
def inspection_restore(*, inspection: Inspection, actor: User, version: int) -> Inspection:
    """Needed again, or a booking that fell through."""
    _begin(inspection, actor, version, Status.NEEDED)
    inspection.status, inspection.booked_for, inspection.booked_with = Status.NEEDED, None, ""
    return _finish(inspection, actor, "inspection_needed", f"{inspection} is to be booked.")
