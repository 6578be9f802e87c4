"""Evidence for tests: a wall about which everything that clears it was seen."""

from __future__ import annotations

from typing import Any

from projects.evidence import Evidence, levels_above
from projects.models import Finding, Job, User
from projects.questions import DUTY_QUESTIONS, SERVICE_QUESTIONS
from projects.services.survey import answers_record, finding_record
from tests.factories import today


def seen(kind: str, observation: str, level: str, **values: Any) -> Evidence:
    """Seen directly over the full length, unless said otherwise."""
    return Evidence(kind, observation, **({"how": "direct", "level": level, "full_length": True} | values))


def clearing(floors_above: int = 0) -> list[Evidence]:
    """Every piece that is needed to find nothing that bears, each once."""
    found = [seen("support_below", "none", "below"), seen("roof_framing", "rafters_ridge", "roof")]
    for level in levels_above(floors_above):
        found += [
            seen("joist_direction", "parallel", level),
            seen("stacked", "none", level),
            seen("point_load", "none", level),
        ]
    return found


def record(job: Job, actor: User, evidence: Evidence, **values: Any) -> Finding:
    """Put evidence on record through the service that people use."""
    return finding_record(
        job=job,
        actor=actor,
        kind=evidence.kind,
        observation=evidence.observation,
        how=evidence.how,
        level=evidence.level,
        full_length=evidence.full_length,
        confirmed_on_site=evidence.confirmed_on_site,
        note=evidence.note,
        seen_by=actor.display_name,
        seen_on=today(),
        **values,
    )


def clear_wall(job: Job, actor: User) -> None:
    """Record everything that clears a wall, and answer every duty question no."""
    for evidence in clearing(job.floors_above):
        record(job, actor, evidence)
    answers_record(job=job, actor=actor, answers={q.name: "no" for q in DUTY_QUESTIONS})


def answer_survey(job: Job, actor: User, **answers: str) -> None:
    """Answer hazards and services: nothing there, unless said otherwise."""
    plain = {q.name: "no" for q in SERVICE_QUESTIONS} | {"asbestos": "no", "lead": "no"}
    answers_record(job=job, actor=actor, answers=plain | answers)
