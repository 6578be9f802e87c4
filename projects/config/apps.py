"""The composition root as an app, so that its commands may reach all three apps."""

from django.apps import AppConfig


class ConfigConfig(AppConfig):
    """Settings, root URLs, health and the demo command."""

    name = "projects.config"
    label = "carrydown_config"
    verbose_name = "Carrydown"
