"""Where uploaded papers are kept: names of our own making, never the visitor's."""

from __future__ import annotations

import secrets
from pathlib import PurePath
from typing import Any


def document_path(instance: Any, filename: str) -> str:
    """A random name in the job's folder; the ending was set by the upload check from the file's content."""
    ending = PurePath(filename).suffix.lower()
    return f"documents/{instance.job_id}/{secrets.token_urlsafe(18)}{ending}"
