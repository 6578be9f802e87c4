"""The app of properties, jobs, people, evidence, hold points and paper."""

from django.apps import AppConfig


class ProjectsConfig(AppConfig):
    """Properties, jobs, people, survey, hold points, permits and inspections."""

    name = "projects"
    verbose_name = "Projects"

    def ready(self) -> None:
        """Answer for the hold points that rows of this app decide, and link the authorities' rules."""
        from django.core.checks import register

        from projects import own_holdpoints, permit_holds
        from projects.holdpoints import check_providers
        from projects.panels import MainLink, register_main_link

        own_holdpoints.register_all()
        permit_holds.register_all()
        register_main_link(MainLink("jurisdictions", "Jurisdictions", "projects:jurisdictions", order=70))
        register(check_providers)
