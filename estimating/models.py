"""Prices, and estimates that are frozen once they are issued."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.conf import settings
from django.db import models
from django.db.models import F, Q
from simple_history.models import HistoricalRecords

from estimating.errors import Frozen

ISSUED = "issued"
COUNTRIES = [("us", "United States"), ("ca", "Canada")]
FROZEN_WORDS = "An issued estimate is not changed or deleted; build a new revision."


class PriceBook(models.Model):
    """What things cost one company in one country, and what it adds to them, in one currency.

    `invented` marks prices that nobody quoted.
    """

    company = models.ForeignKey("projects.Company", on_delete=models.PROTECT, related_name="price_books")
    code = models.CharField("country", max_length=2, choices=COUNTRIES, default="us")
    name = models.CharField(max_length=120)
    invented = models.BooleanField(default=False)
    rates = models.JSONField(default=dict)
    version = models.PositiveIntegerField(default=1, editable=False)
    updated_at = models.DateTimeField(auto_now=True)

    history = HistoricalRecords()

    class Meta:
        ordering = ["name"]
        constraints = [
            models.UniqueConstraint(fields=["company", "code"], name="price_book_once_a_country"),
        ]

    def __str__(self) -> str:
        return self.name


class PriceItem(models.Model):
    """One price. Without `price` it is known to be missing; it is never taken as zero."""

    book = models.ForeignKey(PriceBook, on_delete=models.CASCADE, related_name="items")
    code = models.CharField(max_length=80)
    description = models.CharField(max_length=160)
    unit = models.CharField(max_length=8)
    price = models.DecimalField(max_digits=12, decimal_places=4, null=True, blank=True)
    supplier = models.CharField(max_length=120, blank=True)
    dated = models.DateField(null=True, blank=True)
    version = models.PositiveIntegerField(default=1, editable=False)

    history = HistoricalRecords()

    class Meta:
        ordering = ["code"]
        constraints = [
            models.UniqueConstraint(fields=["book", "code"], name="price_code_once_a_book"),
            models.CheckConstraint(condition=Q(price__isnull=True) | Q(price__gt=0), name="price_above_zero"),
            models.CheckConstraint(
                condition=Q(price__isnull=True) | Q(dated__isnull=False), name="price_has_date"
            ),
        ]

    def __str__(self) -> str:
        return self.code

    @property
    def company_id(self) -> int:
        """Key of the company whose price it is."""
        return self.book.company_id


class EstimateQuerySet(models.QuerySet["Estimate"]):
    """Bulk writes refuse to touch an issued estimate."""

    def update(self, **kwargs: Any) -> int:
        """Raises Frozen when an issued estimate is among the rows."""
        if self.filter(status=ISSUED).exists():
            raise Frozen(FROZEN_WORDS)
        return super().update(**kwargs)

    def delete(self) -> tuple[int, dict[str, int]]:
        """Raises Frozen when an issued estimate is among the rows."""
        if self.filter(status=ISSUED).exists():
            raise Frozen(FROZEN_WORDS)
        return super().delete()

    update.alters_data = True  # type: ignore[attr-defined]
    delete.alters_data = True  # type: ignore[attr-defined]


class Estimate(models.Model):
    """One revision: the schedule, settings and rates it was built from, and everything it came to."""

    class Status(models.TextChoices):
        DRAFT = "draft", "draft"
        ISSUED = ISSUED, "issued"

    job = models.ForeignKey("projects.Job", on_delete=models.PROTECT, related_name="estimates")
    revision = models.PositiveSmallIntegerField()
    schedule = models.ForeignKey("structure.Schedule", on_delete=models.PROTECT, related_name="estimates")
    status = models.CharField(max_length=8, choices=Status, default=Status.DRAFT)
    takeoff_settings = models.JSONField()
    rates = models.JSONField()
    book_version = models.PositiveIntegerField()
    #: Everything the pages show and the workbook writes, as plain data.
    document = models.JSONField()
    total = models.DecimalField(max_digits=14, decimal_places=2, null=True, blank=True)
    dated = models.DateField()
    built_by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    built_at = models.DateTimeField()
    issued_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    issued_at = models.DateTimeField(null=True, blank=True)
    version = models.PositiveIntegerField(default=1, editable=False)

    objects = EstimateQuerySet.as_manager()

    class Meta:
        ordering = ["job", "-revision"]
        base_manager_name = "objects"
        constraints = [
            models.UniqueConstraint(fields=["job", "revision"], name="estimate_revision_once_a_job"),
            models.UniqueConstraint(
                fields=["job"], condition=Q(status="draft"), name="one_draft_estimate_a_job"
            ),
            models.CheckConstraint(
                condition=Q(status="draft", issued_at__isnull=True, issued_by__isnull=True)
                | Q(status="issued", issued_at__isnull=False, issued_by__isnull=False, total__isnull=False),
                name="estimate_issued_with_total",
            ),
        ]

    def __str__(self) -> str:
        return f"Revision {self.revision}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Raises Frozen when the stored row has been issued."""
        if self.pk is not None and Estimate.objects.filter(pk=self.pk, status=ISSUED).exists():
            raise Frozen(FROZEN_WORDS)
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> tuple[int, dict[str, int]]:
        """Raises Frozen when the stored row has been issued."""
        if Estimate.objects.filter(pk=self.pk, status=ISSUED).exists():
            raise Frozen(FROZEN_WORDS)
        return super().delete(*args, **kwargs)

    @property
    def issued(self) -> bool:
        """Sent out and frozen."""
        return self.status == self.Status.ISSUED


