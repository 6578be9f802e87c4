"""Company, houses and jobs of the scenario. Everything or nothing is stored; what is there already stays."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import timedelta
from pathlib import Path
from typing import Any

import yaml
from django.db import transaction
from django.utils import timezone

from estimating.services.prices import price_book_load_file
from projects.config.demo import records
from projects.config.demo.sizing import schedule_seal_like, wall_size
from projects.config.env import BASE_DIR
from projects.models import Company, Job, User
from projects.services.jobs import PEOPLE, job_create
from projects.services.jurisdictions import jurisdiction_save
from projects.services.people import person_create
from projects.services.places import property_create
from projects.services.stages import job_advance
from projects.services.survey import answers_record, decision_record, finding_record
from structure.services.products import product_enter
from structure.services.sections import section_save

FOLDER = BASE_DIR / "fixtures" / "demo"
PRICE_BOOKS = [BASE_DIR / "fixtures" / name for name in ("price_book.yaml", "price_book_ca.yaml")]

Row = Mapping[str, Any]


def _read(path: Path) -> Any:
    return yaml.safe_load(path.read_text(encoding="utf-8"))


def scenario_load() -> tuple[Company, bool]:
    """The demo company with everything it has; False when it was there before."""
    data = _read(FOLDER / "company.yaml")
    there = Company.objects.filter(name=data["name"]).first()
    if there is not None:
        return there, False
    with transaction.atomic():
        company = Company.objects.create(name=data["name"])
        people = _people_load(company, data)
        actor = people[data["people"][0]["username"]]
        for row in data["jurisdictions"]:
            jurisdiction_save(
                actor=actor,
                values={"note": "", **{name: row[name] for name in row if name not in ("papers", "visits")}},
                documents=row["papers"],
                inspections=[(entry["kind"], entry["title"]) for entry in row["visits"]],
            )
        for path in PRICE_BOOKS:
            price_book_load_file(company=company, path=path, actor=actor)
        for path in sorted((FOLDER / "houses").glob("*.yaml")):
            _house_load(actor, people, _read(path))
    return company, True


def _people_load(company: Company, data: Row) -> dict[str, User]:
    """The first person is made by hand, because nobody is there yet who could let them in."""
    first, *others = data["people"]
    actor = User(company=company, **first)
    actor.set_password(data["password"])
    actor.full_clean()
    actor.save()
    people = {actor.username: actor}
    for row in others:
        people[row["username"]] = person_create(actor=actor, password=data["password"], **row)
    return people


def _house_load(actor: User, people: Mapping[str, User], data: Row) -> None:
    house = property_create(actor=actor, **data["property"])
    for row in data["jobs"]:
        values = dict(row["job"])
        for role in PEOPLE:
            if role in values:
                values[role] = people[values[role]]
        for day in ("starts_on", "due_on"):
            if day in values:
                values[day] = records.ago(values[day])
        job = job_create(property=house, actor=actor, **values)
        _story_load(job, actor, row.get("story", []))
        if "waiting_days" in row:
            # The record above was written today; the demo shows a job that has stood where it stands for a while.
            since = timezone.now() - timedelta(days=row["waiting_days"])
            Job.objects.filter(pk=job.pk).update(stage_since=since)


def _finding_load(job: Job, actor: User, row: Row) -> None:
    values = dict(row)
    finding_record(job=job, actor=actor, seen_on=records.ago(values.pop("on")), **values)


def _answers_load(job: Job, actor: User, row: Row) -> None:
    answers_record(job=job, actor=actor, answers=row["answers"], notes=row.get("notes", {}))


def _decision_load(job: Job, actor: User, row: Row) -> None:
    decision_record(
        job=job,
        actor=actor,
        decision=row["decision"],
        reason=row["reason"],
        decided_on=records.ago(row["on"]),
    )


def _section_load(job: Job, actor: User, row: Row) -> None:
    section_save(
        job=job, actor=actor, values=row["values"], levels=row["levels"], points=row.get("points", [])
    )


def _product_load(job: Job, actor: User, row: Row) -> None:
    product_enter(job=job, actor=actor, values={"Emin": "", **row})


def _size_load(job: Job, actor: User, row: Row) -> None:
    wall_size(job=job, actor=actor, family=row.get("family", ""))


def _seal_load(job: Job, actor: User, row: Row) -> None:
    schedule_seal_like(job=job, actor=actor, note=row.get("note", ""), changes=row.get("changes"))


def _stage_load(job: Job, actor: User, row: Row) -> None:
    job_advance(job=job, actor=actor, to=row["to"], version=job.version, reason=row.get("reason", ""))


CHAPTERS: Mapping[str, Callable[[Job, User, Row], None]] = {
    "finding": _finding_load,
    "answers": _answers_load,
    "decision": _decision_load,
    "section": _section_load,
    "product": _product_load,
    "size": _size_load,
    "seal": _seal_load,
    "stage": _stage_load,
    "request": records.request_load,
    "design": records.design_load,
    "permit": records.permit_load,
    "inspection": records.inspection_load,
    "progress": records.progress_load,
    "chase": records.chase_load,
    "hold": records.hold_load,
    "override": records.override_load,
}


def _story_load(job: Job, actor: User, story: list[dict[str, Any]]) -> None:
    """One chapter after the other, each through the service that the page of that name calls."""
    for chapter in story:
        ((name, row),) = chapter.items()
        job.refresh_from_db()
        CHAPTERS[name](job, actor, row or {})
