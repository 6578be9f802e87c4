"""A job with a schedule to price, and a company with prices."""

from __future__ import annotations

from typing import Any

import pytest

from estimating.models import Estimate, PriceBook
from estimating.services.estimates import estimate_build
from estimating.services.prices import price_book_load
from projects.models import Job, User
from structure.models import DesignRun, HouseSection, Schedule, ScheduleMark
from tests.estimating.samples import book as book_data
from tests.estimating.samples import schedule as schedule_sample

KINDS = {"posts": "post", "footings": "footing", "plates": "plate"}


def make_schedule(job: Job, actor: User, source: str = "preliminary", **changes: Any) -> Schedule:
    """The sample schedule as rows: a run with its wall, and a mark for each member."""
    data = schedule_sample(**changes)
    beam = data["beam"]
    size = {"ply_width": {"value": beam["ply_width_in"], "unit": "in"}, "plies": beam["plies"]}
    tried = [
        {"section": f"{beam['plies']}-ply {depth:g}", "family": "lvl", "grade": beam["grade"], "ratio": 0.9,
         "governing": "bending", "passes": depth > 17, "close": "", "fails": [],
         "size": {**size, "depth": {"value": depth, "unit": "in"}}}
        for depth in (18.0, 16.0, 20.0)
    ]  # fmt: skip
    house = {
        "opening": f"{data['opening_in']} in",
        "wall_length": f"{data['wall']['length_in']} in",
        "ceiling_height": f"{data['wall']['height_in']} in",
        "wall_thickness": f"{data['wall']['thickness_in']} in",
        "below": "basement" if data["slab_cut"] else "crawl",
        "mounting": "flush" if data["flush"] else "dropped",
    }
    run = DesignRun.objects.create(
        job=job, created_by=actor, section_version=1, inputs={"section": house}, core_version="test",
        data_checksum="0" * 64, status=DesignRun.Status.OK,
        results={"status": "ok", "beam": {"candidates": tried, "rafter_tie": data["rafter_tie"]}},
    )  # fmt: skip
    section = {
        "opening": "20 ft",
        "ceiling_height": "8 ft",
        "ground_snow": "25 psf",
        "ground_snow_source": "invented",
    }
    HouseSection.objects.get_or_create(job=job, defaults={**section, "updated_by": actor})
    Schedule.objects.filter(job=job, source=source, current=True).update(current=False)
    made = Schedule.objects.create(job=job, run=run, source=source, chosen_by=actor, section_version=1)
    rows = [("beam", beam)] + [(kind, row) for name, kind in KINDS.items() for row in data[name]]
    rows += [("shoring", row) for row in data["shoring"]["sides"]]
    for kind, row in rows:
        ScheduleMark.objects.create(schedule=made, mark=row["mark"], kind=kind, title=row["mark"], data=row)
    if data["hangers"]:
        hung = {"count": data["hangers"]}
        ScheduleMark.objects.create(schedule=made, mark="H1", kind="hanger", title="Hangers", data=hung)
    return made


@pytest.fixture
def price_book(company) -> PriceBook:
    """The invented book."""
    return price_book_load(company=company, data=book_data())


@pytest.fixture
def schedule(job, contractor) -> Schedule:
    """The sample schedule of the job."""
    return make_schedule(job, contractor)


@pytest.fixture
def estimate(job, estimator, schedule, price_book) -> Estimate:
    """A priced draft."""
    return estimate_build(job=job, actor=estimator)
