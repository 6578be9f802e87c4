"""The app of what holds the house up."""

from django.apps import AppConfig


class StructureConfig(AppConfig):
    """House section, design runs, schedules and shoring plans."""

    name = "structure"
    verbose_name = "Structure"

    def ready(self) -> None:
        """Answer for hold points, and add our pages to the job page and the main navigation."""
        from structure import engineering_package, holdpoints, panels

        holdpoints.register_all()
        panels.register_all()
        engineering_package.register_all()
