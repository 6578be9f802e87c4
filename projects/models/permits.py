"""The authority's part: what a jurisdiction asks for, permits, inspections, and every chase."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from simple_history.models import HistoricalRecords

from projects.days import DayKind

DAY_KINDS = [(DayKind.WORKING.value, "working days"), (DayKind.CALENDAR.value, "calendar days")]


class InspectionKind(models.TextChoices):
    """What is looked at. The first three open hold points of their own."""

    FOOTING = "footing", "footing before pour"
    FRAMING = "framing", "framing before cover"
    FINAL = "final", "final"
    FIELD_REVIEW = "field_review", "engineer's field review"
    SERVICES = "services", "electrical, plumbing or gas rough-in"
    INSULATION = "insulation", "insulation and vapour barrier"
    OTHER = "other", "other"


class Jurisdiction(models.Model):
    """An authority and its own rules. Each rule says its kind of day."""

    company = models.ForeignKey("projects.Company", on_delete=models.PROTECT, related_name="jurisdictions")
    name = models.CharField(max_length=120)
    code = models.CharField(max_length=2, choices=[("us", "United States"), ("ca", "Canada")])
    region = models.CharField(max_length=2, help_text="Two letters of the province or state.")
    review_days = models.PositiveSmallIntegerField(default=10)
    review_kind = models.CharField(max_length=8, choices=DAY_KINDS, default=DayKind.WORKING.value)
    validity_days = models.PositiveSmallIntegerField(default=365)
    validity_kind = models.CharField(max_length=8, choices=DAY_KINDS, default=DayKind.CALENDAR.value)
    lapse_days = models.PositiveSmallIntegerField(default=180)
    lapse_kind = models.CharField(max_length=8, choices=DAY_KINDS, default=DayKind.CALENDAR.value)
    lapse_source = models.CharField(max_length=120, default="IRC R105.5")
    notice_days = models.PositiveSmallIntegerField(default=2)
    notice_kind = models.CharField(max_length=8, choices=DAY_KINDS, default=DayKind.WORKING.value)
    source = models.CharField(max_length=200, blank=True, help_text="Where these rules were read, and when.")
    note = models.TextField(blank=True)
    version = models.PositiveIntegerField(default=1)
    history = HistoricalRecords()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(fields=["company", "name"], name="jurisdiction_name_once"),
            models.CheckConstraint(
                condition=Q(validity_days__gt=0) & Q(lapse_days__gt=0), name="jurisdiction_days_positive"
            ),
        ]

    def __str__(self) -> str:
        return self.name

    def _said(self, days: int, kind: str) -> str:
        return f"{days} {kind} day{'' if days == 1 else 's'}"

    @property
    def review(self) -> str:
        """Review time with its kind of day."""
        return self._said(self.review_days, self.review_kind)

    @property
    def validity(self) -> str:
        """How long a permit is good for."""
        return self._said(self.validity_days, self.validity_kind)

    @property
    def lapse(self) -> str:
        """How long a permit lives without progress."""
        return self._said(self.lapse_days, self.lapse_kind)

    @property
    def notice(self) -> str:
        """Notice that an inspection needs."""
        return self._said(self.notice_days, self.notice_kind)


class RequiredDocument(models.Model):
    """A paper that the authority wants with the application."""

    jurisdiction = models.ForeignKey(
        Jurisdiction, on_delete=models.CASCADE, related_name="required_documents"
    )
    order = models.PositiveSmallIntegerField(default=0)
    title = models.CharField(max_length=160)

    class Meta:
        ordering = ["order", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["jurisdiction", "title"], name="required_document_once"),
        ]

    def __str__(self) -> str:
        return self.title


class InspectionRule(models.Model):
    """An inspection that the authority wants to make, in order."""

    jurisdiction = models.ForeignKey(Jurisdiction, on_delete=models.CASCADE, related_name="inspection_rules")
    order = models.PositiveSmallIntegerField(default=0)
    kind = models.CharField(max_length=14, choices=InspectionKind)
    title = models.CharField(max_length=160)

    class Meta:
        ordering = ["order", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["jurisdiction", "title"], name="inspection_rule_once"),
        ]

    def __str__(self) -> str:
        return self.title


class Permit(models.Model):
    """One application and what became of it."""

    class Status(models.TextChoices):
        PREPARING = "preparing", "preparing"
        SUBMITTED = "submitted", "submitted"
        IN_REVIEW = "in_review", "in review"
        CORRECTIONS = "corrections", "corrections asked"
        ISSUED = "issued", "issued"
        EXPIRED = "expired", "expired"
        CLOSED = "closed", "closed"
        WITHDRAWN = "withdrawn", "withdrawn"

    #: Still somebody's business: not over, one way or another.
    LIVE = ("preparing", "submitted", "in_review", "corrections", "issued")

    job = models.ForeignKey("projects.Job", on_delete=models.PROTECT, related_name="permits")
    jurisdiction = models.ForeignKey(Jurisdiction, on_delete=models.PROTECT, related_name="permits")
    status = models.CharField(max_length=12, choices=Status, default=Status.PREPARING)
    number = models.CharField(max_length=60, blank=True)
    fee = models.DecimalField(max_digits=9, decimal_places=2, null=True, blank=True)
    submitted_on = models.DateField(null=True, blank=True)
    review_due_on = models.DateField(null=True, blank=True)
    corrections = models.TextField(blank=True)
    issued_on = models.DateField(null=True, blank=True)
    expires_on = models.DateField(null=True, blank=True)
    last_progress_on = models.DateField(null=True, blank=True)
    alarms_required = models.BooleanField(default=False)
    ended_on = models.DateField(null=True, blank=True)
    note = models.TextField(blank=True)
    created_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField(auto_now_add=True)
    version = models.PositiveIntegerField(default=1)
    history = HistoricalRecords()

    class Meta:
        ordering = ["-created_at", "-pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["job"],
                condition=Q(status__in=["preparing", "submitted", "in_review", "corrections", "issued"]),
                name="one_live_permit_a_job",
            ),
            models.CheckConstraint(
                condition=~Q(status="issued")
                | (~Q(number="") & Q(issued_on__isnull=False) & Q(expires_on__isnull=False)),
                name="issued_permit_has_its_paper",
            ),
            models.CheckConstraint(
                condition=Q(expires_on__isnull=True)
                | Q(issued_on__isnull=True)
                | Q(expires_on__gte=F("issued_on")),
                name="permit_expires_after_issue",
            ),
        ]

    def __str__(self) -> str:
        return f"Permit {self.number}" if self.number else f"Permit at {self.jurisdiction}"

    @property
    def live(self) -> bool:
        """Not expired, closed or withdrawn."""
        return self.status in self.LIVE


class PermitDocument(models.Model):
    """A required paper on one application: there or not, since when, put there by whom."""

    permit = models.ForeignKey(Permit, on_delete=models.CASCADE, related_name="documents")
    order = models.PositiveSmallIntegerField(default=0)
    title = models.CharField(max_length=160)
    ready_on = models.DateField(null=True, blank=True)
    ready_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )

    class Meta:
        ordering = ["order", "pk"]
        constraints = [models.UniqueConstraint(fields=["permit", "title"], name="permit_document_once")]

    def __str__(self) -> str:
        return self.title


class PermitNotice(models.Model):
    """Something the nightly look found out about a permit, said once."""

    class Kind(models.TextChoices):
        LAPSING = "lapsing", "about to lapse for want of progress"
        LAPSED = "lapsed", "lapsed for want of progress"
        EXPIRING = "expiring", "about to expire"
        EXPIRED = "expired", "expired"

    permit = models.ForeignKey(Permit, on_delete=models.CASCADE, related_name="notices")
    kind = models.CharField(max_length=10, choices=Kind)
    due_on = models.DateField()
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["due_on", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["permit", "kind", "due_on"], name="permit_notice_once"),
        ]

    def __str__(self) -> str:
        return f"{self.permit}: {self.get_kind_display()} on {self.due_on:%Y-%m-%d}"


class Inspection(models.Model):
    """One visit that somebody must make. A failed one is followed by a row of its own for the re-inspection."""

    class Status(models.TextChoices):
        NEEDED = "needed", "needed"
        BOOKED = "booked", "booked"
        PASSED = "passed", "passed"
        FAILED = "failed", "failed"
        DROPPED = "dropped", "not needed after all"

    job = models.ForeignKey("projects.Job", on_delete=models.PROTECT, related_name="inspections")
    permit = models.ForeignKey(
        Permit, on_delete=models.PROTECT, null=True, blank=True, related_name="inspections"
    )
    order = models.PositiveSmallIntegerField(default=0)
    kind = models.CharField(max_length=14, choices=InspectionKind)
    title = models.CharField(max_length=160)
    status = models.CharField(max_length=8, choices=Status, default=Status.NEEDED)
    again_after = models.OneToOneField(
        "self", on_delete=models.PROTECT, null=True, blank=True, related_name="re_inspection"
    )
    asked_on = models.DateField(null=True, blank=True)
    booked_for = models.DateField(null=True, blank=True)
    booked_with = models.CharField(max_length=120, blank=True)
    done_on = models.DateField(null=True, blank=True)
    inspector = models.CharField(max_length=120, blank=True)
    note = models.TextField(blank=True)
    version = models.PositiveIntegerField(default=1)
    history = HistoricalRecords()

    class Meta:
        ordering = ["order", "pk"]
        constraints = [
            models.CheckConstraint(
                condition=~Q(status="booked") | Q(booked_for__isnull=False), name="booked_inspection_has_date"
            ),
            models.CheckConstraint(
                condition=~Q(status__in=["passed", "failed"]) | (Q(done_on__isnull=False) & ~Q(inspector="")),
                name="held_inspection_has_who_and_when",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.title} (re-inspection)" if self.again_after_id else self.title

    @property
    def open(self) -> bool:
        """Still to be held."""
        return self.status in (self.Status.NEEDED, self.Status.BOOKED)


class Deficiency(models.Model):
    """One thing an inspector found wanting."""

    inspection = models.ForeignKey(Inspection, on_delete=models.CASCADE, related_name="deficiencies")
    text = models.TextField()
    cleared_on = models.DateField(null=True, blank=True)
    cleared_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    how = models.TextField(blank=True)

    class Meta:
        ordering = ["pk"]
        verbose_name_plural = "deficiencies"

    def __str__(self) -> str:
        return self.text[:60]


class Chase(models.Model):
    """One call, message or visit to move somebody along: who, how, said what, next chase on. Never rewritten."""

    class About(models.TextChoices):
        ENGINEER = "engineer", "engineer"
        PERMIT = "permit", "permit office"
        INSPECTION = "inspection", "inspector"
        SUPPLIER = "supplier", "supplier"
        OTHER = "other", "other"

    class How(models.TextChoices):
        PHONE = "phone", "telephone"
        EMAIL = "email", "e-mail"
        VISIT = "visit", "in person"
        PORTAL = "portal", "authority's web page"
        LETTER = "letter", "letter"

    job = models.ForeignKey("projects.Job", on_delete=models.PROTECT, related_name="chases")
    about = models.CharField(max_length=10, choices=About)
    who = models.CharField(max_length=120)
    how = models.CharField(max_length=8, choices=How)
    said = models.TextField()
    on = models.DateField()
    next_on = models.DateField(null=True, blank=True)
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-on", "-pk"]
        constraints = [
            models.CheckConstraint(
                condition=Q(next_on__isnull=True) | Q(next_on__gt=F("on")), name="next_chase_is_later"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.who}, {self.on:%Y-%m-%d}"
