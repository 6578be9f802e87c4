"""What papers say to the hold points: sealed design, permit, inspections, alarms.

Each check reads related rows with `.all()` only, so that lists of jobs can fetch them beforehand.
"""

from __future__ import annotations

from django.db.models import Prefetch
from django.utils import timezone

from projects.holdpoints import HoldState, register
from projects.models import EngineeringRequest, Inspection, InspectionKind, Job, Permit
from projects.permit_selectors import permit_of, permit_outlook, sealed_design_of

PERMITS = Prefetch("permits", Permit.objects.select_related("jurisdiction"))
INSPECTIONS = Prefetch("inspections", Inspection.objects.select_related("again_after", "re_inspection"))
DESIGNS = "sealed_designs"
REQUESTS = "engineering_requests"


def sealed_design_state(job: Job) -> HoldState:
    """Has the sealed design, or the authority's written acceptance in its place, been received."""
    design = sealed_design_of(job)
    if design is not None:
        return HoldState(
            True, f"{design}, {design.get_route_display()}, received on {design.received_on:%Y-%m-%d}."
        )
    asked = [
        request
        for request in job.engineering_requests.all()
        if request.status != EngineeringRequest.Status.WITHDRAWN
    ]
    if not asked:
        return HoldState(False, "No engineer has been asked.")
    return HoldState(False, f"{asked[0]}: {asked[0].get_status_display()}.")


def permit_state(job: Job) -> HoldState:
    """Is there a permit that is good today."""
    permit = permit_of(job)
    if permit is None:
        return HoldState(False, "No permit has been applied for.")
    if permit.status == Permit.Status.CLOSED:
        return HoldState(True, f"{permit} closed on {permit.ended_on:%Y-%m-%d}.")
    seen = permit_outlook(permit, timezone.localdate())
    if seen is None:
        return HoldState(False, f"{permit} is {permit.get_status_display()}.")
    if seen.threat == "lapsed":
        return HoldState(False, f"{permit} lapsed on {seen.ends_on:%Y-%m-%d} for want of progress.")
    if seen.threat == "expired":
        return HoldState(False, f"{permit} expired on {seen.ends_on:%Y-%m-%d}.")
    return HoldState(
        True, f"{permit} issued on {permit.issued_on:%Y-%m-%d}, good to {seen.ends_on:%Y-%m-%d}."
    )


def inspection_state(job: Job, kind: InspectionKind) -> HoldState:
    """Has every inspection of a kind passed, and is there at least one. A dropped one counts for nothing."""
    visits = [
        visit
        for visit in job.inspections.all()
        if visit.kind == kind
        and visit.status != Inspection.Status.DROPPED
        # A failed visit is answered for by the re-inspection that follows it.
        and not (visit.status == Inspection.Status.FAILED and hasattr(visit, "re_inspection"))
    ]
    if not visits:
        return HoldState(False, f"No inspection of this kind is on the list: {kind.label}.")
    for visit in visits:
        after = f", after it failed on {visit.again_after.done_on:%Y-%m-%d}" if visit.again_after else ""
        if visit.status == Inspection.Status.BOOKED:
            return HoldState(False, f"{visit} is booked for {visit.booked_for:%Y-%m-%d}{after}.")
        if visit.status != Inspection.Status.PASSED:
            return HoldState(False, f"{visit} is {visit.get_status_display()}{after}.")
    last = visits[-1]
    return HoldState(True, f"{last} passed on {last.done_on:%Y-%m-%d} ({last.inspector}).")


def footing_state(job: Job) -> HoldState:
    """Footing inspected before the pour."""
    return inspection_state(job, InspectionKind.FOOTING)


def framing_state(job: Job) -> HoldState:
    """Framing inspected before cover; and, where the engineer asked for it, the field review passed."""
    framing = inspection_state(job, InspectionKind.FRAMING)
    design = sealed_design_of(job)
    if not framing.met or design is None or not design.field_review:
        return framing
    review = inspection_state(job, InspectionKind.FIELD_REVIEW)
    return HoldState(review.met, f"{framing.why} {review.why}")


def final_state(job: Job) -> HoldState:
    """Final inspection passed."""
    return inspection_state(job, InspectionKind.FINAL)


def alarms_state(job: Job) -> HoldState:
    """Alarms only where the permit asks for them; then a person puts on record that they are in."""
    permit = permit_of(job)
    if permit is None or permit.issued_on is None:
        return HoldState(False, "No issued permit says yet whether alarms are asked for.")
    if not permit.alarms_required:
        return HoldState(True, f"{permit} asks for no alarms.", not_needed=True)
    return HoldState(True, f"{permit} asks for alarms.", needs_record=True)


def register_all() -> None:
    """Answer for the hold points that papers meet."""
    register("sealed_design", sealed_design_state, prefetch=[DESIGNS, REQUESTS])
    register("permit_issued", permit_state, prefetch=[PERMITS])
    register("footing_inspected", footing_state, prefetch=[INSPECTIONS])
    register("framing_inspected", framing_state, prefetch=[INSPECTIONS, DESIGNS])
    register("alarms", alarms_state, prefetch=[PERMITS])
    register("final_passed", final_state, prefetch=[INSPECTIONS])
