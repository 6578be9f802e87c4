"""Our parts of the package for the engineer: section and loads, preliminary sizes, the way to the ground."""

from __future__ import annotations

from typing import Any

from projects.models import Job
from projects.package import register
from structure.member_pictures import member_pages
from structure.pictures import section_picture
from structure.question import takedown_of
from structure.results import beam_size, chains, refusals
from structure.selectors import (
    latest_run,
    level_values,
    offset_latest,
    point_values,
    run_is_stale,
    section_for,
    section_values,
)
from structure.shown import show_in


def loads_context(job: Job) -> dict[str, Any]:
    """The section as a drawing and the loads it brings."""
    section = section_for(job)
    show_in(job.units)
    if section is None:
        return {"section": None}
    values, levels = section_values(section), level_values(section)
    answer = takedown_of(values, levels, point_values(section), job.code)
    run = latest_run(job)
    beam = beam_size(run.results) if run is not None and run.status == "ok" else None
    return {
        "section": section,
        "takedown": answer["takedown"],
        "snow": answer["snow"],
        "section_svg": section_picture(values, levels, answer["takedown"], beam=beam, name="package-section"),
        "offset": offset_latest(job),
    }


def sizes_context(job: Job) -> dict[str, Any]:
    """The preliminary members and the questions that the load path asks."""
    show_in(job.units)
    run = latest_run(job)
    if run is None:
        return {"run": None}
    held: dict[str, Any] = {"run": run, "stale": run_is_stale(run), "refused": run.status == "refused"}
    if not held["refused"]:
        held |= member_pages(run)
        held |= {
            "chains": chains(run.results),
            "refusals": refusals(run.results),
            "questions": [q for chain in chains(run.results) for q in chain["questions"]],
        }
    return held


def sizes_obstacles(job: Job) -> list[str]:
    """A load path with a missing link, or sizes of a section that was changed since, stop the package."""
    run = latest_run(job)
    if run is None or run.status == "refused":
        return []
    found = [sentence for chain in chains(run.results) for sentence in chain["missing"]]
    if run_is_stale(run):
        found.append("The section was changed after the sizes were worked out: work them out again.")
    return found


def register_all() -> None:
    """Add the parts in the order the engineer reads them."""
    register("loads", "Framing and loads", "structure/package_loads.html", loads_context)
    register("sizes", "Preliminary sizes", "structure/package_sizes.html", sizes_context, sizes_obstacles)
