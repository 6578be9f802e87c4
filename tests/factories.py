"""Rows for tests: invented companies, people, houses and jobs."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import count
from typing import Any

from django.utils import timezone

from projects.models import Company, Job, Jurisdiction, Permit, Property, User
from projects.services import permits
from projects.services.jurisdictions import jurisdiction_save

_numbers = count(1)
PASSWORD = "a long invented passphrase"


def today() -> date:
    """The day the services think it is."""
    return timezone.localdate()


def ago(days: int) -> date:
    """So many calendar days before today."""
    return today() - timedelta(days=days)


def make_company(name: str = "") -> Company:
    """A company of its own."""
    return Company.objects.create(name=name or f"Company {next(_numbers)}")


def make_user(company: Company | None, role: str = "contractor", **values: Any) -> User:
    """Somebody with a role; signs in with PASSWORD."""
    number = next(_numbers)
    user = User(
        username=values.pop("username", f"{role}{number}"),
        first_name=values.pop("first_name", role.replace("_", " ").capitalize()),
        last_name=values.pop("last_name", f"Person {number}"),
        company=company,
        role=role,
        **values,
    )
    user.set_password(PASSWORD)
    user.save()
    return user


def make_property(company: Company, **values: Any) -> Property:
    """A house in an invented town."""
    defaults: dict[str, Any] = {
        "name": f"House {next(_numbers)}",
        "street": "14 Larkmoor Lane",
        "city": "Mapleton Flats",
        "region": "OH",
        "code": "us",
        "units": "imperial",
        "year_built": 1962,
    }
    return Property.objects.create(company=company, **(defaults | values))


def make_job(company: Company, **values: Any) -> Job:
    """A wall in a house of its own, unless one is given."""
    house = values.pop("property", None) or make_property(company)
    defaults: dict[str, Any] = {
        "name": f"Wall {next(_numbers)}",
        "wall": "between kitchen and dining room",
        "storey": "ground floor",
    }
    return Job.objects.create(property=house, **(defaults | values))


RULES: dict[str, Any] = {
    "code": "us",
    "region": "OH",
    "review_days": 10,
    "review_kind": "working",
    "validity_days": 365,
    "validity_kind": "calendar",
    "lapse_days": 180,
    "lapse_kind": "calendar",
    "notice_days": 2,
    "notice_kind": "working",
    "lapse_source": "IRC R105.5",
    "source": "invented for tests",
    "note": "",
}
PAPERS = ["Floor plan", "Sealed design"]
VISITS = [("footing", "Footing before pour"), ("framing", "Framing before cover"), ("final", "Final")]


def make_jurisdiction(actor: User, **values: Any) -> Jurisdiction:
    """An authority with two papers and three inspections."""
    return jurisdiction_save(
        actor=actor,
        values={"name": f"Town of Mapleton Flats {next(_numbers)}", **RULES, **values},
        documents=PAPERS,
        inspections=VISITS,
    )


def make_permit(job: Job, actor: User, *, authority: Jurisdiction | None = None) -> Permit:
    """An application in preparation."""
    return permits.permit_start(job=job, actor=actor, jurisdiction=authority or make_jurisdiction(actor))


def make_issued_permit(
    job: Job, actor: User, *, issued: int = 0, submitted: int = 20, **values: Any
) -> Permit:
    """A permit issued so many days ago, through the same services that people use."""
    permit = make_permit(job, actor, authority=values.pop("authority", None))
    for paper in permit.documents.all():
        permits.permit_document_set(document=paper, actor=actor, ready=True)
    permits.permit_submit(permit=permit, actor=actor, version=permit.version, on=ago(max(submitted, issued)))
    return permits.permit_issue(
        permit=permit, actor=actor, version=permit.version, on=ago(issued), number="BP-0001", **values
    )
