"""The two probes."""

import pytest
from django.db import DatabaseError

from projects.config import health


def test_alive_says_nothing_about_the_database(client):
    answer = client.get("/healthz")
    assert (answer.status_code, answer.json()) == (200, {"alive": True})


@pytest.mark.django_db
def test_ready_names_each_part(client):
    answer = client.get("/readyz")
    assert answer.status_code == 200
    assert answer.json() == {
        "ready": True,
        "parts": {"database": "ready", "files": "ready", "broker": "ready"},
    }


@pytest.mark.django_db
def test_not_ready_without_a_database_and_without_telling_why(client, monkeypatch):
    class Broken:
        def __init__(self, connection):
            raise DatabaseError("password of role carrydown rejected")

    monkeypatch.setattr(health, "MigrationExecutor", Broken)
    answer = client.get("/readyz")
    assert answer.status_code == 503
    assert answer.json()["parts"]["database"] == "no answer"
    assert "password" not in answer.content.decode()


@pytest.mark.django_db
def test_not_ready_while_migrations_wait(client, monkeypatch):
    class Behind:
        def __init__(self, connection):
            self.loader = self
            self.graph = self

        def leaf_nodes(self):
            return [("projects", "0002")]

        def migration_plan(self, targets):
            return targets

    monkeypatch.setattr(health, "MigrationExecutor", Behind)
    assert client.get("/readyz").json()["parts"]["database"] == "migrations waiting"


@pytest.mark.django_db
def test_not_ready_when_uploads_can_not_be_written(client, settings, tmp_path):
    blocked = tmp_path / "file"
    blocked.write_text("not a folder")
    settings.MEDIA_ROOT = blocked / "media"
    answer = client.get("/readyz")
    assert (answer.status_code, answer.json()["parts"]["files"]) == (503, "not writable")


@pytest.mark.django_db
def test_not_ready_when_redis_is_asked_for_and_silent(client, settings):
    settings.REDIS_URL = "redis://127.0.0.1:1/0"
    settings.CACHES = {
        "default": {"BACKEND": "django.core.cache.backends.redis.RedisCache", "LOCATION": settings.REDIS_URL}
    }
    answer = client.get("/readyz")
    assert (answer.status_code, answer.json()["parts"]["broker"]) == (503, "no answer")


@pytest.mark.parametrize("path", ["/healthz", "/readyz"])
def test_only_read(client, path):
    assert client.post(path).status_code == 405


def test_the_icon_that_browsers_ask_for_is_the_mark(client):
    answer = client.get("/favicon.ico")
    assert answer.status_code == 200
    assert answer.headers["Content-Type"] == "image/svg+xml"
    assert answer.content.startswith(b"<svg")
