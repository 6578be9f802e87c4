"""Work that runs behind a page. The row is the truth of it; a broker only wakes a worker."""

from __future__ import annotations

from django.conf import settings
from django.db import models


class BackgroundJob(models.Model):
    """One piece of background work: who asked, how far it is, what came of it."""

    class State(models.TextChoices):
        WAITING = "waiting", "waiting"
        RUNNING = "running", "running"
        DONE = "done", "done"
        FAILED = "failed", "failed"

    job = models.ForeignKey(
        "projects.Job", on_delete=models.PROTECT, null=True, blank=True, related_name="background_jobs"
    )
    kind = models.CharField(max_length=40)
    #: The same work asked for twice is the same row: kind, what it is about and a digest of its inputs.
    key = models.CharField(max_length=160, unique=True)
    task = models.CharField(max_length=120)
    inputs = models.JSONField(default=dict, blank=True)
    state = models.CharField(max_length=10, choices=State, default=State.WAITING)
    percent = models.PositiveSmallIntegerField(default=0)
    result = models.JSONField(default=dict, blank=True)
    error = models.TextField(blank=True)
    attempts = models.PositiveSmallIntegerField(default=0)
    requested_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    created_at = models.DateTimeField(auto_now_add=True)
    started_at = models.DateTimeField(null=True, blank=True)
    heartbeat_at = models.DateTimeField(null=True, blank=True)
    finished_at = models.DateTimeField(null=True, blank=True)
    version = models.PositiveIntegerField(default=1)

    class Meta:
        ordering = ["-created_at", "-pk"]
        indexes = [models.Index(fields=["state", "created_at"], name="background_state")]
        constraints = [
            models.CheckConstraint(condition=models.Q(percent__lte=100), name="background_percent"),
        ]

    def __str__(self) -> str:
        return f"{self.kind} ({self.get_state_display()})"

    @property
    def finished(self) -> bool:
        """Nothing more will happen to it by itself."""
        return self.state in (self.State.DONE, self.State.FAILED)
