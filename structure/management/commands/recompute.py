"""`manage.py recompute`: every stored design run asked again, after a release or a change of values."""

from __future__ import annotations

import sys
from typing import Any

from django.core.management.base import BaseCommand, CommandParser

from structure.models import DesignRun
from structure.recompute import run_differences
from structure.wall_question import core_version, data_checksum


class Command(BaseCommand):
    """Changes nothing: stored runs stay as they are, whatever today's engine says."""

    help = "Ask every stored design run again and print what differs; exit 1 if anything does."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--job", type=int, help="runs of this job only")
        parser.add_argument("--most", type=int, default=5, help="differences to print of each run")

    def handle(self, *args: Any, **options: Any) -> None:
        runs = DesignRun.objects.order_by("pk")
        if options["job"]:
            runs = runs.filter(job=options["job"])
        count = changed = 0
        for run in runs.iterator(chunk_size=20):
            count += 1
            found = run_differences(run)
            if not found:
                continue
            changed += 1
            alike = (run.core_version, run.data_checksum) == (core_version(), data_checksum())
            by = (
                "this very engine" if alike else f"engine {run.core_version}, values {run.data_checksum[:12]}"
            )
            self.stdout.write(f"run {run.pk} of job {run.job_id}, by {by}: {len(found)} differences")
            for line in found[: options["most"]]:
                self.stdout.write(f"  {line}")
        self.stdout.write(f"{count} runs asked again; {changed} differ.")
        if changed:
            sys.exit(1)
