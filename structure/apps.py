"""The app of what holds the house up."""

from django.apps import AppConfig


class StructureConfig(AppConfig):
    """House section, design runs, schedules and shoring plans."""

    name = "structure"
    verbose_name = "Structure"
