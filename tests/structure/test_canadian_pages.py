"""A Canadian house on the site: metric first, both where the trade has both, typed in either, by its own code."""

from __future__ import annotations

import re
from html import unescape

import pytest
from django.core.exceptions import ValidationError
from django.urls import reverse

from projects.models import Property
from projects.services.places import property_create
from structure.core.cases.registry import run_case
from structure.forms.sealed import SealedBeamForm
from structure.marks import sealed_initial, sealed_mark
from structure.member_pictures import member_pages
from structure.models import DesignRun, HouseSection
from structure.results import candidates
from structure.selectors import governing_schedule, schedule_data, section_for
from structure.services.designs import wall_design
from structure.services.products import product_enter
from structure.services.schedules import schedule_choose
from structure.services.sections import section_save
from structure.shown import metric, shown_in
from tests import factories
from tests.structure import canadian, sections

pytestmark = pytest.mark.django_db
#: An imperial figure. Its pair stands in the same piece of text.
IMPERIAL = re.compile(r"\d\s*(?:lbf|psf|psi|lb|ft2|ft3|yd3|ft|in|gal)\b|\d'-|\d\"")
METRIC = re.compile(r"\d\s*(?:mm|m|m2|m3|kN|kPa|MPa|kg|L)\b")


@pytest.fixture
def office(client, contractor):
    client.force_login(contractor)
    return client


@pytest.fixture
def house(company):
    return canadian.bungalow(company)


def at(name, job):
    return reverse(f"structure:{name}", args=[job.pk])


def texts(response):
    """Pieces of text of a page, one for every element that holds words."""
    page = re.sub(r"<(script|style).*?</\1>", "", response.content.decode(), flags=re.DOTALL)
    page = re.sub(r"</?(?:strong|span|b|em|small)\b[^>]*>", "", page)
    return [unescape(" ".join(piece.split())) for piece in re.sub(r"<[^>]+>", "\0", page).split("\0")]


def test_a_house_takes_the_units_of_its_country_unless_it_says_otherwise(contractor):
    told = {"street": "1 Invented Road", "city": "Birchwater", "year_built": 1980, "notes": ""}
    at_home = property_create(actor=contractor, name="A", region="AB", code="ca", units="", **told)
    south = property_create(actor=contractor, name="B", region="OH", code="us", **told)
    chosen = property_create(actor=contractor, name="C", region="AB", code="ca", units="imperial", **told)
    assert [house.units for house in (at_home, south, chosen)] == ["metric", "imperial", "imperial"]
    assert Property.objects.get(name="A").get_units_display() == "Metric"
    with pytest.raises(ValidationError):
        property_create(actor=contractor, name="D", region="AB", code="ca", units="cubits", **told)


def test_the_form_asks_what_the_canadian_code_asks(office, house):
    form = office.get(at("section", house), {"shape": "bungalow"}).context["form"]
    assert {"rain", "snow_rule", "soil_class", "concrete", "storeys", "building_area"} <= set(form.fields)
    assert not {"exposure", "thermal"} & set(form.fields)
    assert form["opening"].value() == "3.6 m"
    assert form["end_bearing"].value() == "114 mm"
    assert not form["ground_snow"].value()
    assert dict(form.fields["shoring_header"].choices)["2-2x10"] == "2-38x235 (2-2x10)"
    assert ("firm_clay", "firm clay, 75 kPa") in form.fields["soil_class"].choices
    american = office.get(
        at("section", factories.make_job(house.property.company)), {"shape": "bungalow"}
    ).context["form"]
    assert "rain" not in american.fields
    assert "exposure" in american.fields


def test_what_is_typed_in_feet_is_kept_as_typed_and_told_in_metric_first(office, house):
    values = canadian.section_values(opening="12'-6\"", soil="1,600 psf")
    answer = office.post(at("section", house), sections.posted(values, canadian.level_rows()))
    assert answer.status_code == 302
    held = section_for(house)
    assert (held.opening, held.soil) == ("12'-6\"", "1,600 psf")
    pieces = texts(office.get(at("section", house)))
    assert "read as 3.81 m (12'-6\")" in pieces
    assert "read as 76.6 kPa (1,600 psf)" in pieces


def test_metric_typed_on_an_imperial_house_is_told_in_feet_first(office, job, contractor):
    sections.stored_section(job, contractor, opening="3.81 m", soil="75 kPa")
    pieces = texts(office.get(at("section", job)))
    assert "read as 12'-6\" (3.81 m)" in pieces
    assert "read as 1,566 psf (75 kPa)" in pieces
    assert section_for(job).opening == "3.81 m"


