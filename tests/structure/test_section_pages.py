"""The section editor, takedown, offset and verification pages."""

from __future__ import annotations

import re
from html import unescape

import pytest
from django.urls import reverse

from structure.families import FAMILIES
from structure.models import HouseSection, SectionLevel
from structure.question import service_total, takedown_of
from structure.reading import quantity_words
from structure.selectors import level_values, point_values, section_for, section_values
from structure.wall_question import wall_case
from tests.structure import sections

pytestmark = pytest.mark.django_db


@pytest.fixture
def office(client, contractor):
    client.force_login(contractor)
    return client


def at(name, job):
    return reverse(f"structure:{name}", args=[job.pk])


def words_of(response):
    text = re.sub(r"<(script|style|desc|title).*?</\1>", " ", response.content.decode(), flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", text)).split())


def test_an_empty_section_offers_shapes_and_guesses_nothing(office, job):
    page = office.get(at("section", job))
    assert page.status_code == 200
    assert "Start from a house shape" in words_of(page)
    assert not page.context["levels"].forms or not page.context["levels"].forms[0].initial
    assert not HouseSection.objects.exists()


def test_a_starting_guess_says_so_fills_the_form_and_stores_nothing(office, job):
    page = office.get(at("section", job), {"shape": "two_storey"})
    words = words_of(page)
    assert "Starting guess. Nothing here was measured yet" in words
    assert page.context["form"]["opening"].value() == "12 ft"
    assert not page.context["form"]["ground_snow"].value()
    assert "read as 12'-0\" (3.66 m)" in words
    assert not HouseSection.objects.exists()


def test_the_form_saves_what_a_phone_posts(office, job):
    data = sections.posted(sections.section_values(opening="11 ft 6 in"), sections.level_rows())
    answer = office.post(at("section", job), data)
    assert answer.status_code == 302
    section = section_for(job)
    assert section.opening == "11 ft 6 in"
    assert [level.name for level in section.levels.all()] == ["Roof", "Attic", "Second floor"]


@pytest.mark.parametrize(
    ("name", "typed", "sentence"),
    [
        ("opening", "12", "clear opening: read '12'; accepted is a length with a unit"),
        (
            "opening",
            "12 ft 18 in",
            "clear opening: read '12 ft 18 in'; accepted is a length with less than 12 in",
        ),
        ("opening", "-12 ft", "clear opening: read '-12 ft'; accepted is"),
        ("opening", "0 ft", "clear opening: read '0 ft'; accepted is"),
        ("levels-2-left_span", "0 ft", "span on the left: read '0 ft'; accepted is"),
        ("levels-2-dead", "boards 2 psf; joists", "Second floor, dead load: read 'boards 2 psf'"),
        ("species", "Oak", "Oak"),
        ("ground_snow", "30", "ground snow: read '30'; accepted is a pressure with a unit"),
    ],
)
def test_bad_input_names_the_field_keeps_what_was_typed_and_stores_nothing(
    office, job, name, typed, sentence
):
    data = sections.posted(sections.section_values(), sections.level_rows()) | {name: typed}
    page = office.post(at("section", job), data)
    assert page.status_code == 200
    words = words_of(page)
    assert sentence.casefold() in words.casefold()
    assert not HouseSection.objects.exists()
    assert not SectionLevel.objects.exists()
    if name != "species":
        form = (
            page.context["form"] if "-" not in name else page.context["levels"].forms[int(name.split("-")[1])]
        )
        assert form[name.rpartition("-")[2]].value() == typed


def test_a_span_beyond_the_rules_is_refused_on_the_page_with_its_clause(office, job):
    levels = sections.level_rows()
    levels[0]["left_span"] = "40 ft"
    page = office.post(at("section", job), sections.posted(sections.section_values(), levels))
    words = words_of(page)
    assert "Outside what the rules here cover (IRC 2021" in words
    assert page.context["levels"].forms[0]["left_span"].value() == "40 ft"
    assert not HouseSection.objects.exists()


def test_a_load_off_the_opening_is_refused(office, job):
    point = {"label": "girder", "case": "dead", "value": "900 lbf", "at": "13 ft"}
    page = office.post(
        at("section", job), sections.posted(sections.section_values(), sections.level_rows(), [point])
    )
    assert "girder, place: read '13 ft'; accepted is a place on the opening, 0 in to 12 ft." in words_of(page)
    assert not HouseSection.objects.exists()


def test_adding_a_level_and_redrawing_store_nothing(office, job):
    data = sections.posted(sections.section_values(), sections.level_rows())
    more = office.post(at("section", job), data | {"action": "add_level"})
    assert len(more.context["levels"].forms) == 4
    drawn = office.post(at("section", job), data | {"action": "draw"})
    assert "<svg" in drawn.content.decode()
    assert not HouseSection.objects.exists()


def test_the_drawing_follows_what_is_typed_without_storing_it(office, job):
    data = sections.posted(sections.section_values(), sections.level_rows())
    part = office.post(at("section_draw", job), data, headers={"HX-Request": "true"})
    assert part.status_code == 200
    assert "<html" not in part.content.decode()
    answer = takedown_of(sections.section_values(), sections.level_rows(), [], "us")["takedown"]
    total = quantity_words({"value": service_total(answer["line"]), "unit": "lbf/ft"})
    assert total in words_of(part)
    bad = office.post(at("section_draw", job), data | {"levels-2-left_span": "12"})
    assert "read '12'; accepted is a length with a unit" in words_of(bad)
    assert not HouseSection.objects.exists()


def test_the_takedown_page_shows_the_engines_numbers_and_every_line(office, job, contractor):
    section = sections.stored_section(job, contractor)
    page = office.get(at("takedown", job))
    words = words_of(page)
    answer = takedown_of(section_values(section), level_values(section), point_values(section), "us")
    for level in answer["takedown"]["by_level"]:
        for held in level["line"].values():
            assert quantity_words(held) in words
        for step in level["steps"]:
            assert step["clause"] in words
    assert quantity_words(answer["snow"]["roof"]) in words
    assert "PRELIMINARY" in words


def test_the_offset_page_answers_draws_and_keeps_a_bad_answer_typed(office, job):
    data = {
        "above_distance": "12 ft 6 in", "above_to": "centre", "above_thickness": "4 1/2 in",
        "below_distance": "12 ft",
        "below_to": "centre", "below_thickness": "4 1/2 in",
        "wall_shift": "0 in", "joist_depth": "9 1/4 in",
        "tolerance": "1/4 in", "supports_floor": "on", "framing": "perpendicular",
    }  # fmt: skip
    bad = office.post(at("offset", job), data | {"below_distance": "144"})
    assert "read '144'; accepted is a length with a unit" in words_of(bad)
    assert bad.context["form"]["below_distance"].value() == "144"
    assert office.post(at("offset", job), data).status_code == 302
    page = office.get(at("offset", job))
    words = words_of(page)
    assert '6" (152 mm)' in words
    assert "Within the code limit yes" in words
    assert "Stacks over the support no" in words
    assert "IRC 2021 R502.4" in words
    assert "<svg" in page.content.decode()


def test_the_crew_reads_but_does_not_save_the_section(client, crew, job, contractor):
    sections.stored_section(job, contractor)
    client.force_login(crew)
    page = client.get(at("section", job))
    assert page.status_code == 200
    assert "Save the section" not in words_of(page)
    data = sections.posted(sections.section_values(opening="9 ft"), sections.level_rows())
    assert client.post(at("section", job), data).status_code == 403
    assert section_for(job).opening == "12 ft"


@pytest.mark.parametrize(
    "name", ["section", "takedown", "offset", "options", "members", "load_path", "shoring", "schedule"]
)
def test_another_companys_job_is_not_there(client, stranger, job, contractor, name):
    sections.stored_section(job, contractor)
    client.force_login(stranger)
    assert client.get(at(name, job)).status_code == 404


@pytest.mark.parametrize("levels", [1, 3])
def test_pages_cost_the_same_queries_with_one_level_and_with_three(
    office, job, contractor, levels, django_assert_max_num_queries
):
    shape = {1: "bungalow_truss", 3: "two_storey"}[levels]
    sections.stored_section(job, contractor, shape=shape)
    with django_assert_max_num_queries(10):
        office.get(at("takedown", job))
    with django_assert_max_num_queries(10):
        office.get(at("section", job))


def test_a_refused_level_is_summed_up_above_the_form_once(office, job):
    levels = sections.level_rows()
    levels[0]["left_span"] = "-10 ft"
    levels[0]["name"] = "Attic floor"
    page = office.post(at("section", job), sections.posted(sections.section_values(), levels))
    top = page.content.decode().partition('<fieldset class="fieldset form--grid">')[0]
    assert "Nothing was saved; what you typed is still here." in top
    assert (
        'Attic floor, <a href="#id_levels-0-left_span">Span on the left</a>: Read &#x27;-10 ft&#x27;' in top
    )
    assert not HouseSection.objects.exists()


def test_an_unknown_species_says_what_was_read_and_what_is_accepted(office, job):
    values = sections.section_values() | {"species": "Oakwood"}
    words = words_of(office.post(at("section", job), sections.posted(values, sections.level_rows())))
    assert "Sawn lumber on hand : Read 'Oakwood'; accepted is one of: SPF, DF-L" in words.replace(
        "hand:", "hand :"
    )
    assert not HouseSection.objects.exists()


def test_a_top_edge_held_at_a_distance_asks_for_the_distance(office, job):
    values = sections.section_values(top_edge="every")
    page = office.post(at("section", job), sections.posted(values, sections.level_rows()))
    assert "ead nothing; accepted is a length with a unit, such as 4 ft" in words_of(page)
    assert not HouseSection.objects.exists()
    values["top_edge_every"] = "4 ft"
    answer = office.post(at("section", job), sections.posted(values, sections.level_rows()))
    assert answer.status_code == 302
    case = wall_case(section_values(section_for(job)), sections.level_rows(), [], "us")
    assert case["given"]["opening"]["bracing"] == "4 ft"


def test_the_form_asks_the_engine_for_what_is_ticked(job, contractor):
    families = [family.key for family in FAMILIES if not family.entered]
    section = sections.stored_section(
        job, contractor, families=families, more_species=["DF-L", "SPF"], pad_kind="bars", post_kind="hss"
    )
    given = wall_case(section_values(section), sections.level_rows(), [], "us")["given"]
    search = given["search"]
    assert search["families"] == ["sawn", "timber", "lvl", "glulam", "flitch", "steel"]
    assert search["steel_forms"] == ["W", "C", "HSS"]
    assert search["species"] == ["SPF", "DF-L"]
    assert given["pad"] == {"reinforcement": {"bar": "#4"}}
    assert given["posts"]["steel"] == "hss"
    plain = sections.stored_section(job, contractor, families=["steel_c"])
    search = wall_case(section_values(plain), sections.level_rows(), [], "us")["given"]["search"]
    assert (search["families"], search["steel_forms"]) == (["steel"], ["C"])
