"""Survey evidence, the questions beside it, photos, and what people decided on it."""

from __future__ import annotations

import secrets
from typing import cast

from django.conf import settings
from django.db import models
from django.utils import timezone
from simple_history.models import HistoricalRecords

from projects.evidence import (
    HOWS,
    KIND_BY_NAME,
    KINDS,
    LEVELS,
    Evidence,
    How,
)
from projects.models.jobs import Job
from projects.questions import ANSWERS, QUESTION_BY_NAME, QUESTIONS


def photo_path(photo: Photo, filename: str) -> str:
    """A name that tells nothing and can not be guessed; what the person called the file is dropped."""
    return f"photos/{secrets.token_hex(16)}.{photo.extension}"


class Photo(models.Model):
    """A picture taken on site: re-encoded here, without metadata, served only to people who may see the job."""

    job = models.ForeignKey(Job, on_delete=models.PROTECT, related_name="photos")
    file = models.FileField(upload_to=photo_path, editable=False)
    extension = models.CharField(max_length=4, editable=False)
    content_type = models.CharField(max_length=20, editable=False)
    width = models.PositiveIntegerField(editable=False)
    height = models.PositiveIntegerField(editable=False)
    sha256 = models.CharField(max_length=64, editable=False)
    caption = models.CharField(max_length=200, blank=True)
    uploaded_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    uploaded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-uploaded_at", "-pk"]

    def __str__(self) -> str:
        return self.caption or f"Photo {self.pk}"


class Finding(models.Model):
    """One piece of evidence: what was seen, where, how, by whom and when. Withdrawn ones stay on the list."""

    job = models.ForeignKey(Job, on_delete=models.PROTECT, related_name="findings")
    kind = models.CharField(max_length=20, choices=[(kind.name, kind.title) for kind in KINDS])
    observation = models.CharField("what was seen", max_length=30)
    how = models.CharField("how obtained", max_length=12, choices=list(HOWS.items()))
    confirmed_on_site = models.BooleanField(
        default=False, help_text="For a drawing: what it shows was checked in the house."
    )
    level = models.CharField(max_length=10, choices=list(LEVELS.items()))
    full_length = models.BooleanField(
        "covers the full length of the wall",
        default=False,
        help_text="Part of the length is enough to show a load, never enough to clear the wall.",
    )
    note = models.TextField(blank=True)
    photo = models.ForeignKey(Photo, on_delete=models.PROTECT, null=True, blank=True, related_name="findings")
    seen_by = models.CharField(max_length=120)
    seen_on = models.DateField(default=timezone.localdate)
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now_add=True)
    withdrawn_at = models.DateTimeField(null=True, blank=True, editable=False)
    withdrawn_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        on_delete=models.PROTECT,
        null=True,
        blank=True,
        related_name="+",
        editable=False,
    )
    withdrawn_why = models.TextField(blank=True, editable=False)

    history = HistoricalRecords()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(kind__in=list(KIND_BY_NAME)), name="finding_kind_known"
            ),
            models.CheckConstraint(condition=models.Q(how__in=list(HOWS)), name="finding_how_known"),
            models.CheckConstraint(condition=models.Q(level__in=list(LEVELS)), name="finding_level_known"),
            models.CheckConstraint(
                condition=models.Q(withdrawn_at__isnull=True) | ~models.Q(withdrawn_why=""),
                name="finding_withdrawn_with_reason",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_kind_display()}: {self.observation_title}"

    @property
    def observation_title(self) -> str:
        """What was seen, in words."""
        return KIND_BY_NAME[self.kind].observation(self.observation).title

    @property
    def evidence(self) -> Evidence:
        """The finding as the verdict reads it."""
        return Evidence(
            kind=self.kind,
            observation=self.observation,
            how=cast(How, self.how),
            level=self.level,
            full_length=self.full_length,
            confirmed_on_site=self.confirmed_on_site,
            note=self.note,
            ref=str(self.pk),
        )


class SurveyAnswer(models.Model):
    """The answer to one question about a wall. `unknown` is an answer too, and it blocks."""

    job = models.ForeignKey(Job, on_delete=models.PROTECT, related_name="answers")
    question = models.CharField(max_length=30, choices=[(q.name, q.title) for q in QUESTIONS])
    answer = models.CharField(max_length=10, choices=list(ANSWERS.items()))
    note = models.TextField(blank=True)
    answered_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    answered_on = models.DateField(default=timezone.localdate)

    history = HistoricalRecords()

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["job", "question"], name="answer_once_a_question"),
            models.CheckConstraint(
                condition=models.Q(question__in=list(QUESTION_BY_NAME)), name="answer_question_known"
            ),
            models.CheckConstraint(condition=models.Q(answer__in=list(ANSWERS)), name="answer_known"),
        ]

    def __str__(self) -> str:
        return f"{QUESTION_BY_NAME[self.question].title} {self.get_answer_display()}"


class Decision(models.Model):
    """What a named person decided about the wall, and the evidence as it was that day. Never edited."""

    BEARING, NOT_BEARING = "bearing", "not_bearing"
    CHOICES = [(BEARING, "Bearing"), (NOT_BEARING, "Not bearing")]

    job = models.ForeignKey(Job, on_delete=models.PROTECT, related_name="decisions")
    decision = models.CharField(max_length=12, choices=CHOICES)
    decided_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    decided_by_name = models.CharField(max_length=200)
    decided_on = models.DateField(default=timezone.localdate)
    reason = models.TextField()
    finding_then = models.CharField(max_length=30)
    evidence_then = models.JSONField()
    evidence_digest = models.CharField(max_length=64)
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-recorded_at", "-pk"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(decision="bearing")
                | models.Q(decision="not_bearing", finding_then="nothing found that bears"),
                name="not_bearing_only_when_nothing_found",
            ),
            models.CheckConstraint(condition=~models.Q(reason=""), name="decision_has_reason"),
        ]

    def __str__(self) -> str:
        return f"{self.get_decision_display()}, decided by {self.decided_by_name} on {self.decided_on}"
