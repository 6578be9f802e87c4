"""Several people move the same job at once: one wins. With the version check off the same race is lost.

Each of them is a process of its own on a database file, because that is how a site runs; the database of the
test session is in memory and can not be shared.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]
PEOPLE = 4

PREPARE = """
import django
django.setup()
from django.core.management import call_command
call_command("migrate", verbosity=0)
from tests.factories import make_company, make_job, make_user
from tests.projects.walls import answer_survey
from projects.services.survey import decision_record
company = make_company("Larkmoor Builders (invented)")
contractor = make_user(company, "contractor")
job = make_job(company)
decision_record(job=job, actor=contractor, decision="bearing", reason="Joists lap on it.")
answer_survey(job, contractor)
"""

RACE = """
import os, pathlib, sys, time, django
django.setup()
from projects.models import Job, User
from projects.services import stages
from projects.errors import Refused
if sys.argv[2] == "unguarded":
    stages.take_version = lambda row, version: None
    # What a program without the check does: decide on the row as it was read.
    stages.job_lock = lambda job: job
job, actor = Job.objects.select_related("property__company").get(), User.objects.get()
version = job.version
# Nobody starts before everybody has read the row, however slow the machine is.
here = pathlib.Path(sys.argv[1])
(here / f"ready-{os.getpid()}").touch()
while len(list(here.glob("ready-*"))) < int(sys.argv[3]):
    time.sleep(0.01)
try:
    stages.job_advance(job=job, actor=actor, to="sizing", version=version)
    print("moved")
except Refused as refusal:
    print(type(refusal).__name__)
"""


def environment(folder: Path) -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    return kept | {
        "CARRYDOWN_TEST_VAR": str(folder),
        "DJANGO_SETTINGS_MODULE": "projects.config.settings.test",
        "PYTHONPATH": str(ROOT),
    }


def race(folder: Path, how: str) -> list[str]:
    """Everybody starts at the same moment; what each was told."""
    subprocess.run([sys.executable, "-c", PREPARE], cwd=ROOT, env=environment(folder), check=True)
    running = [
        subprocess.Popen(
            [sys.executable, "-c", RACE, str(folder), how, str(PEOPLE)],
            cwd=ROOT, env=environment(folder), stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
        )
        for _ in range(PEOPLE)
    ]  # fmt: skip
    told = []
    for process in running:
        out, err = process.communicate(timeout=60)
        assert process.returncode == 0, err
        told.append(out.strip())
    return told


def moves_on_record(folder: Path) -> int:
    count = (
        "import django, json; django.setup(); from projects.models import JobEvent; "
        "print(json.dumps(JobEvent.objects.filter(verb='stage.moved').count()))"
    )
    done = subprocess.run(
        [sys.executable, "-c", count], cwd=ROOT, env=environment(folder), check=True, capture_output=True
    )
    return int(json.loads(done.stdout))


def test_one_wins_and_the_others_are_told(tmp_path):
    told = race(tmp_path, "guarded")
    assert sorted(told) == ["Conflict"] * (PEOPLE - 1) + ["moved"]
    assert moves_on_record(tmp_path) == 1


def test_without_the_check_the_same_race_is_lost(tmp_path):
    """The control: if this fails, the test above proves nothing."""
    assert race(tmp_path, "unguarded").count("moved") > 1
    assert moves_on_record(tmp_path) > 1
