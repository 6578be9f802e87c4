"""Reads of the structure app."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.db.models import Prefetch

from projects.models import Job
from structure.diagrams import words
from structure.fields import inches_of
from structure.marks import ASKED
from structure.models import (
    DesignRun,
    EnteredProduct,
    HouseSection,
    MarkTick,
    OffsetCheck,
    Schedule,
    ScheduleMark,
)
from structure.products import VALUES

SECTION_FIELDS = tuple(
    f.name
    for f in HouseSection._meta.get_fields()
    if f.concrete and f.name not in ("id", "job", "version", "updated_at", "updated_by")
)


def section_for(job: Job) -> HouseSection | None:
    """The section of a job with its levels and points at hand."""
    return HouseSection.objects.filter(job=job).prefetch_related("levels", "points").first()


def section_values(section: HouseSection) -> dict[str, Any]:
    """The section as plain values by field name."""
    return {name: getattr(section, name) for name in SECTION_FIELDS}


def level_values(section: HouseSection) -> list[dict[str, Any]]:
    """The levels from the top down as plain values."""
    skip = {"id", "section", "order"}
    return [
        {f.name: getattr(level, f.name) for f in level._meta.concrete_fields if f.name not in skip}
        for level in section.levels.all()
    ]


def point_values(section: HouseSection) -> list[dict[str, Any]]:
    """The point loads as plain values."""
    return [{"label": p.label, "case": p.case, "value": p.value, "at": p.at} for p in section.points.all()]


def products_of(job: Job) -> list[EnteredProduct]:
    """Products in hand of a job that are not voided."""
    return list(EnteredProduct.objects.filter(job=job, voided_at__isnull=True).select_related("entered_by"))


def product_values(product: EnteredProduct) -> dict[str, Any]:
    """A product as plain data, as it is kept with a run."""
    names = ("family", "name", "source", "width", "depths", "plies", *VALUES)
    return {
        "id": product.pk,
        **{name: getattr(product, name) for name in names},
        "entered": f"{product.entered_by}, {product.entered_at:%Y-%m-%d}",
    }


def latest_run(job: Job, *, with_answer: bool = True) -> DesignRun | None:
    """The newest answer of the engine for this job; without its long answer where only its state counts."""
    runs = DesignRun.objects.filter(job=job).select_related("created_by")
    return (runs if with_answer else runs.defer("inputs", "results")).first()


def run_is_stale(run: DesignRun) -> bool:
    """Whether the section, or what products are in hand, was changed after the run was made."""
    version = HouseSection.objects.filter(job_id=run.job_id).values_list("version", flat=True).first()
    if version != run.section_version:
        return True
    held = EnteredProduct.objects.filter(job_id=run.job_id, voided_at__isnull=True)
    return sorted(held.values_list("pk", flat=True)) != sorted(run.products)


def schedule_is_stale(schedule: Schedule) -> bool:
    """Whether the section was changed after the schedule was chosen, or the product of its beam voided."""
    version = HouseSection.objects.filter(job_id=schedule.job_id).values_list("version", flat=True).first()
    if version != schedule.section_version:
        return True
    if not schedule.run.products:
        return False
    beams = [mark.data for mark in schedule.marks.all() if mark.kind == ScheduleMark.Kind.BEAM]
    held = EnteredProduct.objects.filter(pk__in=schedule.run.products, voided_at__isnull=False)
    used = [(beam.get("family"), beam.get("grade")) for beam in beams]
    return any(product in used for product in held.values_list("family", "name"))


def _with_marks() -> Any:
    ticks = Prefetch("ticks", queryset=MarkTick.objects.select_related("by"))
    return Prefetch("marks", queryset=ScheduleMark.objects.prefetch_related(ticks))


def governing_schedule(job: Job) -> Schedule | None:
    """The schedule that buying and building follow: the current sealed one, else the preliminary one."""
    rows = {s.source: s for s in current_schedules(job)}
    return rows.get(Schedule.Source.SEALED) or rows.get(Schedule.Source.PRELIMINARY)


def current_schedules(job: Job, *, with_runs: bool = True) -> list[Schedule]:
    """The current schedules of a job, at most one of each source, with marks and ticks.

    A run holds every beam tried, so it comes along only where somebody reads it.
    """
    found = Schedule.objects.filter(job=job, current=True).select_related("chosen_by", "sealed_design")
    if with_runs:
        found = found.select_related("run")
    return list(found.prefetch_related(_with_marks()))


def offset_latest(job: Job) -> OffsetCheck | None:
    """The newest offset check."""
    return OffsetCheck.objects.filter(job=job).select_related("checked_by").first()


def schedule_data(schedule: Schedule) -> dict[str, Any]:
    """The schedule as the takeoff reads it: plain data, lengths in inches.

    Posts by their maker's statement and shoring designed by the engineer have no lumber sizes and are
    named under `not_measured`.
    """
    by_kind: dict[str, list[dict[str, Any]]] = {}
    not_measured: list[str] = []
    for mark in schedule.marks.all():
        if mark.data.get("stated") or mark.data.get("engineered"):
            not_measured.append(f"{mark.mark} {mark.title}")
        else:
            by_kind.setdefault(mark.kind, []).append({**mark.data, "mark": mark.mark})
    section = schedule.run.inputs["section"]
    opening = inches_of(section, "opening")
    new_pads = any(not footing["existing"] for footing in by_kind.get("footing", []))
    return {
        "code": schedule.job.code,
        "beam": next(iter(by_kind.get("beam", [])), None),
        "posts": by_kind.get("post", []),
        "footings": by_kind.get("footing", []),
        "shoring": {"sides": by_kind.get("shoring", [])},
        "plates": by_kind.get("plate", []),
        "hangers": sum(int(each.get("count", 0)) for each in by_kind.get("hanger", [])),
        "hanger_lb": max((each.get("load_lb") or 0.0 for each in by_kind.get("hanger", [])), default=0.0),
        "wall": {
            "length_in": inches_of(section, "wall_length", opening),
            "height_in": inches_of(section, "ceiling_height"),
            "thickness_in": inches_of(section, "wall_thickness"),
        },
        "opening_in": opening,
        "slab_cut": new_pads and section["below"] in ("slab", "basement"),
        "flush": section["mounting"] == "flush",
        "rafter_tie": bool((schedule.run.results.get("beam") or {}).get("rafter_tie")),
        "not_measured": not_measured,
    }


def schedule_differences(sealed: Schedule, preliminary: Schedule) -> list[dict[str, Any]]:
    """Line by line what the sealed design changes: mark, what, preliminary, sealed."""
    mine = {m.mark: m for m in preliminary.marks.all() if m.kind != ScheduleMark.Kind.SHORING}
    theirs = {m.mark: m for m in sealed.marks.all() if m.kind != ScheduleMark.Kind.SHORING}
    rows: list[dict[str, Any]] = []
    for mark in dict.fromkeys([*mine, *theirs]):
        a, b = mine.get(mark), theirs.get(mark)
        if a is None or b is None:
            only = "not in the preliminary schedule" if a is None else "not in the sealed design"
            rows.append(
                {
                    "mark": mark,
                    "what": only,
                    "preliminary": a.title if a else "",
                    "sealed": b.title if b else "",
                }
            )
            continue
        asked = ASKED.get(a.kind)
        keys = [k for k in dict.fromkeys([*a.data, *b.data]) if asked is None or k in asked]
        rows += [
            {"mark": mark, "what": _what(k), "preliminary": _told(k, a.data), "sealed": _told(k, b.data)}
            for k in keys
            if not _same(a.data.get(k), b.data.get(k)) and not (k == "width_in" and _square(a) and _square(b))
        ]
    return rows


SAME_LENGTH = 1 / 32  # in; lengths are written in sixteenths


def _square(pad: ScheduleMark) -> bool:
    return _same(pad.data.get("width_in"), pad.data.get("side_in"))


def _same(a: Any, b: Any) -> bool:
    if isinstance(a, int | float) and isinstance(b, int | float):
        return abs(a - b) <= SAME_LENGTH
    return (a or "") == (b or "")


def _what(key: str) -> str:
    return "as written" if key == "label" else key.removesuffix("_in").replace("_", " ")


def _told(key: str, data: Mapping[str, Any]) -> Any:
    value = data.get(key, "")
    return words.length(value, "us") if key.endswith("_in") and value != "" else value
