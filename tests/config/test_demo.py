"""The demo command: from nothing to a priced workbook, and harmless the second time."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from django.core.management import CommandError, call_command
from django.urls import reverse
from openpyxl import load_workbook

from estimating.models import Estimate
from projects.config.demo.scenario import FOLDER
from projects.models import Company, Job, JobEvent, Permit, PermitNotice, User
from projects.standing import decision_of, holds_of, verdict_of
from structure.families import FAMILIES
from structure.models import DesignRun, Schedule
from structure.options_page import options_of
from structure.selectors import governing_schedule, schedule_differences
from tests.security.urls import addresses
from tests.structure.test_canadian_pages import IMPERIAL, METRIC, texts

pytestmark = [pytest.mark.django_db(transaction=True), pytest.mark.slow]


@pytest.fixture
def demo(settings, capsys):
    """Run it once, on settings that allow it."""
    settings.DEBUG = True

    def run():
        call_command("demo", "--once")
        return capsys.readouterr().out

    return run


def job(name):
    return Job.objects.select_related("property__company").get(name=name)


def test_the_demo_tells_the_whole_job(demo):
    said = demo()
    assert Job.objects.count() == 7
    assert {(house.code, house.jobs.count()) for house in Company.objects.get().properties.all()} == {
        ("us", 2),
        ("ca", 1),
    }
    assert Company.objects.get().properties.filter(code="us").count() == 3

    # Two floors and a roof over 20 ft: four plies of laminated veneer lumber are what gets built (common practice).
    kitchen = job("Kitchen wall")
    beam = governing_schedule(kitchen).marks.get(kind="beam")
    assert (beam.data["family"], beam.data["plies"]) == ("lvl", 4)
    run = DesignRun.objects.filter(job=kitchen).first()
    assert run.results["blocks"] == []
    assert run.results["shoring"]["passes"]
    assert "20'-9\"" in said

    # Every family that may be asked for is compared on that wall, each with what decides it.
    cards = {card.key: card for card in options_of(run, User.objects.get(username="mara")).cards}
    assert set(cards) == {family.key for family in FAMILIES}
    for key, card in cards.items():
        rows = [pick.row for pick in card.picks] or [card.nearest]
        assert all(row["governing"] and row["ratio"] is not None for row in rows), key
        assert all(row["cost"] for pick in card.picks for row in [pick.row]), key
    assert {key for key in cards if cards[key].passing} >= {
        "lvl",
        "glulam",
        "steel_w",
        "steel_c",
        "steel_hss",
        "psl",
    }
    for key in ("psl", "lsl"):
        shown = [pick.row for pick in cards[key].picks] or [cards[key].nearest]
        assert all("invented for the demo" in row["entered"] for row in shown)

    # A partition, decided by a named person on evidence that still stands.
    partition = job("Bedroom partition")
    assert verdict_of(partition).outcome == "nothing found that bears"
    assert decision_of(partition).not_bearing
    assert partition.stage == "permit"

    # Conflicting evidence keeps the wall bearing.
    contested = verdict_of(job("Living room wall"))
    assert contested.conflicts
    assert contested.outcome == "treat as bearing"
    assert contested.next_look is not None

    # A permit about to lapse, and a failed inspection that waits for its deficiencies.
    parlour = job("Dining room wall")
    assert PermitNotice.objects.get(permit__job=parlour).kind == "lapsing"
    assert Permit.objects.get(job=parlour).status == "issued"
    rows = {row.source: row for row in Schedule.objects.filter(job=parlour, current=True)}
    told = schedule_differences(rows["sealed"], rows["preliminary"])
    assert {(row["mark"], row["what"]) for row in told} >= {("B1", "plies"), ("P1", "plies"), ("F1", "bars")}
    footing = next(reading for reading in holds_of(parlour) if reading.point.name == "footing_inspected")
    assert not footing.open
    assert "failed" in footing.why

    workbook = Path(next(line for line in said.splitlines() if line.endswith(".xlsx")).rsplit(": ", 1)[1])
    book = load_workbook(workbook, data_only=True)
    assert len(book.sheetnames) >= 5
    assert Estimate.objects.get(job=kitchen).total is not None
    assert f"total {Estimate.objects.get(job=kitchen).total}" in said

    # The Canadian bungalow, in metric from survey to quote, what lies below left to the engineer.
    bungalow = job("Main floor wall")
    assert (bungalow.code, bungalow.units, bungalow.stage) == ("ca", "metric", "engineering")
    assert decision_of(bungalow).decision.decision == "bearing"
    run = DesignRun.objects.filter(job=bungalow).first()
    assert (run.results["blocks"], run.results["refusals"]) == ([], [])
    assert run.results["shoring"]["passes"]
    assert {chain["state"] for chain in run.results["loadpath"]} == {"question"}
    assert all("the beam below: existing" in chain["questions"][0] for chain in run.results["loadpath"])
    assert "4-38x" in governing_schedule(bungalow).marks.get(kind="beam").title
    assert bungalow.engineering_requests.get().sent_on
    quote = Estimate.objects.get(job=bungalow)
    assert (quote.document["missing"], quote.rates["currency"]) == ([], "CAD")
    assert f"Priced workbook of {bungalow} (total {quote.total}, invented prices)" in said
    metric = load_workbook(
        [line for line in said.splitlines() if line.endswith(".xlsx")][1].rsplit(": ", 1)[1], data_only=True
    )
    numbers = [cell.value for sheet in metric for row in sheet.iter_rows() for cell in row]
    assert float(quote.total) in [value for value in numbers if isinstance(value, int | float)]

    people = yaml.safe_load((FOLDER / "company.yaml").read_text(encoding="utf-8"))
    assert "(invented)" in people["name"]
    assert User.objects.get(username="mara").check_password(people["password"])
    assert f"Sign in as mara with the password {people['password']}" in said


def test_no_page_of_the_canadian_job_speaks_in_feet_alone(demo, client):
    demo()
    client.force_login(User.objects.get(username="mara"))
    bungalow = job("Main floor wall")
    alone, walked = {}, 0
    for address in addresses():
        if address.arguments not in (("job_pk",), ("pk",)):
            continue
        url = reverse(address.name, kwargs={address.arguments[0]: bungalow.pk})
        if not url.startswith(f"/jobs/{bungalow.pk}/"):
            continue
        page = client.get(url)
        if page.status_code == 405:  # written to, never shown
            continue
        assert page.status_code == 200, url
        walked += 1
        found = [piece for piece in texts(page) if IMPERIAL.search(piece) and not METRIC.search(piece)]
        alone |= {url: found} if found else {}
    assert alone == {}
    assert walked > 25


def test_running_it_twice_is_harmless(demo):
    demo()
    counts = [
        model.objects.count() for model in (User, Job, JobEvent, DesignRun, Schedule, Estimate, PermitNotice)
    ]
    said = demo()
    assert "was there already" in said
    assert counts == [
        model.objects.count() for model in (User, Job, JobEvent, DesignRun, Schedule, Estimate, PermitNotice)
    ]


def test_it_does_not_run_where_other_people_are(settings):
    settings.DEBUG = False
    with pytest.raises(CommandError, match="development settings only"):
        call_command("demo", "--once")
    assert not User.objects.exists()
