"""Permits and inspections through the services that the pages use."""

from datetime import timedelta

import pytest
from django.core.exceptions import PermissionDenied
from django.core.management import call_command

from projects.days import add_days
from projects.errors import Conflict, Refused
from projects.models import Inspection, JobEvent, Permit, PermitNotice
from projects.paperwork import PERMIT_MOVES
from projects.permit_holds import alarms_state, final_state, footing_state, framing_state, permit_state
from projects.services import inspections, permits
from projects.services.engineering import sealed_design_record
from projects.services.lapses import lapsing_permits_look
from projects.tasks import look_for_lapsing_permits
from tests import factories
from tests.factories import ago, make_issued_permit, make_jurisdiction, make_permit, today

pytestmark = pytest.mark.django_db


def visit_of(job, kind):
    return Inspection.objects.get(job=job, kind=kind, status__in=["needed", "booked"])


def hold_passed(job, kind, actor, on=None):
    visit = visit_of(job, kind)
    return inspections.inspection_pass(
        inspection=visit, actor=actor, version=visit.version, on=on or today(), inspector="Ines Marlow"
    )


def test_a_permit_begins_with_the_papers_and_inspections_of_its_jurisdiction(job, contractor):
    permit = make_permit(job, contractor)
    assert [paper.title for paper in permit.documents.all()] == factories.PAPERS
    assert [(visit.kind, visit.title) for visit in permit.inspections.all()] == factories.VISITS
    assert permit_state(job).met is False
    assert [event.verb for event in job.events.all()] == ["permit_started"]


def test_a_second_live_permit_is_refused(job, contractor):
    make_permit(job, contractor)
    with pytest.raises(Refused, match="has one already"):
        make_permit(job, contractor)
    assert Permit.objects.count() == 1


def test_handing_in_waits_for_every_paper_and_sets_the_review_date(job, contractor):
    permit = make_permit(job, contractor)
    with pytest.raises(Refused, match="2 not ready .Floor plan; Sealed design."):
        permits.permit_submit(permit=permit, actor=contractor, version=permit.version, on=today())
    permit.refresh_from_db()
    assert (permit.status, permit.version) == ("preparing", 1)
    for paper in permit.documents.all():
        permits.permit_document_set(document=paper, actor=contractor, ready=True)
    permits.permit_submit(permit=permit, actor=contractor, version=permit.version, on=today())
    assert permit.status == "submitted"
    assert permit.review_due_on == add_days(today(), 10, "working", "us", "OH")


def test_the_whole_way_to_a_closed_permit(job, contractor):
    permit = make_issued_permit(job, contractor, issued=9)
    assert permit.expires_on == ago(9) + timedelta(days=365)
    assert permit_state(job).met
    assert not footing_state(job).met
    hold_passed(job, "footing", contractor, ago(5))
    hold_passed(job, "framing", contractor, ago(3))
    permit.refresh_from_db()
    with pytest.raises(Refused, match="Final still to be held"):
        permits.permit_close(permit=permit, actor=contractor, version=permit.version, on=today())
    hold_passed(job, "final", contractor, ago(1))
    permit.refresh_from_db()
    assert permit.last_progress_on == ago(1)
    permits.permit_close(permit=permit, actor=contractor, version=permit.version, on=today())
    assert permit.status == "closed"
    assert all(state(job).met for state in (permit_state, footing_state, framing_state, final_state))


def test_every_move_outside_the_table_is_refused(job, contractor):
    """Each service is tried in each state; only those of the table go through, and a refusal stores nothing."""
    permit = make_permit(job, contractor)
    calls = {
        "in_review": lambda row: permits.permit_take_in(permit=row, actor=contractor, version=row.version),
        "corrections": lambda row: permits.permit_ask_corrections(
            permit=row, actor=contractor, version=row.version, on=today(), corrections="Show the footing."
        ),
        "issued": lambda row: permits.permit_issue(
            permit=row, actor=contractor, version=row.version, on=today(), number="BP-2"
        ),
        "closed": lambda row: permits.permit_close(
            permit=row, actor=contractor, version=row.version, on=today()
        ),
        "withdrawn": lambda row: permits.permit_withdraw(
            permit=row, actor=contractor, version=row.version, on=today(), reason="Sold."
        ),
    }
    tried = 0
    for state, ways in PERMIT_MOVES.items():
        for target, call in calls.items():
            if target in ways:
                continue
            tried += 1
            Permit.objects.filter(pk=permit.pk).update(
                status=state, number="BP-1", issued_on=today(), expires_on=today()
            )
            permit.refresh_from_db()
            with pytest.raises(Refused, match="can not become"):
                call(permit)
            permit.refresh_from_db()
            assert permit.status == state
    assert tried > 20
    assert not JobEvent.objects.exclude(verb="permit_started").exists()