class EstimateLineQuerySet(models.QuerySet["EstimateLine"]):
    """Bulk writes refuse to touch the lines of an issued estimate."""

    def update(self, **kwargs: Any) -> int:
        """Raises Frozen when a line of an issued estimate is among the rows."""
        if self.filter(estimate__status=ISSUED).exists():
            raise Frozen(FROZEN_WORDS)
        return super().update(**kwargs)

    def delete(self) -> tuple[int, dict[str, int]]:
        """Raises Frozen when a line of an issued estimate is among the rows."""
        if self.filter(estimate__status=ISSUED).exists():
            raise Frozen(FROZEN_WORDS)
        return super().delete()

    def bulk_create(self, objs: Iterable[EstimateLine], *args: Any, **kwargs: Any) -> list[EstimateLine]:  # type: ignore[override]
        """Raises Frozen when a line would be added to an issued estimate."""
        rows = list(objs)
        if Estimate.objects.filter(pk__in={row.estimate_id for row in rows}, status=ISSUED).exists():
            raise Frozen(FROZEN_WORDS)
        return list(super().bulk_create(rows, *args, **kwargs))  # type: ignore[arg-type]

    update.alters_data = True  # type: ignore[attr-defined]
    delete.alters_data = True  # type: ignore[attr-defined]


class EstimateLine(models.Model):
    """One line as a row, for lists and sums across jobs; what it says is the same as in the document."""

    estimate = models.ForeignKey(Estimate, on_delete=models.CASCADE, related_name="lines")
    number = models.PositiveSmallIntegerField()
    code = models.CharField(max_length=80)
    description = models.CharField(max_length=200)
    detail = models.CharField(max_length=300, blank=True)
    kind = models.CharField(max_length=10)
    division = models.CharField(max_length=2)
    cost_code = models.CharField(max_length=8)
    marks = models.JSONField(default=list)
    net = models.DecimalField(max_digits=12, decimal_places=3)
    waste = models.DecimalField(max_digits=12, decimal_places=3)
    reuse = models.DecimalField(max_digits=12, decimal_places=3)
    unit = models.CharField(max_length=8)
    price = models.DecimalField(max_digits=12, decimal_places=4, null=True, blank=True)
    price_unit = models.CharField(max_length=8)
    amount = models.DecimalField(max_digits=14, decimal_places=2, null=True, blank=True)
    allowance = models.BooleanField(default=False)
    stale = models.BooleanField(default=False)
    rule = models.TextField()
    source = models.CharField(max_length=240)

    objects = EstimateLineQuerySet.as_manager()

    class Meta:
        ordering = ["estimate", "number"]
        base_manager_name = "objects"
        constraints = [
            models.UniqueConstraint(fields=["estimate", "number"], name="line_number_once_an_estimate"),
            models.CheckConstraint(
                condition=Q(reuse__lte=F("net") + F("waste")), name="reuse_within_quantity"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.number} {self.description}"

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Raises Frozen when the estimate has been issued."""
        if Estimate.objects.filter(pk=self.estimate_id, status=ISSUED).exists():
            raise Frozen(FROZEN_WORDS)
        super().save(*args, **kwargs)

    def delete(self, *args: Any, **kwargs: Any) -> tuple[int, dict[str, int]]:
        """Raises Frozen when the estimate has been issued."""
        if Estimate.objects.filter(pk=self.estimate_id, status=ISSUED).exists():
            raise Frozen(FROZEN_WORDS)
        return super().delete(*args, **kwargs)
