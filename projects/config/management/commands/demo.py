"""One command from nothing to a priced workbook and a site to look at."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

import yaml
from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from projects.config.demo.scenario import FOLDER, scenario_load
from projects.config.demo.sizing import estimate_current, walls_size, workbook_ready
from projects.models import BackgroundJob, Job, User
from projects.services.lapses import lapsing_permits_look

ADDRESS = "127.0.0.1:8000"


class Command(BaseCommand):
    """Migrate, load the invented scenario, size every wall, write a priced workbook, serve. Twice is harmless."""

    help = "Load the invented demo scenario, size every wall, write a priced workbook, then serve the site."
    requires_migrations_checks = False

    def add_arguments(self, parser: ArgumentParser) -> None:
        """`--once` leaves out the serving; `--address` serves elsewhere on this machine."""
        parser.add_argument("--once", action="store_true", help="do everything except serving, and exit")
        parser.add_argument("--address", default=ADDRESS, help=f"where to serve (default {ADDRESS})")

    def handle(self, *args: Any, **options: Any) -> None:
        """Each step says what it did."""
        if not settings.DEBUG:
            raise CommandError(
                "The demo has a password that everybody knows: it runs on development settings only."
            )
        call_command("migrate", verbosity=0)
        self.stdout.write("Database ready.")
        company, new = scenario_load()
        state = "loaded" if new else "was there already, nothing is doubled"
        self.stdout.write(f"Scenario of {company.name}: {state}.")
        actor = User.objects.filter(company=company, role="contractor").order_by("pk")[0]
        sized = walls_size(company=company, actor=actor)
        for wall in sized:
            self.stdout.write(f"  {wall.job}: {wall.outcome}")
        lapsing_permits_look(today=timezone.localdate())
        first = next((wall for wall in sized if wall.schedule is not None), None)
        if first is None:
            raise CommandError("No wall of the demo could be sized; there is nothing to price.")
        for wall in sized:
            if wall.schedule is not None:
                estimate_current(job=wall.job, actor=actor)
        # One workbook of each country: feet and inches, metric.
        firsts = {wall.job.code: wall for wall in reversed(sized) if wall.schedule is not None}
        for wall in (first, *(held for code, held in firsts.items() if code != first.job.code)):
            self._workbook(wall.job, actor)
        people = yaml.safe_load((FOLDER / "company.yaml").read_text(encoding="utf-8"))
        self.stdout.write(
            f"Sign in as {people['people'][0]['username']} with the password {people['password']}"
        )
        others = ", ".join(
            f"{row['username']} ({row['role'].replace('_', ' ')})" for row in people["people"][1:]
        )
        self.stdout.write(f"The same password also opens: {others}.")
        if options["once"]:
            return
        self.stdout.write(f"Serving at http://{options['address']} until Ctrl-C.")
        self.stdout.flush()
        call_command("runserver", options["address"], use_reloader=False, verbosity=0)

    def _workbook(self, job: Job, actor: User) -> None:
        """Ask for the workbook of a wall and say where it stands."""
        estimate = estimate_current(job=job, actor=actor)
        row, path = workbook_ready(estimate=estimate, actor=actor)
        if row.state != BackgroundJob.State.DONE or not path.is_file():
            raise CommandError(
                f"The workbook of {job} is {row.get_state_display()}: {row.error or 'no worker yet'}"
            )
        total = "not fully priced" if estimate.total is None else f"total {estimate.total}"
        self.stdout.write(f"Priced workbook of {job} ({total}, invented prices): {path}")
