"""Pages of papers: bad input comes back with its sentence and with everything that was typed."""

from datetime import timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from projects.models import EngineeringRequest, Inspection, Jurisdiction, Permit, SealedDesign
from projects.services.permits import permit_edit
from tests.factories import ago, make_issued_permit, make_jurisdiction, make_permit, today

pytestmark = pytest.mark.django_db


@pytest.fixture
def signed_in(client, contractor):
    client.force_login(contractor)
    return client


def act(permit, name):
    return reverse("projects:permit_act", args=[permit.job_id, permit.pk, name])


def test_a_permit_is_started_and_handed_in_through_the_pages(signed_in, job, contractor):
    authority = make_jurisdiction(contractor)
    answer = signed_in.post(
        reverse("projects:permit_start", args=[job.pk]),
        {"jurisdiction": authority.pk, "fee": "185.50", "note": ""},
    )
    assert answer.status_code == 302
    permit = Permit.objects.get()
    for paper in permit.documents.all():
        signed_in.post(reverse("projects:permit_document", args=[job.pk, paper.pk]), {"ready": "yes"})
    answer = signed_in.post(
        act(permit, "submit"), {"version": permit.version, "on": f"{today():%Y-%m-%d}"}, follow=True
    )
    permit.refresh_from_db()
    assert permit.status == "submitted"
    assert f"{permit.review_due_on:%Y-%m-%d}" in answer.content.decode()


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"on": "last Tuesday"}, "Read &#x27;last Tuesday&#x27;; accepted is a date such as"),
        ({"number": "  "}, "Read nothing; accepted is the number on the permit."),
        ({"fee": "about 200"}, "Read &#x27;about 200&#x27;; accepted is an amount such as 185.00"),
        ({"fee": "NaN"}, "Read &#x27;NaN&#x27;; accepted is an amount"),
        ({"fee": "-1"}, "Read &#x27;-1&#x27;; accepted is an amount"),
        ({"on": "2999-01-01"}, "Read 2999-01-01; accepted is today"),
    ],
)
def test_what_can_not_be_read_comes_back_with_all_that_was_typed(signed_in, job, contractor, typed, sentence):
    permit = make_permit(job, contractor)
    for paper in permit.documents.all():
        signed_in.post(reverse("projects:permit_document", args=[job.pk, paper.pk]), {"ready": "yes"})
    signed_in.post(act(permit, "submit"), {"version": 1, "on": f"{ago(5):%Y-%m-%d}"})
    permit.refresh_from_db()
    values = {
        "version": permit.version,
        "number": "BP-77 kept",
        "on": f"{ago(1):%Y-%m-%d}",
        "fee": "12.00",
    } | typed
    answer = signed_in.post(act(permit, "issue"), values)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert sentence in page
    if "number" not in typed:
        assert 'value="BP-77 kept"' in page
    permit.refresh_from_db()
    assert (permit.status, permit.number) == ("submitted", "")


def test_two_people_on_one_form_the_second_keeps_what_was_typed(signed_in, job, contractor):
    permit = make_permit(job, contractor)
    permit_edit(permit=permit, actor=contractor, version=1, fee=10, alarms_required=False, note="first")
    answer = signed_in.post(act(permit, "edit"), {"version": 1, "fee": "20", "note": "my own words"})
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "Somebody else changed this" in page
    assert "my own words" in page
    assert 'name="version" value="2"' in page
    permit.refresh_from_db()
    assert permit.note == "first"
    signed_in.post(act(permit, "edit"), {"version": 2, "fee": "20", "note": "my own words"})
    permit.refresh_from_db()
    assert permit.note == "my own words"


def test_a_failed_inspection_shows_its_deficiencies_and_the_re_inspection(signed_in, job, contractor):
    make_issued_permit(job, contractor, issued=8)
    visit = Inspection.objects.filter(kind="footing").get()
    page = reverse("projects:inspection_act", args=[job.pk, visit.pk, "fail"])
    values = {
        "version": visit.version,
        "on": f"{ago(1):%Y-%m-%d}",
        "inspector": "Ines Marlow",
        "deficiencies": "\n \n",
    }
    assert signed_in.post(page, values).status_code == 422
    values["deficiencies"] = "Loose soil\nNo <chairs>"
    shown = signed_in.post(page, values, follow=True).content.decode()
    assert "Loose soil" in shown
    assert "No &lt;chairs&gt;" in shown
    assert "(re-inspection)" in shown


