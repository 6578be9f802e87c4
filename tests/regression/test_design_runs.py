"""Design runs that the site stored are asked again: the same engine and values give the same numbers."""

from __future__ import annotations

import pytest
from django.core.management import call_command

from structure.models import DesignRun
from structure.recompute import run_differences
from structure.services.designs import wall_design
from structure.wall_question import core_version, data_checksum
from tests.structure import sections

pytestmark = pytest.mark.django_db


@pytest.mark.slow
@pytest.mark.django_db(transaction=True)
def test_every_run_of_the_demo_comes_out_as_it_was_stored(settings, capsys):
    settings.DEBUG = True
    call_command("demo", "--once")
    runs = list(DesignRun.objects.all())
    assert len(runs) > 3
    assert any(run.status == DesignRun.Status.OK for run in runs)
    for run in runs:
        assert (run.core_version, run.data_checksum) == (core_version(), data_checksum())
        assert run_differences(run) == []
    capsys.readouterr()
    call_command("recompute")
    assert capsys.readouterr().out == f"{len(runs)} runs asked again; 0 differ.\n"


@pytest.fixture
def run(job, contractor):
    sections.stored_section(job, contractor)
    return wall_design(job=job, actor=contractor)


def test_a_number_that_changed_since_is_told_and_the_row_stays(run, capsys):
    held = run.results
    held["beam"]["span"]["value"] *= 1 + 1e-8
    DesignRun.objects.filter(pk=run.pk).update(results=held, core_version="0.0.9")
    run.refresh_from_db()
    assert len(run_differences(run)) == 1
    with pytest.raises(SystemExit):
        call_command("recompute", job=run.job_id)
    said = capsys.readouterr().out
    assert f"run {run.pk} of job {run.job_id}, by engine 0.0.9" in said
    assert "beam.span.value: was" in said
    assert "1 runs asked again; 1 differ." in said
    assert DesignRun.objects.get(pk=run.pk).results == held


def test_a_question_that_is_no_longer_accepted_is_told(run):
    run.inputs["case"]["given"]["opening"] = {"clear_width": "a few steps"}
    assert "no longer accepted" in run_differences(run)[0]
