"""Pages of jobs, properties, people, survey, verdict, stages and hold points, and what a list costs."""

from __future__ import annotations

import pytest
from django.core.exceptions import PermissionDenied
from django.urls import reverse

from projects.errors import Conflict, Refused
from projects.evidence import KINDS
from projects.models import Finding, Job, Override, Property, User
from projects.questions import QUESTIONS
from projects.services.jobs import job_archive, job_create, job_unarchive, job_update
from projects.services.people import person_create, person_update
from projects.services.places import property_create, property_update
from projects.services.stages import hold_override, job_advance
from projects.services.survey import decision_record
from tests.factories import make_job, make_property, make_user
from tests.projects.walls import answer_survey, clear_wall, record, seen

pytestmark = pytest.mark.django_db

HOUSE = {
    "name": "Lark House", "street": "14 Larkmoor Lane", "city": "Mapleton Flats", "region": "OH", "code": "us",
    "units": "imperial", "year_built": "1962", "notes": "",
}  # fmt: skip
WALL = {
    "name": "Kitchen wall", "wall": "between kitchen and dining room", "storey": "ground floor", "floors_above": "1",
}  # fmt: skip


def text(answer):
    return answer.content.decode()


# --- the whole walk -----------------------------------------------------------------------------------


def test_from_a_house_to_a_decided_wall(client, contractor):
    client.force_login(contractor)
    assert client.post(reverse("projects:property_new"), HOUSE).status_code == 302
    house = Property.objects.get()
    assert (house.company, house.year_built) == (contractor.company, 1962)
    answer = client.post(reverse("projects:job_new", args=[house.pk]), WALL | {"contractor": contractor.pk})
    job = Job.objects.get()
    assert answer["Location"] == reverse("projects:survey", args=[job.pk])
    assert (job.floors_above, job.contractor, job.stage) == (1, contractor, "survey")

    page = text(client.get(reverse("projects:survey", args=[job.pk])))
    assert "the wall is treated as bearing" in page
    for kind in KINDS:
        assert reverse("projects:finding_new", args=[job.pk, kind.name]) in page
    finding = {
        "observation": "lap", "level": "above_1", "how": "direct", "full_length": "on", "seen_by": "Ines Marlow",
        "seen_on": "2026-01-05",
    }  # fmt: skip
    client.post(reverse("projects:finding_new", args=[job.pk, "splice"]), finding)
    answers = {"bracing": "no", "gas": "no", "gas_note": "none found"}
    assert client.post(reverse("projects:survey", args=[job.pk]), answers).status_code == 302

    page = text(client.get(reverse("projects:verdict", args=[job.pk])))
    assert "Finding: bearing" in page
    assert "Joists lap over the wall at the floor above (seen directly, over the full length)." in page
    assert "Not bearing can not be recorded now" in page
    decision = {"decision": "not_bearing", "reason": "I want it gone.", "decided_on": "2026-01-05"}
    answer = client.post(reverse("projects:verdict", args=[job.pk]), decision)
    assert answer.status_code == 422
    assert "I want it gone." in text(answer)
    assert not job.decisions.exists()
    client.post(reverse("projects:verdict", args=[job.pk]), decision | {"decision": "bearing"})
    assert job.decisions.get().decided_by == contractor

    move = {"to": "sizing", "version": job.version}
    answer = client.post(reverse("projects:job_move", args=[job.pk]), move)
    assert answer.status_code == 422
    assert "The job did not move" in text(answer)
    answer_survey(job, contractor)
    assert client.post(reverse("projects:job_move", args=[job.pk]), move).status_code == 302
    job.refresh_from_db()
    assert job.stage == "sizing"
    assert client.post(reverse("projects:job_move", args=[job.pk]), move).status_code == 409
    page = text(client.get(reverse("projects:job", args=[job.pk])))
    assert "Moved on to Preliminary sizing." in page
    assert 'aria-current="step"' in page


