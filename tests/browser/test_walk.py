"""The main job in a real browser: property, job, survey, section, sizes, shoring, quote and its workbook."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path

import openpyxl
import pytest

from tests.browser.conftest import PHONE, WIDE

pytestmark = pytest.mark.browser


def _money(text: str) -> str:
    found = re.search(r"\d[\d,]*\.\d\d", text)
    assert found, f"no amount in {text!r}"
    return found[0].replace(",", "")


def _save(page, button: str) -> None:
    page.get_by_role("button", name=button, exact=True).click()
    page.wait_for_load_state()
    assert page.locator(".form__errors").count() == 0, page.locator(".form__errors").inner_text()


def _finding(page, kind: str, observation: str, **more: str) -> None:
    page.get_by_role("link", name=kind, exact=True).click()
    page.get_by_label(observation, exact=True).check()
    if level := more.get("level"):
        page.get_by_label("Level", exact=True).select_option(label=level)
    page.get_by_label("seen directly", exact=True).check()
    page.get_by_label("Covers the full length of the wall").check()
    page.get_by_label("Seen by").fill("Mara Larkmoor")
    _save(page, "Record the finding")


@pytest.mark.parametrize("size", [WIDE, PHONE], ids=["desk", "phone"])
def test_one_wall_from_property_to_priced_workbook(page_as, size) -> None:
    page = page_as("contractor", size=size)
    name = f"{size['width']} Tamarack Walk"

    page.goto("/properties/new/")
    page.get_by_label("Name", exact=True).fill(name)
    page.get_by_label("Street").fill("Tamarack Walk")
    page.get_by_label("City").fill("Mapleton Flats")
    page.get_by_label("State or province").fill("OH")
    page.get_by_label("Country").select_option(label="United States")
    page.get_by_label("Year built").fill("1964")
    _save(page, "Save the property")

    page.get_by_role("link", name="New job").first.click()
    page.get_by_label("Name", exact=True).fill("Dining wall")
    page.get_by_label("Wall", exact=True).fill("between dining room and kitchen")
    page.get_by_label("Storey", exact=True).fill("ground floor")
    page.get_by_label("Storeys above").select_option(label="1")
    _save(page, "Open the job")
    job = re.search(r"/jobs/(\d+)/", page.url)[1]

    page.goto(f"/jobs/{job}/verdict/")
    assert "treat as bearing" in page.locator("main").inner_text().lower()
    page.goto(f"/jobs/{job}/survey/")
    _finding(page, "Joist or truss direction above", "Run across the wall", level="The floor above")
    page.goto(f"/jobs/{job}/survey/")
    _finding(page, "Joist splice or lap over the wall", "Joists lap or are spliced over the wall")
    page.goto(f"/jobs/{job}/verdict/")
    page.get_by_label("Bearing", exact=True).check()
    page.get_by_label("Reason").fill("Joists of the floor above lap over it.")
    _save(page, "Record the decision")

    page.goto(f"/jobs/{job}/structure/section/?shape=two_storey")
    page.get_by_label("Clear opening").fill("12")
    page.get_by_role("button", name="Save the section").click()
    errors = page.locator(".form__errors").inner_text()
    assert "Clear opening: Read '12'; accepted is" in errors
    assert "12 ft 6 in" in errors, "the sentence says what is accepted"
    assert page.get_by_label("Clear opening").input_value() == "12", "what was typed is kept"
    page.get_by_label("Clear opening").fill("12 ft")
    page.get_by_label("Ground snow", exact=True).fill("25 psf")
    page.get_by_label("Where the ground snow comes from").fill("Invented for the walk")
    page.get_by_label("Under this floor").select_option(label="Crawl space")
    page.get_by_label("Height down there").fill("3 ft")
    page.get_by_label("The load goes on by").select_option(label="A new wood post on a pad of its own")
    page.get_by_label("Solid blocking through the floor is put in").check()
    page.get_by_label("Allowable soil pressure").fill("2000 psf")
    page.get_by_label("Where the soil pressure comes from").fill("Invented for the walk")
    _save(page, "Save the section")
    drawing = page.locator("figure.drawing svg").first
    assert "lbf/ft" in drawing.text_content(), "the loads coming down are written on the section"

    page.goto(f"/jobs/{job}/structure/sizes/")
    page.get_by_role("button", name=re.compile("Work out")).first.click()
    page.wait_for_load_state()
    text = page.locator("main").inner_text()
    assert "PRELIMINARY" in text
    assert page.locator(".pick").count() >= 2, "families are compared"
    assert page.locator("tbody tr").count() >= 20, "the whole catalogue is listed behind them"
    page.get_by_role("button", name=re.compile("^Take ")).first.click()
    page.wait_for_load_state()

    page.goto(f"/jobs/{job}/structure/sizes/members/")
    trace = page.locator("details.trace").filter(has=page.locator(".step")).first
    trace.locator("summary").click()
    assert trace.locator(".step").first.is_visible()
    assert re.search(r"NDS 2018|ASCE|ACI|IRC", trace.inner_text()), "every check names its clause"
    assert page.locator("figure.drawing svg").count() >= 2
    page.goto(f"/jobs/{job}/structure/sizes/shoring/")
    assert re.search(r"shores?", page.locator("main").inner_text(), re.I)

    page.goto(f"/jobs/{job}/estimate/")
    page.get_by_role("button", name="Take off and price").click()
    page.wait_for_load_state()
    total = _money(page.locator("#quote-total").first.inner_text())
    link = page.get_by_role("link", name=re.compile("Download the workbook"))
    if not link.count():
        page.get_by_role("button", name=re.compile("workbook", re.I)).first.click()
        page.wait_for_load_state()
    with page.expect_download() as waiting:
        link.first.click()
    book = openpyxl.load_workbook(BytesIO(Path(waiting.value.path()).read_bytes()), data_only=True)
    quoted = next(iter(book.defined_names["quote_total"].destinations))
    assert f"{book[quoted[0]][quoted[1].replace('$', '')].value:.2f}" == total


def test_a_stage_move_without_its_hold_points_says_which(page_as) -> None:
    page = page_as("contractor")
    page.goto("/")
    page.get_by_role("link", name="Kitchen wall").click()
    page.get_by_role("link", name="Stage", exact=True).first.click()
    before = page.locator("h1").inner_text()
    page.get_by_role("button", name=re.compile("^Move on")).click()
    page.wait_for_load_state()
    assert "ealed design" in page.locator("main").inner_text()
    assert page.locator("h1").inner_text() == before


def test_crew_sees_the_schedule_and_no_prices(page_as) -> None:
    page = page_as("crew", size=PHONE)
    page.goto("/")
    page.get_by_role("link", name="Kitchen wall").click()
    text = page.locator("main").inner_text()
    assert "USD" not in text
    assert "LVL" in text
    assert page.request.get(page.url.rstrip("/") + "/estimate/").status == 403
