"""Companies and the people in them."""

from __future__ import annotations

from django.contrib.auth.models import AbstractUser
from django.db import models
from simple_history.models import HistoricalRecords


class Company(models.Model):
    """A contractor's business. Every row of work belongs to one; nobody sees another's."""

    name = models.CharField(max_length=120, unique=True)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["name"]
        verbose_name_plural = "companies"

    def __str__(self) -> str:
        return self.name


class Role(models.TextChoices):
    """What somebody is on the jobs of their company."""

    CONTRACTOR = "contractor", "Contractor"
    ESTIMATOR = "estimator", "Estimator"
    PROJECT_MANAGER = "project_manager", "Project manager"
    CREW = "crew", "Crew"


class User(AbstractUser):
    """A person who signs in. Without a company nothing is visible; crew is the least that anyone gets."""

    company = models.ForeignKey(
        Company, on_delete=models.PROTECT, related_name="people", null=True, blank=True
    )
    role = models.CharField(max_length=20, choices=Role.choices, default=Role.CREW)
    phone = models.CharField(max_length=40, blank=True)

    history = HistoricalRecords(excluded_fields=["password", "last_login"])

    class Meta(AbstractUser.Meta):
        ordering = ["last_name", "first_name", "username"]
        constraints = [
            models.CheckConstraint(condition=models.Q(role__in=Role.values), name="user_role_known"),
        ]

    @property
    def display_name(self) -> str:
        """Full name, or the sign-in name where none was given."""
        return self.get_full_name() or self.username

    def __str__(self) -> str:
        return self.display_name