def test_going_back_on_the_page_keeps_the_reason_typed(client, job, contractor):
    decision_record(job=job, actor=contractor, decision="bearing", reason="r")
    answer_survey(job, contractor)
    moved = job_advance(job=job, actor=contractor, to="sizing", version=job.version)
    client.force_login(contractor)
    page = reverse("projects:job_move", args=[job.pk])
    assert client.post(page, {"to": "survey", "reason": "", "version": moved.version}).status_code == 422
    stale = client.post(page, {"to": "survey", "reason": "A second look.", "version": 1})
    assert stale.status_code == 409
    assert "A second look." in text(stale)
    good = {"to": "survey", "reason": "A second look.", "version": moved.version}
    assert client.post(page, good).status_code == 302


def test_hold_points_and_an_override_that_stays(client, job, contractor):
    client.force_login(contractor)
    page = text(client.get(reverse("projects:holds", args=[job.pk])))
    assert page.count("nobody may override") >= 4
    for name in ("hazards_cleared", "footing_cured", "shoring_checked", "members_installed"):
        assert reverse("projects:hold_override", args=[job.pk, name]) not in page
        assert (
            client.post(reverse("projects:hold_override", args=[job.pk, name]), {"reason": "x"}).status_code
            == 404
        )
    assert not Override.objects.exists()
    address = reverse("projects:hold_override", args=[job.pk, "permit_issued"])
    assert client.post(address, {"reason": ""}).status_code == 422
    assert client.post(address, {"reason": "The office is closed."}).status_code == 302
    for name in ("projects:holds", "projects:job"):
        assert "The office is closed." in text(client.get(reverse(name, args=[job.pk])))


def test_a_toppled_decision_shows(client, job, contractor):
    clear_wall(job, contractor)
    decision_record(job=job, actor=contractor, decision="not_bearing", reason="All seen.")
    client.force_login(contractor)
    page = reverse("projects:verdict", args=[job.pk])
    assert "no longer stands" not in text(client.get(page))
    record(job, contractor, seen("splice", "lap", "roof"))
    after = text(client.get(page))
    assert "no longer stands" in after
    assert "evidence changed since" in after
    assert "Conflicts" in after


def test_hazards_are_asked_by_age_and_place(client, company, contractor):
    client.force_login(contractor)
    old = make_job(company, property=make_property(company, year_built=None, region="BC", code="ca"))
    page = text(client.get(reverse("projects:survey", args=[old.pk])))
    assert "OHSR 20.112" in page
    assert "its year is not known" in page
    new = make_job(company, property=make_property(company, year_built=2005))
    page = text(client.get(reverse("projects:survey", args=[new.pk])))
    assert "Built 2005: asbestos is not expected" in page


# --- bad input ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("name", "", "Read nothing; accepted is a name you know the house by."),
        ("year_built", "19x2", "accepted is a whole number, 1600 to 2100"),
        ("year_built", "1066", "accepted is a whole number, 1600 to 2100"),
        ("code", "uk", "; accepted is one of: United States"),
        ("region", "", "accepted is its two letters"),
    ],
)
def test_a_house_typed_wrong_is_said_and_not_stored(client, contractor, field, value, said):
    client.force_login(contractor)
    answer = client.post(reverse("projects:property_new"), HOUSE | {"notes": "blue door", field: value})
    page = text(answer)
    assert answer.status_code == 422
    assert said in page
    assert "blue door" in page
    assert f'href="#id_{field}"' in page
    assert not Property.objects.exists()


def test_a_job_typed_wrong_is_said_and_not_stored(client, company, contractor, stranger):
    house = make_property(company)
    client.force_login(contractor)
    address = reverse("projects:job_new", args=[house.pk])
    dates = {"starts_on": "2026-05-02", "due_on": "2026-05-01"}
    assert "the start, or later" in text(client.post(address, WALL | dates))
    assert client.post(address, WALL | {"contractor": stranger.pk}).status_code == 422
    assert client.post(address, WALL | {"floors_above": "9"}).status_code == 422
    assert client.post(address, WALL | {"due_on": "next week"}).status_code == 422
    assert not Job.objects.exists()
    assert client.post(address, WALL).status_code == 302
    assert "no other job of this property" in text(client.post(address, WALL))


