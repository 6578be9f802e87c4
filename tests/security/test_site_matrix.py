"""Who may open and send each page of jobs, properties, people and the survey. A page not in the table fails."""

from __future__ import annotations

import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from projects import paper_urls
from projects.permissions import ACTIONS, can
from projects.services.photos import photo_store
from projects.services.stages import hold_pass
from tests.factories import make_company, make_job, make_property, make_user, today
from tests.projects.walls import answer_survey, record, seen
from tests.security.urls import addresses

pytestmark = pytest.mark.django_db

ROLES = ("contractor", "estimator", "project_manager", "crew")
OFFICE = {"contractor", "estimator", "project_manager"}
RUNS = {"contractor", "project_manager"}
CONTRACTOR = {"contractor"}
ALL = set(ROLES)

#: Page -> (who may look, who may send). None: the page takes no such request.
TABLE = {
    "dashboard": (ALL, None),
    "property_list": (ALL, None),
    "property_new": (OFFICE, OFFICE),
    "property": (ALL, None),
    "property_edit": (OFFICE, OFFICE),
    "job_new": (OFFICE, OFFICE),
    "people": (OFFICE, None),
    "person_new": (CONTRACTOR, CONTRACTOR),
    "person_edit": (CONTRACTOR, CONTRACTOR),
    "photo": (ALL, None),
    "job": (ALL, None),
    "job_edit": (OFFICE, OFFICE),
    "job_archive": (RUNS, RUNS),
    "job_record": (ALL, None),
    "job_stage": (ALL, None),
    "job_move": (None, RUNS),
    "survey": (ALL, OFFICE),
    "finding_new": (OFFICE, OFFICE),
    "finding_withdraw": (OFFICE, OFFICE),
    "photo_new": (ALL, ALL),
    "verdict": (ALL, RUNS),
    "holds": (ALL, None),
    "hold_record": (RUNS, RUNS),
    "hold_override": (CONTRACTOR, CONTRACTOR),
    "hold_set_aside": (RUNS, RUNS),
}
ARGUMENTS = {a.name.removeprefix("projects:"): a.arguments for a in addresses()}
#: Tested where they are written.
ELSEWHERE = {"theme", *(pattern.name for pattern in paper_urls.urlpatterns)}


@pytest.fixture
def rows(job, contractor):
    """A row for every argument of every page."""
    out = io.BytesIO()
    Image.new("RGB", (4, 4)).save(out, "PNG")
    answer_survey(job, contractor, gas="yes")
    passed = hold_pass(
        job=job, actor=contractor, hold="services_cleared", checked_by="x", checked_on=today(), evidence="y"
    )
    photo = photo_store(job=job, actor=contractor, upload=SimpleUploadedFile("a.png", out.getvalue()))
    house = job.property_id
    return {
        "property": {"pk": house},
        "property_edit": {"pk": house},
        "job_new": {"pk": house},
        "person_edit": {"pk": contractor.pk},
        "photo": {"pk": photo.pk},
        "finding_new": {"kind": "splice"},
        "finding_withdraw": {"pk": record(job, contractor, seen("splice", "lap", "roof")).pk},
        "hold_record": {"name": "services_cleared"},
        "hold_override": {"name": "permit_issued"},
        "hold_set_aside": {"pk": passed.pk},
    }


def address_of(name, rows, job):
    arguments = ARGUMENTS[name]
    given = dict(rows.get(name, {}))
    if "job_pk" in arguments:
        given["job_pk"] = job.pk
    assert set(given) == set(arguments), name
    return reverse(f"projects:{name}", kwargs=given)


def test_every_page_is_in_the_table():
    ours = {a.name.removeprefix("projects:") for a in addresses() if a.name.startswith("projects:")}
    assert ours - ELSEWHERE == set(TABLE)


@pytest.mark.parametrize("name", sorted(TABLE))
@pytest.mark.parametrize("role", ROLES)
def test_matrix(client, rows, job, role, name, request):
    looks, sends = TABLE[name]
    address = address_of(name, rows, job)
    assert client.get(address).status_code in (302, 405), "signed out"
    assert client.post(address).status_code in (302, 405), "signed out"
    client.force_login(request.getfixturevalue(role))
    expected = 405 if looks is None else 200 if role in looks else 403
    looked = client.get(address)
    if looked.streaming:
        list(looked.streaming_content)  # read to its end, so that the client closes the file
    assert looked.status_code == expected
    answer = client.post(address, {})
    if sends is None:
        assert answer.status_code == 405
    elif role in sends:
        # An empty form: asked again, or nothing to change. Never refused for the person.
        assert answer.status_code in (302, 422)
    else:
        assert answer.status_code == 403


@pytest.mark.parametrize("name", [name for name in sorted(TABLE) if ARGUMENTS[name]])
@pytest.mark.parametrize("role", ROLES)
def test_rows_of_another_company_are_not_there(client, rows, job, role, name):
    """Existing rows, reached for by every role of another company: the same 404 as rows that do not exist."""
    address = address_of(name, rows, job)
    client.force_login(make_user(make_company(), role))
    for method in (client.get, client.post):
        answer = method(address)
        assert answer.status_code in (404, 405), method
        if answer.status_code == 404:
            nowhere = method(reverse("projects:job", args=[987654]))
            if nowhere.status_code == 404:
                assert answer.content == nowhere.content


@pytest.mark.parametrize("name", ["finding_withdraw", "hold_set_aside"])
def test_a_row_of_another_job_is_not_reached_through_ones_own(client, rows, job, contractor, name):
    other = make_job(contractor.company)
    client.force_login(contractor)
    assert client.get(address_of(name, rows, other)).status_code == 404
    assert client.get(address_of(name, rows, job)).status_code == 200


def test_the_table_of_actions(company, job, stranger, client):
    people = {role: make_user(company, role) for role in ROLES}
    for action, roles in ACTIONS.items():
        for role, person in people.items():
            assert can(person, action, job) == (role in roles)
            assert can(person, action, job.property) == (role in roles)
            assert can(person, action, company) == (role in roles)
        assert not can(stranger, action, job)
        assert not can(stranger, action, company)
        assert not can(None, action, job)
    assert not ACTIONS["see_prices"] & {"crew"}
    assert ACTIONS["override_hold_point"] == {"contractor"}
    with pytest.raises(KeyError):
        can(people["contractor"], "fly")


def test_a_person_switched_off_or_without_company_can_do_nothing(company, job):
    off = make_user(company, "contractor", is_active=False)
    lost = make_user(None, "contractor")
    for action in ACTIONS:
        assert not can(off, action, job)
        assert not can(lost, action, job)
        assert not can(lost, action)


def test_a_row_without_a_company_is_nobodys(company):
    contractor = make_user(company)
    assert not can(contractor, "view_job", object())
    assert can(contractor, "view_job", make_property(company))
