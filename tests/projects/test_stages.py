"""Stages and hold points through the services: nobody gets past what is not on record."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.core.exceptions import PermissionDenied
from django.db import IntegrityError, transaction
from django.utils import timezone

from projects import holdpoints
from projects.errors import Conflict, Refused
from projects.holdpoints import HoldState, check_providers
from projects.models import AppendOnly, HoldPass, JobEvent, Override, SealedDesign
from projects.services.events import event_record
from projects.services.inspections import inspection_pass
from projects.services.jobs import job_archive
from projects.services.stages import (
    CURE_DAYS,
    hold_override,
    hold_pass,
    hold_pass_set_aside,
    job_advance,
)
from projects.services.survey import decision_record
from projects.standing import holds_of, standing_of
from projects.workflow import HOLD_POINT_BY_NAME, NEVER_OVERRIDDEN, Stage
from tests.factories import ago, make_issued_permit, today
from tests.projects.walls import answer_survey, clear_wall, record, seen

pytestmark = pytest.mark.django_db

FOUR = sorted(NEVER_OVERRIDDEN)
BY_WORD = {"checked_by": "Ines Marlow", "evidence": "Seen and measured.", "document": "Site diary p. 12"}


def advance(job, actor, to, **values):
    job.refresh_from_db()
    return job_advance(job=job, actor=actor, to=to, version=values.pop("version", job.version), **values)


def put(job, stage):
    """Set a stage for a test of what comes after it."""
    type(job).objects.filter(pk=job.pk).update(stage=stage)
    job.refresh_from_db()


def status(job, name):
    return next(r for r in holds_of(job) if r.point.name == name).status


def why(job, name):
    return next(r for r in holds_of(job) if r.point.name == name).why


def note(job, actor, hold, **values):
    given = BY_WORD | {"checked_on": today()} | values
    return hold_pass(job=job, actor=actor, hold=hold, **given)


@pytest.fixture
def decided(job, contractor):
    """A wall decided on and surveyed."""
    decision_record(job=job, actor=contractor, decision="bearing", reason="Joists lap on it.")
    answer_survey(job, contractor)
    return job


@pytest.fixture
def structure_agrees(monkeypatch):
    """What the structure says of its three hold points, replaced by a yes: the structure has tests of its own."""
    yes = holdpoints.Provider(lambda job: HoldState(True, "As scheduled.", needs_record=True))
    for name in ("material_matches", "shoring_checked", "members_installed"):
        monkeypatch.setitem(holdpoints._providers, name, [yes])


# --- moving -------------------------------------------------------------------------------------------


def test_a_job_leaves_the_survey_only_with_its_hold_points(job, contractor):
    with pytest.raises(Refused) as refusal:
        advance(job, contractor, "sizing")
    assert "Verdict recorded" in refusal.value.sentence
    assert "Hazards and services surveyed" in refusal.value.sentence
    decision_record(job=job, actor=contractor, decision="bearing", reason="Joists lap on it.")
    with pytest.raises(Refused, match="asbestos, lead, electrical"):
        advance(job, contractor, "sizing")
    answer_survey(job, contractor)
    moved = advance(job, contractor, "sizing")
    assert moved.stage_now is Stage.SIZING
    event = JobEvent.objects.get(job=job, verb="stage.moved")
    assert event.data == {"from": "survey", "to": "sizing", "kind": "forward"}
    job.refresh_from_db()
    assert timezone.now() - job.stage_since < timedelta(minutes=1)


def test_a_refused_move_changes_nothing(job, contractor):
    before = (job.stage, job.version, job.stage_since)
    for to in ("sizing", "permit", "closed", "nowhere"):
        with pytest.raises(Refused):
            advance(job, contractor, to)
    job.refresh_from_db()
    assert (job.stage, job.version, job.stage_since) == before
    assert not job.events.exists()


def test_of_two_who_move_the_same_job_one_is_told(decided, contractor, project_manager):
    version = decided.version
    advance(decided, contractor, "sizing", version=version)
    with pytest.raises(Conflict):
        job_advance(job=decided, actor=project_manager, to="sizing", version=version)
    assert JobEvent.objects.filter(verb="stage.moved").count() == 1


def test_an_archived_job_stays_where_it_is(decided, contractor):
    job_archive(job=decided, actor=contractor, version=decided.version, reason="Sold.")
    with pytest.raises(Refused, match="archived"):
        advance(decided, contractor, "sizing")
    with pytest.raises(Refused, match="archived"):
        hold_override(job=decided, actor=contractor, hold="permit_issued", reason="x")
    with pytest.raises(Refused, match="archived"):
        record(decided, contractor, seen("splice", "lap", "roof"))


# --- overrides ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("hold", FOUR)
def test_nobody_overrides_the_four(job, contractor, hold):
    with pytest.raises(Refused, match="nobody may override"):
        hold_override(job=job, actor=contractor, hold=hold, reason="The boss said so.")
    with pytest.raises(IntegrityError), transaction.atomic():
        Override.objects.create(
            job=job, hold=hold, reason="r", unmet_why="w", stage="survey", overridden_by=contractor
        )


def test_an_override_opens_the_way_and_stays_visible(job, contractor):
    answer_survey(job, contractor)
    row = hold_override(
        job=job, actor=contractor, hold="verdict_recorded", reason="Engineer on site tomorrow."
    )
    assert row.unmet_why == "Nobody has recorded a decision on the wall."
    assert status(job, "verdict_recorded") == "overridden"
    advance(job, contractor, "sizing")
    assert job.events.filter(verb="hold.overridden").get().detail.startswith("Overrode verdict recorded")
    # It changed no verdict.
    assert not job.decisions.exists()
    # Once the evidence is there it is met, not overridden.
    decision_record(job=job, actor=contractor, decision="bearing", reason="Engineer says so.")
    assert status(job, "verdict_recorded") == "met"
    with pytest.raises(Refused, match="nothing to override"):
        hold_override(job=job, actor=contractor, hold="verdict_recorded", reason="The same once again.")


def test_an_override_needs_words(job, contractor):
    with pytest.raises(Refused, match="Reason: read nothing"):
        hold_override(job=job, actor=contractor, hold="permit_issued", reason=" ")
    for short in ("because", "a b c", "thisisonlyonelongword"):
        with pytest.raises(Refused, match=r"Reason: read .*a sentence of at least 2 words and 15 characters"):
            hold_override(job=job, actor=contractor, hold="permit_issued", reason=short)


# --- records ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "hold",
    [
        "verdict_recorded",
        "hazards_surveyed",
        "sealed_design",
        "permit_issued",
        "footing_inspected",
        "framing_inspected",
        "final_passed",
    ],
)
def test_what_has_rows_of_its_own_is_not_met_by_hand(job, contractor, hold):
    with pytest.raises(Refused, match="not by hand"):
        note(job, contractor, hold)


def test_hazards_found_are_cleared_by_a_paper(job, contractor):
    assert status(job, "hazards_cleared") == "unmet"
    with pytest.raises(Refused, match="Not surveyed yet: asbestos, lead"):
        note(job, contractor, "hazards_cleared")
    answer_survey(job, contractor, asbestos="yes")
    assert status(job, "hazards_cleared") == "unmet"
    with pytest.raises(Refused, match="Document: name a document or choose a photo"):
        note(job, contractor, "hazards_cleared", document=" ")
    note(job, contractor, "hazards_cleared", document="Clearance letter 14-2")
    assert status(job, "hazards_cleared") == "met"
    assert "Ines Marlow" in why(job, "hazards_cleared")


def test_no_hazard_in_the_house_clears_itself(job, contractor):
    answer_survey(job, contractor)
    assert status(job, "hazards_cleared") == "met"


def test_services_in_the_way_are_moved_on_record(job, contractor):
    answer_survey(job, contractor, gas="yes", under_slab="unknown")
    assert "under slab" in why(job, "services_cleared")
    answer_survey(job, contractor, gas="yes")
    assert status(job, "services_cleared") == "unmet"
    note(job, contractor, "services_cleared", document="")
    assert status(job, "services_cleared") == "met"


def test_a_record_without_who_or_what_is_refused(job, contractor):
    answer_survey(job, contractor, gas="yes")
    with pytest.raises(Refused, match="Checked by"):
        note(job, contractor, "services_cleared", checked_by=" ")
    with pytest.raises(Refused, match="Evidence"):
        note(job, contractor, "services_cleared", evidence="")
    with pytest.raises(Refused, match="Checked on"):
        note(job, contractor, "services_cleared", checked_on=today() + timedelta(days=1))
    assert not HoldPass.objects.exists()


def test_the_structure_has_to_agree_before_its_points_go_on_record(job, contractor):
    for hold in ("material_matches", "shoring_checked", "members_installed"):
        assert status(job, hold) == "unmet"
        with pytest.raises(Refused, match=HOLD_POINT_BY_NAME[hold].title):
            note(job, contractor, hold)


def test_a_yes_of_the_structure_alone_is_not_a_check(job, contractor, structure_agrees):
    assert status(job, "shoring_checked") == "unmet"
    assert "Nobody has put it on record" in why(job, "shoring_checked")
    note(job, contractor, "shoring_checked")
    assert status(job, "shoring_checked") == "met"


def test_a_record_that_was_wrong_is_set_aside_and_kept(job, contractor, structure_agrees):
    row = note(job, contractor, "shoring_checked")
    hold_pass_set_aside(record=row, actor=contractor, reason="A brace was missing.")
    assert status(job, "shoring_checked") == "unmet"
    assert job.hold_passes.count() == 1
    with pytest.raises(Refused, match="already"):
        hold_pass_set_aside(record=row, actor=contractor, reason="again")


# --- footing ------------------------------------------------------------------------------------------


@pytest.fixture
def inspected(job, contractor):
    """A job whose footing inspection has passed."""
    permit = make_issued_permit(job, contractor, issued=60, submitted=80)
    visit = permit.inspections.get(kind="footing")
    inspection_pass(
        inspection=visit, actor=contractor, version=visit.version, on=ago(40), inspector="Bo Tarn", note=""
    )
    return job


def pour(job, actor, **values):
    given = {"poured_on": ago(10), "cure_days": None, "cure_source": "common_practice"} | values
    return note(job, actor, "footing_cured", **given)


def test_nothing_is_poured_before_the_footing_is_inspected(job, contractor):
    with pytest.raises(Refused, match="before its inspection"):
        pour(job, contractor)


def test_a_footing_cures_for_the_days_of_common_practice(inspected, contractor):
    row = pour(inspected, contractor, poured_on=ago(CURE_DAYS - 1))
    assert row.cure_days == CURE_DAYS
    assert status(inspected, "footing_cured") == "unmet"
    assert "common practice" in why(inspected, "footing_cured")
    row.poured_on = ago(CURE_DAYS)
    row.save()
    assert status(inspected, "footing_cured") == "met"


def test_the_engineers_figure_wins_either_way(inspected, contractor):
    pour(inspected, contractor, poured_on=ago(10))
    assert status(inspected, "footing_cured") == "met"
    design = SealedDesign.objects.create(
        job=inspected, signed_by="Rowan Ashgrove", reference="S-1", dated=ago(50), received_on=ago(49),
        cure_days=14, recorded_by=contractor,
    )  # fmt: skip
    assert status(inspected, "footing_cured") == "unmet"
    assert "14 calendar days (the engineer's figure)" in why(inspected, "footing_cured")
    design.cure_days = 3
    design.save()
    assert status(inspected, "footing_cured") == "met"


@pytest.mark.parametrize(
    ("values", "said"),
    [
        ({"cure_days": CURE_DAYS - 1}, "Curing days: read 6"),
        ({"cure_days": 0, "cure_source": "engineer"}, "Curing days: read 0"),
        ({"cure_days": None, "cure_source": "engineer"}, "Curing days: read nothing"),
        ({"cure_days": 91}, "Curing days: read 91"),
        ({"cure_source": ""}, "Whose figure"),
        ({"poured_on": None}, "Poured on: read nothing"),
        ({"checked_on": ago(11)}, "Checked on"),
        ({"document": ""}, "Document"),
    ],
)
def test_a_pour_that_does_not_add_up_is_refused(inspected, contractor, values, said):
    with pytest.raises(Refused, match=said):
        pour(inspected, contractor, **values)
    assert not HoldPass.objects.exists()


def test_the_database_wants_a_pour_with_its_days(job, contractor):
    with pytest.raises(IntegrityError), transaction.atomic():
        HoldPass.objects.create(
            job=job, hold="footing_cured", checked_by="x", evidence="y", recorded_by=contractor
        )


# --- going back ---------------------------------------------------------------------------------------


def test_going_back_sets_aside_what_lies_behind(job, contractor, structure_agrees):
    note(job, contractor, "shoring_checked")
    answer_survey(job, contractor, gas="yes")
    note(job, contractor, "services_cleared")
    hold_override(job=job, actor=contractor, hold="framing_inspected", reason="The inspector is ill.")
    put(job, "inspection")
    with pytest.raises(Refused, match="written reason"):
        advance(job, contractor, "shoring")
    advance(job, contractor, "shoring", reason="The shores were moved.")
    assert status(job, "shoring_checked") == "unmet"
    assert status(job, "framing_inspected") == "unmet"
    assert status(job, "services_cleared") == "met"
    assert job.overrides.get().set_aside_why == "The job went back to Shoring: The shores were moved."
    assert job.hold_passes.count() == 2


# --- partitions ---------------------------------------------------------------------------------------


def test_a_partition_goes_past_the_structure_and_not_past_hazards(job, contractor):
    clear_wall(job, contractor)
    decision_record(job=job, actor=contractor, decision="not_bearing", reason="Seen all of it.")
    with pytest.raises(Refused, match="Hazards and services"):
        advance(job, contractor, "permit")
    answer_survey(job, contractor, asbestos="yes")
    advance(job, contractor, "permit")
    with pytest.raises(Refused, match="Permit issued"):
        advance(job, contractor, "make_ready")
    make_issued_permit(job, contractor)
    advance(job, contractor, "make_ready")
    with pytest.raises(Refused, match="Hazards cleared"):
        advance(job, contractor, "opening")
    note(job, contractor, "hazards_cleared", document="Clearance letter 14-2")
    assert advance(job, contractor, "opening").stage_now is Stage.OPENING
    # A stud with a strap on it turns up: it is no partition any more, and the structure counts again.
    record(job, contractor, seen("bracing", "seen", "this"))
    with pytest.raises(Refused) as refusal:
        advance(job, contractor, "inspection")
    for title in ("Verdict recorded", "Sealed design", "Shoring checked", "Members installed"):
        assert title in refusal.value.sentence


def test_a_bearing_wall_takes_no_short_cut(decided, contractor):
    with pytest.raises(Refused, match="only a wall recorded as not bearing"):
        advance(decided, contractor, "permit")


# --- who, registry, record ----------------------------------------------------------------------------


def test_the_wrong_person_is_refused_by_the_service_itself(
    decided, contractor, project_manager, estimator, crew, stranger, structure_agrees
):
    row = note(decided, contractor, "shoring_checked")
    for person in (estimator, crew, stranger):
        with pytest.raises(PermissionDenied):
            advance(decided, person, "sizing")
        with pytest.raises(PermissionDenied):
            note(decided, person, "services_cleared")
        with pytest.raises(PermissionDenied):
            hold_pass_set_aside(record=row, actor=person, reason="x")
    for person in (project_manager, estimator, crew, stranger):
        with pytest.raises(PermissionDenied):
            hold_override(job=decided, actor=person, hold="permit_issued", reason="x")


def test_every_hold_point_has_somebody_who_answers(monkeypatch):
    assert check_providers() == []
    monkeypatch.setitem(holdpoints._providers, "alarms", [])
    monkeypatch.setitem(holdpoints._providers, "weather", [])
    assert [error.id for error in check_providers()] == ["projects.E001", "projects.E002"]


def test_all_who_answer_have_to_agree(job, monkeypatch):
    def say(*states):
        monkeypatch.setitem(
            holdpoints._providers, "alarms", [holdpoints.Provider(lambda job, s=s: s) for s in states]
        )
        return holdpoints.state_of(job, "alarms")

    assert say(HoldState(True, "a"), HoldState(True, "b")).met
    both = say(HoldState(True, "a"), HoldState(False, "b"))
    assert (both.met, both.why) == (False, "b")
    assert say(HoldState(True, "a"), HoldState(True, "b", needs_record=True)).needs_record
    assert say(HoldState(False, "a"), HoldState(True, "none here", not_needed=True)).not_needed
    assert not say().met


def test_the_record_is_written_once(job, contractor):
    event = event_record(job=job, actor=contractor, verb="test", detail="as it was")
    event.detail = "as it should have been"
    with pytest.raises(AppendOnly):
        event.save()
    with pytest.raises(AppendOnly):
        event.delete()
    with pytest.raises(AppendOnly):
        JobEvent.objects.filter(pk=event.pk).update(detail="x")
    with pytest.raises(AppendOnly):
        JobEvent.objects.all().delete()
    with pytest.raises(AppendOnly):
        JobEvent.objects.bulk_update([event], ["detail"])
    with pytest.raises(AppendOnly):
        job.events.update(detail="x")
    event.refresh_from_db()
    assert (event.detail, event.actor_name) == ("as it was", contractor.display_name)


def test_the_dashboard_line_says_whose_move(job, contractor):
    line = standing_of(job)
    assert line.blocked_by[0].point.name == "verdict_recorded"
    assert line.whose_move == "contractor"
    put(job, "permit")
    decision_record(job=job, actor=contractor, decision="bearing", reason="r")
    answer_survey(job, contractor)
    hold_override(job=job, actor=contractor, hold="sealed_design", reason="Letter is in the post.")
    assert standing_of(job).whose_move == "permit office"
    type(job).objects.filter(pk=job.pk).update(stage_since=timezone.now() - timedelta(days=9, hours=5))
    job.refresh_from_db()
    assert standing_of(job).days_waiting == 9
    put(job, "closed")
    assert standing_of(job).blocked_by == ()
