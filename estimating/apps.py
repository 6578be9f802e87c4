"""The app of what it costs."""

from django.apps import AppConfig


class EstimatingConfig(AppConfig):
    """Price books, takeoffs, quotes and workbooks."""

    name = "estimating"
    verbose_name = "Estimating"
