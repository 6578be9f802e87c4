"""The verification pages: every row, the filters, one case with its lines, and that the work is done once."""

from __future__ import annotations

import re
from html import unescape

import pytest
from django.core.cache import cache
from django.urls import reverse

from structure import published
from structure.published import published_case, published_rows

pytestmark = pytest.mark.django_db
CASE = """
- {id: asked-here, title: one bay, source: 'memory: w l / 2', kind: statics, code: us,
   given: {spans: [10 ft], loads: [{case: dead, shape: uniform, value: 100 lbf/ft}]},
   expect: [{value: reactions.0.max, equals: 500 lbf}, {value: reactions.1.max, equals: 501 lbf}]}
"""


@pytest.fixture
def office(client, contractor):
    client.force_login(contractor)
    return client


@pytest.fixture
def own_folder(tmp_path, monkeypatch):
    (tmp_path / "own.yaml").write_text(CASE)
    monkeypatch.setattr(published, "FOLDER", tmp_path)
    cache.clear()
    yield tmp_path
    cache.clear()


def words_of(response):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", response.content.decode())).split())


def page_at(office, **asked):
    return office.get(reverse("structure:verification"), asked)


def test_every_row_is_on_one_of_the_pages_with_its_source(office):
    rows = published_rows().rows
    assert len(rows) > 500
    first = page_at(office)
    pages = first.context["page"].paginator.num_pages
    shown = [row for n in range(pages) for row in page_at(office, page=n + 1).context["page"]]
    assert shown == list(rows)
    words = words_of(first)
    for row in first.context["page"].object_list[::20]:
        assert row.id in words
        assert " ".join(row.source.split()) in words
        assert row.computed in words


@pytest.mark.parametrize(
    ("asked", "fits"),
    [
        ({"file": "us-statics"}, lambda row: row.file == "us-statics"),
        (
            {"kind": "beam", "mark": "common practice"},
            lambda r: (r.kind, r.mark) == ("beam", "common practice"),
        ),
        ({"mark": "read"}, lambda row: not row.mark),
        ({"mark": "memory", "code": "us"}, lambda row: (row.mark, row.code) == ("memory", "us")),
        ({"words": "HUD"}, lambda row: "hud" in f"{row.id} {row.title} {row.source} {row.path}".lower()),
        ({"outcome": "met"}, lambda row: row.outcome == "met"),
    ],
)
def test_the_filters_leave_what_fits_and_nothing_else(office, asked, fits):
    page = page_at(office, **asked)
    rows = published_rows().rows
    wanted = [row for row in rows if fits(row)]
    assert 0 < len(wanted) < len(rows)
    assert page.context["kept"] == len(wanted)
    assert list(page.context["page"]) == wanted[: len(page.context["page"])]
    if page.context["page"].has_next():
        key, value = next(iter(asked.items()))
        assert f"{key}={value.replace(' ', '+')}" in page.content.decode()


def test_an_unknown_choice_is_told_and_a_part_is_sent_to_htmx(office):
    page = page_at(office, kind="nonsense")
    assert page.context["kept"] == len(published_rows().rows)
    assert "nonsense is not one of the available choices" in words_of(page)
    part = office.get(reverse("structure:verification"), {"file": "us-snow"}, headers={"HX-Request": "true"})
    assert part.content.decode().lstrip().startswith('<div id="checks"')


@pytest.mark.parametrize("case_id", ["own-post-off-centre", "we-awc-e12a"])
def test_a_case_shows_its_question_its_rows_and_its_lines(office, case_id):
    case, rows = published_case(case_id)
    page = office.get(reverse("structure:verification_case", args=[case_id]))
    words = words_of(page)
    assert " ".join(case["source"].split()) in words
    for row in rows:
        assert row.path in words
        assert row.computed in words
    steps = [step for row in rows for step in row.steps]
    assert steps
    for step in steps:
        assert step["clause"] in words
    assert next(iter(case["given"])) in words


def test_a_case_of_statics_says_that_it_has_no_lines_and_an_unknown_one_is_not_there(office):
    page = office.get(reverse("structure:verification_case", args=["st-simple-udl"]))
    assert "no lines of its own" in words_of(page)
    assert office.get(reverse("structure:verification_case", args=["no-such-case"])).status_code == 404


def test_a_missed_row_is_counted_and_led_to(office, own_folder):
    page = page_at(office)
    assert (page.context["met"], page.context["missed"]) == (1, 1)
    words = words_of(page)
    assert "look at these first" in words
    assert "500 lbf -1 lbf (-0.20%)" in words


def test_the_work_is_done_once_for_the_same_engine_values_and_cases(office, own_folder, monkeypatch):
    first = published_rows()

    def never(*args, **kwargs):
        raise AssertionError("worked out again")

    with monkeypatch.context() as patch:
        patch.setattr(published, "verify_case", never)
        assert published_rows() == first
        patch.setattr(published, "CORE_VERSION", "another")
        with pytest.raises(AssertionError):
            published_rows()
    (own_folder / "own.yaml").write_text(CASE.replace("501 lbf", "500 lbf") + "\n")
    assert published_rows().count("missed") == 0


def test_a_file_that_can_not_be_read_is_told(office, own_folder):
    (own_folder / "own.yaml").write_text("- {id: [")
    for address in (reverse("structure:verification"), reverse("structure:verification_case", args=["x"])):
        page = office.get(address)
        assert page.status_code == 200
        assert "The published cases could not be run." in words_of(page)


def test_looking_costs_no_queries_for_the_rows(office, django_assert_max_num_queries):
    page_at(office)
    with django_assert_max_num_queries(6):
        page_at(office, page=2)
