"""Papers of a demo job, in the order in which they came into being. Days are counted back from today."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from django.utils import timezone

from projects.models import Inspection, Job, Jurisdiction, Permit, User
from projects.services import chases, engineering, inspections, permits, stages

Row = Mapping[str, Any]


def ago(days: int) -> date:
    """So many calendar days before today; negative numbers lie ahead."""
    return timezone.localdate() - timedelta(days=days)


def request_load(job: Job, actor: User, row: Row) -> None:
    """An engineering request, sent or not, with its questions."""
    due = ago(row["due"]) if "due" in row else None
    request = engineering.engineering_request_create(
        job=job,
        actor=actor,
        engineer_name=row["engineer"],
        engineer_contact=row.get("contact", ""),
        asks=row["asks"],
        due_on=due,
    )
    if "sent" not in row:
        return
    engineering.engineering_request_send(
        request=request, actor=actor, version=request.version, on=ago(row["sent"]), due_on=due
    )
    for entry in row.get("questions", []):
        question = engineering.engineering_question_add(
            request=request,
            actor=actor,
            version=request.version,
            question=entry["question"],
            asked_on=ago(entry["asked"]),
        )
        if "answer" in entry:
            engineering.engineering_question_answer(
                question=question,
                actor=actor,
                version=question.version,
                answer=entry["answer"],
                on=ago(entry["answered"]),
            )
            request.refresh_from_db()


def design_load(job: Job, actor: User, row: Row) -> None:
    """A sealed design, or the written acceptance in its place, answering the latest request that was sent."""
    engineering.sealed_design_record(
        job=job,
        actor=actor,
        request=job.engineering_requests.filter(sent_on__isnull=False).first(),
        route=row.get("route", "sealed"),
        signed_by=row["signed_by"],
        licence=row.get("licence", ""),
        reference=row["reference"],
        revision=row.get("revision", ""),
        dated=ago(row["dated"]),
        received_on=ago(row["received"]),
        field_review=row.get("field_review", False),
        cure_days=row.get("cure_days"),
        note=row.get("note", ""),
    )


def permit_load(job: Job, actor: User, row: Row) -> None:
    """A permit as far as it got."""
    authority = Jurisdiction.objects.get(company=job.company, name=row["jurisdiction"])
    permit = permits.permit_start(
        job=job,
        actor=actor,
        jurisdiction=authority,
        fee=Decimal(row["fee"]) if "fee" in row else None,
        note=row.get("note", ""),
    )
    ready = row.get("ready", permit.documents.count())
    for paper in list(permit.documents.all())[:ready]:
        permits.permit_document_set(document=paper, actor=actor, ready=True, on=ago(row["papers"]))
    if "submitted" in row:
        permits.permit_submit(permit=permit, actor=actor, version=permit.version, on=ago(row["submitted"]))
    if "issued" in row:
        permits.permit_issue(
            permit=permit,
            actor=actor,
            version=permit.version,
            on=ago(row["issued"]),
            number=row["number"],
            alarms_required=row.get("alarms", False),
        )


def inspection_load(job: Job, actor: User, row: Row) -> None:
    """What happened to the open inspection of a kind: booked, passed or failed."""
    visit = Inspection.objects.filter(job=job, kind=row["kind"], status__in=["needed", "booked"]).order_by(
        "order", "pk"
    )[0]
    if "booked" in row:
        inspections.inspection_book(
            inspection=visit,
            actor=actor,
            version=visit.version,
            asked_on=ago(row["asked"]),
            booked_for=ago(row["booked"]),
            booked_with=row["with"],
        )
    if "passed" in row:
        inspections.inspection_pass(
            inspection=visit,
            actor=actor,
            version=visit.version,
            on=ago(row["passed"]),
            inspector=row["inspector"],
        )
    if "failed" in row:
        inspections.inspection_fail(
            inspection=visit,
            actor=actor,
            version=visit.version,
            on=ago(row["failed"]),
            inspector=row["inspector"],
            deficiencies=[entry["text"] for entry in row["deficiencies"]],
        )
        for entry, deficiency in zip(row["deficiencies"], visit.deficiencies.all(), strict=True):
            if "cleared" in entry:
                inspections.deficiency_clear(
                    deficiency=deficiency, actor=actor, on=ago(entry["cleared"]), how=entry["how"]
                )


def progress_load(job: Job, actor: User, row: Row) -> None:
    """Work that was recorded under the permit."""
    permit = Permit.objects.get(job=job, status=Permit.Status.ISSUED)
    permits.permit_record_progress(
        permit=permit, actor=actor, version=permit.version, on=ago(row["on"]), what=row["what"]
    )


def chase_load(job: Job, actor: User, row: Row) -> None:
    """A chase."""
    chases.chase_record(
        job=job,
        actor=actor,
        about=row["about"],
        who=row["who"],
        how=row["how"],
        said=row["said"],
        on=ago(row["on"]),
        next_on=ago(row["next"]) if "next" in row else None,
    )


def hold_load(job: Job, actor: User, row: Row) -> None:
    """Evidence for a hold point."""
    stages.hold_pass(
        job=job,
        actor=actor,
        hold=row["hold"],
        checked_by=row["by"],
        checked_on=ago(row["on"]),
        evidence=row["evidence"],
        document=row.get("document", ""),
        poured_on=ago(row["poured"]) if "poured" in row else None,
        cure_days=row.get("cure_days"),
        cure_source=row.get("cure_source", ""),
    )


def override_load(job: Job, actor: User, row: Row) -> None:
    """A hold point overridden in writing."""
    stages.hold_override(job=job, actor=actor, hold=row["hold"], reason=row["reason"])
