"""Authorities' rules and the log of chases."""

from datetime import timedelta

import pytest

from projects.errors import Conflict, Refused
from projects.models import Chase, Jurisdiction
from projects.permit_selectors import next_chase_for
from projects.services.chases import chase_record
from projects.services.jurisdictions import jurisdiction_save
from tests.factories import PAPERS, RULES, VISITS, ago, make_jurisdiction, make_permit, today

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("values", "sentence"),
    [
        ({"name": " "}, "Name: read nothing"),
        ({"region": "ZZ"}, "Region: read 'ZZ'"),
        ({"code": "fr"}, "Country: read 'fr'"),
        ({"lapse_days": 0}, "Lapse days: read 0; accepted is 1 to 3650"),
        ({"lapse_source": ""}, "Lapse by: read nothing"),
        ({"notice_kind": "lunar"}, "Notice days: read 'lunar'"),
    ],
)
def test_bad_rules_are_said_and_nothing_is_kept(contractor, values, sentence):
    with pytest.raises(Refused, match=sentence):
        make_jurisdiction(contractor, **values)
    assert not Jurisdiction.objects.exists()


def test_a_name_twice_is_refused_within_a_company_only(contractor, stranger):
    make_jurisdiction(contractor, name="Town of Mapleton Flats")
    make_jurisdiction(stranger, name="Town of Mapleton Flats")
    with pytest.raises(Refused, match="one you do not have yet"):
        make_jurisdiction(contractor, name="town of mapleton flats")


def test_a_change_leaves_running_permits_with_what_they_began_with(job, contractor):
    authority = make_jurisdiction(contractor)
    permit = make_permit(job, contractor, authority=authority)
    jurisdiction_save(
        actor=contractor,
        jurisdiction=authority,
        version=authority.version,
        values={"name": "Renamed", **RULES},
        documents=["Only this"],
        inspections=[("final", "Final")],
    )
    assert [paper.title for paper in authority.required_documents.all()] == ["Only this"]
    assert [paper.title for paper in permit.documents.all()] == PAPERS
    assert [(visit.kind, visit.title) for visit in permit.inspections.all()] == VISITS
    with pytest.raises(Conflict):
        jurisdiction_save(
            actor=contractor,
            jurisdiction=authority,
            version=1,
            values={"name": "Late", **RULES},
            documents=[],
            inspections=[],
        )


CHASE = {
    "about": "permit",
    "who": "Ana at the desk",
    "how": "phone",
    "said": "Still in the queue.",
    "on": ago(6),
}


def test_a_chase_is_kept_and_its_follow_up_is_due(job, estimator):
    chase_record(job=job, actor=estimator, next_on=ago(1), **CHASE)
    due = next_chase_for(job)
    assert due is not None
    assert (due.who, due.next_on) == ("Ana at the desk", ago(1))
    chase_record(job=job, actor=estimator, **(CHASE | {"on": today(), "said": "Done."}))
    assert next_chase_for(job) is None
    assert job.events.filter(verb="chased").count() == 2


@pytest.mark.parametrize(
    ("values", "sentence"),
    [
        ({"who": ""}, "Who: read nothing"),
        ({"said": " "}, "Said what: read nothing"),
        ({"on": today() + timedelta(days=1)}, "Asked on: read"),
        ({"next_on": ago(6)}, "Next chase on: read"),
        ({"how": "pigeon"}, "How: read 'pigeon'"),
    ],
)
def test_a_chase_says_what_it_can_not_use(job, estimator, values, sentence):
    with pytest.raises(Refused, match=sentence):
        chase_record(job=job, actor=estimator, **(CHASE | values))
    assert not Chase.objects.exists()
