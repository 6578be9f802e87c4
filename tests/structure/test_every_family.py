"""A wall that may be carried by any family: each is compared, chosen, shown on every page, and taken off."""

from __future__ import annotations

import pytest

from estimating.core.takeoff import takeoff
from structure.families import FAMILIES
from structure.marks import marks_of, sealed_initial
from structure.options_page import options_of
from structure.results import candidates
from structure.selectors import governing_schedule, latest_run, schedule_data
from structure.services.designs import wall_design
from structure.services.products import product_enter
from structure.services.schedules import schedule_choose
from tests.structure import sections
from tests.structure.test_section_pages import at, words_of

pytestmark = pytest.mark.django_db
GENERIC = [family.key for family in FAMILIES if not family.entered]
PAGES = ["options", "members", "load_path", "shoring", "schedule"]


@pytest.fixture
def run(job, contractor):
    for family in ("psl", "lsl"):
        values = sections.product_values(family=family, name=f"stamped {family}")
        product_enter(job=job, actor=contractor, values=values)
    sections.stored_section(
        job,
        contractor,
        shape="two_storey_truss",
        opening="7 ft",
        families=GENERIC,
        more_species=["DF-L"],
        pad_kind="bars",
    )
    return wall_design(job=job, actor=contractor)


def test_every_family_is_compared_with_its_governing_check(job, run, contractor):
    cards = {card.key: card for card in options_of(run, contractor).cards}
    assert list(cards) == [family.key for family in FAMILIES]
    for card in cards.values():
        assert card.tried
        shown = [pick.row for pick in card.picks] or [card.nearest]
        assert all(row["governing"] and row["ratio"] is not None for row in shown)
    assert sum(card.passing for card in cards.values()) == run.results["beam"]["passing"]


@pytest.mark.parametrize("key", [family.key for family in FAMILIES])
def test_a_beam_of_each_family_goes_from_the_options_to_the_takeoff(client, job, run, contractor, key):
    client.force_login(contractor)
    row = next(row for row in candidates(run.results) if row["group"] == key and row["passes"])
    schedule = schedule_choose(job=job, actor=contractor, run=run, beam=row)
    mark = schedule.marks.get(mark="B1")
    assert mark.data["label"] == row["label"]
    chosen = latest_run(job)
    assert chosen.results["beam"]["chosen"]["section"] == row["label"]
    assert chosen.results["beam"]["chosen"]["ratio"] == pytest.approx(row["ratio"], rel=1e-9)
    for name in PAGES:
        page = client.get(at(name, job))
        assert page.status_code == 200
        if name in ("options", "members", "schedule"):
            assert row["label"] in words_of(page)
    taken = takeoff(schedule_data(governing_schedule(job)))
    own = [line for line in taken.lines if "B1" in line.marks and line.cost_code in ("05-20", "06-10")]
    assert any(line.kind == "material" for line in own)
    assert any(line.code == "rebar-no4" for line in taken.lines), "pads with bars"
    assert sealed_initial(mark)["label"] == row["label"]


def test_runs_from_before_sections_said_how_they_are_written_still_read(job, run):
    results = dict(run.results)
    old = {**results["beam"], "chosen": dict(results["beam"]["chosen"])}
    lvl = next(row for row in results["beam"]["candidates"] if row["family"] == "lvl")
    plain = {k: v for k, v in lvl.items() if k != "given"}
    size = {k: lvl["size"][k] for k in ("plies", "ply_width", "width", "depth", "area", "inertia")}
    old["candidates"] = [{**plain, "size": size}]
    member = {k: v for k, v in old["chosen"]["member"].items() if k not in ("given", "size")}
    old["chosen"]["member"] = member
    for name in ("fastening", "hangers_data", "carry"):
        old.pop(name, None)
    results["beam"] = old
    (row,) = candidates(results)
    assert row["given"]["family"] == "lvl"
    assert row["weight"] is None
    marks = marks_of(results, run.inputs)
    assert marks[0].data["label"] == member["label"]


@pytest.mark.parametrize("kind", ["pipe", "hss"])
def test_a_wall_on_steel_posts_goes_to_the_takeoff(client, job, contractor, kind):
    client.force_login(contractor)
    changes = {"shape": "two_storey_truss", "opening": "7 ft", "post_kind": kind, "below": "slab"}
    sections.stored_section(job, contractor, **changes)
    run = wall_design(job=job, actor=contractor)
    row = next(row for row in candidates(run.results) if row["chosen"])
    schedule = schedule_choose(job=job, actor=contractor, run=run, beam=row)
    post = schedule.marks.get(mark="P1").data
    assert post["family"] == "steel"
    assert len(post["bearing_plates"]) == 1
    for name in PAGES:
        page = client.get(at(name, job))
        assert page.status_code == 200
    assert post["label"] in words_of(client.get(at("members", job)))
    lines = {line.code: line for line in takeoff(schedule_data(governing_schedule(job))).lines}
    assert lines["steel-pipe" if kind == "pipe" else "steel-hss"].marks[0] in ("P1", "P2")
    assert "post-base" not in lines
