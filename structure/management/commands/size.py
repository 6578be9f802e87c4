"""`manage.py size CASE`: one engineering question in, its answer as JSON out."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from structure.core.cases.files import FileError, read_cases
from structure.core.cases.plain import to_json
from structure.core.cases.registry import KIND_NAMES, KINDS, run_case
from structure.core.clauses import DEFAULT_EDITIONS
from structure.core.errors import InputError


class Command(BaseCommand):
    """Answers a case file. Needs no database."""

    help = "Answer a case file (YAML or JSON) as JSON, or show the fields of a kind with --schema."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("case", nargs="?", help="a file with one case or a list of them")
        parser.add_argument("--schema", metavar="KIND", help=f"one of {', '.join(KIND_NAMES)}")
        parser.add_argument("--code", default="us", choices=tuple(DEFAULT_EDITIONS), help="units of --schema")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            answer = self._answer(options)
        except (InputError, FileError) as error:
            self.stderr.write(" ".join(str(error).split()))
            sys.exit(2)
        self.stdout.write(to_json(answer))

    def _answer(self, options: dict[str, Any]) -> Any:
        name, path = options["schema"], options["case"]
        if name is not None:
            if name not in KIND_NAMES:
                raise InputError("--schema", name, f"one of {', '.join(KIND_NAMES)}")
            return KINDS[name].schema(options["code"])
        if path is None:
            raise InputError("CASE", None, "a case file, or --schema with the name of a kind")
        cases = read_cases(Path(path))
        if len(cases) == 1:
            return run_case(cases[0])
        answers = []
        for number, case in enumerate(cases):
            try:
                answers.append({"id": case.get("id")} | run_case(case))
            except InputError as error:
                where = f"case {str(case.get('id', number + 1))[:80]}: {error.field}"
                raise InputError(where, error.read, error.accepted) from None
        return answers
