"""Saving a section: all or nothing, refused with its clause where the rules end."""

from __future__ import annotations

import pytest
from django.core.exceptions import PermissionDenied

from projects.errors import Conflict, Refused
from projects.models import JobEvent
from structure.core.cases.registry import run_case
from structure.errors import OutsideRules
from structure.models import HouseSection, OffsetCheck, PointLoad, SectionLevel
from structure.question import takedown_of
from structure.selectors import level_values, point_values, section_for, section_values
from structure.services.sections import offset_check, section_save
from tests.structure import sections

pytestmark = pytest.mark.django_db

POINT = {"label": "post of the stair header", "case": "live", "value": "1,800 lbf", "at": "5 ft"}
OFFSET = {
    "above_distance": "12 ft 6 in",
    "above_to": "centre",
    "above_thickness": "4 1/2 in",
    "below_distance": "12 ft",
    "below_to": "near_face",
    "below_thickness": "8 in",
    "wall_shift": "-1 in",
    "joist_depth": "9 1/4 in",
    "tolerance": "1/2 in",
    "supports_floor": True,
    "framing": "perpendicular",
}


def nothing_stored():
    return not (
        HouseSection.objects.exists()
        or SectionLevel.objects.exists()
        or PointLoad.objects.exists()
        or JobEvent.objects.filter(verb__startswith="section").exists()
    )


def test_a_section_is_stored_as_it_was_typed(job, contractor):
    section = sections.stored_section(job, contractor, opening="3.66 m", points=[POINT])
    held = section_for(job)
    assert held == section
    typed = sections.section_values(opening="3.66 m")
    assert {name: value for name, value in section_values(held).items() if name in typed} == typed
    assert [row["name"] for row in level_values(held)] == ["Roof", "Attic", "Second floor"]
    assert point_values(held) == [POINT]
    assert JobEvent.objects.filter(job=job, verb="section.saved").count() == 1


def test_saving_again_counts_the_version_up_and_replaces_the_rows(job, contractor):
    first = sections.stored_section(job, contractor, points=[POINT])
    again = section_save(
        job=job,
        actor=contractor,
        values=sections.section_values(opening="10 ft"),
        levels=sections.level_rows("bungalow"),
        expected_version=first.version,
    )
    assert again.pk == first.pk
    assert again.version == 2
    assert [row["name"] for row in level_values(section_for(job))] == ["Roof", "Attic"]
    assert not PointLoad.objects.exists()


def test_somebody_elses_save_in_between_is_a_conflict_and_stores_nothing(job, contractor):
    sections.stored_section(job, contractor)
    with pytest.raises(Conflict):
        section_save(
            job=job,
            actor=contractor,
            values=sections.section_values(opening="9 ft"),
            levels=sections.level_rows(),
            expected_version=7,
        )
    assert section_for(job).opening == "12 ft"


@pytest.mark.parametrize(
    ("changes", "level", "point", "words"),
    [
        (
            {},
            {"left_span": "12"},
            None,
            "Second floor, span on the left: read '12'; accepted is a length with a unit",
        ),
        ({}, {"left_span": "12 ft 18 in"}, None, "less than 12 in after the feet"),
        ({}, {"left_span": "-12 ft"}, None, "Second floor, span on the left: read '-12 ft'"),
        ({}, {"right_span": "0 ft"}, None, "Second floor, span on the right: read '0 ft'"),
        ({}, {"dead": "12"}, None, "Second floor, dead load: read '12'"),
        ({}, {"live": "40"}, None, "Second floor, live load: read '40'"),
        ({}, {"left_support": "continuous"}, None, "continuous on both sides of the wall or on neither"),
        ({}, {"wall_weight": ""}, None, "Second floor, weight of the wall on it"),
        ({}, None, {"at": "12 ft 1 in"}, "accepted is a place on the opening, 0 in to 12 ft"),
        ({}, None, {"at": "-1 ft"}, "post of the stair header, place: read '-1 ft'"),
        ({"opening": "12"}, None, None, "Clear opening: read '12'"),
    ],
)
def test_bad_input_gets_one_sentence_and_stores_nothing(job, contractor, changes, level, point, words):
    levels = sections.level_rows()
    if level:
        levels[-1] = {**levels[-1], **level}
    points = [{**POINT, **point}] if point else []
    with pytest.raises(Refused) as caught:
        section_save(
            job=job, actor=contractor, values=sections.section_values(**changes), levels=levels, points=points
        )
    assert words in caught.value.sentence
    assert caught.value.sentence.count("accepted is") == 1
    assert nothing_stored()


def test_a_span_beyond_the_rules_is_refused_with_its_clause(job, contractor):
    levels = sections.level_rows()
    levels[0]["left_span"] = "40 ft"
    with pytest.raises(OutsideRules) as caught:
        section_save(job=job, actor=contractor, values=sections.section_values(), levels=levels)
    assert caught.value.clause.startswith("IRC 2021")
    assert "40 ft" in caught.value.sentence
    assert nothing_stored()


@pytest.mark.parametrize("opening", ["60 ft", "3 in", "99999999 ft"])
def test_an_opening_beyond_the_rules_is_refused_with_its_clause(job, contractor, opening):
    values = sections.section_values(opening=opening)
    with pytest.raises(
        OutsideRules, match="the clear opening of .* is outside the 0.5 ft to 36 ft"
    ) as caught:
        section_save(job=job, actor=contractor, values=values, levels=sections.level_rows())
    assert caught.value.clause == "IRC 2021 R301.1.3"
    assert nothing_stored()


def test_the_crew_and_strangers_save_no_section(job, crew, stranger):
    for person in (crew, stranger):
        with pytest.raises(PermissionDenied):
            sections.stored_section(job, person)
    assert nothing_stored()


def test_the_takedown_of_a_section_is_the_engines_own_answer(job, contractor):
    section = sections.stored_section(job, contractor)
    answer = takedown_of(section_values(section), level_values(section), point_values(section), "us")
    assert answer["takedown"] == run_case({"kind": "takedown", "code": "us", "given": answer["given"]})
    # By hand: floor 13 ft a side of 12 psf, ceiling 5 psf, roof 15 psf, and a wall of 8 psf 97 in high.
    dead = 13 * (12 + 5 + 15) + 8 * 97 / 12
    assert answer["takedown"]["line"]["dead"]["value"] == pytest.approx(dead)
    assert answer["takedown"]["line"]["live"]["value"] == pytest.approx(13 * (40 + 10))


def test_an_offset_check_keeps_the_engines_answer(job, contractor):
    check = offset_check(job=job, actor=contractor, values=OFFSET)
    assert check.result["offset"]["value"] == pytest.approx(150 - (144 + 4 - 1))
    assert check.result["aligned"] is True
    assert JobEvent.objects.filter(job=job, verb="offset.checked").count() == 1


def test_a_bad_offset_stores_nothing(job, contractor):
    with pytest.raises(Refused, match="read '144'"):
        offset_check(job=job, actor=contractor, values=OFFSET | {"below_distance": "144"})
    assert not OffsetCheck.objects.exists()
