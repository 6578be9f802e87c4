"""Background work: once asked for, once done, and never lost."""

from datetime import timedelta

import pytest
from django.utils import timezone

from projects.models import BackgroundJob
from projects.services import background
from projects.services.background import background_job_request, background_job_run, background_jobs_requeue

pytestmark = pytest.mark.django_db


class FakeTask:
    """Stands for a shared task: counts calls, or has no broker."""

    class OperationalError(Exception):
        """What the real one raises when no broker answers."""

    def __init__(self):
        self.sent = []
        self.broker = True

    def delay(self, pk):
        if not self.broker:
            raise self.OperationalError("no broker")
        self.sent.append(pk)


TASK = FakeTask()


@pytest.fixture
def task():
    TASK.sent.clear()
    TASK.broker = True
    return TASK


@pytest.fixture
def ask(job, contractor, django_capture_on_commit_callbacks, task):
    def asked(key="workbook:1", **values):
        with django_capture_on_commit_callbacks(execute=True):
            return background_job_request(
                kind="workbook", key=key, task=f"{__name__}.TASK", actor=contractor, job=job, **values
            )

    # This module may be loaded under a name that import_string can not find, so the path is answered here.
    original = background.import_string
    background.import_string = lambda path: TASK
    yield asked
    background.import_string = original


def test_the_same_work_asked_twice_is_one_row(ask, task):
    first, second = ask(), ask()
    assert first.pk == second.pk
    assert task.sent == [first.pk]
    ask("workbook:2")
    assert BackgroundJob.objects.count() == 2


def test_done_once_however_often_it_is_delivered(ask):
    row = ask()
    calls = []

    def work(claimed, report):
        calls.append(claimed.pk)
        report(40)
        assert BackgroundJob.objects.get().percent == 40
        return {"url": "/somewhere/"}

    done = background_job_run(pk=row.pk, work=work)
    assert (done.state, done.percent, done.result, done.attempts) == ("done", 100, {"url": "/somewhere/"}, 1)
    assert background_job_run(pk=row.pk, work=work) is None
    assert calls == [row.pk]


def test_a_failure_keeps_its_reason_and_can_be_tried_again(ask, task):
    row = ask()

    def work(claimed, report):
        raise OSError("disk full")

    failed = background_job_run(pk=row.pk, work=work)
    assert (failed.state, failed.error) == ("failed", "OSError: disk full")
    again = ask()
    assert (again.pk, again.state, again.attempts) == (row.pk, "waiting", 0)
    assert task.sent == [row.pk, row.pk]


def test_without_a_broker_the_row_waits_for_the_sweep(ask, task):
    task.broker = False
    row = ask()
    assert BackgroundJob.objects.get().state == "waiting"
    assert background_jobs_requeue(now=timezone.now()) == []
    task.broker = True
    assert background_jobs_requeue(now=timezone.now() + timedelta(minutes=3)) == [row.pk]
    assert task.sent == [row.pk]


def test_a_dead_worker_is_noticed_and_given_up_after_three_tries(ask):
    row = ask()
    for attempt in (1, 2, 3):
        claimed = background._claim(row.pk, timezone.now())
        assert claimed.attempts == attempt
        background_jobs_requeue(now=timezone.now() + timedelta(minutes=14))
        assert BackgroundJob.objects.get().state == "running"
        background_jobs_requeue(now=timezone.now() + timedelta(minutes=16))
    lost = BackgroundJob.objects.get()
    assert lost.state == "failed"
    assert "silent 3 times" in lost.error


def test_a_worker_thought_dead_does_not_overwrite_its_successor(ask):
    row = ask()

    def slow(claimed, report):
        background_jobs_requeue(now=timezone.now() + timedelta(minutes=16))
        background_job_run(pk=row.pk, work=lambda second, tell: {"by": "second"})
        return {"by": "first"}

    background_job_run(pk=row.pk, work=slow)
    assert BackgroundJob.objects.get().result == {"by": "second"}
