"""Estimates are read in the admin, never written there."""

from __future__ import annotations

from typing import Any

from django.contrib import admin
from django.http import HttpRequest

from estimating.models import Estimate, EstimateLine, PriceBook, PriceItem


class ReadOnlyAdmin(admin.ModelAdmin):
    """Looks, and changes nothing: services are the one door for writes."""

    def has_add_permission(self, request: HttpRequest) -> bool:
        """No."""
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        """No."""
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        """No."""
        return False


admin.site.register([PriceBook, PriceItem, Estimate, EstimateLine], ReadOnlyAdmin)
