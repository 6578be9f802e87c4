"""Tick-offs on site: one mark of the governing schedule at a time."""

from __future__ import annotations

from django.db import IntegrityError, transaction

from projects.errors import Refused
from projects.models import User
from projects.permissions import require
from projects.services.events import event_record
from structure.models import MarkTick, ScheduleMark
from structure.selectors import governing_schedule, schedule_is_stale

SHORING_FIRST = "Shoring: built to the plan is ticked on the shoring marks, the other two on the members."


def mark_tick(*, mark: ScheduleMark, actor: User, kind: str, note: str = "") -> MarkTick:
    """Tick a mark off. Raises Refused for a mark that no longer governs or a tick that is already there."""
    job = mark.schedule.job
    require(actor, "tick_off", job)
    is_shoring = mark.kind == ScheduleMark.Kind.SHORING
    if kind not in MarkTick.Kind.values:
        raise Refused(f"Tick: read {kind!r}; accepted is {', '.join(MarkTick.Kind.values)}.", field="kind")
    if is_shoring != (kind == MarkTick.Kind.BUILT):
        raise Refused(SHORING_FIRST, field="kind")
    governing = governing_schedule(job)
    if governing is None or governing.pk != mark.schedule_id:
        raise Refused(f"{mark.mark} is of a schedule that no longer governs; open the current one.")
    if is_shoring and mark.data.get("passes") is False:
        raise Refused(f"{mark.mark}: this shoring plan does not pass its checks; nothing may be built by it.")
    if is_shoring and schedule_is_stale(governing):
        raise Refused(
            "The section was changed after this shoring plan was made; choose the sizes again first."
        )
    try:
        with transaction.atomic():
            tick = MarkTick.objects.create(mark=mark, kind=kind, by=actor, note=note.strip())
            event_record(
                job=job,
                actor=actor,
                verb="mark.ticked",
                detail=f"{mark.mark} {mark.title}: {tick.get_kind_display()}.",
                data={"mark": mark.mark, "kind": kind, "schedule": mark.schedule_id},
            )
    except IntegrityError:
        raise Refused(f"{mark.mark} is ticked already.") from None
    return tick
