"""Who may open and send each page of papers. A page that is not in the table fails."""

from __future__ import annotations

import pytest
from django.urls import reverse

from projects import paper_urls
from tests.security.test_every_address import full_job, paths  # noqa: F401  the fixture
from tests.security.urls import Address

pytestmark = pytest.mark.django_db

OFFICE = {"contractor", "estimator", "project_manager"}
RUNS = {"contractor", "project_manager"}
ALL = OFFICE | {"crew"}

#: Page -> who may look at it (a page that only takes a POST: who may send it).
TABLE = {
    "engineering": ALL,
    "engineering_new": OFFICE,
    "engineering_package": OFFICE,
    "sealed_design_new": RUNS,
    "sealed_design_document": ALL,
    "engineering_answer": OFFICE,
    "engineering_act": OFFICE,
    "permit": ALL,
    "permit_start": RUNS,
    "permit_document": RUNS,
    "permit_act": RUNS,
    "inspection_add": RUNS,
    "inspection_act": RUNS,
    "deficiency_clear": RUNS,
    "chases": ALL,
    "chase_new": OFFICE,
    "jurisdictions": ALL,
    "jurisdiction_new": RUNS,
    "jurisdiction_edit": RUNS,
    "background_job": ALL,
}
#: Nothing to show in the rows of the fixture: the right person is told so, not refused.
MISSING = {"sealed_design_document", "background_job"}
POST_ONLY = {"permit_document"}


def test_every_page_is_in_the_table():
    assert {pattern.name for pattern in paper_urls.urlpatterns} == set(TABLE)


@pytest.mark.parametrize("role", sorted(ALL))
def test_matrix(client, full_job, role, request):  # noqa: F811  the fixture
    client.force_login(request.getfixturevalue(role))
    ours = {
        "jurisdiction_edit": full_job.permits.get().jurisdiction_id,
        "permit_act": full_job.permits.get().pk,
        "inspection_act": full_job.inspections.first().pk,
        "deficiency_clear": full_job.inspections.first().deficiencies.get().pk,
        "engineering_act": full_job.engineering_requests.get().pk,
        "engineering_answer": full_job.engineering_requests.get().questions.get().pk,
        "permit_document": full_job.permits.get().documents.first().pk,
        "sealed_design_document": full_job.sealed_designs.get().pk,
    }
    for pattern in paper_urls.urlpatterns:
        arguments = tuple(pattern.pattern.regex.groupindex)
        for path in paths(Address(f"projects:{pattern.name}", arguments), full_job.pk):
            if pattern.name in ours:
                parts = path.replace(f"/jobs/{full_job.pk}/", "/jobs/JOB/").replace(
                    "/1/", f"/{ours[pattern.name]}/", 1
                )
                path = parts.replace("/jobs/JOB/", f"/jobs/{full_job.pk}/")
            answer = client.post(path, {}) if pattern.name in POST_ONLY else client.get(path)
            allowed = role in TABLE[pattern.name]
            expected = 403
            if allowed:
                expected = 404 if pattern.name in MISSING else 302 if pattern.name in POST_ONLY else 200
            assert answer.status_code == expected, (path, role)
            if not allowed and pattern.name not in POST_ONLY:
                assert client.post(path, {}).status_code in (403, 405), (path, role)


def test_crew_never_sees_the_fee(client, full_job, crew, contractor):  # noqa: F811  the fixture
    permit = full_job.permits.get()
    permit.fee = 4321
    permit.save()
    page = reverse("projects:permit", args=[full_job.pk])
    client.force_login(contractor)
    assert "4321" in client.get(page).content.decode()
    client.force_login(crew)
    assert "4321" not in client.get(page).content.decode()
