"""Settings for an office's server. A missing or weak value stops the start, all of them named at once."""

from django.core.exceptions import ImproperlyConfigured

from projects.config.env import env, read_env_file

read_env_file()

from .base import *  # noqa: E402  the file must be read before the shared settings look at the environment


def _complaints() -> list[str]:
    """What is missing or too weak to serve other people with."""
    found = []
    key = env.str("SECRET_KEY", default="")
    if len(key) < 50 or len(set(key)) < 10 or key.startswith(("insecure", "django-insecure-")):
        found.append("SECRET_KEY: need at least 50 varied characters that were made by a generator")
    hosts = env.list("ALLOWED_HOSTS", default=[])
    if not hosts or any("*" in host for host in hosts):
        found.append("ALLOWED_HOSTS: need the site's own names, separated by commas, without *")
    if not env.str("CARRYDOWN_VAR", default=""):
        found.append("CARRYDOWN_VAR: need the folder that keeps database, uploads and workbooks")
    elif not VAR_DIR.is_absolute():
        found.append(f"CARRYDOWN_VAR: read {str(VAR_DIR)!r}; need an absolute path")
    if env.bool("DEBUG", default=False):
        found.append("DEBUG: must not be set in production")
    return found


if problems := _complaints():
    raise ImproperlyConfigured("Carrydown does not start: " + "; ".join(problems) + ".")

DEBUG = False
SECRET_KEY = env.str("SECRET_KEY")
ALLOWED_HOSTS = env.list("ALLOWED_HOSTS")
CSRF_TRUSTED_ORIGINS = [f"https://{host.lstrip('.')}" for host in ALLOWED_HOSTS]

SECURE_SSL_REDIRECT = True
# Health probes come from inside, over plain HTTP.
SECURE_REDIRECT_EXEMPT = [r"^healthz$", r"^readyz$"]
SECURE_HSTS_SECONDS = 365 * 24 * 60 * 60
SECURE_HSTS_INCLUDE_SUBDOMAINS = True
SECURE_HSTS_PRELOAD = True
if env.bool("TRUST_PROXY", default=False):
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")

SESSION_COOKIE_SECURE = True
SESSION_COOKIE_NAME = "__Host-sessionid"
CSRF_COOKIE_SECURE = True
CSRF_COOKIE_NAME = "__Host-csrftoken"

STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "whitenoise.storage.CompressedManifestStaticFilesStorage"},
}
LOGGING["handlers"]["console"]["formatter"] = "json"
VAR_DIR.mkdir(parents=True, exist_ok=True)
