"""Jobs: one wall each."""

from __future__ import annotations

import builtins

from django.conf import settings
from django.core.validators import MaxValueValidator
from django.db import models
from django.urls import reverse
from django.utils import timezone
from simple_history.models import HistoricalRecords

from projects.evidence import FLOORS_ABOVE
from projects.models.accounts import Company
from projects.models.places import Property
from projects.workflow import STAGE_TITLES, Stage

STAGE_CHOICES = [(stage.value, title) for stage, title in STAGE_TITLES.items()]


def _person(role: str) -> models.ForeignKey:
    return models.ForeignKey(
        settings.AUTH_USER_MODEL,
        on_delete=models.SET_NULL,
        null=True,
        blank=True,
        related_name=f"jobs_as_{role}",
    )


class Job(models.Model):
    """One wall in one house, from the first look to the closed permit."""

    # The field hides the builtin from the rest of the class, so the properties below name it in full.
    property = models.ForeignKey(Property, on_delete=models.PROTECT, related_name="jobs")
    name = models.CharField(max_length=120)
    wall = models.CharField(
        max_length=200, help_text="Where the wall stands, for example: between kitchen and dining room."
    )
    storey = models.CharField(
        max_length=40, help_text="The storey the wall stands on, for example: ground floor."
    )
    floors_above = models.PositiveSmallIntegerField(
        "storeys above",
        default=0,
        validators=[MaxValueValidator(len(FLOORS_ABOVE))],
        help_text="How many storeys stand over the one with the wall; the roof is not counted.",
    )
    stage = models.CharField(max_length=20, choices=STAGE_CHOICES, default=Stage.SURVEY.value, editable=False)
    stage_since = models.DateTimeField(default=timezone.now, editable=False)
    contractor = _person("contractor")
    estimator = _person("estimator")
    project_manager = _person("project_manager")
    crew_lead = _person("crew_lead")
    engineer_name = models.CharField(max_length=120, blank=True)
    starts_on = models.DateField(null=True, blank=True)
    due_on = models.DateField(null=True, blank=True)
    version = models.PositiveIntegerField(default=1, editable=False)
    created_at = models.DateTimeField(auto_now_add=True)
    archived_at = models.DateTimeField(null=True, blank=True, editable=False)

    history = HistoricalRecords()

    class Meta:
        ordering = ["property__name", "name", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["property", "name"], name="job_name_once_a_property"),
            models.CheckConstraint(
                condition=models.Q(stage__in=[value for value, _ in STAGE_CHOICES]), name="job_stage_known"
            ),
            models.CheckConstraint(
                condition=models.Q(floors_above__lte=len(FLOORS_ABOVE)), name="job_floors_above_in_range"
            ),
            models.CheckConstraint(
                condition=models.Q(starts_on__isnull=True)
                | models.Q(due_on__isnull=True)
                | models.Q(due_on__gte=models.F("starts_on")),
                name="job_due_after_start",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.property.name}: {self.name}"

    def get_absolute_url(self) -> str:
        """The job page."""
        return reverse("projects:job", args=[self.pk])

    @builtins.property
    def company(self) -> Company:
        """The company whose job it is."""
        return self.property.company

    @builtins.property
    def company_id(self) -> int:
        """Key of that company, without another query."""
        return self.property.company_id

    @builtins.property
    def code(self) -> str:
        """`us` or `ca`."""
        return self.property.code

    @builtins.property
    def units(self) -> str:
        """`imperial` or `metric`."""
        return self.property.units

    @builtins.property
    def stage_now(self) -> Stage:
        """The stage as the workflow knows it."""
        return Stage(self.stage)

    @builtins.property
    def days_waiting(self) -> int:
        """Whole days in this stage."""
        return max((timezone.now() - self.stage_since).days, 0)
