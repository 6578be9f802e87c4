"""Filters of the price list."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import django_filters
from django.db.models import Q, QuerySet
from django.utils import timezone

from estimating.models import PriceItem


class PriceFilter(django_filters.FilterSet):
    """By words, and by what needs a call to a supplier."""

    words = django_filters.CharFilter(method="by_words", label="Code, words or supplier")
    state = django_filters.ChoiceFilter(
        choices=[("missing", "missing"), ("stale", "stale")],
        method="by_state",
        label="Only",
        empty_label="all prices",
    )

    class Meta:
        model = PriceItem
        fields: tuple[str, ...] = ()

    def __init__(self, *args: Any, stale_after_days: int, **kwargs: Any) -> None:
        self.stale_after_days = stale_after_days
        super().__init__(*args, **kwargs)

    def by_words(self, rows: QuerySet[PriceItem], name: str, value: str) -> QuerySet[PriceItem]:
        """Any of code, description and supplier."""
        found = Q(code__icontains=value) | Q(description__icontains=value) | Q(supplier__icontains=value)
        return rows.filter(found)

    def by_state(self, rows: QuerySet[PriceItem], name: str, value: str) -> QuerySet[PriceItem]:
        """What has no price, or an old one."""
        if value == "missing":
            return rows.filter(price__isnull=True)
        return rows.filter(dated__lt=timezone.localdate() - timedelta(days=self.stale_after_days))