def test_booking_too_soon_names_the_first_day(signed_in, job, contractor):
    make_issued_permit(job, contractor)
    visit = Inspection.objects.filter(kind="footing").get()
    page = reverse("projects:inspection_act", args=[job.pk, visit.pk, "book"])
    values = {
        "version": visit.version,
        "asked_on": f"{today():%Y-%m-%d}",
        "booked_for": f"{today():%Y-%m-%d}",
        "booked_with": "Ana",
    }
    answer = signed_in.post(page, values)
    assert answer.status_code == 422
    assert "working days of notice" in answer.content.decode()
    assert signed_in.post(page, values | {"short_notice_agreed": "on"}).status_code == 302


def test_a_paper_that_is_no_paper_is_refused_and_the_rest_stays(signed_in, job):
    page = reverse("projects:sealed_design_new", args=[job.pk])
    values = {
        "route": "sealed",
        "signed_by": "Rowan Ashgrove",
        "licence": "PE 00000",
        "reference": "S-1 kept",
        "dated": f"{ago(3):%Y-%m-%d}",
        "received_on": f"{ago(2):%Y-%m-%d}",
    }
    answer = signed_in.post(page, values | {"document": SimpleUploadedFile("seal.pdf", b"<html>")})
    shown = answer.content.decode()
    assert answer.status_code == 422
    assert "whose content is none of these" in shown
    assert 'value="S-1 kept"' in shown
    assert not SealedDesign.objects.exists()
    signed_in.post(page, values | {"document": SimpleUploadedFile("seal.pdf", b"%PDF-1.7 x")})
    design = SealedDesign.objects.get()
    got = signed_in.get(reverse("projects:sealed_design_document", args=[job.pk, design.pk]))
    assert b"".join(got.streaming_content) == b"%PDF-1.7 x"
    assert got.headers["Content-Disposition"].startswith("attachment")
    assert got.headers["Content-Type"] == "application/pdf"


def test_a_request_is_written_and_shown(signed_in, job):
    signed_in.post(
        reverse("projects:engineering_new", args=[job.pk]),
        {
            "engineer_name": "Rowan Ashgrove",
            "asks": "Seal beam & posts",
            "engineer_contact": "",
            "due_on": "",
        },
    )
    assert EngineeringRequest.objects.get().status == "preparing"
    assert (
        "Seal beam &amp; posts"
        in signed_in.get(reverse("projects:engineering", args=[job.pk])).content.decode()
    )


def test_a_jurisdiction_is_entered_and_changed(signed_in):
    values = {
        "name": "Town of Mapleton Flats",
        "code": "us",
        "region": "oh",
        "review_days": "10",
        "review_kind": "working",
        "notice_days": "2",
        "notice_kind": "working",
        "validity_days": "365",
        "validity_kind": "calendar",
        "lapse_days": "180",
        "lapse_kind": "calendar",
        "lapse_source": "IRC R105.5",
        "documents": "Floor plan\n\nSealed design",
        "inspections": "footing: Before the pour\nparty: x",
    }
    answer = signed_in.post(reverse("projects:jurisdiction_new"), values)
    assert answer.status_code == 422
    assert "Read &#x27;party: x&#x27;" in answer.content.decode()
    values["inspections"] = "footing: Before the pour\nfinal: Final"
    assert signed_in.post(reverse("projects:jurisdiction_new"), values).status_code == 302
    authority = Jurisdiction.objects.get()
    assert authority.region == "OH"
    shown = signed_in.get(reverse("projects:jurisdiction_edit", args=[authority.pk])).content.decode()
    assert "footing: Before the pour" in shown
    late = signed_in.post(
        reverse("projects:jurisdiction_edit", args=[authority.pk]), values | {"version": "9", "name": "Other"}
    )
    assert late.status_code == 422
    authority.refresh_from_db()
    assert authority.name == "Town of Mapleton Flats"


@pytest.mark.parametrize("count", [1, 3])
def test_the_permit_page_costs_the_same_however_many_rows(
    signed_in, job, contractor, count, django_assert_max_num_queries
):
    make_issued_permit(job, contractor, issued=8)
    for number in range(count):
        Inspection.objects.create(job=job, kind="other", title=f"Visit {number}", order=9)
    with django_assert_max_num_queries(26):
        signed_in.get(reverse("projects:permit", args=[job.pk]))


def test_the_page_warns_before_a_permit_lapses(signed_in, job, contractor):
    make_issued_permit(job, contractor, issued=160)
    shown = signed_in.get(reverse("projects:permit", args=[job.pk])).content.decode()
    assert (
        f"Lapses on {ago(160) + timedelta(days=180):%Y-%m-%d} unless the work moves on: 20 days left."
        in shown
    )
    assert "IRC R105.5" in shown