def test_an_answer_that_is_none_is_refused(client, job, contractor):
    client.force_login(contractor)
    answer = client.post(
        reverse("projects:survey", args=[job.pk]), {"gas": "perhaps", "lead": "no", "lead_note": "swab kit"}
    )
    assert answer.status_code == 422
    assert "swab kit" in text(answer)
    assert not job.answers.exists()


# --- two people, one form -----------------------------------------------------------------------------


def test_the_second_of_two_editors_is_told_and_keeps_what_was_typed(client, job, contractor):
    client.force_login(contractor)
    page = reverse("projects:job_edit", args=[job.pk])
    form = client.get(page).context["form"]
    typed = WALL | {"version": form.initial["version"], "floors_above": "0"}
    assert client.post(page, typed | {"name": "First"}).status_code == 302
    late = client.post(page, typed | {"name": "Second"})
    assert late.status_code == 409
    assert "Somebody else changed this" in text(late)
    assert 'value="Second"' in text(late)
    job.refresh_from_db()
    assert job.name == "First"
    knowing = typed | {"name": "Second", "version": job.version}
    assert client.post(page, knowing).status_code == 302

    house = job.property
    page = reverse("projects:property_edit", args=[house.pk])
    assert client.post(page, HOUSE | {"version": house.version, "notes": "a"}).status_code == 302
    assert client.post(page, HOUSE | {"version": house.version, "notes": "b"}).status_code == 409


# --- what lists cost ------------------------------------------------------------------------------------


def queries(client, address, django_assert_max_num_queries):
    with django_assert_max_num_queries(60) as context:
        assert client.get(address).status_code == 200
    return len(context)


@pytest.mark.parametrize(
    "name", ["dashboard", "property_list", "people", "property", "survey", "holds", "job"]
)
def test_three_rows_cost_what_one_does(client, company, contractor, django_assert_max_num_queries, name):
    house = make_property(company)
    job = make_job(company, property=house)
    clear_wall(job, contractor)
    client.force_login(contractor)
    given = {"property": [house.pk], "survey": [job.pk], "holds": [job.pk], "job": [job.pk]}.get(name, [])
    address = reverse(f"projects:{name}", args=given)
    client.get(address)
    one = queries(client, address, django_assert_max_num_queries)
    for _ in range(2):
        more = make_job(company, property=house)
        clear_wall(more, contractor)
        decision_record(job=more, actor=contractor, decision="bearing", reason="r")
        hold_override(job=more, actor=contractor, hold="permit_issued", reason="Until the letter comes.")
        make_property(company)
        make_user(company, "crew")
        record(job, contractor, seen("splice", "none", "roof"))
        decision_record(job=job, actor=contractor, decision="bearing", reason="r")
    if name in ("dashboard", "property"):
        assert Job.objects.count() == 3
    assert queries(client, address, django_assert_max_num_queries) == one


def test_the_dashboard_filters_sorts_and_shows_what_blocks(client, company, contractor):
    first, second = make_job(company, name="Attic wall"), make_job(company, name="Bath wall", stage="permit")
    gone = make_job(company, name="Cellar wall")
    job_archive(job=gone, actor=contractor, version=1, reason="Sold.")
    client.force_login(contractor)
    page = reverse("projects:dashboard")
    plain = text(client.get(page))
    assert "Attic wall" in plain
    assert "Cellar wall" not in plain
    assert "Verdict recorded" in plain
    assert "Cellar wall" in text(client.get(page, {"archived": "on"}))
    by_stage = text(client.get(page, {"stage": "permit"}))
    assert second.name in by_stage
    assert first.name not in by_stage
    found = text(client.get(page, {"q": "attic larkmoor"}))
    assert first.name in found
    assert second.name not in found
    down = text(client.get(page, {"sort": "-stage"}))
    assert down.index("Bath wall") < down.index("Attic wall")
    assert client.get(page, {"stage": "nonsense", "property": "x", "page": "zzz"}).status_code == 200


def test_no_company_sees_nothing(client, job, db):
    lost = User.objects.create_user("lost", password="a long invented passphrase")
    client.force_login(lost)
    page = text(client.get(reverse("projects:dashboard")))
    assert "do not belong to a company" in page
    assert job.name not in page
    assert client.get(job.get_absolute_url()).status_code == 404


