"""What the job page shows of the structure, and our link in the main navigation."""

from __future__ import annotations

from typing import Any

from projects.panels import MainLink, Panel, Summary, register_main_link, register_panel
from structure.selectors import current_schedules, latest_run, section_for


def section_summary(job: Any, user: Any) -> Summary:
    """How far the section is."""
    section = section_for(job)
    if section is None:
        return Summary(("No house section yet: spans, levels and what is below.",), "to do", "note")
    levels = ", ".join(level.name for level in section.levels.all())
    return Summary(
        (f"Opening {section.opening}, {section.get_mounting_display().lower()}.", f"Over it: {levels}."),
        f"version {section.version}",
        "note",
    )


def sizes_summary(job: Any, user: Any) -> Summary:
    """The governing schedule in a few words, or what is missing to have one."""
    rows = {s.source: s for s in current_schedules(job, with_runs=False)}
    schedule = rows.get("sealed") or rows.get("preliminary")
    if schedule is not None:
        section = section_for(job)
        stale = section is None or section.version != schedule.section_version
        marks = tuple(
            f"{m.mark} {m.title}" for m in schedule.marks.all() if m.kind in ("beam", "post", "footing")
        )
        if stale:
            return Summary((*marks, "The section was changed since."), "out of date", "warn")
        return Summary(marks, schedule.get_source_display(), "ok" if schedule.source == "sealed" else "note")
    run = latest_run(job, with_answer=False)
    if run is None:
        return Summary(("No sizes worked out yet.",), "to do", "note")
    if run.status == run.Status.REFUSED:
        return Summary(("The engine refused: see why, with its clause.",), "refused", "bad")
    return Summary(("Sizes are worked out; none is chosen yet.",), "choose", "warn")


def register_all() -> None:
    """Add panels and the verification link."""
    register_panel(Panel("section", "Section", "structure:section", section_summary, "view_job", order=20))
    register_panel(Panel("sizes", "Sizes", "structure:options", sizes_summary, "view_job", order=30))
    register_main_link(
        MainLink("verification", "Verification", "structure:verification", "view_job", order=80)
    )
