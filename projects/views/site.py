"""The dashboard, properties and people."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django_tables2 import RequestConfig

from projects.errors import Conflict, Refused
from projects.filters import JobFilter, PropertyFilter
from projects.forms.paper import PaperForm, VersionedForm
from projects.forms.site import (
    JobForm,
    PersonEditForm,
    PersonNewForm,
    PropertyEditForm,
    PropertyForm,
)
from projects.models import Property, User
from projects.permissions import can, require
from projects.requests import SignedIn
from projects.selectors import (
    jobs_visible_to,
    people_visible_to,
    person_for,
    properties_visible_to,
    properties_with_counts,
    property_for,
)
from projects.services.jobs import job_create
from projects.services.people import person_create, person_update
from projects.services.places import FIELDS, property_create, property_update
from projects.standing import with_standing
from projects.tables import JobTable, PersonTable, PropertyTable
from projects.views.access import company_page, get_only, get_or_post

A_PAGE = 25


def form_page(
    request: SignedIn,
    form: PaperForm,
    save: Any,
    *,
    title: str,
    button: str,
    back: str,
    row: Any = None,
    **context: Any,
) -> HttpResponse:
    """Show a form or save it; a refusal comes back with everything that was typed.

    `save(cleaned_data)` returns where to go and what to say.
    """
    status = 200
    if request.method == "POST":
        if form.is_valid():
            try:
                target, said = save(form.cleaned_data)
            except Conflict as conflict:
                status = 409
                if isinstance(form, VersionedForm) and row is not None:
                    row.refresh_from_db()
                    form.put_conflict(conflict, row.version)
                else:
                    form.put_refusal(conflict)
            except Refused as refusal:
                form.put_refusal(refusal)
            except ValidationError as wrong:
                for sentence in wrong.messages:
                    form.add_error(None, sentence)
            else:
                messages.success(request, said)
                return redirect(target)
        status = 422 if status == 200 else status
    page = {"form": form, "title": title, "button": button, "back": back, "row": row, **context}
    return render(request, "projects/form.html", page, status=status)


@get_only
def dashboard(request: SignedIn) -> HttpResponse:
    """Every job: stage, what blocks it, whose move it is, days waiting."""
    jobs = jobs_visible_to(request.user)
    if not request.GET.get("archived"):
        jobs = jobs.filter(archived_at__isnull=True)
    chosen = JobFilter(
        request.GET, queryset=with_standing(jobs), properties=properties_visible_to(request.user)
    )
    table = JobTable(chosen.qs)
    RequestConfig(request, paginate={"per_page": A_PAGE}).configure(table)
    return render(request, "projects/dashboard.html", {"filter": chosen, "table": table, "nav": "jobs"})


@get_only
@company_page("view_property")
def property_list(request: SignedIn) -> HttpResponse:
    """Houses of the company."""
    chosen = PropertyFilter(request.GET, queryset=properties_with_counts(request.user))
    table = PropertyTable(chosen.qs)
    RequestConfig(request, paginate={"per_page": A_PAGE}).configure(table)
    context = {"filter": chosen, "table": table, "nav": "properties"}
    return render(request, "projects/property_list.html", context)


@get_only
def property_detail(request: SignedIn, pk: int) -> HttpResponse:
    """One house and its jobs."""
    house = property_for(request.user, pk)
    require(request.user, "view_property", house)
    jobs = with_standing(jobs_visible_to(request.user).filter(property=house))
    table = JobTable(jobs, exclude=("property",))
    RequestConfig(request, paginate={"per_page": A_PAGE}).configure(table)
    return render(request, "projects/property.html", {"house": house, "table": table, "nav": "properties"})


@get_or_post
@company_page("create_property")
def property_new(request: SignedIn) -> HttpResponse:
    """Put a house on the books."""

    def save(values: dict[str, Any]) -> tuple[str, str]:
        house = property_create(actor=request.user, **values)
        return reverse("projects:property", args=[house.pk]), "The property is on the books."

    return form_page(
        request,
        PropertyForm(request.POST or None),
        save,
        title="New property",
        button="Save the property",
        back=reverse("projects:property_list"),
        nav="properties",
        grid=True,
    )


@get_or_post
def property_edit(request: SignedIn, pk: int) -> HttpResponse:
    """Change a house."""
    house: Property = property_for(request.user, pk)
    require(request.user, "edit_property", house)
    initial = {field: getattr(house, field) for field in FIELDS} | {"version": house.version}

    def save(values: dict[str, Any]) -> tuple[str, str]:
        property_update(house=house, actor=request.user, **values)
        return reverse("projects:property", args=[house.pk]), "Saved."

    return form_page(
        request,
        PropertyEditForm(request.POST or None, initial=initial),
        save,
        title=f"Change {house.name}",
        button="Save the property",
        back=reverse("projects:property", args=[house.pk]),
        row=house,
        nav="properties",
        grid=True,
    )


@get_or_post
def job_new(request: SignedIn, pk: int) -> HttpResponse:
    """Open a job in a house."""
    house = property_for(request.user, pk)
    require(request.user, "create_job", house)

    def save(values: dict[str, Any]) -> tuple[str, str]:
        job = job_create(property=house, actor=request.user, **values)
        return reverse("projects:survey", args=[job.pk]), "The job is open. Record what shows at the wall."

    people = people_visible_to(request.user).filter(is_active=True)
    return form_page(
        request,
        JobForm(request.POST or None, people=people),
        save,
        title=f"New job in {house.name}",
        button="Open the job",
        back=reverse("projects:property", args=[house.pk]),
        nav="properties",
        grid=True,
    )


@get_only
@company_page("view_people")
def people(request: SignedIn) -> HttpResponse:
    """Colleagues."""
    table = PersonTable(people_visible_to(request.user), may_manage=can(request.user, "manage_people"))
    RequestConfig(request, paginate={"per_page": A_PAGE}).configure(table)
    return render(request, "projects/people.html", {"table": table, "nav": "people"})


@get_or_post
@company_page("manage_people")
def person_new(request: SignedIn) -> HttpResponse:
    """A new colleague."""

    def save(values: dict[str, Any]) -> tuple[str, str]:
        person = person_create(actor=request.user, **values)
        return reverse("projects:people"), f"{person.display_name} can sign in now."

    return form_page(
        request,
        PersonNewForm(request.POST or None),
        save,
        title="New colleague",
        button="Save",
        back=reverse("projects:people"),
        nav="people",
        grid=True,
    )


@get_or_post
def person_edit(request: SignedIn, pk: int) -> HttpResponse:
    """Change a colleague."""
    person: User = person_for(request.user, pk)
    require(request.user, "manage_people", person)
    names = ("first_name", "last_name", "role", "phone", "is_active")

    def save(values: dict[str, Any]) -> tuple[str, str]:
        person_update(person=person, actor=request.user, **values)
        return reverse("projects:people"), "Saved."

    return form_page(
        request,
        PersonEditForm(request.POST or None, initial={name: getattr(person, name) for name in names}),
        save,
        title=f"Change {person.display_name}",
        button="Save",
        back=reverse("projects:people"),
        nav="people",
        grid=True,
    )
