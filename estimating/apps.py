"""The app of what it costs."""

from django.apps import AppConfig


class EstimatingConfig(AppConfig):
    """Price books, takeoffs, quotes and workbooks."""

    name = "estimating"
    verbose_name = "Estimating"

    def ready(self) -> None:
        """Add our pages to the job page and the main navigation, and our costs to the page of sizes."""
        from estimating import beam_costs, panels

        panels.register_all()
        beam_costs.register_all()
