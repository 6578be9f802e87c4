"""The engineering request: prepared, sent, questions answered, design received."""

from __future__ import annotations

from datetime import date
from pathlib import PurePath

from django.core.files.uploadedfile import UploadedFile
from django.db import transaction

from projects.documents import document_kind
from projects.errors import Refused
from projects.models import EngineeringQuestion, EngineeringRequest, Job, SealedDesign, User
from projects.package import package_obstacles
from projects.paperwork import REQUEST_MOVES, may_move
from projects.permissions import require
from projects.services.events import event_record
from projects.services.writing import (
    check_not_before,
    check_not_future,
    check_text,
    take_version,
)

Status = EngineeringRequest.Status


def _begin(request: EngineeringRequest, actor: User, version: int, target: str) -> None:
    require(actor, "edit_engineering", request.job)
    take_version(request, version)
    if not may_move(REQUEST_MOVES, request.status, target):
        raise Refused(
            f"Request: it is {request.get_status_display()}, and from there it can not become "
            f"{Status(target).label}."
        )


def _finish(request: EngineeringRequest, actor: User, verb: str, detail: str) -> EngineeringRequest:
    request.full_clean(exclude=["created_by"])
    request.save()
    event_record(job=request.job, actor=actor, verb=verb, detail=detail, data={"request": request.pk})
    return request


@transaction.atomic
def engineering_request_create(
    *,
    job: Job,
    actor: User,
    engineer_name: str,
    asks: str,
    engineer_contact: str = "",
    due_on: date | None = None,
) -> EngineeringRequest:
    """A request in preparation: to whom, and what is asked."""
    require(actor, "edit_engineering", job)
    request = EngineeringRequest(
        job=job,
        engineer_name=check_text("engineer_name", "Engineer", engineer_name, "the engineer's name"),
        engineer_contact=engineer_contact.strip(),
        asks=check_text("asks", "What is asked", asks, "what the engineer is to design, seal or confirm"),
        due_on=due_on,
        created_by=actor,
    )
    return _finish(request, actor, "engineering_prepared", f"{request} in preparation.")


@transaction.atomic
def engineering_request_edit(
    *,
    request: EngineeringRequest,
    actor: User,
    version: int,
    engineer_name: str,
    asks: str,
    engineer_contact: str = "",
    due_on: date | None = None,
) -> EngineeringRequest:
    """Change a request that has not gone out."""
    require(actor, "edit_engineering", request.job)
    take_version(request, version)
    if request.status != Status.PREPARING:
        raise Refused(f"Request: it is {request.get_status_display()}; what went out is not rewritten.")
    request.engineer_name = check_text("engineer_name", "Engineer", engineer_name, "the engineer's name")
    request.asks = check_text(
        "asks", "What is asked", asks, "what the engineer is to design, seal or confirm"
    )
    request.engineer_contact, request.due_on = engineer_contact.strip(), due_on
    return _finish(request, actor, "engineering_edited", f"{request} changed.")


@transaction.atomic
def engineering_request_send(
    *, request: EngineeringRequest, actor: User, version: int, on: date, due_on: date | None = None
) -> EngineeringRequest:
    """The package went out. Raises Refused while a part of it is not whole, such as a load that ends nowhere."""
    _begin(request, actor, version, Status.SENT)
    check_not_future("on", "Sent on", on)
    if due_on is not None:
        check_not_before("due_on", "Expected by", due_on, on, "the day it was sent")
    if stops := package_obstacles(request.job):
        raise Refused(f"Package: {' '.join(stops)}")
    request.status, request.sent_on, request.due_on = Status.SENT, on, due_on or request.due_on
    by = f"; expected by {request.due_on:%Y-%m-%d}" if request.due_on else ""
    return _finish(request, actor, "engineering_sent", f"{request} sent on {on:%Y-%m-%d}{by}.")


@transaction.atomic
def engineering_question_add(
    *, request: EngineeringRequest, actor: User, version: int, question: str, asked_on: date
) -> EngineeringQuestion:
    """The engineer asks something back; the ball is with us until it is answered."""
    require(actor, "edit_engineering", request.job)
    take_version(request, version)
    if request.status not in (Status.SENT, Status.QUESTIONS, Status.ANSWERED) or request.sent_on is None:
        raise Refused(f"Request: it is {request.get_status_display()}; questions come after it was sent.")
    check_not_future("asked_on", "Asked on", asked_on)
    check_not_before("asked_on", "Asked on", asked_on, request.sent_on, "the day it was sent")
    asked = EngineeringQuestion.objects.create(
        request=request,
        question=check_text("question", "Question", question, "what the engineer asks"),
        asked_on=asked_on,
    )
    request.status = Status.QUESTIONS
    _finish(request, actor, "engineering_question", f"{request.engineer_name} asks: {asked.question}")
    return asked


