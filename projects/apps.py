"""The app of properties, jobs, people, evidence, hold points and paper."""

from django.apps import AppConfig


class ProjectsConfig(AppConfig):
    """Properties, jobs, people, survey, hold points, permits and inspections."""

    name = "projects"
    verbose_name = "Projects"

    def ready(self) -> None:
        """Answer for the hold points that rows of this app decide."""
        from django.core.checks import register

        from projects import own_holdpoints, permit_holds
        from projects.holdpoints import check_providers

        own_holdpoints.register_all()
        permit_holds.register_all()
        register(check_providers)
