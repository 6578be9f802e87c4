"""The composition root: the only room that may import all three apps."""

# Django imports this package for its settings, so every process has the app that `shared_task` binds to.
from projects.config.celery_app import app as celery_app

__all__ = ["celery_app"]
