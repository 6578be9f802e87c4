"""Settings for the tests: no `.env`, quick password hashes, everything on disk in a folder of its own."""

import tempfile
from pathlib import Path

from projects.config.env import env

from .base import *

DEBUG = False
SECRET_KEY = "only-for-tests-" + "0123456789abcdef" * 4
ALLOWED_HOSTS = ["testserver", "127.0.0.1", "localhost"]

VAR_DIR = Path(env.str("CARRYDOWN_TEST_VAR", default=str(Path(tempfile.gettempdir()) / "carrydown-tests")))
VAR_DIR.mkdir(parents=True, exist_ok=True)
MEDIA_ROOT = VAR_DIR / "media"
STATIC_ROOT = VAR_DIR / "static"
if DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
    DATABASES["default"]["NAME"] = VAR_DIR / "unused.sqlite3"

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
# Tests sign people in directly; the throttle has tests of its own that switch it on.
AXES_ENABLED = False
CELERY_TASK_ALWAYS_EAGER = True
CELERY_TASK_EAGER_PROPAGATES = True
CACHES = {
    "default": {"BACKEND": "django.core.cache.backends.locmem.LocMemCache", "LOCATION": "carrydown-tests"}
}
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
WHITENOISE_AUTOREFRESH = True
LOGGING["root"]["level"] = "WARNING"