@pytest.mark.parametrize(
    ("values", "sentence"),
    [
        ({"number": "  "}, "Permit number: read nothing"),
        ({"on": today() + timedelta(days=1)}, "Issued on: read .* accepted is today"),
        ({"on": ago(21)}, "Issued on: read .* the day it was handed in"),
        ({"expires_on": ago(9)}, "Expires on: read .* or later"),
        ({"fee": -1}, "Fee: read -1"),
    ],
)
def test_issue_says_what_it_can_not_use(job, contractor, values, sentence):
    permit = make_permit(job, contractor)
    for paper in permit.documents.all():
        permits.permit_document_set(document=paper, actor=contractor, ready=True)
    permits.permit_submit(permit=permit, actor=contractor, version=permit.version, on=ago(20))
    good = {"number": "BP-1", "on": ago(2)}
    with pytest.raises(Refused, match=sentence):
        permits.permit_issue(permit=permit, actor=contractor, version=permit.version, **(good | values))
    permit.refresh_from_db()
    assert (permit.status, permit.number, permit.version) == ("submitted", "", 2)


def test_two_writers_of_one_version_one_wins(job, contractor):
    permit = make_permit(job, contractor)
    same = Permit.objects.get(pk=permit.pk)
    permits.permit_edit(
        permit=permit, actor=contractor, version=1, fee=10, alarms_required=False, note="first"
    )
    with pytest.raises(Conflict):
        permits.permit_edit(
            permit=same, actor=contractor, version=1, fee=20, alarms_required=False, note="second"
        )
    permit.refresh_from_db()
    assert (permit.fee, permit.note, permit.version) == (10, "first", 2)


def test_services_refuse_the_wrong_person_themselves(job, contractor, crew, estimator, stranger):
    permit = make_permit(job, contractor)
    visit = visit_of(job, "footing")
    for actor in (crew, estimator, stranger):
        with pytest.raises(PermissionDenied):
            permits.permit_withdraw(permit=permit, actor=actor, version=1, on=today(), reason="no")
        with pytest.raises(PermissionDenied):
            inspections.inspection_drop(inspection=visit, actor=actor, version=1, reason="no")
    assert Permit.objects.get().status == "preparing"


# --- inspections ----------------------------------------------------------------------------------
def test_a_booking_keeps_the_notice_unless_the_office_agreed(job, contractor):
    make_issued_permit(job, contractor)
    visit = visit_of(job, "footing")
    first = add_days(today(), 2, "working", "us", "OH")
    ask = {"actor": contractor, "asked_on": today(), "booked_with": "Ana at the desk"}
    with pytest.raises(Refused, match=f"accepted is {first:%Y-%m-%d} or later") as refused:
        inspections.inspection_book(
            inspection=visit, version=visit.version, booked_for=first - timedelta(days=1), **ask
        )
    assert refused.value.field == "booked_for"
    visit.refresh_from_db()
    assert (visit.status, visit.booked_for) == ("needed", None)
    inspections.inspection_book(inspection=visit, version=visit.version, booked_for=first, **ask)
    assert visit.status == "booked"
    inspections.inspection_book(
        inspection=visit, version=visit.version, booked_for=today(), short_notice_agreed=True, **ask
    )
    assert "short notice agreed with Ana at the desk" in job.events.first().detail


def test_no_inspection_before_the_permit_is_issued(job, contractor):
    make_permit(job, contractor)
    visit = visit_of(job, "footing")
    with pytest.raises(Refused, match="inspections are held under an issued permit"):
        hold_passed(job, "footing", contractor)
    visit.refresh_from_db()
    assert visit.status == "needed"


def test_a_failed_inspection_brings_a_re_inspection_that_waits_for_its_deficiencies(job, contractor):
    permit = make_issued_permit(job, contractor, issued=10)
    visit = visit_of(job, "footing")
    with pytest.raises(Refused, match="Deficiencies: read nothing"):
        inspections.inspection_fail(
            inspection=visit,
            actor=contractor,
            version=visit.version,
            on=ago(4),
            inspector="I. Marlow",
            deficiencies=[" "],
        )
    visit.refresh_from_db()
    again = inspections.inspection_fail(
        inspection=visit,
        actor=contractor,
        version=visit.version,
        on=ago(4),
        inspector="I. Marlow",
        deficiencies=["Loose soil in the hole", "No chairs under the bars"],
    )
    assert (visit.status, again.status, again.again_after, again.permit) == (
        "failed",
        "needed",
        visit,
        permit,
    )
    state = footing_state(job)
    assert not state.met
    assert "re-inspection" in state.why
    assert "failed" in state.why
    with pytest.raises(Refused, match="2 of the failed inspection"):
        hold_passed(job, "footing", contractor)
    for deficiency in visit.deficiencies.all():
        inspections.deficiency_clear(
            deficiency=deficiency, actor=contractor, on=ago(3), how="Put right by the crew."
        )
        with pytest.raises(Refused, match="put right already"):
            inspections.deficiency_clear(deficiency=deficiency, actor=contractor, on=ago(3), how="Again.")
    again.refresh_from_db()
    with pytest.raises(Refused, match="the day of the failed inspection"):
        hold_passed(job, "footing", contractor, ago(5))
    hold_passed(job, "footing", contractor, ago(2))
    assert footing_state(job).met
    permit.refresh_from_db()
    assert permit.last_progress_on == ago(2)


