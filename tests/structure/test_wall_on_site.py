"""Runs, schedules, ticks and hold points: what the engine said is what is kept, chosen, sealed and ticked."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.core.exceptions import PermissionDenied
from django.utils import timezone

from estimating.core.schedule import read_schedule
from projects.errors import Refused
from projects.models import JobEvent, SealedDesign
from structure import holdpoints
from structure.core.cases.registry import run_case
from structure.core.version import CORE_VERSION
from structure.data.loader import data_checksum
from structure.diagrams import words
from structure.engineering_package import sizes_obstacles
from structure.marks import Mark, sealed_initial, sealed_mark
from structure.models import DesignRun, MarkTick, Schedule
from structure.results import candidates
from structure.selectors import (
    governing_schedule,
    latest_run,
    run_is_stale,
    schedule_data,
    schedule_differences,
    schedule_is_stale,
)
from structure.services.designs import wall_design
from structure.services.schedules import schedule_choose, schedule_seal
from structure.services.sections import section_save
from structure.services.site import mark_tick
from tests.structure import sections

pytestmark = pytest.mark.django_db

# Trusses that span clear leave nothing on the joists' ends: a floor that a plain shoring wall can hold.
SHAPE = "two_storey_truss"


@pytest.fixture
def run(job, contractor):
    sections.stored_section(job, contractor, shape=SHAPE)
    return wall_design(job=job, actor=contractor)


def chosen_of(run):
    return next(row for row in candidates(run.results) if row["chosen"])


@pytest.fixture
def schedule(run, job, contractor):
    return schedule_choose(job=job, actor=contractor, run=run, beam=chosen_of(run))


def sealed_design(job, actor):
    today = timezone.localdate()
    return SealedDesign.objects.create(
        job=job,
        signed_by="An engineer (invented)",
        reference="S-1",
        dated=today - timedelta(days=3),
        received_on=today,
        recorded_by=actor,
    )


def sealed_marks(schedule, **beam_changes):
    """The stored members typed back in, the beam with changes."""
    marks = []
    for stored in schedule.marks.all():
        if stored.kind in ("beam", "post", "footing"):
            typed = sealed_initial(stored) | (beam_changes if stored.kind == "beam" else {})
            marks.append(sealed_mark(stored.mark, stored.kind, typed))
    return marks


def test_a_run_keeps_the_engines_answer_with_what_made_it(run, job):
    assert run.status == DesignRun.Status.OK
    assert run.results == run_case(run.inputs["case"])
    assert (run.core_version, run.data_checksum) == (CORE_VERSION, data_checksum())
    assert run.inputs["section"]["opening"] == "12 ft"
    assert latest_run(job) == run
    assert not run_is_stale(run)
    assert JobEvent.objects.filter(job=job, verb="design.run").count() == 1


def test_a_run_is_never_changed_and_never_deleted(run):
    with pytest.raises(TypeError, match="never changed"):
        run.save()
    with pytest.raises(TypeError, match="never deleted"):
        run.delete()


def test_a_section_saved_after_the_run_makes_it_out_of_date(run, job, contractor):
    section_save(
        job=job,
        actor=contractor,
        values=sections.section_values(opening="10 ft"),
        levels=sections.level_rows(SHAPE),
    )
    assert run_is_stale(run)
    with pytest.raises(Refused, match="changed after these sizes"):
        schedule_choose(job=job, actor=contractor, run=run, beam=chosen_of(run))
    assert not Schedule.objects.exists()


def test_without_a_section_nothing_is_sized(job, contractor):
    with pytest.raises(Refused, match="no house section"):
        wall_design(job=job, actor=contractor)
    assert not DesignRun.objects.exists()


def test_an_opening_that_no_stock_beam_spans_is_a_refusal_that_is_kept(job, contractor):
    sections.stored_section(job, contractor, shape="three_level", opening="30 ft")
    run = wall_design(job=job, actor=contractor)
    assert run.status == DesignRun.Status.REFUSED
    assert run.results["reason"]
    assert run.results["clause"]
    with pytest.raises(Refused, match="is a refusal"):
        schedule_choose(job=job, actor=contractor, run=run, beam=candidates(run.results)[0])


def test_every_candidate_says_how_close_it_is_or_why_it_fails(run):
    rows = candidates(run.results)
    assert len(rows) == len(run.results["beam"]["candidates"])
    passing = [row for row in rows if row["passes"]]
    assert rows[: len(passing)] == passing
    assert all(row["close"] if row["passes"] else row["fails"] for row in rows)
    assert sum(row["chosen"] for row in rows) == 1


def test_the_two_storey_wall_opened_twenty_feet_takes_four_plies(job, contractor):
    """Common practice: a wall under two storeys and a roof, opened about 20 ft, gets a four-ply LVL beam."""
    sections.stored_section(job, contractor, opening="20 ft", headroom="6 ft 6 in")
    rows = candidates(wall_design(job=job, actor=contractor).results)
    assert {(row["family"], row["plies"]) for row in rows if row["passes"]} == {("lvl", 4)}


def test_a_schedule_has_the_members_of_the_run_as_the_takeoff_reads_them(schedule, run):
    held = governing_schedule(schedule.job)
    assert held == schedule
    read = read_schedule(schedule_data(held))
    beam = run.results["beam"]
    assert read.beam.length == pytest.approx(beam["length"]["value"])
    assert read.beam.section.depth == beam["chosen"]["member"]["depth"]["value"]
    assert [post.mark for post in read.posts] == [post["mark"] for post in run.results["posts"]]
    assert [pad.side for pad in read.footings] == [
        f["result"]["side"]["value"] for f in run.results["footings"]
    ]
    assert [side.shores for side in read.shoring] == [
        run.results["shoring"][s]["shores"] for s in ("left", "right")
    ]
    assert read.opening == 144
    assert not read.slab_cut


def test_another_candidate_gets_a_run_of_its_own(run, job, contractor):
    other = next(row for row in candidates(run.results) if row["passes"] and not row["chosen"])
    schedule = schedule_choose(job=job, actor=contractor, run=run, beam=other)
    assert schedule.run_id != run.pk
    assert schedule.run.results["beam"]["chosen"]["section"] == other["label"]
    assert schedule.marks.get(mark="B1").data["label"] == other["label"]


def test_a_beam_that_fails_is_not_chosen(run, job, contractor):
    failing = next(row for row in candidates(run.results) if not row["passes"])
    with pytest.raises(Refused, match="does not pass"):
        schedule_choose(job=job, actor=contractor, run=run, beam=failing)
    assert not Schedule.objects.exists()


def test_choosing_again_leaves_one_current_schedule(schedule, run, job, contractor):
    again = schedule_choose(job=job, actor=contractor, run=run, beam=chosen_of(run))
    assert list(Schedule.objects.filter(job=job, current=True)) == [again]
    assert Schedule.objects.filter(job=job).count() == 2


def test_the_sealed_sizes_govern_and_are_told_line_by_line(schedule, job, contractor):
    design = sealed_design(job, contractor)
    marks = sealed_marks(schedule, plies=3, depth="18 in")
    sealed = schedule_seal(job=job, actor=contractor, sealed_design=design, marks=marks)
    held = governing_schedule(job)
    assert held == sealed
    before = schedule.marks.get(mark="B1").data
    rows = {(row["mark"], row["what"]): row for row in schedule_differences(held, schedule)}
    assert before["plies"] != 3
    assert set(rows) == {("B1", "plies"), ("B1", "depth")}
    assert rows["B1", "depth"]["preliminary"] == words.length(before["depth_in"], "us")
    assert rows["B1", "depth"]["sealed"] == "1'-6\" (457 mm)"
    assert (rows["B1", "plies"]["preliminary"], rows["B1", "plies"]["sealed"]) == (before["plies"], 3)
    # Shoring and plates are not the seal's: they stay as the plan has them.
    assert {m.mark for m in held.marks.all()} == {m.mark for m in schedule.marks.all()}


@pytest.mark.parametrize("beams", [0, 2])
def test_a_sealed_schedule_has_one_beam(schedule, job, contractor, beams):
    design = sealed_design(job, contractor)
    others = [mark for mark in sealed_marks(schedule) if mark.kind != "beam"]
    beam = next(mark for mark in sealed_marks(schedule) if mark.kind == "beam")
    marks = [*others, *(Mark(f"B{n + 1}", "beam", beam.title, beam.data) for n in range(beams))]
    with pytest.raises(Refused, match="exactly one beam"):
        schedule_seal(job=job, actor=contractor, sealed_design=design, marks=marks)
    assert governing_schedule(job) == schedule


def test_the_engineers_shoring_replaces_the_plan_and_is_not_measured(schedule, job, contractor):
    design = sealed_design(job, contractor)
    shoring = sealed_mark("S1", "shoring", {"label": "Needles as on sheet S-4"})
    sealed = schedule_seal(
        job=job, actor=contractor, sealed_design=design, marks=[*sealed_marks(schedule), shoring]
    )
    data = schedule_data(sealed)
    assert data["shoring"]["sides"] == []
    assert data["not_measured"] == ["S1 Needles as on sheet S-4"]


def test_who_may_not_design_choose_seal_or_tick(run, schedule, job, crew, estimator, stranger, contractor):
    for person in (crew, stranger):
        with pytest.raises(PermissionDenied):
            wall_design(job=job, actor=person)
        with pytest.raises(PermissionDenied):
            schedule_choose(job=job, actor=person, run=run, beam=chosen_of(run))
    with pytest.raises(PermissionDenied):
        schedule_seal(job=job, actor=estimator, sealed_design=sealed_design(job, contractor), marks=[])
    for person in (estimator, stranger):
        with pytest.raises(PermissionDenied):
            mark_tick(mark=schedule.marks.get(mark="B1"), actor=person, kind="on_site")
    assert not MarkTick.objects.exists()


def tick_all(schedule, actor, kinds, tick):
    for mark in schedule.marks.filter(kind__in=kinds):
        mark_tick(mark=mark, actor=actor, kind=tick)


def test_material_is_met_when_every_member_is_ticked_as_on_site(schedule, job, crew):
    assert not holdpoints.material_matches(job).met
    assert "B1" in holdpoints.material_matches(job).why
    tick_all(schedule, crew, ["beam", "post", "plate"], "on_site")
    state = holdpoints.material_matches(fresh(job))
    assert state.met
    assert state.needs_record


def test_shoring_is_met_only_for_the_plan_that_is_current(schedule, job, crew, contractor):
    assert not holdpoints.shoring_checked(job).met
    tick_all(schedule, crew, ["shoring"], "built")
    assert holdpoints.shoring_checked(fresh(job)).met
    section_save(
        job=job,
        actor=contractor,
        values=sections.section_values(opening="10 ft"),
        levels=sections.level_rows(SHAPE),
    )
    assert schedule_is_stale(schedule)
    state = holdpoints.shoring_checked(fresh(job))
    assert not state.met
    assert "not current" in state.why
    other = schedule.marks.get(mark="S1")
    MarkTick.objects.all().delete()
    with pytest.raises(Refused, match="changed after this shoring plan"):
        mark_tick(mark=other, actor=crew, kind="built")


def test_a_shoring_plan_that_fails_is_neither_ticked_nor_met(job, contractor, crew):
    sections.stored_section(job, contractor)
    run = wall_design(job=job, actor=contractor)
    assert not run.results["shoring"]["passes"]
    schedule = schedule_choose(job=job, actor=contractor, run=run, beam=chosen_of(run))
    walls = schedule.marks.filter(kind="shoring")
    assert walls
    with pytest.raises(Refused, match="does not pass its checks"):
        mark_tick(mark=walls[0], actor=crew, kind="built")
    state = holdpoints.shoring_checked(job)
    assert not state.met
    assert "does not pass" in state.why


def test_members_are_met_when_every_one_is_ticked_as_installed(schedule, job, crew):
    tick_all(schedule, crew, ["beam", "post", "plate"], "installed")
    assert holdpoints.members_installed(fresh(job)).why == "Not ticked as installed: F1, F2."
    tick_all(schedule, crew, ["footing"], "installed")
    assert holdpoints.members_installed(fresh(job)).met


def test_a_sealed_design_whose_sizes_are_not_entered_stops_material_and_members(
    schedule, job, crew, contractor
):
    tick_all(schedule, crew, ["beam", "post", "plate", "footing"], "installed")
    tick_all(schedule, crew, ["beam", "post", "plate"], "on_site")
    sealed_design(job, contractor)
    for check in (holdpoints.material_matches, holdpoints.members_installed, holdpoints.shoring_checked):
        state = check(fresh(job))
        assert not state.met
        assert "not entered as the governing schedule" in state.why


def test_a_new_schedule_starts_without_ticks(schedule, run, job, crew, contractor):
    tick_all(schedule, crew, ["beam"], "on_site")
    again = schedule_choose(job=job, actor=contractor, run=run, beam=chosen_of(run))
    assert not MarkTick.objects.filter(mark__schedule=again).exists()
    with pytest.raises(Refused, match="no longer governs"):
        mark_tick(mark=schedule.marks.get(mark="P1"), actor=crew, kind="on_site")


@pytest.mark.parametrize(("mark", "kind"), [("B1", "built"), ("S1", "on_site"), ("B1", "nonsense")])
def test_a_tick_of_the_wrong_kind_is_refused(schedule, crew, mark, kind):
    with pytest.raises(Refused):
        mark_tick(mark=schedule.marks.get(mark=mark), actor=crew, kind=kind)
    assert not MarkTick.objects.exists()


def test_a_second_tick_is_refused(schedule, crew):
    mark_tick(mark=schedule.marks.get(mark="B1"), actor=crew, kind="on_site")
    with pytest.raises(Refused, match="ticked already"):
        mark_tick(mark=schedule.marks.get(mark="B1"), actor=crew, kind="on_site")
    assert MarkTick.objects.count() == 1


def test_a_missing_link_blocks_the_package_for_the_engineer(job, contractor):
    sections.stored_section(job, contractor, shape=SHAPE, way="unknown")
    run = wall_design(job=job, actor=contractor)
    missing = [sentence for chain in run.results["loadpath"] for sentence in chain["missing"]]
    assert missing
    assert sizes_obstacles(job) == missing


def fresh(job):
    """The job as another request reads it."""
    return type(job).objects.get(pk=job.pk)
