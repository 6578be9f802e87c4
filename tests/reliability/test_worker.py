"""A real worker on a real Redis: the task leaves the process that asks, and its rows are there for all."""

from __future__ import annotations

import os
import subprocess
import sys
import time

import pytest

from projects.config.env import BASE_DIR
from tests.need import require

pytestmark = [pytest.mark.redis, pytest.mark.slow]

STEPS = """
import json, time
import django
django.setup()
from projects.models import BackgroundJob, Permit, PermitNotice
from projects.tasks import look_for_lapsing_permits
from tests.factories import make_company, make_issued_permit, make_job, make_user
company = make_company()
make_issued_permit(make_job(company), make_user(company), issued=160)
handed = look_for_lapsing_permits.delay()
end = time.monotonic() + 60
while time.monotonic() < end and not PermitNotice.objects.exists():
    time.sleep(0.1)
print(json.dumps({"kinds": [notice.kind for notice in PermitNotice.objects.all()]}))
"""


def redis_answers(url: str) -> bool:
    """True when a server is there."""
    import redis

    try:
        server = redis.Redis.from_url(url, socket_connect_timeout=1)
        answered = bool(server.ping())
        server.close()
    except redis.RedisError:
        return False
    return answered


@pytest.fixture
def apart(tmp_path):
    """Settings of a small installation of its own: a database file, and a queue nobody else listens to."""
    url = os.environ.get("REDIS_URL", "")
    require(url, "REDIS_URL is not set")
    require(redis_answers(url), f"no Redis answers at {url}")
    values = os.environ | {
        "DJANGO_SETTINGS_MODULE": "projects.config.settings.dev",
        "CARRYDOWN_VAR": str(tmp_path),
        "DATABASE_URL": f"sqlite:///{tmp_path / 'worker.sqlite3'}",
        "CELERY_QUEUE": f"carrydown-test-{os.getpid()}",
        "REDIS_URL": url,
    }
    subprocess.run([sys.executable, "manage.py", "migrate", "-v0"], cwd=BASE_DIR, env=values, check=True)
    return values


def test_a_worker_takes_the_task_and_writes_the_row(apart, tmp_path):
    log = (tmp_path / "worker.log").open("w")
    worker = subprocess.Popen(
        [sys.executable, "-m", "celery", "-A", "projects.config", "worker", "-c", "1", "-l", "info"],
        cwd=BASE_DIR,
        env=apart,
        stdout=log,
        stderr=subprocess.STDOUT,
    )
    try:
        started = time.monotonic()
        while "ready." not in (tmp_path / "worker.log").read_text() and time.monotonic() - started < 60:
            assert worker.poll() is None, (tmp_path / "worker.log").read_text()
            time.sleep(0.2)
        asked = subprocess.run(
            [sys.executable, "-c", STEPS], cwd=BASE_DIR, env=apart, capture_output=True, text=True, check=True
        )
    finally:
        worker.terminate()
        worker.wait(timeout=60)
        log.close()
    said = (tmp_path / "worker.log").read_text()
    assert '{"kinds": ["lapsing"]}' in asked.stdout, (asked.stdout, said)
    # It was the worker that did it, not the process that asked.
    assert "Task projects.look_for_lapsing_permits" in said
    assert "succeeded" in said