def test_another_companys_job_is_in_no_list(client, job, stranger):
    client.force_login(stranger)
    for name in ("dashboard", "property_list", "people"):
        page = text(client.get(reverse(f"projects:{name}"), {"q": "", "archived": ""}))
        assert job.name not in page
        assert job.property.name not in page


# --- services of the books ----------------------------------------------------------------------------


def test_houses_jobs_and_people_need_the_right_person(company, job, contractor, crew, estimator, stranger):
    house = job.property
    new = {
        "username": "new",
        "first_name": "N",
        "last_name": "W",
        "role": "crew",
        "password": "a long passphrase",
    }
    kept = {"first_name": "N", "last_name": "W", "role": "crew", "phone": "", "is_active": True}
    for person in (crew, stranger):
        with pytest.raises(PermissionDenied):
            property_update(house=house, actor=person, version=1, notes="x")
        with pytest.raises(PermissionDenied):
            job_create(property=house, actor=person, **WALL)
        with pytest.raises(PermissionDenied):
            job_update(job=job, actor=person, version=1, name="x")
        with pytest.raises(PermissionDenied):
            job_archive(job=job, actor=person, version=1, reason="x")
        with pytest.raises(PermissionDenied):
            person_update(person=estimator, actor=person, **kept)
    with pytest.raises(PermissionDenied):
        property_create(actor=crew, **HOUSE)
    for person in (crew, estimator):
        with pytest.raises(PermissionDenied):
            person_create(actor=person, **new)
    assert person_create(actor=contractor, **new).company == company


def test_weak_or_taken_sign_ins_are_refused(contractor):
    new = {"username": "bo", "first_name": "Bo", "last_name": "Tarn", "role": "crew"}
    with pytest.raises(Refused, match="Password:"):
        person_create(actor=contractor, password="short", **new)
    person_create(actor=contractor, password="a long invented one", **new)
    with pytest.raises(Refused, match="nobody has yet"):
        person_create(actor=contractor, password="a long invented one", **(new | {"username": "BO"}))


def test_a_company_keeps_a_contractor(contractor):
    kept = {"first_name": "A", "last_name": "B", "phone": ""}
    for change in ({"role": "crew", "is_active": True}, {"role": "contractor", "is_active": False}):
        with pytest.raises(Refused, match="at least one contractor"):
            person_update(person=contractor, actor=contractor, **kept, **change)
    contractor.refresh_from_db()
    assert (contractor.role, contractor.is_active) == ("contractor", True)


def test_archive_and_back(job, contractor):
    job_archive(job=job, actor=contractor, version=1, reason="Sold.")
    with pytest.raises(Conflict):
        job_unarchive(job=job, actor=contractor, version=1)
    job_unarchive(job=job, actor=contractor, version=2)
    assert job.archived_at is None


def test_changes_leave_a_history(job, contractor):
    job_update(job=job, actor=contractor, version=1, name="Renamed")
    assert job.history.first().name == "Renamed"
    assert job.events.get().detail == "Changed: name."
    job_update(job=job, actor=contractor, version=2, name="Renamed")
    assert job.events.count() == 1
    finding = record(job, contractor, seen("splice", "lap", "roof"))
    assert finding.history.count() == 1


def test_crew_reads_all_and_changes_nothing_but_photos(client, job, contractor, crew):
    record(job, contractor, seen("splice", "lap", "roof"))
    client.force_login(crew)
    for name in ("job", "survey", "verdict", "holds", "job_stage", "job_record"):
        assert client.get(reverse(f"projects:{name}", args=[job.pk])).status_code == 200
    assert client.post(reverse("projects:survey", args=[job.pk]), {"gas": "no"}).status_code == 403
    verdict = {"decision": "bearing", "reason": "x", "decided_on": "2026-01-05"}
    assert client.post(reverse("projects:verdict", args=[job.pk]), verdict).status_code == 403
    assert client.get(reverse("projects:photo_new", args=[job.pk])).status_code == 200
    page = text(client.get(reverse("projects:survey", args=[job.pk])))
    assert "Save the answers" not in page
    assert all(question.title in page for question in QUESTIONS if "'" not in question.title)
    assert Finding.objects.count() == 1
