"""Reads of papers: requests, permits, inspections, chases, and what the hold points ask of them."""

from __future__ import annotations

from datetime import date

from django.db.models import Prefetch, QuerySet

from projects.models import (
    Chase,
    EngineeringRequest,
    Inspection,
    Job,
    Jurisdiction,
    Permit,
    PermitNotice,
    SealedDesign,
    User,
)
from projects.paperwork import Outlook, outlook


def permit_outlook(permit: Permit, today: date) -> Outlook | None:
    """When an issued permit lapses or expires; None for any other."""
    if permit.status != Permit.Status.ISSUED or permit.last_progress_on is None or permit.expires_on is None:
        return None
    authority = permit.jurisdiction
    return outlook(
        today=today,
        last_progress_on=permit.last_progress_on,
        lapse_days=authority.lapse_days,
        lapse_kind=authority.lapse_kind,
        expires_on=permit.expires_on,
        code=authority.code,
        region=authority.region,
    )


def permit_of(job: Job) -> Permit | None:
    """The permit that counts: the live one, else the latest."""
    permits = list(job.permits.all())
    return next((permit for permit in permits if permit.live), permits[0] if permits else None)


def sealed_design_of(job: Job) -> SealedDesign | None:
    """The sealed design, or written acceptance, that stands."""
    return next((design for design in job.sealed_designs.all() if design.current), None)


def jurisdictions_visible_to(user: User) -> QuerySet[Jurisdiction]:
    """Those of the person's own company."""
    if user.company_id is None:
        return Jurisdiction.objects.none()
    return Jurisdiction.objects.filter(company_id=user.company_id)


def permits_for_page(job: Job) -> QuerySet[Permit]:
    """All permits of a job with what the page shows of them."""
    return job.permits.select_related("jurisdiction").prefetch_related(
        "documents__ready_by", Prefetch("notices", PermitNotice.objects.order_by("-created_at"))
    )


def inspections_for_page(job: Job) -> list[Inspection]:
    """Every inspection in order, each failed one followed by its re-inspection."""
    return list(
        job.inspections.select_related("permit__jurisdiction", "again_after")
        .prefetch_related("deficiencies__cleared_by")
        .order_by("order", "pk")
    )


def requests_for_page(job: Job) -> QuerySet[EngineeringRequest]:
    """Every engineering request of a job with its questions."""
    return job.engineering_requests.prefetch_related("questions__answered_by", "designs")


def chases_for_page(job: Job) -> QuerySet[Chase]:
    """Every chase of a job, latest first."""
    return job.chases.select_related("by")


def next_chase_for(job: Job) -> Chase | None:
    """The chase whose follow-up is due first and has not happened yet."""
    latest: dict[tuple[str, str], Chase] = {}
    for chase in job.chases.order_by("on", "pk"):
        latest[chase.about, chase.who.casefold()] = chase
    waiting = [chase for chase in latest.values() if chase.next_on]
    return min(waiting, key=lambda chase: (chase.next_on, chase.pk), default=None)
