"""Houses that work is done in."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from simple_history.models import HistoricalRecords

from projects.models.accounts import Company


class BuildingCode(models.TextChoices):
    """The family of codes a house is under."""

    US = "us", "United States"
    CA = "ca", "Canada"


class Units(models.TextChoices):
    """How lengths and loads are shown."""

    IMPERIAL = "imperial", "Feet and inches"
    METRIC = "metric", "Metric"


#: What a house is usually shown in, by its code; each house may choose otherwise.
USUAL_UNITS: dict[str, str] = {"us": "imperial", "ca": "metric"}

FIRST_YEAR, LAST_YEAR = 1600, 2100


class Property(models.Model):
    """A house: where it is, which code it is under and how old it is."""

    company = models.ForeignKey(Company, on_delete=models.PROTECT, related_name="properties")
    name = models.CharField(max_length=120)
    street = models.CharField(max_length=160)
    city = models.CharField(max_length=80)
    region = models.CharField("state or province", max_length=40)
    code = models.CharField("country", max_length=2, choices=BuildingCode.choices, default=BuildingCode.US)
    units = models.CharField(max_length=10, choices=Units.choices, default=Units.IMPERIAL)
    year_built = models.PositiveSmallIntegerField(
        null=True,
        blank=True,
        validators=[MinValueValidator(FIRST_YEAR), MaxValueValidator(LAST_YEAR)],
        help_text="Leave empty when not known: the house is then taken as old, and every hazard is asked about.",
    )
    notes = models.TextField(blank=True)
    version = models.PositiveIntegerField(default=1, editable=False)
    created_at = models.DateTimeField(auto_now_add=True)

    history = HistoricalRecords()

    class Meta:
        ordering = ["name", "pk"]
        verbose_name_plural = "properties"
        constraints = [
            models.UniqueConstraint(fields=["company", "name"], name="property_name_once_a_company"),
            models.CheckConstraint(
                condition=models.Q(code__in=BuildingCode.values), name="property_code_known"
            ),
            models.CheckConstraint(condition=models.Q(units__in=Units.values), name="property_units_known"),
            models.CheckConstraint(
                condition=models.Q(year_built__isnull=True)
                | models.Q(year_built__gte=FIRST_YEAR, year_built__lte=LAST_YEAR),
                name="property_year_in_range",
            ),
        ]

    def __str__(self) -> str:
        return self.name

    @property
    def address(self) -> str:
        """Street, city and region on one line."""
        return ", ".join(part for part in (self.street, self.city, self.region) if part)
