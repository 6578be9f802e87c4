"""`manage.py verify PATH...`: run published checks and print a row for each."""

from __future__ import annotations

import sys
from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from structure.core.cases.files import FileError
from structure.core.cases.verify import Report, VerifyRow, verify_paths
from structure.reading import step_line

_MARKS = {"met": "ok", "missed": "MISS", "differs": "differs"}


class Command(BaseCommand):
    """Holds the engine against what its sources print. Needs no database."""

    help = "Run every case with `expect` in the given files or folders; exit 1 if any row misses."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("paths", nargs="+", metavar="PATH", help="case files or folders anywhere on disk")
        parser.add_argument(
            "--trace", action="store_true", help="under each row the lines of calculation it stands in"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            report = verify_paths(options["paths"])
        except FileError as error:
            self.stderr.write(str(error))
            sys.exit(2)
        shown: object = None
        for row in report.rows:
            self.stdout.write(_line(row))
            # Several values of one check stand in the same lines; they are printed once.
            if options["trace"] and row.steps and row.steps != shown:
                self.stdout.write("\n".join(_trace(row)))
                shown = row.steps
        self.stdout.write(_closing(report))
        if not report.passed:
            sys.exit(1)


def _line(row: VerifyRow) -> str:
    parts = [
        f"{_MARKS[row.outcome]:<7}",
        row.id or "(no id)",
        row.path,
        f"printed {row.printed}",
        f"computed {row.computed}",
        f"difference {row.difference}",
        f"source: {row.source or '(none given)'}",
    ]
    if row.note:
        parts.append(f"because {row.clause + ': ' if row.clause else ''}{' '.join(row.note.split())}")
    return " | ".join(parts)


def _trace(row: VerifyRow) -> list[str]:
    lines = []
    for step in map(step_line, row.steps):
        parts = f"{step['symbol']} = {step['text']} = {step['subst']} = {step['result']}  [{step['clause']}]"
        lines.append(f"        {parts}{' ' + step['note'] if step['note'] else ''}")
    return lines


def _closing(report: Report) -> str:
    missed, differs = report.count("missed"), report.count("differs")
    words = [f"{len(report.rows)} checks in {report.cases} cases", f"{report.count('met')} met"]
    if differs:
        words.append(f"{differs} differ from their source for a stated reason")
    words.append(f"{missed} missed")
    if report.without_expectation:
        words.append(f"{report.without_expectation} cases without expectations were left out")
    return "; ".join(words) + "."
