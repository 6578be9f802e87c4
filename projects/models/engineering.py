"""The engineer's part: the request that goes out, the questions, and the sealed design that comes back."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from simple_history.models import HistoricalRecords

from projects.models.paper_files import document_path


class EngineeringRequest(models.Model):
    """One package to one engineer."""

    class Status(models.TextChoices):
        PREPARING = "preparing", "preparing"
        SENT = "sent", "sent"
        QUESTIONS = "questions", "questions open"
        ANSWERED = "answered", "design received"
        WITHDRAWN = "withdrawn", "withdrawn"

    job = models.ForeignKey("projects.Job", on_delete=models.PROTECT, related_name="engineering_requests")
    status = models.CharField(max_length=12, choices=Status, default=Status.PREPARING)
    engineer_name = models.CharField(max_length=120)
    engineer_contact = models.CharField(max_length=200, blank=True)
    asks = models.TextField(help_text="What the engineer is asked to design, seal or confirm.")
    sent_on = models.DateField(null=True, blank=True)
    due_on = models.DateField(null=True, blank=True)
    received_on = models.DateField(null=True, blank=True)
    created_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)
    version = models.PositiveIntegerField(default=1)
    history = HistoricalRecords()

    class Meta:
        ordering = ["-created_at", "-pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(status__in=["preparing", "withdrawn"]) | Q(sent_on__isnull=False),
                name="engineering_sent_has_date",
            ),
        ]

    def __str__(self) -> str:
        return f"Request to {self.engineer_name}"


class EngineeringQuestion(models.Model):
    """A question the engineer came back with, and our answer."""

    request = models.ForeignKey(EngineeringRequest, on_delete=models.CASCADE, related_name="questions")
    question = models.TextField()
    asked_on = models.DateField()
    answer = models.TextField(blank=True)
    answered_on = models.DateField(null=True, blank=True)
    answered_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    version = models.PositiveIntegerField(default=1)

    class Meta:
        ordering = ["asked_on", "pk"]

    def __str__(self) -> str:
        return self.question[:60]

    @property
    def open(self) -> bool:
        """Still without an answer."""
        return self.answered_on is None


class SealedDesign(models.Model):
    """The design that governs buying and building, or the authority's written acceptance in its place."""

    class Route(models.TextChoices):
        SEALED = "sealed", "sealed by an engineer"
        ACCEPTED = "accepted", "prescriptive design accepted in writing by the authority"

    job = models.ForeignKey("projects.Job", on_delete=models.PROTECT, related_name="sealed_designs")
    request = models.ForeignKey(
        EngineeringRequest, on_delete=models.PROTECT, null=True, blank=True, related_name="designs"
    )
    route = models.CharField(max_length=10, choices=Route, default=Route.SEALED)
    signed_by = models.CharField(max_length=120)
    licence = models.CharField(max_length=60, blank=True)
    reference = models.CharField(max_length=80, help_text="Drawing number, or number of the acceptance.")
    revision = models.CharField(max_length=20, blank=True)
    dated = models.DateField()
    received_on = models.DateField()
    field_review = models.BooleanField(default=False)
    cure_days = models.PositiveSmallIntegerField(null=True, blank=True)
    document = models.FileField(upload_to=document_path, blank=True)
    note = models.TextField(blank=True)
    current = models.BooleanField(default=True)
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now_add=True)
    history = HistoricalRecords()

    class Meta:
        ordering = ["-recorded_at", "-pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["job"], condition=Q(current=True), name="one_current_sealed_design"
            ),
            models.CheckConstraint(
                condition=Q(received_on__gte=F("dated")), name="sealed_received_after_dated"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.reference} {self.revision}".strip()
