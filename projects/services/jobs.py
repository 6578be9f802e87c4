"""Jobs: opened, kept up to date, archived."""

from __future__ import annotations

from typing import Any

from django.db import transaction
from django.utils import timezone

from projects.errors import Refused
from projects.models import Job, Property, User
from projects.permissions import require
from projects.services.events import event_record
from projects.services.writing import check_text, take_version

PEOPLE = ("contractor", "estimator", "project_manager", "crew_lead")
FIELDS = ("name", "wall", "storey", "floors_above", *PEOPLE, "engineer_name", "starts_on", "due_on")


def _put(job: Job, values: dict[str, Any]) -> None:
    for field in FIELDS:
        if field in values:
            setattr(job, field, values[field])
    job.name = check_text("name", "Name", job.name, "a name you know the job by")
    job.wall = check_text("wall", "Wall", job.wall, "where the wall stands")
    job.storey = check_text("storey", "Storey", job.storey, "the storey the wall stands on")
    for role in PEOPLE:
        person = getattr(job, role)
        if person is not None and person.company_id != job.property.company_id:
            raise Refused(
                f"{role.replace('_', ' ').capitalize()}: choose somebody of your company.", field=role
            )
    if job.starts_on and job.due_on and job.due_on < job.starts_on:
        raise Refused(
            f"Due on: read {job.due_on:%Y-%m-%d}; accepted is {job.starts_on:%Y-%m-%d}, the start, or later.",
            field="due_on",
        )
    if Job.objects.filter(property_id=job.property_id, name__iexact=job.name).exclude(pk=job.pk).exists():
        raise Refused(
            f"Name: read {job.name!r}; accepted is a name that no other job of this property has.",
            field="name",
        )
    job.full_clean()


@transaction.atomic
def job_create(*, property: Property, actor: User, **values: Any) -> Job:
    """A new job, one wall, in its first stage."""
    require(actor, "create_job", property)
    job = Job(property=property)
    _put(job, values)
    job.save()
    event_record(job=job, actor=actor, verb="job.created", detail=f"Opened the job: {job.wall}.")
    return job


@transaction.atomic
def job_update(*, job: Job, actor: User, version: int, **values: Any) -> Job:
    """Change what a job says of itself; its stage moves by `job_advance` alone."""
    require(actor, "edit_job", job)
    take_version(job, version)
    before = {field: getattr(job, field) for field in FIELDS}
    _put(job, values)
    job.save()
    changed = [field.replace("_", " ") for field in FIELDS if before[field] != getattr(job, field)]
    if changed:
        event_record(job=job, actor=actor, verb="job.changed", detail=f"Changed: {', '.join(changed)}.")
    return job


@transaction.atomic
def job_archive(*, job: Job, actor: User, version: int, reason: str) -> Job:
    """Put a job away. Everything on it stays readable."""
    require(actor, "archive_job", job)
    reason = check_text("reason", "Reason", reason, "why it is put away")
    take_version(job, version)
    if job.archived_at is not None:
        raise Refused("Job: it is archived already.")
    job.archived_at = timezone.now()
    job.save()
    event_record(job=job, actor=actor, verb="job.archived", detail=f"Archived the job: {reason}")
    return job


@transaction.atomic
def job_unarchive(*, job: Job, actor: User, version: int) -> Job:
    """Take a job out of the archive."""
    require(actor, "archive_job", job)
    take_version(job, version)
    if job.archived_at is None:
        raise Refused("Job: it is not archived.")
    job.archived_at = None
    job.save()
    event_record(job=job, actor=actor, verb="job.unarchived", detail="Took the job out of the archive.")
    return job
