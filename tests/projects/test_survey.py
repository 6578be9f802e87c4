"""Survey services: evidence, questions, the decision of a named person, and when it stops standing."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.core.exceptions import PermissionDenied
from django.db import IntegrityError, transaction

from projects.errors import Refused
from projects.evidence import Evidence
from projects.models import Decision, Finding, JobEvent, Photo, SurveyAnswer
from projects.services.survey import answers_record, decision_record, finding_record, finding_withdraw
from projects.standing import decision_of, partition_of, verdict_of
from tests.factories import make_job, today
from tests.projects.walls import clear_wall, record, seen

pytestmark = pytest.mark.django_db

LAP = {
    "kind": "splice",
    "observation": "lap",
    "how": "direct",
    "level": "roof",
    "seen_by": "Ines Marlow",
}


def test_a_finding_is_recorded_with_who_and_when(job, contractor):
    finding = finding_record(job=job, actor=contractor, seen_on=today(), **LAP)
    assert finding.evidence == Evidence("splice", "lap", "direct", "roof", ref=str(finding.pk))
    assert verdict_of(job).outcome == "bearing"
    event = job.events.get()
    assert (event.actor, event.verb) == (contractor, "finding.recorded")
    assert "Joists lap over the wall" in event.detail


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("kind", "smell", "Kind: read 'smell'"),
        ("observation", "wall", "What was seen: read 'wall'"),
        ("how", "dream", "How obtained: read 'dream'"),
        ("level", "below", "Level: read 'below'"),
        ("level", "above_1", "Level: read 'above_1'"),
        ("seen_by", "  ", "Seen by: read nothing"),
    ],
)
def test_words_that_are_not_accepted_store_nothing(job, contractor, field, value, said):
    with pytest.raises(Refused) as refusal:
        finding_record(job=job, actor=contractor, seen_on=today(), **(LAP | {field: value}))
    assert refusal.value.sentence.startswith(said)
    assert "accepted" in refusal.value.sentence
    assert refusal.value.field == field
    assert not Finding.objects.exists()
    assert not JobEvent.objects.exists()


def test_a_day_to_come_is_refused(job, contractor):
    with pytest.raises(Refused, match="Seen on"):
        finding_record(job=job, actor=contractor, seen_on=today() + timedelta(days=1), **LAP)


def test_only_drawings_are_confirmed_and_explanations_need_words(job, contractor):
    with pytest.raises(Refused, match="from a drawing"):
        finding_record(job=job, actor=contractor, seen_on=today(), confirmed_on_site=True, **LAP)
    with pytest.raises(Refused, match="Note: read nothing"):
        record(job, contractor, seen("support_below", "explained", "below"))


def test_a_photo_of_another_job_is_refused(job, contractor):
    other = make_job(job.company)
    photo = Photo.objects.create(
        job=other, extension="png", content_type="image/png", width=1, height=1, uploaded_by=contractor
    )
    with pytest.raises(Refused, match="one of this job"):
        finding_record(job=job, actor=contractor, seen_on=today(), photo=photo, **LAP)


def test_a_withdrawn_finding_stays_listed_and_counts_no_longer(job, contractor):
    finding = record(job, contractor, seen("splice", "lap", "roof"))
    with pytest.raises(Refused, match="Reason"):
        finding_withdraw(finding=finding, actor=contractor, reason=" ")
    finding_withdraw(finding=finding, actor=contractor, reason="It was the next joist bay.")
    assert job.findings.count() == 1
    assert verdict_of(job).outcome == "treat as bearing"
    with pytest.raises(Refused, match="already"):
        finding_withdraw(finding=finding, actor=contractor, reason="again")


def test_answers_are_kept_and_only_changes_are_recorded(job, contractor):
    changed = answers_record(job=job, actor=contractor, answers={"gas": "no", "bracing": "unknown"})
    assert len(changed) == 2
    assert answers_record(job=job, actor=contractor, answers={"gas": "no"}) == []
    answers_record(job=job, actor=contractor, answers={"gas": "yes"}, notes={"gas": "capped stub"})
    assert SurveyAnswer.objects.get(question="gas").note == "capped stub"
    assert job.events.count() == 3
    with pytest.raises(Refused, match="not asked"):
        answers_record(job=job, actor=contractor, answers={"oil": "no"})
    with pytest.raises(Refused, match="accepted is one of"):
        answers_record(job=job, actor=contractor, answers={"lead": "no", "gas": "perhaps"})
    assert not SurveyAnswer.objects.filter(question="lead").exists(), "nothing half saved"


# --- decisions --------------------------------------------------------------------------------------


def decide(job, actor, decision="not_bearing", reason="Seen all of it."):
    return decision_record(job=job, actor=actor, decision=decision, reason=reason)


def test_not_bearing_is_refused_on_an_empty_survey_and_bearing_is_not(job, contractor):
    with pytest.raises(Refused, match="only 'nothing found that bears'"):
        decide(job, contractor)
    row = decide(job, contractor, "bearing", "It stays the careful way.")
    assert row.finding_then == "treat as bearing"
    assert not partition_of(job).holds


def test_not_bearing_is_recorded_with_everything_that_was_known(job, contractor):
    clear_wall(job, contractor)
    row = decide(job, contractor)
    assert (row.decided_by, row.decided_by_name, row.decided_on) == (
        contractor,
        contractor.display_name,
        today(),
    )
    assert len(row.evidence_then["findings"]) == job.findings.count()
    assert row.evidence_then["answers"]["bracing"] == "no"
    assert decision_of(job).stands
    assert partition_of(job).holds


@pytest.mark.parametrize("question", ["bracing", "rafter_tie", "fire_or_party", "cut_trusses"])
@pytest.mark.parametrize("answer", ["unknown", "yes"])
def test_a_duty_unknown_or_yes_keeps_not_bearing_out(job, contractor, question, answer):
    clear_wall(job, contractor)
    answers_record(job=job, actor=contractor, answers={question: answer})
    with pytest.raises(Refused) as refusal:
        decide(job, contractor)
    assert refusal.value.field == "decision"
    assert not Decision.objects.exists()


def test_a_decision_needs_a_reason(job, contractor):
    with pytest.raises(Refused, match="Reason: read nothing"):
        decide(job, contractor, "bearing", "  ")
    with pytest.raises(Refused, match="accepted is bearing or not bearing"):
        decide(job, contractor, "safe")


def test_new_evidence_topples_not_bearing_and_not_bearing_alone(job, contractor):
    clear_wall(job, contractor)
    decide(job, contractor)
    record(job, contractor, seen("plans", "not_found", "this"))
    standing = decision_of(job)
    assert standing.stale
    assert not standing.stands
    assert not partition_of(job).holds
    decide(job, contractor)
    assert decision_of(job).stands
    answers_record(job=job, actor=contractor, answers={"bracing": "unknown"})
    assert not partition_of(job).holds
    decide(job, contractor, "bearing", "Now it is.")
    record(job, contractor, seen("splice", "none", "roof"))
    assert (decision_of(job).stale, decision_of(job).stands) == (True, True)
    assert job.decisions.count() == 3


def test_a_storey_more_above_topples_the_decision(job, contractor):
    clear_wall(job, contractor)
    decide(job, contractor)
    job.floors_above = 1
    assert not decision_of(job).stands


def test_the_database_itself_refuses_not_bearing_on_another_finding(job, contractor):
    for finding_then in ("treat as bearing", "bearing"):
        with pytest.raises(IntegrityError), transaction.atomic():
            Decision.objects.create(
                job=job,
                decision="not_bearing",
                decided_by=contractor,
                decided_by_name="x",
                reason="r",
                finding_then=finding_then,
                evidence_then={},
                evidence_digest="",
            )


# --- who ----------------------------------------------------------------------------------------------


def test_the_wrong_person_is_refused_by_the_service_itself(job, contractor, crew, estimator, stranger):
    finding = record(job, contractor, seen("splice", "lap", "roof"))
    for person in (crew, stranger):
        with pytest.raises(PermissionDenied):
            finding_record(job=job, actor=person, seen_on=today(), **LAP)
        with pytest.raises(PermissionDenied):
            finding_withdraw(finding=finding, actor=person, reason="no")
        with pytest.raises(PermissionDenied):
            answers_record(job=job, actor=person, answers={"gas": "no"})
    for person in (crew, stranger, estimator):
        with pytest.raises(PermissionDenied):
            decide(job, person, "bearing")
