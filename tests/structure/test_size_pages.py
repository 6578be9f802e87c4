"""Pages of sizes: what they show is what the engine answered, refusals included."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from projects.models import SealedDesign
from structure.marks import sealed_initial
from structure.models import DesignRun, MarkTick, Schedule
from structure.reading import quantity_words, step_line
from structure.results import candidates
from structure.selectors import governing_schedule, schedule_differences
from structure.services.designs import wall_design
from structure.services.schedules import schedule_choose
from structure.templatetags.structure_pages import ratio_words
from tests.structure import sections
from tests.structure.test_section_pages import at, words_of

pytestmark = pytest.mark.django_db
SHAPE = "two_storey_truss"
PAGES = ["options", "members", "load_path", "shoring", "schedule"]


@pytest.fixture
def office(client, contractor):
    client.force_login(contractor)
    return client


@pytest.fixture
def run(job, contractor):
    sections.stored_section(job, contractor, shape=SHAPE)
    return wall_design(job=job, actor=contractor)


def choose(run, job, contractor):
    chosen = next(row for row in candidates(run.results) if row["chosen"])
    return schedule_choose(job=job, actor=contractor, run=run, beam=chosen)


def tidy(text):
    return " ".join(text.split())


@pytest.mark.parametrize("name", PAGES)
def test_before_any_run_each_page_says_what_is_missing(office, job, name):
    words = words_of(office.get(at(name, job)))
    assert "No sizes worked out yet" in words or "No schedule yet" in words
    assert "PRELIMINARY" in words


def test_working_out_and_choosing_leads_from_loads_to_the_schedule(office, job, contractor):
    sections.stored_section(job, contractor, shape=SHAPE)
    answer = office.post(at("design_run", job))
    assert answer.url == at("options", job)
    run = DesignRun.objects.get(job=job)
    beam = next(row for row in candidates(run.results) if row["chosen"])
    answer = office.post(at("choose", job), {"run": run.pk, "beam": beam["key"]})
    assert answer.url == at("schedule", job)
    words = words_of(office.get(answer.url))
    for mark in governing_schedule(job).marks.all():
        assert f"{mark.mark} {mark.get_kind_display()} {mark.title}" in words


def test_the_whole_list_behind_the_comparison_has_every_beam_with_its_words(office, job, run):
    rows = candidates(run.results)
    seen = ""
    for number in range(1, -(-len(rows) // 25) + 1):
        seen += words_of(office.get(at("options", job), {"page": number}))
    for row in rows:
        assert row["label"] in seen
        for reason in row["fails"]:
            assert tidy(reason) in seen


def test_the_comparison_shows_the_best_of_each_family_and_lets_it_be_taken(office, job, contractor):
    sections.stored_section(job, contractor, shape=SHAPE, opening="7 ft")
    wall_design(job=job, actor=contractor)
    page = office.get(at("options", job))
    rows, cards = page.context["options"].rows, page.context["options"].cards
    assert {card.key for card in cards} == {"sawn", "lvl"}
    for card in cards:
        passing = [row for row in rows if row["group"] == card.key and row["passes"]]
        assert (card.tried, card.passing) == (
            sum(row["group"] == card.key for row in rows),
            len(passing),
        )
        for reason, name in (("lightest", "weight"), ("shallowest", "depth")):
            pick = next(pick for pick in card.picks if reason in pick.reasons)
            assert pick.row[name] == pytest.approx(min(row[name] for row in passing))
            assert f'name="beam" value="{pick.row["key"]}"' in page.content.decode()
    assert "cheapest" not in words_of(page), "no price book, no cost"
    drawn = page.content.decode().partition("Beams cut across, at one scale")[2].partition("</svg>")[0]
    for card in cards:
        for pick in card.picks:
            assert pick.row["label"] in drawn


def test_a_family_of_which_nothing_passes_shows_the_nearest_and_why(office, job, contractor):
    sections.stored_section(job, contractor, shape=SHAPE, opening="19 ft")
    run = wall_design(job=job, actor=contractor)
    page = office.get(at("options", job))
    card = next(card for card in page.context["options"].cards if card.key == "sawn")
    assert card.picks == ()
    ratios = [row["ratio"] for row in candidates(run.results) if row["group"] == "sawn"]
    assert card.nearest["ratio"] == min(ratios) > 1
    assert tidy(card.nearest["fails"][0]) in words_of(page)


def test_the_list_is_filtered_without_a_script_and_alone_for_one(office, job, run):
    asked = {"family": "lvl", "answer": "passes", "deepest": "12 in"}
    page = office.get(at("options", job), asked)
    kept = [row.record for row in page.context["table"].rows]
    wanted = [
        row["key"]
        for row in candidates(run.results)
        if row["group"] == "lvl" and row["passes"] and row["depth"] <= 12
    ]
    assert [row["key"] for row in kept] == wanted != []
    part = office.get(at("options", job), asked, headers={"HX-Target": "every-beam"})
    assert part.content.startswith(b'<div id="every-beam"')
    assert b"<html" not in part.content
    bad = office.get(at("options", job), {"deepest": "12"})
    assert "read '12'; accepted is a length with a unit" in words_of(bad).lower().replace("’", "'")


def test_the_members_page_shows_every_check_to_its_last_number(office, job, run):
    words = words_of(office.get(at("members", job)))
    results = run.results
    members = [
        results["beam"]["chosen"],
        *(p["result"] for p in results["posts"]),
        *(f["result"] for f in results["footings"]),
    ]
    checks = [check for member in members for check in member["checks"].values()]
    checks += [each["check"] for each in results["bearing"]]
    assert len(checks) > 20
    for check in checks:
        assert check["clause"] in words
        assert ratio_words(check["ratio"]) in words
        for step in check["steps"]:
            line = step_line(step)
            assert (
                tidy(
                    f"{line['symbol']} = {line['text']} = {line['subst']} = {line['result']} {line['clause']}"
                )
                in words
            )


def test_the_beam_diagram_tells_the_moment_and_shear_of_the_check(office, job, run):
    page = office.get(at("members", job)).content.decode()
    beam = run.results["beam"]["chosen"]
    for value in (beam["moment"]["max"], beam["shear"]["max"]):
        assert f">{quantity_words(value)}</text>" in page.replace("&#x27;", "'")


def test_the_load_path_page_shows_a_missing_link(office, job, contractor):
    sections.stored_section(job, contractor, shape=SHAPE, way="unknown")
    run = wall_design(job=job, actor=contractor)
    words = words_of(office.get(at("load_path", job)))
    missing = [sentence for chain in run.results["loadpath"] for sentence in chain["missing"]]
    assert missing
    for sentence in missing:
        assert tidy(sentence) in words
    assert "link missing" in words


def test_the_shoring_page_has_both_sides_order_cut_list_and_stop_work(office, job, run):
    words = words_of(office.get(at("shoring", job)))
    shoring = run.results["shoring"]
    for side in ("left", "right"):
        assert quantity_words(shoring[side]["line"]) in words
        assert quantity_words(shoring[side]["spacing"]) in words
    for part in ("raising", "lowering", "bracing", "stop_work"):
        for line in shoring[part]:
            assert tidy(line["text"]) in words
    for row in shoring["left"]["cut_list"]:
        assert f"{row['piece']}, {row['size']} {row['count']}" in words


def test_a_refused_run_shows_its_clause_and_reason_on_every_page(office, job, contractor):
    sections.stored_section(job, contractor, shape="three_level", opening="30 ft")
    run = wall_design(job=job, actor=contractor)
    assert run.status == "refused"
    for name in ("options", "members", "load_path", "shoring"):
        words = words_of(office.get(at(name, job)))
        assert tidy(run.results["reason"]) in words
        assert run.results["clause"] in words


def test_a_changed_section_marks_every_page_as_out_of_date(office, job, run, contractor):
    choose(run, job, contractor)
    sections.stored_section(job, contractor, shape=SHAPE, opening="11 ft")
    for name in PAGES:
        assert "Out of date." in words_of(office.get(at(name, job)))


def test_the_crew_ticks_on_the_schedule_page(client, crew, job, run, contractor):
    schedule = choose(run, job, contractor)
    client.force_login(crew)
    mark = schedule.marks.get(mark="B1")
    answer = client.post(reverse("structure:tick", args=[job.pk, mark.pk]), {"kind": "on_site"})
    assert answer.url == at("schedule", job)
    assert MarkTick.objects.get().by == crew
    assert client.post(at("design_run", job)).status_code == 403
    assert client.get(at("sealed", job)).status_code == 403


def sealed_form(schedule, **changes):
    data = {"note": ""}
    for mark in schedule.marks.filter(kind__in=["beam", "post", "footing"]):
        initial = sealed_initial(mark)
        data |= {
            f"{mark.mark}-{name}": value for name, value in initial.items() if value not in ("", False, None)
        }
    return data | changes


def record_seal(job, actor):
    today = timezone.localdate()
    return SealedDesign.objects.create(
        job=job,
        signed_by="An engineer (invented)",
        reference="S-1",
        dated=today,
        received_on=today,
        recorded_by=actor,
    )


def test_sealed_sizes_are_typed_and_shown_against_the_preliminary_ones(office, job, run, contractor):
    schedule = choose(run, job, contractor)
    record_seal(job, contractor)
    assert "its sizes are not entered" in words_of(office.get(at("schedule", job)))
    form = office.get(at("sealed", job))
    assert form.context["forms"][0]["mark"] == "B1"
    answer = office.post(at("sealed", job), sealed_form(schedule, **{"B1-depth": "18 in"}))
    assert answer.status_code == 302
    words = words_of(office.get(at("schedule", job)))
    before = quantity_words({"value": schedule.marks.get(mark="B1").data["depth_in"], "unit": "in"})
    assert f"B1 depth {before} 1'-6\" (457 mm)" in words
    assert governing_schedule(job).source == Schedule.Source.SEALED


def test_a_bad_sealed_size_is_kept_as_typed_and_stores_nothing(office, job, run, contractor):
    schedule = choose(run, job, contractor)
    record_seal(job, contractor)
    page = office.post(at("sealed", job), sealed_form(schedule, **{"B1-depth": "18"}))
    assert "read '18'; accepted is a length with a unit" in words_of(page)
    assert page.context["forms"][0]["form"]["depth"].value() == "18"
    assert governing_schedule(job) == schedule
    top = page.content.decode().partition("<fieldset")[0]
    assert 'B1, <a href="#id_B1-depth">Depth</a>: Read &#x27;18&#x27;' in top


def test_the_extra_post_that_a_browser_posts_empty_is_no_post(office, job, run, contractor):
    schedule = choose(run, job, contractor)
    record_seal(job, contractor)
    extra = {}
    for row in office.get(at("sealed", job)).context["forms"]:
        if row["extra"]:
            extra |= {bound.html_name: bound.value() or "" for bound in row["form"]}
    post = next(name for name in extra if name.endswith("-fastening"))
    extra = {name: value for name, value in extra.items() if not name.endswith("-existing")}
    extra[post] = "nailed"
    answer = office.post(at("sealed", job), sealed_form(schedule, **extra))
    assert answer.status_code == 302
    marks = set(governing_schedule(job).marks.values_list("mark", flat=True))
    assert post.partition("-")[0] not in marks
    assert "family" not in {row["what"] for row in schedule_differences(governing_schedule(job), schedule)}


def test_the_schedule_page_costs_the_same_queries_however_many_ticks(office, job, run, contractor):
    schedule = choose(run, job, contractor)
    with CaptureQueriesContext(connection) as before:
        office.get(at("schedule", job))
    for mark in schedule.marks.exclude(kind="shoring"):
        MarkTick.objects.create(mark=mark, kind="installed", by=contractor)
    with CaptureQueriesContext(connection) as after:
        office.get(at("schedule", job))
    assert len(after) == len(before)
    assert len(before) <= 14


def seal_with(office, job, run, contractor, **changes):
    """Choose, record a seal, and post the sealed form changed as asked; None takes a field out."""
    schedule = choose(run, job, contractor)
    record_seal(job, contractor)
    form = sealed_form(schedule, **changes)
    posted = {name: value for name, value in form.items() if value is not None}
    return schedule, office.post(at("sealed", job), posted)


def test_a_sealed_steel_beam_post_and_a_pad_with_bars_are_kept_and_told_apart(office, job, run, contractor):
    schedule, answer = seal_with(
        office,
        job,
        run,
        contractor,
        **{
            "B1-family": "steel", "B1-label": "W10x22 as S-1", "B1-shape": "w10 x 22", "B1-grade": "A992",
            "P1-family": "steel", "P1-label": "HSS 4x4", "P1-shape": "HSS4x4x1/4", "P1-grade": "A500 Gr C",
            "F1-width": "30 in", "F1-bar": "#4", "F1-bars": "4", "F1-cross_bars": "5",
        },
    )  # fmt: skip
    assert answer.status_code == 302
    marks = {mark.mark: mark for mark in governing_schedule(job).marks.all()}
    beam, post, pad = (marks[name].data for name in ("B1", "P1", "F1"))
    assert (beam["shape"], beam["form"], beam["weight_lb_ft"]) == ("W10x22", "W", pytest.approx(22.0))
    assert beam["depth_in"] == pytest.approx(10.2)
    assert "plies" not in beam
    assert "ply_fasteners" not in beam, "what was counted for another beam does not hold"
    assert (post["form"], post["width_in"]) == ("HSS", 4.0)
    assert (pad["bars"], pad["cross_bars"], pad["cover_in"]) == (4, 5, 3.0)
    assert pad["concrete_in3"] == pytest.approx(pad["side_in"] * 30 * pad["thickness_in"])
    told = {
        (row["mark"], row["what"]): row["sealed"]
        for row in schedule_differences(governing_schedule(job), schedule)
    }
    assert told["B1", "family"] == "steel"
    assert told["B1", "shape"] == "W10x22"
    assert told["P1", "shape"] == "HSS4x4x1/4"
    assert told["F1", "bars"] == 4
    assert not {what for mark, what in told if mark in ("P2", "F2")}
    words = words_of(office.get(at("sealed", job)))
    assert "W10x22 as S-1" in office.get(at("sealed", job)).content.decode()
    assert "Some sizes need another look" not in words


def test_the_same_beam_sealed_keeps_what_the_engine_counted(office, job, run, contractor):
    schedule, answer = seal_with(office, job, run, contractor)
    assert answer.status_code == 302
    before, after = (each.marks.get(mark="B1").data for each in (schedule, governing_schedule(job)))
    assert {name: value for name, value in before.items() if name.startswith("ply_")} == {
        name: value for name, value in after.items() if name.startswith("ply_")
    }
    assert schedule_differences(governing_schedule(job), schedule) == []


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({"B1-family": "steel", "B1-shape": None}, "read nothing; accepted for steel is a shape"),
        ({"B1-family": "steel", "B1-shape": "W9x99"}, "Or give form, weight and depth"),
        ({"B1-family": "flitch", "B1-plates": None}, "accepted for a flitch beam is a whole number"),
        ({"B1-depth": None}, "read nothing; accepted for"),
        ({"F1-bar": "#4"}, "accepted for a pad with bars is a whole number"),
        ({"F1-bar": "#4", "F1-bars": "4", "F1-cover": "40 in"}, "no wider than its cover"),
    ],
)
def test_a_sealed_member_that_lacks_something_says_what(office, job, run, contractor, changes, sentence):
    schedule, page = seal_with(office, job, run, contractor, **changes)
    assert page.status_code == 200
    assert sentence in words_of(page)
    assert governing_schedule(job) == schedule


def test_a_shape_that_no_table_holds_goes_by_its_own_weight(office, job, run, contractor):
    own = {
        "B1-family": "steel",
        "B1-shape": "W9x99",
        "B1-form": "W",
        "B1-weight": "99 lbf/ft",
        "B1-depth": "9 in",
    }
    _, answer = seal_with(office, job, run, contractor, **own)
    assert answer.status_code == 302
    assert governing_schedule(job).marks.get(mark="B1").data["weight_lb_ft"] == pytest.approx(99.0)
