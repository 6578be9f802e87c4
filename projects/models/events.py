"""What happened on a job, written once and never changed."""

from __future__ import annotations

from typing import Any, NoReturn

from django.conf import settings
from django.db import models

from projects.models.jobs import Job


class AppendOnly(TypeError):
    """Somebody tried to change or delete a line of the record."""


class AppendOnlyQuerySet(models.QuerySet):
    """Reads and creates; nothing else."""

    def update(self, **kwargs: Any) -> NoReturn:
        """Refused: the record is written once."""
        raise AppendOnly("A line of the job record can not be changed.")

    def delete(self) -> NoReturn:
        """Refused: the record is kept."""
        raise AppendOnly("A line of the job record can not be deleted.")

    def bulk_update(self, *args: Any, **kwargs: Any) -> NoReturn:
        """Refused: the record is written once."""
        raise AppendOnly("A line of the job record can not be changed.")

    update.alters_data = True  # type: ignore[attr-defined]
    delete.alters_data = True  # type: ignore[attr-defined]


class JobEvent(models.Model):
    """One line of the record: when, who (name kept as it was then), what, and the detail."""

    job = models.ForeignKey(Job, on_delete=models.PROTECT, related_name="events")
    at = models.DateTimeField(auto_now_add=True)
    actor = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    actor_name = models.CharField(max_length=200)
    verb = models.CharField(max_length=60)
    detail = models.TextField()
    data = models.JSONField(default=dict, blank=True)

    objects = AppendOnlyQuerySet.as_manager()

    class Meta:
        ordering = ["-at", "-pk"]
        base_manager_name = "objects"
        default_permissions = ("view",)
        indexes = [models.Index(fields=["job", "-at"], name="event_by_job_and_time")]

    def __str__(self) -> str:
        return f"{self.actor_name}: {self.detail}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Write the line once. Raises AppendOnly when it exists already."""
        if self.pk is not None and not self._state.adding:
            raise AppendOnly("A line of the job record can not be changed.")
        kwargs["force_insert"] = True
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> NoReturn:
        """Refused: the record is kept."""
        raise AppendOnly("A line of the job record can not be deleted.")
