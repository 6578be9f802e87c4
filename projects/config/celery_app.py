"""The Celery app. Tasks are `shared_task`s in each app's tasks.py; without REDIS_URL they run in process."""

import os

from celery import Celery

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "projects.config.settings.prod")

app = Celery("carrydown")
app.config_from_object("django.conf:settings", namespace="CELERY")
app.autodiscover_tasks()
