"""Filters over lists."""

from __future__ import annotations

from typing import Any

import django_filters
from django import forms
from django.db.models import Q, QuerySet

from projects.models import Job, Property
from projects.models.jobs import STAGE_CHOICES


class JobFilter(django_filters.FilterSet):
    """Jobs by words, stage and property; archived ones only when asked for."""

    q = django_filters.CharFilter(label="Search", method="by_words")
    stage = django_filters.ChoiceFilter(label="Stage", choices=STAGE_CHOICES, empty_label="Every stage")
    property = django_filters.ModelChoiceFilter(
        label="Property", queryset=Property.objects.none(), empty_label="Every property"
    )
    archived = django_filters.BooleanFilter(
        label="Archived ones", method="by_archive", widget=forms.CheckboxInput
    )

    class Meta:
        model = Job
        fields = ["q", "stage", "property", "archived"]

    def __init__(self, *args: Any, properties: QuerySet[Property], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.filters["property"].field.queryset = properties

    def by_words(self, jobs: QuerySet[Job], name: str, value: str) -> QuerySet[Job]:
        """Words in the names of job and property, the wall and the address."""
        for word in value.split()[:8]:
            jobs = jobs.filter(
                Q(name__icontains=word)
                | Q(wall__icontains=word)
                | Q(property__name__icontains=word)
                | Q(property__street__icontains=word)
                | Q(property__city__icontains=word)
            )
        return jobs

    def by_archive(self, jobs: QuerySet[Job], name: str, value: bool) -> QuerySet[Job]:
        """Archived jobs in place of the others."""
        return jobs.filter(archived_at__isnull=not value)


class PropertyFilter(django_filters.FilterSet):
    """Properties by words."""

    q = django_filters.CharFilter(label="Search", method="by_words")

    class Meta:
        model = Property
        fields = ["q"]

    def by_words(self, houses: QuerySet[Property], name: str, value: str) -> QuerySet[Property]:
        """Words in name and address."""
        for word in value.split()[:8]:
            houses = houses.filter(
                Q(name__icontains=word) | Q(street__icontains=word) | Q(city__icontains=word)
            )
        return houses
