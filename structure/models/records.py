"""What the engine answered and what is built by it: runs, schedules, marks and ticks."""

from __future__ import annotations

from django.conf import settings
from django.db import models

from structure.models.unchanging import Unchanging


class DesignRun(Unchanging):
    """One answer of the engine with everything that made it: inputs, results, versions."""

    class Status(models.TextChoices):
        OK = "ok", "sized"
        REFUSED = "refused", "refused"

    job = models.ForeignKey("projects.Job", on_delete=models.PROTECT, related_name="design_runs")
    created_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)
    section_version = models.PositiveIntegerField()
    products = models.JSONField(default=list)
    inputs = models.JSONField()
    results = models.JSONField()
    core_version = models.CharField(max_length=40)
    data_checksum = models.CharField(max_length=64)
    status = models.CharField(max_length=8, choices=Status)

    class Meta:
        ordering = ["-created_at", "-pk"]

    def __str__(self) -> str:
        return f"Run {self.pk} of {self.created_at:%Y-%m-%d %H:%M}"


class Schedule(models.Model):
    """What is to be built: chosen from a run (preliminary) or typed from the sealed design."""

    class Source(models.TextChoices):
        PRELIMINARY = "preliminary", "preliminary"
        SEALED = "sealed", "sealed"

    job = models.ForeignKey("projects.Job", on_delete=models.PROTECT, related_name="schedules")
    run = models.ForeignKey(DesignRun, on_delete=models.PROTECT, related_name="schedules")
    section_version = models.PositiveIntegerField()
    source = models.CharField(max_length=11, choices=Source)
    sealed_design = models.ForeignKey(
        "projects.SealedDesign", on_delete=models.PROTECT, null=True, blank=True, related_name="schedules"
    )
    chosen_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    chosen_at = models.DateTimeField(auto_now_add=True)
    current = models.BooleanField(default=True)
    note = models.TextField(blank=True)

    class Meta:
        ordering = ["-chosen_at", "-pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["job", "source"],
                condition=models.Q(current=True),
                name="one_current_schedule_a_source",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_source_display().capitalize()} schedule {self.pk}"


class ScheduleMark(models.Model):
    """One member of a schedule under the mark that the drawing and the crew use."""

    class Kind(models.TextChoices):
        BEAM = "beam", "Beam"
        POST = "post", "Post"
        FOOTING = "footing", "Footing"
        SHORING = "shoring", "Shoring"
        PLATE = "plate", "Plate"
        HANGER = "hanger", "Hangers"

    schedule = models.ForeignKey(Schedule, on_delete=models.CASCADE, related_name="marks")
    mark = models.CharField(max_length=8)
    kind = models.CharField(max_length=8, choices=Kind)
    title = models.CharField(max_length=200)
    data = models.JSONField(default=dict)

    class Meta:
        ordering = ["schedule", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["schedule", "mark"], name="mark_once_a_schedule"),
        ]

    def __str__(self) -> str:
        return f"{self.mark} {self.title}"


class MarkTick(models.Model):
    """A tick-off on one mark: on site as scheduled, shoring built as planned, or installed as scheduled."""

    class Kind(models.TextChoices):
        ON_SITE = "on_site", "on site and as scheduled"
        BUILT = "built", "built to the plan"
        INSTALLED = "installed", "installed as scheduled"

    mark = models.ForeignKey(ScheduleMark, on_delete=models.CASCADE, related_name="ticks")
    kind = models.CharField(max_length=10, choices=Kind)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField(auto_now_add=True)
    note = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ["mark", "kind"]
        constraints = [
            models.UniqueConstraint(fields=["mark", "kind"], name="tick_once_a_mark"),
        ]

    def __str__(self) -> str:
        return f"{self.mark_id} {self.get_kind_display()}"
