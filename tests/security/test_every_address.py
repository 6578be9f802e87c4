"""Every address of the site: headers, sign-in, other companies, and that looking changes nothing.

The addresses come from the urlpatterns, so a new page is held to this the day it is added.
"""

from __future__ import annotations

import hashlib

import pytest
from django.apps import apps
from django.core import serializers
from django.http import HttpResponse
from django.urls import NoReverseMatch, reverse

from projects.services.chases import chase_record
from projects.services.engineering import (
    engineering_question_add,
    engineering_request_create,
    engineering_request_send,
    sealed_design_record,
)
from projects.services.inspections import inspection_fail
from projects.views.engineering import REQUEST_ACTS
from projects.views.permits import INSPECTION_ACTS, PERMIT_ACTS
from tests.factories import ago, make_issued_permit
from tests.security.urls import Address, addresses

pytestmark = pytest.mark.django_db

#: Pages for people who are not signed in; the theme is a cookie that only takes a POST.
OPEN_TO_ALL = {"login", "favicon", "healthz", "readyz", "projects:theme"}
#: Arguments that are words: every word that the pattern may take.
WORDS = {
    "projects:engineering_act": list(REQUEST_ACTS),
    "projects:permit_act": list(PERMIT_ACTS),
    "projects:inspection_act": list(INSPECTION_ACTS),
}


def paths(address: Address, job_pk: int) -> list[str]:
    """The address with numbers for numbers and each known word for a word."""
    numbers = {name: job_pk if name == "job_pk" else 1 for name in address.arguments}
    words = {name: "x" for name in address.arguments if name not in ("job_pk", "pk")}
    tries = [numbers | {"act": word} for word in WORDS[address.name]] if address.name in WORDS else [numbers]
    found = []
    for arguments in tries:
        for values in (arguments, arguments | words):
            try:
                found.append(reverse(address.name, kwargs=values))
                break
            except NoReverseMatch:
                continue
    return found


ALL = addresses()


@pytest.fixture
def full_job(job, contractor, monkeypatch):
    """A job with a row of every kind of paper, so that there is something that could leak or change."""
    from projects import package

    monkeypatch.setattr(package, "package_obstacles", lambda job: [])
    monkeypatch.setattr("projects.services.engineering.package_obstacles", lambda job: [])
    permit = make_issued_permit(job, contractor, issued=9)
    visit = permit.inspections.first()
    inspection_fail(
        inspection=visit,
        actor=contractor,
        version=visit.version,
        on=ago(3),
        inspector="Ines Marlow",
        deficiencies=["No chairs"],
    )
    request = engineering_request_create(
        job=job, actor=contractor, engineer_name="Rowan Ashgrove", asks="Seal the beam."
    )
    engineering_request_send(request=request, actor=contractor, version=request.version, on=ago(9))
    engineering_question_add(
        request=request, actor=contractor, version=request.version, question="Slab?", asked_on=ago(8)
    )
    sealed_design_record(
        job=job,
        actor=contractor,
        signed_by="Rowan Ashgrove",
        licence="PE 00000",
        reference="S-1",
        dated=ago(3),
        received_on=ago(2),
    )
    chase_record(
        job=job,
        actor=contractor,
        about="permit",
        who="Ana",
        how="phone",
        said="Soon.",
        on=ago(1),
        next_on=None,
    )
    return job


def fingerprint() -> str:
    """A digest of every row of our apps."""
    digest = hashlib.sha256()
    for label in ("projects", "structure", "estimating"):
        for model in apps.get_app_config(label).get_models():
            rows = model._default_manager.order_by("pk")
            digest.update(serializers.serialize("json", rows).encode())
    return digest.hexdigest()


def test_the_walk_finds_the_pages():
    names = {address.name for address in ALL}
    assert names >= OPEN_TO_ALL
    assert {"projects:permit", "projects:permit_act", "projects:engineering_package"} <= names
    reached = [address for address in ALL if paths(address, 1)]
    assert len(reached) == len(ALL), {a.name for a in ALL} - {a.name for a in reached}


def faults_of(answer: HttpResponse, open_to_all: bool) -> list[str]:
    """What is wrong with an answer to somebody who is not signed in."""
    headers = answer.headers
    policy = headers.get("Content-Security-Policy", "")
    found = [f"{part} missing" for part in ("default-src 'self'", "object-src 'none'") if part not in policy]
    if "unsafe" in policy:
        found.append(policy)
    expected = {
        "X-Content-Type-Options": "nosniff",
        "X-Frame-Options": "DENY",
        "Referrer-Policy": "same-origin",
    }
    found += [
        f"{name}: {headers.get(name)}" for name, value in expected.items() if headers.get(name) != value
    ]
    if "camera=()" not in headers.get("Permissions-Policy", ""):
        found.append("Permissions-Policy")
    if "no-store" not in headers.get("Cache-Control", ""):
        found.append(f"Cache-Control: {headers.get('Cache-Control')}")
    if open_to_all:
        if answer.status_code not in (200, 405):
            found.append(f"status {answer.status_code}")
    elif answer.status_code != 302 or not headers["Location"].startswith("/sign-in/"):
        found.append(f"not sent to sign in but {answer.status_code}")
    return found


def test_headers_and_sign_in(client, full_job):
    faults = {
        path: found
        for address in ALL
        for path in paths(address, full_job.pk)
        if (found := faults_of(client.get(path), address.name in OPEN_TO_ALL))
    }
    assert faults == {}


def test_another_company_finds_nothing(client, full_job, stranger):
    """Whatever names a row of ours is not found, by looking or by sending; a page of the own company is theirs."""
    client.force_login(stranger)
    answers = {
        (method, path): client.generic(method, path).status_code
        for address in ALL
        if address.arguments
        for path in paths(address, full_job.pk)
        for method in ("GET", "POST")
    }
    assert {where: status for where, status in answers.items() if status not in (404, 405)} == {}
    assert list(answers.values()).count(404) > 50


@pytest.mark.parametrize("role", ["contractor", "estimator", "project_manager", "crew"])
def test_looking_changes_nothing(client, full_job, role, request):
    client.force_login(request.getfixturevalue(role))
    before = fingerprint()
    for address in ALL:
        for path in paths(address, full_job.pk):
            answer = client.get(path)
            assert answer.status_code < 500, path
    assert fingerprint() == before
