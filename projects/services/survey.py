"""Survey: evidence recorded and withdrawn, questions answered, the wall decided on by a named person."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from django.core.files.uploadedfile import UploadedFile
from django.db import transaction
from django.utils import timezone

from projects.errors import Refused
from projects.evidence import HOWS, KIND_BY_NAME, levels_above
from projects.models import Decision, Finding, Job, Photo, SurveyAnswer, User
from projects.permissions import require
from projects.questions import ANSWERS, QUESTION_BY_NAME
from projects.services.events import event_record
from projects.services.locking import job_lock
from projects.services.photos import photo_attached
from projects.services.writing import check_not_future, check_text
from projects.standing import answers_of, digest_of, evidence_of, verdict_of
from projects.verdict import not_bearing_blocks


def _check_words(job: Job, kind: str, observation: str, how: str, level: str) -> None:
    known = KIND_BY_NAME.get(kind)
    if known is None:
        raise Refused(
            f"Kind: read {kind!r}; accepted is one of {', '.join(k.title for k in KIND_BY_NAME.values())}.",
            field="kind",
        )
    if observation not in [item.name for item in known.observations]:
        accepted = "; ".join(item.title for item in known.observations)
        raise Refused(
            f"What was seen: read {observation!r}; accepted for {known.title.lower()} is one of: {accepted}.",
            field="observation",
        )
    if how not in HOWS:
        raise Refused(
            f"How obtained: read {how!r}; accepted is one of {', '.join(HOWS.values())}.", field="how"
        )
    here = (*levels_above(job.floors_above), "this", "below")
    accepted_levels = [name for name in known.levels if name in here]
    if level not in accepted_levels:
        raise Refused(
            f"Level: read {level!r}; accepted for this wall and kind is one of {', '.join(accepted_levels)}.",
            field="level",
        )


@transaction.atomic
def finding_record(
    *,
    job: Job,
    actor: User,
    kind: str,
    observation: str,
    how: str,
    level: str,
    seen_by: str,
    seen_on: date,
    full_length: bool = False,
    confirmed_on_site: bool = False,
    note: str = "",
    photo: Photo | None = None,
    upload: UploadedFile | None = None,
) -> Finding:
    """Put one piece of evidence on record, with a photo of the job or a new one."""
    require(actor, "record_finding", job)
    job = job_lock(job)
    _check_words(job, kind, observation, how, level)
    seen_by = check_text("seen_by", "Seen by", seen_by, "the name of the person who saw it")
    check_not_future("seen_on", "Seen on", seen_on)
    if observation == "explained":
        check_text("note", "Note", note, "what the support below belongs to")
    if confirmed_on_site and how != "drawing":
        raise Refused("Confirmed on site: this is for evidence from a drawing.", field="confirmed_on_site")
    if photo is not None and photo.job_id != job.pk:
        raise Refused("Photo: choose one of this job.", field="photo")
    with photo_attached(job=job, actor=actor, upload=upload, caption=KIND_BY_NAME[kind].title) as kept:
        finding = Finding(
            job=job,
            kind=kind,
            observation=observation,
            how=how,
            level=level,
            full_length=full_length,
            confirmed_on_site=confirmed_on_site,
            note=note.strip(),
            photo=kept or photo,
            seen_by=seen_by,
            seen_on=seen_on,
            recorded_by=actor,
        )
        finding.full_clean()
        finding.save()
    event_record(
        job=job,
        actor=actor,
        verb="finding.recorded",
        detail=finding.evidence.sentence,
        data={"finding": finding.pk},
    )
    return finding


@transaction.atomic
def finding_withdraw(*, finding: Finding, actor: User, reason: str) -> Finding:
    """Take a finding out of the verdict. It stays on the list, with who withdrew it and why."""
    require(actor, "record_finding", finding.job)
    job_lock(finding.job)
    reason = check_text("reason", "Reason", reason, "why the finding no longer stands")
    finding.refresh_from_db()
    if finding.withdrawn_at is not None:
        raise Refused("Finding: it was withdrawn already.")
    finding.withdrawn_at = timezone.now()
    finding.withdrawn_by = actor
    finding.withdrawn_why = reason
    finding.save()
    event_record(
        job=finding.job,
        actor=actor,
        verb="finding.withdrawn",
        detail=f"Withdrew: {finding.evidence.sentence} {reason}",
        data={"finding": finding.pk},
    )
    return finding


@transaction.atomic
def answers_record(
    *, job: Job, actor: User, answers: Mapping[str, str], notes: Mapping[str, str] | None = None
) -> list[SurveyAnswer]:
    """Answer questions of the survey; those that stay as they were are left alone. Returns what changed."""
    require(actor, "answer_question", job)
    job = job_lock(job)
    notes = notes or {}
    known = {row.question: row for row in job.answers.all()}
    changed = []
    for name, answer in answers.items():
        question = QUESTION_BY_NAME.get(name)
        if question is None:
            raise Refused(f"Question: read {name!r}, which is not asked.", field=name)
        if answer not in ANSWERS:
            raise Refused(
                f"{question.title} Read {answer!r}; accepted is one of {', '.join(ANSWERS.values())}.",
                field=name,
            )
        note = notes.get(name, "").strip()
        row = known.get(name) or SurveyAnswer(job=job, question=name)
        if row.pk and (row.answer, row.note) == (answer, note):
            continue
        row.answer, row.note, row.answered_by, row.answered_on = answer, note, actor, timezone.localdate()
        row.full_clean()
        row.save()
        changed.append(row)
        event_record(
            job=job,
            actor=actor,
            verb="question.answered",
            detail=f"{question.title} {ANSWERS[answer]}.{' ' + note if note else ''}",
            data={"question": name, "answer": answer},
        )
    return changed


@transaction.atomic
def decision_record(
    *, job: Job, actor: User, decision: str, reason: str, decided_on: date | None = None
) -> Decision:
    """Record what a named person decides about the wall, with the evidence as it is now.

    `not bearing` is refused unless the finding is *nothing found that bears* and every duty question is answered no.
    """
    require(actor, "decide_verdict", job)
    job = job_lock(job)
    if decision not in dict(Decision.CHOICES):
        raise Refused(f"Decision: read {decision!r}; accepted is bearing or not bearing.", field="decision")
    reason = check_text("reason", "Reason", reason, "why, in your own words")
    day = decided_on or timezone.localdate()
    check_not_future("decided_on", "Decided on", day)
    found, answers = verdict_of(job), answers_of(job)
    if decision == Decision.NOT_BEARING:
        blocks = not_bearing_blocks(found, answers)
        if blocks:
            raise Refused(f"Decision: not bearing can not be recorded. {' '.join(blocks)}", field="decision")
    row = Decision(
        job=job,
        decision=decision,
        decided_by=actor,
        decided_by_name=actor.display_name,
        decided_on=day,
        reason=reason,
        finding_then=found.outcome,
        evidence_then={
            "findings": [{**item.as_data(), "sentence": item.sentence} for item in evidence_of(job)],
            "answers": answers,
            "verdict": found.as_data(),
        },
        evidence_digest=digest_of(job),
    )
    row.full_clean()
    row.save()
    event_record(
        job=job,
        actor=actor,
        verb="verdict.decided",
        detail=f"Decided: {row.get_decision_display().lower()} (finding: {found.outcome}). {reason}",
        data={"decision": row.pk},
    )
    return row
