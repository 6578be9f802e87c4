"""Checks of the hold points that the survey and the records decide. Each gives a sentence, met or not.

What papers decide is in `permit_holds`; what the structure decides is registered by the structure.
"""

from __future__ import annotations

from projects.hazards import hazard_prompts
from projects.holdpoints import HoldState, register
from projects.models import Job
from projects.questions import SERVICE_QUESTIONS
from projects.standing import answers_of, cured_on, decision_of, record_of, today


def verdict_recorded(job: Job) -> HoldState:
    """A named person's decision that still stands on the evidence."""
    standing = decision_of(job)
    if standing.decision is None:
        return HoldState(False, "Nobody has recorded a decision on the wall.")
    if not standing.stands:
        return HoldState(
            False, "The evidence has changed since the wall was recorded as not bearing: decide again."
        )
    return HoldState(True, f"{standing.decision}.")


def _required_hazards(job: Job) -> list[str]:
    house = job.property
    prompts = hazard_prompts(house.year_built, house.code, house.region)
    return [prompt.question for prompt in prompts if prompt.required]


def hazards_surveyed(job: Job) -> HoldState:
    """Every hazard this house calls for, and every service, answered yes or no."""
    answers = answers_of(job)
    asked = _required_hazards(job) + [question.name for question in SERVICE_QUESTIONS]
    still_open = [name for name in asked if answers.get(name) not in ("yes", "no")]
    if still_open:
        return HoldState(
            False, f"Not answered yet: {', '.join(name.replace('_', ' ') for name in still_open)}."
        )
    return HoldState(True, "Hazards and services in and under the wall are answered for.")


def hazards_cleared(job: Job) -> HoldState:
    """Nothing hazardous found, or what was found is cleared, with the paper that says so."""
    answers = answers_of(job)
    required = _required_hazards(job)
    still_open = [name for name in required if answers.get(name) not in ("yes", "no")]
    if still_open:
        return HoldState(False, f"Not surveyed yet: {', '.join(still_open)}.")
    present = [name for name in ("asbestos", "lead", "mould") if answers.get(name) == "yes"]
    if present:
        return HoldState(True, f"Found: {', '.join(present)}.", needs_record=True)
    return HoldState(True, "Nothing hazardous was found in what will be opened.")


def services_cleared(job: Job) -> HoldState:
    """No services in the way, or located and moved by licensed trades, on record."""
    answers = answers_of(job)
    names = [question.name for question in SERVICE_QUESTIONS]
    still_open = [name for name in names if answers.get(name) not in ("yes", "no")]
    if still_open:
        return HoldState(
            False, f"Not located yet: {', '.join(name.replace('_', ' ') for name in still_open)}."
        )
    present = [name.replace("_", " ") for name in names if answers.get(name) == "yes"]
    if present:
        return HoldState(True, f"In the way: {', '.join(present)}.", needs_record=True)
    return HoldState(True, "No services run in the wall or under the floor.")


def footing_cured(job: Job) -> HoldState:
    """The pour is on record and its curing days (calendar days) are over. The engineer's figure wins."""
    record = record_of(job, "footing_cured")
    if record is None:
        return HoldState(False, "No pour is on record.")
    figure = next(
        (d.cure_days for d in job.sealed_designs.all() if d.current and d.cure_days is not None), None
    )
    ready = cured_on(record, figure)
    if ready is None:
        return HoldState(False, "The pour on record has no date or no curing time.")
    if figure is not None or record.cure_source == "engineer":
        whose = "the engineer's figure"
    else:
        whose = "common practice"
    days = figure if figure is not None else record.cure_days
    said = f"Poured {record.poured_on:%Y-%m-%d}, {days} calendar days ({whose})"
    if ready > today():
        return HoldState(False, f"{said}: cured on {ready:%Y-%m-%d}.")
    return HoldState(True, f"{said}: cured since {ready:%Y-%m-%d}.")


def register_all() -> None:
    """Answer for each of them, naming what is read."""
    survey = ("findings", "answers", "decisions")
    register("verdict_recorded", verdict_recorded, prefetch=survey)
    register("hazards_surveyed", hazards_surveyed, prefetch=("answers",))
    register("hazards_cleared", hazards_cleared, prefetch=("answers", "hold_passes"))
    register("services_cleared", services_cleared, prefetch=("answers", "hold_passes"))
    register("footing_cured", footing_cured, prefetch=("hold_passes", "sealed_designs"))
