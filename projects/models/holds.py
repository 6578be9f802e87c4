"""Evidence that a hold point is met, and overrides. Both stay for ever; they can be set aside, not removed."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone

from projects.models.jobs import Job
from projects.models.survey import Photo
from projects.workflow import HOLD_POINTS, NEVER_OVERRIDDEN, STAGE_TITLES

HOLD_CHOICES = [(point.name, point.title) for point in HOLD_POINTS]
STAGES = [(stage.value, title) for stage, title in STAGE_TITLES.items()]


class HoldPass(models.Model):
    """Who saw that a hold point is met, when, and by what document, photo or words."""

    CURE_SOURCES = [("engineer", "The engineer's figure"), ("common_practice", "Common practice")]

    job = models.ForeignKey(Job, on_delete=models.PROTECT, related_name="hold_passes")
    hold = models.CharField(max_length=30, choices=HOLD_CHOICES)
    checked_by = models.CharField(max_length=120)
    checked_on = models.DateField(default=timezone.localdate)
    evidence = models.TextField(help_text="What was seen or measured.")
    document = models.CharField(
        max_length=200, blank=True, help_text="Certificate, report or letter: its title, number and date."
    )
    photo = models.ForeignKey(
        Photo, on_delete=models.PROTECT, null=True, blank=True, related_name="hold_passes"
    )
    poured_on = models.DateField(null=True, blank=True)
    cure_days = models.PositiveSmallIntegerField(null=True, blank=True)
    cure_source = models.CharField(max_length=20, choices=CURE_SOURCES, blank=True)
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now_add=True)
    set_aside_at = models.DateTimeField(null=True, blank=True, editable=False)
    set_aside_why = models.TextField(blank=True, editable=False)

    class Meta:
        ordering = ["-recorded_at", "-pk"]
        verbose_name_plural = "hold passes"
        constraints = [
            models.CheckConstraint(
                condition=models.Q(hold__in=[name for name, _ in HOLD_CHOICES]), name="hold_pass_known"
            ),
            models.CheckConstraint(
                condition=~models.Q(hold="footing_cured")
                | models.Q(poured_on__isnull=False, cure_days__isnull=False),
                name="footing_cured_has_pour_and_days",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.get_hold_display()}, {self.checked_by} on {self.checked_on}"


class Override(models.Model):
    """A contractor's written reason for going past an unmet hold point. Visible for ever."""

    job = models.ForeignKey(Job, on_delete=models.PROTECT, related_name="overrides")
    hold = models.CharField(max_length=30, choices=HOLD_CHOICES)
    reason = models.TextField()
    unmet_why = models.TextField(help_text="What stood in the way when it was overridden.")
    stage = models.CharField(max_length=20, choices=STAGES)
    overridden_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    overridden_by_name = models.CharField(max_length=200)
    overridden_at = models.DateTimeField(auto_now_add=True)
    set_aside_at = models.DateTimeField(null=True, blank=True, editable=False)
    set_aside_why = models.TextField(blank=True, editable=False)

    class Meta:
        ordering = ["-overridden_at", "-pk"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(
                    hold__in=[name for name, _ in HOLD_CHOICES if name not in NEVER_OVERRIDDEN]
                ),
                name="override_never_of_the_four",
            ),
            models.CheckConstraint(condition=~models.Q(reason=""), name="override_has_reason"),
        ]

    def __str__(self) -> str:
        return f"{self.get_hold_display()}, overridden by {self.overridden_by_name}"
