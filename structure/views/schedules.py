"""The schedule: chosen, sealed, compared line by line, ticked off."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from projects.errors import Refused
from projects.models import Job, SealedDesign
from projects.permissions import can
from projects.requests import SignedIn
from structure.forms.sealed import SEALED_FORMS, SealedNoteForm
from structure.forms.site import TickForm
from structure.marks import Mark, sealed_initial, sealed_mark
from structure.models import DesignRun, MarkTick, Schedule, ScheduleMark
from structure.results import candidates
from structure.selectors import current_schedules, schedule_differences, schedule_is_stale
from structure.services.schedules import schedule_choose, schedule_seal
from structure.services.site import mark_tick
from structure.views.common import page, page_job

EXTRA = (("P3", "post"), ("F3", "footing"), ("S1", "shoring"))
STARTED = ("beam", "post", "footing")


@require_POST
def choose(request: SignedIn, job_pk: int) -> HttpResponse:
    """Take one candidate of a run into the preliminary schedule."""
    job = page_job(request, job_pk, "choose_schedule")
    run = get_object_or_404(DesignRun, job=job, pk=_number(request.POST.get("run")))
    picked = next((c for c in candidates(run.results) if c["key"] == request.POST.get("beam")), None)
    if picked is None:
        raise Http404("No such beam in this run.")
    try:
        schedule_choose(job=job, actor=request.user, run=run, beam=picked)
    except Refused as refusal:
        messages.error(request, refusal.sentence)
        return redirect("structure:options", job_pk=job.pk)
    messages.success(request, f"{picked['label']} is in the preliminary schedule.")
    return redirect("structure:schedule", job_pk=job.pk)


def _number(text: str | None) -> int:
    return int(text) if text and text.isdecimal() and len(text) < 12 else 0


@require_GET
def schedule(request: SignedIn, job_pk: int) -> HttpResponse:
    """The governing schedule with its ticks, and what the seal changed."""
    job = page_job(request, job_pk)
    rows = {s.source: s for s in current_schedules(job)}
    sealed, preliminary = rows.get("sealed"), rows.get("preliminary")
    governing = sealed or preliminary
    design = SealedDesign.objects.filter(job=job, current=True).first()
    context = page(
        request,
        job,
        "schedule",
        schedule=governing,
        sealed=sealed,
        preliminary=preliminary,
        design=design,
        may_seal=can(request.user, "record_sealed_design", job),
        seal_missing=design is not None and (sealed is None or sealed.sealed_design_id != design.pk),
    )
    if governing is not None:
        context |= {
            "stale": schedule_is_stale(governing),
            "marks": [_ticks(m) for m in governing.marks.all()],
        }
    if sealed is not None and preliminary is not None:
        context["differences"] = schedule_differences(sealed, preliminary)
    return render(request, "structure/schedule.html", context)


def _ticks(mark: ScheduleMark) -> dict[str, Any]:
    """A mark with what is ticked and what is still to tick."""
    held = {tick.kind: tick for tick in mark.ticks.all()}
    shoring = mark.kind == ScheduleMark.Kind.SHORING
    kinds = [MarkTick.Kind.BUILT] if shoring else [MarkTick.Kind.ON_SITE, MarkTick.Kind.INSTALLED]
    if mark.kind == ScheduleMark.Kind.FOOTING:
        kinds = [MarkTick.Kind.INSTALLED]
    return {
        "mark": mark,
        "existing": bool(mark.data.get("existing")),
        "fails": mark.data.get("passes") is False,
        "ticks": [(kind.value, kind.label, held.get(kind.value)) for kind in kinds],
    }


@require_POST
def tick(request: SignedIn, job_pk: int, mark_pk: int) -> HttpResponse:
    """Tick one mark off."""
    job = page_job(request, job_pk, "tick_off")
    marks = ScheduleMark.objects.select_related("schedule__job__property")
    mark = get_object_or_404(marks, pk=mark_pk, schedule__job=job)
    form = TickForm(request.POST)
    if not form.is_valid():
        messages.error(request, "; ".join(str(e) for errors in form.errors.values() for e in errors))
    else:
        try:
            mark_tick(mark=mark, actor=request.user, **form.cleaned_data)
        except Refused as refusal:
            messages.error(request, refusal.sentence)
        else:
            messages.success(request, f"{mark.mark} ticked.")
    return redirect("structure:schedule", job_pk=job.pk)


@require_http_methods(["GET", "POST"])
def sealed(request: SignedIn, job_pk: int) -> HttpResponse:
    """Type the sizes of the sealed design beside the preliminary ones."""
    job = page_job(request, job_pk, "record_sealed_design")
    rows = {s.source: s for s in current_schedules(job)}
    preliminary = rows.get("preliminary")
    design = SealedDesign.objects.filter(job=job, current=True).first()
    context = page(request, job, "schedule", design=design, preliminary=preliminary)
    if preliminary is not None and design is not None:
        forms = _sealed_forms(request, rows.get("sealed") or preliminary)
        note = SealedNoteForm(request.POST or None)
        if request.method == "POST" and _seal(request, job, design, forms, note):
            return redirect("structure:schedule", job_pk=job.pk)
        context |= {"forms": forms, "note": note}
    return render(request, "structure/sealed.html", context)


def _sealed_forms(request: SignedIn, start: Schedule) -> list[dict[str, Any]]:
    """A form for every member of the schedule, and an empty one for one more post and one more footing."""
    forms = []
    data = request.POST if request.method == "POST" else None
    held = [(m.mark, m.kind, m) for m in start.marks.all() if m.kind in STARTED]
    taken = {mark for mark, _, _ in held}
    for mark, kind, stored in [*held, *((m, k, None) for m, k in EXTRA if m not in taken)]:
        form = SEALED_FORMS[kind](
            data,
            prefix=mark,
            initial=sealed_initial(stored) if stored else {},
            empty_permitted=stored is None,
            use_required_attribute=False,
        )
        absent = data is not None and bool(data.get(f"{mark}-absent"))
        forms.append({"mark": mark, "kind": kind, "form": form, "extra": stored is None, "absent": absent})
    return forms


def _seal(
    request: SignedIn, job: Job, design: SealedDesign, forms: list[dict[str, Any]], note: SealedNoteForm
) -> bool:
    """Store what was typed; False with the sentences on the forms where something is wrong."""
    used = [f for f in forms if not f["absent"] and not (f["extra"] and not f["form"].has_changed())]
    if not all([*(f["form"].is_valid() for f in used), note.is_valid()]):
        return False
    marks: list[Mark] = [sealed_mark(f["mark"], f["kind"], f["form"].cleaned_data) for f in used]
    try:
        schedule_seal(
            job=job, actor=request.user, sealed_design=design, marks=marks, note=note.cleaned_data["note"]
        )
    except Refused as refusal:
        note.add_error(None, refusal.sentence)
        return False
    messages.success(request, "Sealed sizes entered. They govern buying and building from now on.")
    return True
