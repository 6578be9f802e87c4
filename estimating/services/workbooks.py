"""The workbook of an estimate: asked for as background work, written once, whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from django.conf import settings

from estimating.core.document import digest
from estimating.exports.workbook import build_workbook
from estimating.models import Estimate
from estimating.selectors import document_title
from projects.models import BackgroundJob, User
from projects.permissions import require
from projects.services.background import background_job_request

KIND = "workbook"
TASK = "estimating.tasks.build_workbook"
FOLDER = "workbooks"


def workbook_key(estimate: Estimate) -> str:
    """The same estimate with the same head is the same workbook."""
    return f"{KIND}:{estimate.pk}:{digest([estimate.document, document_title(estimate)])[:32]}"


def workbook_path(estimate: Estimate) -> Path:
    """Where its file stands, written or not: a name nobody typed, under no public address."""
    return (
        Path(settings.MEDIA_ROOT)
        / FOLDER
        / str(estimate.job_id)
        / f"{workbook_key(estimate).rsplit(':', 1)[1]}.xlsx"
    )


def workbook_name(estimate: Estimate) -> str:
    """The name a person sees when the file arrives."""
    words = "".join(
        c if c.isalnum() and c.isascii() else "-" for c in f"{estimate.job.property.name} {estimate.job.name}"
    )
    slug = "-".join(part for part in words.lower().split("-") if part)[:60] or "estimate"
    return f"{slug}-revision-{estimate.revision}.xlsx"


def workbook_request(*, estimate: Estimate, actor: User) -> BackgroundJob:
    """Ask for the file. The same estimate asked for twice is the same piece of work."""
    require(actor, "export_quote", estimate.job)
    return background_job_request(
        kind=KIND, key=workbook_key(estimate), task=TASK, actor=actor, job=estimate.job,
        inputs={"estimate": estimate.pk},
    )  # fmt: skip


def workbook_write(*, estimate: Estimate) -> Path:
    """Build the file and put it in place in one step: a reader sees all of it or none of it. Safe to run twice."""
    path = workbook_path(estimate)
    path.parent.mkdir(parents=True, exist_ok=True)
    content = build_workbook(estimate.document, document_title(estimate))
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=".writing-", suffix=".xlsx")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        Path(temporary).replace(path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
    return path
