"""Structure rows for the office's administrator: to read, since services are the only door for writing."""

from __future__ import annotations

from typing import Any

from django.contrib import admin
from django.http import HttpRequest

from structure.models import DesignRun, EnteredProduct, HouseSection, MarkTick, OffsetCheck, Schedule


class ReadOnly(admin.ModelAdmin):
    """Nothing is added, changed or removed here."""

    def has_add_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def has_change_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False

    def has_delete_permission(self, request: HttpRequest, obj: Any = None) -> bool:
        return False


@admin.register(HouseSection)
class HouseSectionAdmin(ReadOnly):
    list_display = ["job", "opening", "version", "updated_by", "updated_at"]
    list_select_related = ["job__property", "updated_by"]


@admin.register(DesignRun)
class DesignRunAdmin(ReadOnly):
    list_display = ["pk", "job", "status", "core_version", "created_by", "created_at"]
    list_select_related = ["job__property", "created_by"]


@admin.register(EnteredProduct)
class EnteredProductAdmin(ReadOnly):
    list_display = ["pk", "job", "family", "name", "source", "entered_by", "entered_at", "voided_at"]
    list_filter = ["family"]
    list_select_related = ["job__property", "entered_by"]


@admin.register(Schedule)
class ScheduleAdmin(ReadOnly):
    list_display = ["pk", "job", "source", "current", "chosen_by", "chosen_at"]
    list_filter = ["source", "current"]
    list_select_related = ["job__property", "chosen_by"]


admin.site.register([OffsetCheck, MarkTick], ReadOnly)
