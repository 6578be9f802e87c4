"""Two probes: is the process alive, and can it do its work."""

import tempfile

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.core.cache import cache
from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor
from django.http import HttpRequest, JsonResponse
from django.views.decorators.http import require_safe


@login_not_required
@require_safe
def healthz(request: HttpRequest) -> JsonResponse:
    """The process answers. Nothing else is looked at, so that a database pause does not restart it."""
    return JsonResponse({"alive": True})


def _database() -> str:
    try:
        executor = MigrationExecutor(connection)
        waiting = executor.migration_plan(executor.loader.graph.leaf_nodes())
    except DatabaseError:
        return "no answer"
    return "migrations waiting" if waiting else ""


def _files() -> str:
    try:
        settings.MEDIA_ROOT.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=settings.MEDIA_ROOT) as probe:
            probe.write(b"ready")
    except OSError:
        return "not writable"
    return ""


def _broker() -> str:
    if not settings.REDIS_URL:
        return ""
    try:
        cache.get("readyz")
    except Exception:  # noqa: BLE001  whatever the client raises, the answer is the same
        return "no answer"
    return ""


@login_not_required
@require_safe
def readyz(request: HttpRequest) -> JsonResponse:
    """Database, migrations, files and (when set) Redis, each by name; 503 when one is not ready.

    A visitor learns which part is not ready, never why.
    """
    parts = {"database": _database(), "files": _files(), "broker": _broker()}
    ready = not any(parts.values())
    answer = {"ready": ready, "parts": {name: trouble or "ready" for name, trouble in parts.items()}}
    return JsonResponse(answer, status=200 if ready else 503)
