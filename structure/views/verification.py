"""The published checks, run once a process: what each source prints against what the engine computes."""

from __future__ import annotations

from functools import cache
from itertools import groupby
from pathlib import Path
from typing import Any

from django.http import HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from projects.requests import SignedIn
from structure.core.cases.files import FileError
from structure.core.cases.verify import Report, verify_paths

FOLDER = Path(__file__).resolve().parent.parent / "verification"


@cache
def published_report() -> Report:
    """Every published case run through the engine of this process. Raises FileError."""
    return verify_paths([FOLDER])


@require_GET
def verification(request: SignedIn) -> HttpResponse:
    """Every row: source, printed, computed, difference, lines of calculation."""
    context: dict[str, Any] = {"nav": "verification"}
    try:
        report = published_report()
    except FileError as error:
        context["failure"] = str(error)
    else:
        context |= {
            "report": report,
            "met": report.count("met"),
            "missed": report.count("missed"),
            "differs": report.count("differs"),
            "groups": [
                (Path(file).stem, list(rows)) for file, rows in groupby(report.rows, key=lambda r: r.file)
            ],
        }
    return render(request, "structure/verification.html", context)