def test_the_same_house_typed_in_either_system_gets_the_same_answer(house, contractor):
    canadian.stored_section(house, contractor, opening="3.81 m", stand_off="609.6 mm")
    first = wall_design(job=house, actor=contractor).results["beam"]
    canadian.stored_section(house, contractor, opening="12 ft 6 in", stand_off="2 ft")
    second = wall_design(job=house, actor=contractor).results["beam"]
    assert first["span"]["value"] == pytest.approx(3810 + 114)
    assert [c["ratio"] for c in first["candidates"]] == pytest.approx(
        [c["ratio"] for c in second["candidates"]]
    )


def test_the_section_asks_the_engine_with_snow_and_rain_of_its_code(house, contractor):
    canadian.stored_section(house, contractor)
    case = wall_design(job=house, actor=contractor).inputs["case"]
    assert case["code"] == "ca"
    # By hand, NBC 9.4.2.2.: 0.55 x 1.4 + 0.1 = 0.87 kPa, and never under 1 kPa.
    assert case["given"]["levels"][0]["snow"] == "1.0 kPa"
    assert case["given"]["below"]["stated"]["capacity"] == "36 kN"
    assert case["given"]["house"] == {"storeys": 1, "building_area": "110 m^2"}
    assert case["given"]["shoring"]["header"]["depth"] == "235 mm"
    assert run_case(case)["status"] == "ok"


def test_a_column_with_a_report_of_its_own_brings_its_capacity(office, house, contractor):
    values = canadian.section_values(stated_capacity="50 kN")
    page = office.post(at("section", house), sections.posted(values, canadian.level_rows()))
    assert "stated_source" in page.context["form"].errors
    assert not HouseSection.objects.exists()
    canadian.stored_section(
        house, contractor, stated_capacity="50 kN", stated_source="report of an invented maker"
    )
    stated = wall_design(job=house, actor=contractor).inputs["case"]["given"]["below"]["stated"]
    assert (stated["capacity"], stated["source"]) == ("50 kN", "report of an invented maker")


@pytest.fixture
def chosen(house, contractor):
    canadian.stored_section(house, contractor)
    run = wall_design(job=house, actor=contractor)
    assert run.status == DesignRun.Status.OK
    beam = next(row for row in candidates(run.results) if row["chosen"])
    schedule_choose(job=house, actor=contractor, run=run, beam=beam)
    return house


PAGES = ("section", "takedown", "offset", "options", "members", "load_path", "shoring", "schedule")


@pytest.mark.parametrize("name", PAGES)
def test_no_imperial_figure_stands_alone_on_a_page_of_a_metric_house(office, chosen, name):
    pieces = texts(office.get(at(name, chosen)))
    alone = [piece for piece in pieces if IMPERIAL.search(piece) and not METRIC.search(piece)]
    assert alone == []
    assert name == "offset" or any(METRIC.search(piece) for piece in pieces)


def test_the_schedule_keeps_true_sizes_whatever_the_units(chosen):
    data = schedule_data(governing_schedule(chosen))
    run = DesignRun.objects.filter(job=chosen).first()
    held = run.results["beam"]["chosen"]["size"]
    assert data["beam"]["depth_in"] * 25.4 == pytest.approx(held["depth"]["value"])
    assert data["beam"]["length_in"] * 25.4 == pytest.approx(3600 + 2 * 114)
    assert data["code"] == "ca"


def test_a_page_without_a_job_forgets_the_units_of_the_one_before(office, chosen):
    office.get(at("members", chosen))
    assert not metric()


def test_whether_part_9_covers_the_wall_is_told_with_its_clause(office, chosen):
    for name in ("members", "options"):
        words = " ".join(texts(office.get(at(name, chosen))))
        assert "does not cover it: engineer" in words
        assert "NBC 2020 9.17.1.1." in words
        assert "110 m\u00b2" in words


