"""The admin site: for whoever runs the installation, across companies. Records are read there, not written."""

from __future__ import annotations

from typing import Any

from django.contrib import admin
from django.contrib.auth.admin import UserAdmin
from django.http import HttpRequest
from simple_history.admin import SimpleHistoryAdmin

from projects import models


class ReadOnly(admin.ModelAdmin):
    """Looked at, never changed: what is on record was put there by a person through a service."""

    def has_add_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        """Nobody adds here."""
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        """Nobody changes here."""
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        """Nobody deletes here."""
        return False


@admin.register(models.Company)
class CompanyAdmin(admin.ModelAdmin):
    """Companies are opened here; their contractor does the rest."""

    list_display = ("name", "created_at")
    search_fields = ("name",)


@admin.register(models.User)
class PersonAdmin(UserAdmin):
    """People, with company and role."""

    list_display = ("username", "first_name", "last_name", "company", "role", "is_active")
    list_filter = ("role", "company", "is_active")
    fieldsets = (*(UserAdmin.fieldsets or ()), ("Company", {"fields": ("company", "role", "phone")}))
    add_fieldsets = (*UserAdmin.add_fieldsets, ("Company", {"fields": ("company", "role")}))


@admin.register(models.Property)
class PropertyAdmin(SimpleHistoryAdmin):
    """Houses with their history."""

    list_display = ("name", "company", "city", "region", "code")
    list_filter = ("company", "code")
    search_fields = ("name", "street", "city")


@admin.register(models.Job)
class JobAdmin(ReadOnly):
    """Jobs; their stage moves through the one door only."""

    list_display = ("name", "property", "stage", "stage_since", "archived_at")
    list_filter = ("stage", "property__company")
    search_fields = ("name", "wall", "property__name")


@admin.register(models.JobEvent)
class JobEventAdmin(ReadOnly):
    """The record."""

    list_display = ("at", "job", "actor_name", "verb", "detail")
    list_filter = ("verb",)


@admin.register(
    models.Finding, models.SurveyAnswer, models.Decision, models.HoldPass, models.Override, models.Photo
)
class RecordAdmin(ReadOnly):
    """Evidence, decisions, records and overrides."""

    list_display = ("__str__", "job")