@transaction.atomic
def engineering_question_answer(
    *, question: EngineeringQuestion, actor: User, version: int, answer: str, on: date
) -> EngineeringQuestion:
    """Our answer. With the last open question answered the request waits on the engineer again."""
    request = question.request
    require(actor, "edit_engineering", request.job)
    take_version(question, version)
    if question.answered_on:
        raise Refused(f"Question: it was answered on {question.answered_on:%Y-%m-%d}.")
    check_not_future("on", "Answered on", on)
    check_not_before("on", "Answered on", on, question.asked_on, "the day it was asked")
    question.answer = check_text("answer", "Answer", answer, "what the engineer was told")
    question.answered_on, question.answered_by = on, actor
    question.save()
    take_version(request, EngineeringRequest.objects.values_list("version", flat=True).get(pk=request.pk))
    if request.status == Status.QUESTIONS and not request.questions.filter(answered_on__isnull=True).exists():
        request.status = Status.ANSWERED if request.received_on else Status.SENT
    _finish(request, actor, "engineering_answer", f"Answered to {request.engineer_name}: {question.answer}")
    return question


@transaction.atomic
def engineering_request_withdraw(
    *, request: EngineeringRequest, actor: User, version: int, reason: str
) -> EngineeringRequest:
    """Given up, with the reason."""
    _begin(request, actor, version, Status.WITHDRAWN)
    said = check_text("reason", "Reason", reason, "why it is withdrawn")
    request.status = Status.WITHDRAWN
    return _finish(request, actor, "engineering_withdrawn", f"{request} withdrawn: {said}")


@transaction.atomic
def sealed_design_record(
    *,
    job: Job,
    actor: User,
    signed_by: str,
    reference: str,
    dated: date,
    received_on: date,
    route: str = SealedDesign.Route.SEALED,
    request: EngineeringRequest | None = None,
    licence: str = "",
    revision: str = "",
    field_review: bool = False,
    cure_days: int | None = None,
    document: UploadedFile | None = None,
    note: str = "",
) -> SealedDesign:
    """The sealed design, or the authority's written acceptance. The one before it stays on record, set aside.

    Raises Refused for a document that is not a PDF or a picture, a request of another job, or dates out of order.
    """
    require(actor, "record_sealed_design", job)
    if route not in SealedDesign.Route.values:
        raise Refused(
            f"Route: read {route!r}; accepted is one of {', '.join(SealedDesign.Route.values)}.",
            field="route",
        )
    if request is not None:
        if request.job_id != job.pk:
            raise Refused("Request: it belongs to another job.", field="request")
        if not may_move(REQUEST_MOVES, request.status, Status.ANSWERED):
            raise Refused(
                f"Request: it is {request.get_status_display()}; a design answers one that was sent."
            )
    check_not_future("received_on", "Received on", received_on)
    check_not_before("received_on", "Received on", received_on, dated, "the date on the design")
    if route == SealedDesign.Route.SEALED:
        licence = check_text("licence", "Licence", licence, "the engineer's licence number, as on the seal")
    if cure_days is not None and not 1 <= cure_days <= 90:
        raise Refused(f"Cure: read {cure_days} days; accepted is 1 to 90, or nothing.", field="cure_days")
    design = SealedDesign(
        job=job,
        request=request,
        route=route,
        signed_by=check_text("signed_by", "Signed by", signed_by, "the name on the seal or the acceptance"),
        licence=licence.strip(),
        reference=check_text("reference", "Reference", reference, "the number of the drawing or acceptance"),
        revision=revision.strip(),
        dated=dated,
        received_on=received_on,
        field_review=field_review,
        cure_days=cure_days,
        note=note.strip(),
        recorded_by=actor,
    )
    if document is not None:
        kind = document_kind(document)
        document.name = PurePath("document").with_suffix(kind.ending).name
        design.document = document
    for earlier in job.sealed_designs.filter(current=True):
        earlier.current = False
        earlier.save()
    design.full_clean()
    design.save()
    if request is not None:
        take_version(request, EngineeringRequest.objects.values_list("version", flat=True).get(pk=request.pk))
        request.received_on = received_on
        if not request.questions.filter(answered_on__isnull=True).exists():
            request.status = Status.ANSWERED
        request.save()
    event_record(
        job=job,
        actor=actor,
        verb="sealed_design_received",
        detail=f"{design} by {design.signed_by}, {design.get_route_display()}, dated {dated:%Y-%m-%d}.",
        data={"sealed_design": design.pk},
    )
    return design
