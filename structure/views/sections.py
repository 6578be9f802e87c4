"""The section editor with its drawing, and the takedown."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from projects.errors import Refused
from projects.models import Job
from projects.requests import SignedIn
from structure.core.errors import InputError
from structure.forms.section import LevelRows, PointRows, SectionForm
from structure.models import HouseSection, Shape
from structure.pictures import section_picture
from structure.question import takedown_of
from structure.selectors import level_values, point_values, products_of, section_for, section_values
from structure.services.sections import section_save
from structure.starters import starter
from structure.views.common import page, page_job


@require_http_methods(["GET", "POST"])
def section_edit(request: SignedIn, job_pk: int) -> HttpResponse:
    """The form with the section beside it. A POST saves, redraws or adds a row, by the button pressed."""
    writing = request.method == "POST"
    job = page_job(request, job_pk, "design" if writing else "view_job")
    section = section_for(job)
    if not writing:
        return _show(request, job, section, *_forms_for(request, job, section))
    action = request.POST.get("action", "save")
    form, levels, points = _posted(request, job, section, add=action)
    if action != "save":
        return _show(request, job, section, form, levels, points)
    if all([form.is_valid(), levels.is_valid(), points.is_valid()]):
        try:
            section_save(
                job=job,
                actor=request.user,
                values=_values(form),
                levels=levels.kept(),
                points=points.kept(),
                expected_version=form.cleaned_data["version"],
            )
        except Refused as refusal:
            form.add_error(None, refusal.sentence)
        except ValidationError as error:
            form.add_error(None, error)
        else:
            messages.success(request, "Section saved. Sizes found before this are marked as out of date.")
            return redirect("structure:takedown", job_pk=job.pk)
    return _show(request, job, section, form, levels, points)


@require_POST
def section_draw(request: SignedIn, job_pk: int) -> HttpResponse:
    """The drawing of what is typed now, nothing stored: the part that htmx swaps in."""
    job = page_job(request, job_pk, "design")
    form, levels, points = _posted(request, job, None, add="draw")
    return render(
        request, "structure/partials/section_picture.html", {"job": job, **_drawn(job, form, levels, points)}
    )


@require_GET
def takedown(request: SignedIn, job_pk: int) -> HttpResponse:
    """The loads carried down, level by level, each number unfolding to its lines."""
    job = page_job(request, job_pk)
    section = section_for(job)
    context = page(request, job, "takedown", section=section)
    if section is not None:
        values, levels = section_values(section), level_values(section)
        answer = takedown_of(values, levels, point_values(section), job.code)
        context |= {
            "snow": answer["snow"],
            "takedown": answer["takedown"],
            "section_svg": section_picture(values, levels, answer["takedown"]),
        }
    return render(request, "structure/takedown.html", context)


def _values(form: SectionForm) -> dict[str, Any]:
    return {name: value for name, value in form.cleaned_data.items() if name != "version"}


def _forms_for(request: SignedIn, job: Job, section: HouseSection | None) -> tuple[Any, Any, Any]:
    """Forms of the stored section, or of a starting guess for the shape asked for."""
    if section is not None:
        form = SectionForm(instance=section, initial={"version": section.version}, code=job.code)
        points = PointRows(initial=point_values(section), prefix="points")
        return form, _levels(level_values(section), job.code), points
    shape = request.GET.get("shape", "")
    guess = starter(shape, job.code) if shape in Shape.values else {"section": {}, "levels": []}
    return (
        SectionForm(initial=guess["section"], code=job.code),
        _levels(guess["levels"], job.code),
        PointRows(prefix="points"),
    )


def _levels(rows: list[dict[str, Any]], code: str) -> Any:
    initial = [{**row, "ORDER": n + 1} for n, row in enumerate(rows)]
    return LevelRows(initial=initial, prefix="levels", form_kwargs={"code": code})


def _posted(request: SignedIn, job: Job, section: HouseSection | None, *, add: str) -> tuple[Any, Any, Any]:
    """Forms of what was typed; `add_level` and `add_point` bring one more empty row."""
    data = request.POST.copy()
    for prefix, action in (("levels", "add_level"), ("points", "add_point")):
        key = f"{prefix}-TOTAL_FORMS"
        rows = str(data.get(key, ""))
        if add == action and rows.isdecimal() and len(rows) < 3:
            data[key] = str(int(rows) + 1)
    levels = LevelRows(data, prefix="levels", form_kwargs={"code": job.code})
    return SectionForm(data, instance=section, code=job.code), levels, PointRows(data, prefix="points")


def _typed(form: Any) -> dict[str, Any]:
    """What stands in the fields of a form now, readable or not."""
    return {name: form[name].value() for name in form.fields}


def _typed_rows(rows: Any) -> list[dict[str, Any]]:
    typed = [_typed(form) for form in rows.forms]
    held = [row for row in typed if row.get("name") and not row.get("DELETE")]
    return sorted(held, key=lambda row: int(row["ORDER"]) if str(row.get("ORDER") or "").isdecimal() else 99)


def _drawn(job: Job, form: Any, levels: Any, points: Any) -> dict[str, Any]:
    """The drawing and takedown of what stands in the forms, or the sentence why there is none yet."""
    values, rows = _typed(form), _typed_rows(levels)
    held = [row for row in (_typed(f) for f in points.forms) if row.get("value") and not row.get("DELETE")]
    answer: dict[str, Any] | None = None
    why = ""
    if not rows:
        why = "No level yet: add one to see its load come down."
    else:
        try:
            answer = takedown_of(_numbers(values), rows, held, job.code)["takedown"]
        except (InputError, KeyError, TypeError, ValueError) as error:
            why = str(error) if isinstance(error, InputError) else "Some answers are still missing."
    return {
        "section_svg": section_picture(values, rows, answer),
        "takedown": answer,
        "why": why,
    }


def _numbers(values: dict[str, Any]) -> dict[str, Any]:
    factors: dict[str, Any] = {
        name: float(values[name]) for name in ("exposure", "thermal") if name in values
    }
    return {**values, **factors}


def _show(
    request: SignedIn, job: Job, section: HouseSection | None, form: Any, levels: Any, points: Any
) -> HttpResponse:
    context = page(
        request,
        job,
        "section",
        section=section,
        form=form,
        levels=levels,
        points=points,
        shapes=Shape.choices,
        products=products_of(job),
        starting=section is None and bool(request.GET.get("shape")),
        **_drawn(job, form, levels, points),
    )
    return render(request, "structure/section.html", context)
