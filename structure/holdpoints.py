"""What the structure says to the hold points that rest on it. Reads only prefetched rows.

Marks of the governing schedule are ticked off one by one; a new schedule starts without ticks, so that
nothing ticked for other sizes can hold for it.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from projects.holdpoints import HoldState, register

PREFETCH = ("schedules__marks__ticks", "sealed_designs", "section")
MEMBERS = ("beam", "post", "footing", "plate", "hanger")


def _governing(job: Any) -> tuple[Any, str]:
    """The governing schedule, or None and why there is none that may be built from."""
    current = {s.source: s for s in job.schedules.all() if s.current}
    designs = [d for d in job.sealed_designs.all() if d.current]
    sealed = current.get("sealed")
    if designs and (sealed is None or sealed.sealed_design_id != designs[0].pk):
        return None, f"The sizes of the design {designs[0]} are not entered as the governing schedule yet."
    schedule = sealed or current.get("preliminary")
    return schedule, "" if schedule else "No schedule has been chosen."


def _unticked(schedule: Any, kinds: Iterable[str], tick: str) -> list[str]:
    return [
        mark.mark
        for mark in schedule.marks.all()
        if mark.kind in kinds and not _existing(mark) and all(t.kind != tick for t in mark.ticks.all())
    ]


def _existing(mark: Any) -> bool:
    return bool(mark.data.get("existing"))


def _answer(left: list[str], done: str, missing: str) -> HoldState:
    if left:
        return HoldState(False, f"{missing}: {', '.join(left)}.", needs_record=True)
    return HoldState(True, done, needs_record=True)


def material_matches(job: Any) -> HoldState:
    """Every member of the governing schedule is ticked as on site and as scheduled."""
    schedule, why = _governing(job)
    if schedule is None:
        return HoldState(False, why, needs_record=True)
    kinds = [kind for kind in MEMBERS if kind != "footing"]
    left = _unticked(schedule, kinds, "on_site")
    return _answer(left, f"All of the {schedule.source} schedule is on site.", "Not ticked as on site")


def shoring_checked(job: Any) -> HoldState:
    """Every shoring wall is ticked as built to the plan that is current."""
    schedule, why = _governing(job)
    if schedule is None:
        return HoldState(False, why, needs_record=True)
    section = getattr(job, "section", None)
    if section is None or section.version != schedule.section_version:
        return HoldState(
            False,
            "The section was changed after the shoring plan was made; the plan is not current.",
            needs_record=True,
        )
    walls = [mark for mark in schedule.marks.all() if mark.kind == "shoring"]
    if not walls:
        return HoldState(False, "The schedule has no shoring plan.", needs_record=True)
    failing = [mark.mark for mark in walls if mark.data.get("passes") is False]
    if failing:
        why = f"The shoring plan does not pass its checks: {', '.join(failing)}."
        return HoldState(False, why, needs_record=True)
    left = _unticked(schedule, ("shoring",), "built")
    return _answer(left, "Shoring is built to the current plan.", "Shoring not ticked as built to the plan")


def members_installed(job: Any) -> HoldState:
    """Every member of the governing schedule is ticked as installed."""
    schedule, why = _governing(job)
    if schedule is None:
        return HoldState(False, why, needs_record=True)
    left = _unticked(schedule, MEMBERS, "installed")
    return _answer(left, f"All of the {schedule.source} schedule is installed.", "Not ticked as installed")


def footing_needed(job: Any) -> HoldState:
    """Footing hold points do not arise where the sealed schedule has no new footing."""
    schedule, _why = _governing(job)
    if schedule is None or schedule.source != "sealed":
        return HoldState(True, "")
    new = [m for m in schedule.marks.all() if m.kind == "footing" and not _existing(m)]
    if new:
        return HoldState(True, "")
    return HoldState(True, "The sealed schedule has no new footing.", not_needed=True)


def register_all() -> None:
    """Answer for the hold points that rest on the structure."""
    register("material_matches", material_matches, prefetch=PREFETCH)
    register("shoring_checked", shoring_checked, prefetch=PREFETCH)
    register("members_installed", members_installed, prefetch=PREFETCH)
    register("footing_inspected", footing_needed, prefetch=PREFETCH)
    register("footing_cured", footing_needed, prefetch=PREFETCH)