def test_a_dropped_inspection_meets_nothing(job, contractor):
    make_issued_permit(job, contractor)
    visit = visit_of(job, "footing")
    inspections.inspection_drop(
        inspection=visit, actor=contractor, version=visit.version, reason="No new footing."
    )
    assert not footing_state(job).met
    inspections.inspection_restore(inspection=visit, actor=contractor, version=visit.version)
    assert visit.status == "needed"


def test_the_field_review_counts_once_the_engineer_asked_for_it(job, contractor):
    make_issued_permit(job, contractor, issued=5)
    hold_passed(job, "framing", contractor)
    assert framing_state(job).met
    sealed_design_record(
        job=job,
        actor=contractor,
        signed_by="Rowan Ashgrove",
        licence="PE 00000",
        reference="S-1",
        dated=ago(9),
        received_on=ago(8),
        field_review=True,
    )
    assert not framing_state(job).met
    inspections.inspection_add(job=job, actor=contractor, kind="field_review", title="Review of framing")
    assert not framing_state(job).met
    hold_passed(job, "field_review", contractor)
    assert framing_state(job).met


def test_alarms_only_where_the_permit_asks(job, contractor):
    assert not alarms_state(job).met
    permit = make_issued_permit(job, contractor)
    assert alarms_state(job).not_needed
    permits.permit_edit(
        permit=permit, actor=contractor, version=permit.version, fee=None, alarms_required=True, note=""
    )
    state = alarms_state(job)
    assert (state.not_needed, state.needs_record) == (False, True)


# --- the nightly look -----------------------------------------------------------------------------
def test_the_look_warns_once_then_sets_the_permit_aside(job, contractor):
    permit = make_issued_permit(job, contractor, issued=160)
    assert permit_state(job).met
    notices = lapsing_permits_look(today=today())
    assert [(notice.kind, notice.due_on) for notice in notices] == [
        ("lapsing", ago(160) + timedelta(days=180))
    ]
    assert lapsing_permits_look(today=today()) == []
    assert job.events.filter(verb="permit_lapsing").count() == 1
    assert "IRC R105.5" in job.events.get(verb="permit_lapsing").detail
    permit.refresh_from_db()
    assert permit.status == "issued"

    later = today() + timedelta(days=21)
    assert [notice.kind for notice in lapsing_permits_look(today=later)] == ["lapsed"]
    assert lapsing_permits_look(today=later) == []
    permit.refresh_from_db()
    assert (permit.status, permit.ended_on) == ("expired", ago(160) + timedelta(days=180))
    assert not permit_state(job).met


def test_progress_and_extension_keep_a_permit_alive(job, contractor):
    permit = make_issued_permit(job, contractor, issued=170)
    lapsing_permits_look(today=today())
    permit.refresh_from_db()
    permits.permit_record_progress(
        permit=permit, actor=contractor, version=permit.version, on=today(), what="Shoring delivered."
    )
    assert lapsing_permits_look(today=today() + timedelta(days=60)) == []
    late = today() + timedelta(days=200)
    assert [notice.kind for notice in lapsing_permits_look(today=late)] == ["lapsed"]
    permit.refresh_from_db()
    assert permit.status == "expired"
    permits.permit_extend(
        permit=permit,
        actor=contractor,
        version=permit.version,
        on=today(),
        expires_on=today() + timedelta(days=300),
        by="Letter of the building official",
    )
    assert permit.status == "issued"
    assert permit_state(job).met


def test_a_permit_past_its_lapse_holds_the_job_even_before_the_look(job, contractor):
    permit = make_issued_permit(job, contractor, issued=0)
    Permit.objects.filter(pk=permit.pk).update(issued_on=ago(181), last_progress_on=ago(181))
    assert "lapsed" in permit_state(job).why
    assert not permit_state(job).met


def test_the_task_does_what_the_service_does(job, contractor):
    make_issued_permit(job, contractor, issued=160)
    told = look_for_lapsing_permits.delay().get()
    assert told == [PermitNotice.objects.get().pk]


def test_the_nightly_command_says_what_it_found(job, contractor, capsys):
    make_issued_permit(job, contractor, issued=160)
    call_command("nightly")
    assert "about to lapse for want of progress" in capsys.readouterr().out
    call_command("nightly")
    assert capsys.readouterr().out == "Background jobs sent again: 0.\n"


def test_foreign_jurisdiction_is_refused(job, contractor, stranger):
    with pytest.raises(Refused, match="accepted is one of your own"):
        permits.permit_start(job=job, actor=contractor, jurisdiction=make_jurisdiction(stranger))
    canadian = make_jurisdiction(contractor, code="ca", region="AB")
    with pytest.raises(Refused, match="same country"):
        permits.permit_start(job=job, actor=contractor, jurisdiction=canadian)
    assert not Permit.objects.exists()