def test_a_pad_shows_what_part_9_asks_beside_the_calculation(house, contractor):
    values = canadian.section_values(soil="", soil_class="firm_clay")
    floor = {
        **canadian.level_rows("two_storey")[2],
        "spacing": "400 mm",
        "wall_height": "",
        "wall_weight": "",
    }
    section_save(job=house, actor=contractor, values=values, levels=[floor])
    run = wall_design(job=house, actor=contractor)
    assert run.inputs["case"]["given"]["soil"]["class"] == "firm_clay"
    assert "allowable" not in run.inputs["case"]["given"]["soil"]
    with shown_in("metric"):
        facts = [dict(member["facts"]) for member in member_pages(run)["members"] if member["mark"] == "F1"]
    held = run.results["footings"][0]["result"]["part9"]
    assert held["clause"] in facts[0]["Side by NBC Part 9"]
    assert facts[0]["Of the two"] == held["warning"]
    assert run.results["scope"]["limits"]["adjustable_column"]["limit"]["value"] == 36


def test_an_american_house_says_nothing_of_part_9(office, job, contractor):
    sections.stored_section(job, contractor)
    wall_design(job=job, actor=contractor)
    assert "Part 9" not in " ".join(texts(office.get(at("members", job))))


def test_a_product_in_hand_is_tried_by_the_specified_strengths_of_its_paper(office, house, contractor):
    canadian.stored_section(house, contractor)
    form = office.get(at("products", house)).context["form"]
    assert form.fields["Fb"].label == "Bending, specified strength f_b"
    values = sections.product_values(
        width="45 mm", depths="241 mm; 302 mm", Fb="35 MPa", Fv="3 MPa", Fc_perp="8 MPa", E="13,800 MPa"
    )
    product_enter(job=house, actor=contractor, values=values)
    run = wall_design(job=house, actor=contractor)
    tried = [row for row in candidates(run.results) if row["family"] == "psl"]
    assert tried
    assert run.inputs["case"]["given"]["search"]["products"][0]["properties"] == {
        "fb": "35 MPa",
        "fv": "3 MPa",
        "fcp": "8 MPa",
        "E": "13,800 MPa",
    }


def test_the_sealed_form_of_a_metric_house_starts_in_metric_and_reads_it_back(chosen):
    mark = governing_schedule(chosen).marks.get(kind="beam")
    with shown_in("metric"):
        typed = sealed_initial(mark)
        again = sealed_mark(mark.mark, mark.kind, typed)
    assert (typed["depth"], typed["ply_width"]) == (f"{mark.data['depth_in'] * 25.4:.0f} mm", "38 mm")
    for name in ("depth_in", "length_in", "ply_width_in"):
        assert again.data[name] == pytest.approx(mark.data[name], abs=1 / 50.8)


def test_a_metric_steel_shape_is_read_from_the_canadian_tables():
    form = SealedBeamForm({"family": "steel", "label": "W200x15", "shape": "W200x15", "length": "4.2 m"})
    assert form.is_valid(), form.errors
    data = sealed_mark("B1", "beam", form.cleaned_data).data
    assert (data["form"], data["shape"]) == ("W", "W200x15")
    assert data["depth_in"] * 25.4 == pytest.approx(200)
    # 15 kg to the metre is 10.08 lb to the foot.
    assert data["weight_lb_ft"] == pytest.approx(15 / 0.45359237 * 0.3048, rel=1e-3)
    assert not SealedBeamForm(
        {"family": "steel", "label": "x", "shape": "W201x15", "length": "4.2 m"}
    ).is_valid()


def test_the_offset_check_of_a_metric_house_starts_in_metric(office, house):
    form = office.get(at("offset", house)).context["form"]
    assert form["joist_depth"].value() == "235 mm"
    data = {
        "above_distance": "3.8 m", "above_to": "centre", "above_thickness": "114 mm",
        "below_distance": "3.6 m", "below_to": "centre", "below_thickness": "114 mm", "wall_shift": "0 mm",
        "joist_depth": "235 mm", "tolerance": "10 mm", "supports_floor": "on", "framing": "perpendicular",
    }  # fmt: skip
    assert office.post(at("offset", house), data).status_code == 302
    page = office.get(at("offset", house))
    assert '200 mm (7 7/8")' in texts(page)
    assert page.context["last"].result["clause"].startswith("NBC 2020 9.23.9.8.")


def test_a_house_not_in_the_units_of_its_code_is_told_what_the_lines_are_in(office, company, chosen):
    told = "Lines of calculation and remarks of the engine are in newtons and millimetres"
    assert told not in " ".join(texts(office.get(at("members", chosen))))
    Property.objects.filter(pk=chosen.property_id).update(units="imperial")
    words = texts(office.get(at("members", chosen)))
    assert told in " ".join(words)
    # The whole beam, clear width and two bearings of 114 mm: feet come first now.
    assert "12'-6 11/16\" (3.83 m)" in words
