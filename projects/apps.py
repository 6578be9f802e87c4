"""The app of properties, jobs, people, evidence, hold points and paper."""

from django.apps import AppConfig


class ProjectsConfig(AppConfig):
    """Properties, jobs, people, survey, hold points, permits and inspections."""

    name = "projects"
    verbose_name = "Projects"
