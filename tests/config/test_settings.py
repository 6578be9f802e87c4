"""Settings: production refuses what is weak, the check for deployment is clean, SQLite is set up to last."""

import os
import secrets
import subprocess
import sys

import pytest
from django.conf import settings
from django.db import connection

from projects.config.env import BASE_DIR

GOOD = {
    "DJANGO_SETTINGS_MODULE": "projects.config.settings.prod",
    "SECRET_KEY": secrets.token_urlsafe(64),
    "ALLOWED_HOSTS": "carrydown.example.org",
}


def manage(tmp_path, *words, **changes):
    """Run a command in a process of its own with nothing but these variables."""
    values = GOOD | {"CARRYDOWN_VAR": str(tmp_path / "var"), "PATH": os.environ["PATH"]} | changes
    kept = {name: value for name, value in values.items() if value is not None}
    return subprocess.run(
        [sys.executable, "manage.py", *words],
        cwd=BASE_DIR,
        env=kept,
        capture_output=True,
        text=True,
        check=False,
    )


def test_the_check_for_deployment_is_clean(tmp_path):
    done = manage(tmp_path, "check", "--deploy", "--fail-level", "WARNING")
    assert done.returncode == 0, done.stderr
    assert "no issues" in done.stdout


@pytest.mark.parametrize(
    ("changes", "named"),
    [
        ({"SECRET_KEY": None}, "SECRET_KEY"),
        ({"SECRET_KEY": "short"}, "SECRET_KEY"),
        ({"SECRET_KEY": "a" * 80}, "SECRET_KEY"),
        ({"SECRET_KEY": "insecure-" + secrets.token_urlsafe(64)}, "SECRET_KEY"),
        ({"ALLOWED_HOSTS": None}, "ALLOWED_HOSTS"),
        ({"ALLOWED_HOSTS": "*"}, "ALLOWED_HOSTS"),
        ({"CARRYDOWN_VAR": None}, "CARRYDOWN_VAR"),
        ({"CARRYDOWN_VAR": "here"}, "CARRYDOWN_VAR"),
        ({"DEBUG": "1"}, "DEBUG"),
    ],
)
def test_production_does_not_start_on_a_weak_value(tmp_path, changes, named):
    done = manage(tmp_path, "check", **changes)
    assert done.returncode != 0
    assert f"Carrydown does not start: {named}" in done.stderr


def test_production_names_everything_that_is_wrong_at_once(tmp_path):
    done = manage(tmp_path, "check", SECRET_KEY=None, ALLOWED_HOSTS=None, CARRYDOWN_VAR=None)
    for name in ("SECRET_KEY", "ALLOWED_HOSTS", "CARRYDOWN_VAR"):
        assert name in done.stderr


def test_cookies_and_transport_in_production(tmp_path):
    shown = manage(
        tmp_path,
        "shell",
        "-c",
        "from django.conf import settings as s; print(s.DEBUG, s.SECURE_SSL_REDIRECT, s.SESSION_COOKIE_NAME, "
        "s.CSRF_COOKIE_NAME, s.SESSION_COOKIE_SECURE, s.SECURE_PROXY_SSL_HEADER)",
    )
    assert "False True __Host-sessionid __Host-csrftoken True None" in shown.stdout, shown.stderr


def test_with_redis_tasks_leave_the_web_process(tmp_path):
    script = (
        "from django.conf import settings as s; from projects.config import celery_app as a; "
        "print(s.CELERY_TASK_ALWAYS_EAGER, a.conf.task_always_eager, a.conf.task_acks_late, "
        "a.conf.task_reject_on_worker_lost, a.conf.worker_prefetch_multiplier, a.conf.broker_url)"
    )
    alone = manage(tmp_path, "shell", "-c", script)
    assert "True True True True 1 memory://localhost" in alone.stdout, alone.stderr
    # Nothing connects to the address: it is only read.
    apart = manage(tmp_path, "shell", "-c", script, REDIS_URL="redis://127.0.0.1:1/0")
    assert "False False True True 1 redis://127.0.0.1:1/0" in apart.stdout, apart.stderr
    assert settings.CELERY_BROKER_TRANSPORT_OPTIONS["visibility_timeout"] > settings.CELERY_TASK_TIME_LIMIT


def test_no_source_of_scripts_or_styles_but_our_own():
    for directive, sources in settings.CONTENT_SECURITY_POLICY["DIRECTIVES"].items():
        assert not any("unsafe" in source or "*" in source or "http" in source for source in sources), (
            directive
        )


@pytest.mark.django_db
def test_sqlite_keeps_what_it_acknowledged():
    if connection.vendor != "sqlite":
        assert connection.vendor == "postgresql"
        return
    assert connection.transaction_mode == "IMMEDIATE"
    with connection.cursor() as cursor:
        assert cursor.execute("PRAGMA synchronous").fetchone() == (2,)
        assert cursor.execute("PRAGMA foreign_keys").fetchone() == (1,)
