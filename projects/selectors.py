"""The only way to reach rows of this app: what a person may see, and nothing else."""

from __future__ import annotations

from typing import Any

from django.db.models import Count, Q, QuerySet
from django.http import Http404

from projects.models import Company, Job, Photo, Property, User


def properties_visible_to(user: Any) -> QuerySet[Property]:
    """Properties of the person's company."""
    if not getattr(user, "is_authenticated", False) or user.company_id is None:
        return Property.objects.none()
    return Property.objects.filter(company_id=user.company_id)


def jobs_visible_to(user: Any) -> QuerySet[Job]:
    """Jobs of the person's company, with property and company at hand."""
    if not getattr(user, "is_authenticated", False) or user.company_id is None:
        return Job.objects.none()
    return Job.objects.filter(property__company_id=user.company_id).select_related("property__company")


def people_visible_to(user: Any) -> QuerySet[User]:
    """People of the person's company."""
    if not getattr(user, "is_authenticated", False) or user.company_id is None:
        return User.objects.none()
    return User.objects.filter(company_id=user.company_id)


def photos_visible_to(user: Any) -> QuerySet[Photo]:
    """Photos of jobs of the person's company."""
    return Photo.objects.filter(job__in=jobs_visible_to(user)).select_related("job__property__company")


def _one(rows: QuerySet[Any], pk: int, what: str) -> Any:
    found = rows.filter(pk=pk).first()
    if found is None:
        raise Http404(f"No such {what}.")
    return found


def job_for(user: Any, pk: int) -> Job:
    """The job, or Http404 when it does not exist or belongs to another company: the two look the same."""
    return _one(jobs_visible_to(user), pk, "job")


def property_for(user: Any, pk: int) -> Property:
    """The property, or Http404 like `job_for`."""
    return _one(properties_visible_to(user).select_related("company"), pk, "property")


def person_for(user: Any, pk: int) -> User:
    """The colleague, or Http404 like `job_for`."""
    return _one(people_visible_to(user), pk, "person")


def photo_for(user: Any, pk: int) -> Photo:
    """The photo, or Http404 like `job_for`."""
    return _one(photos_visible_to(user), pk, "photo")


def properties_with_counts(user: Any) -> QuerySet[Property]:
    """Properties with how many jobs each has open and closed."""
    open_job = Q(jobs__archived_at__isnull=True) & ~Q(jobs__stage="closed")
    return properties_visible_to(user).annotate(
        jobs_open=Count("jobs", filter=open_job), jobs_all=Count("jobs")
    )


def company_of(user: Any) -> Company:
    """The person's company. Raises Http404 for somebody without one."""
    if user.company_id is None:
        raise Http404("No company.")
    return user.company
