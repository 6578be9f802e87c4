"""Settings that development, tests and production share."""

from pathlib import Path
from typing import Any

from celery.schedules import crontab
from csp.constants import NONE, SELF
from django.contrib.messages import constants as messages

from projects.config.env import BASE_DIR, env

VAR_DIR = Path(env.str("CARRYDOWN_VAR", default=str(BASE_DIR / ".carrydown")))

# --- applications ---------------------------------------------------------------------------------
INSTALLED_APPS = [
    "projects.config.apps.ConfigConfig",
    "projects.apps.ProjectsConfig",
    "structure.apps.StructureConfig",
    "estimating.apps.EstimatingConfig",
    "django.contrib.admin",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.humanize",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django.forms",
    "axes",
    "csp",
    "django_filters",
    "django_htmx",
    "django_tables2",
    "simple_history",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "projects.config.middleware.PlainHeadersMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.auth.middleware.LoginRequiredMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "simple_history.middleware.HistoryRequestMiddleware",
    "axes.middleware.AxesMiddleware",
    "structure.middleware.units_middleware",
]

ROOT_URLCONF = "projects.config.urls"
WSGI_APPLICATION = "projects.config.wsgi.application"
ASGI_APPLICATION = "projects.config.asgi.application"
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

TEMPLATES: list[dict[str, Any]] = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "projects.context.page",
            ],
        },
    },
]
# The sheet has its own words for how bad a message is.
MESSAGE_TAGS = {
    messages.DEBUG: "muted",
    messages.INFO: "note",
    messages.SUCCESS: "ok",
    messages.WARNING: "warn",
    messages.ERROR: "bad",
}
# Our own field template (templates/django/forms/field.html) comes before Django's.
FORM_RENDERER = "django.forms.renderers.TemplatesSetting"
DJANGO_TABLES2_TEMPLATE = "django_tables2/sheet.html"

# --- database -------------------------------------------------------------------------------------
DATABASES: dict[str, dict[str, Any]] = {
    "default": env.db_url("DATABASE_URL", default=f"sqlite:///{VAR_DIR / 'carrydown.sqlite3'}"),
}
if DATABASES["default"]["ENGINE"] == "django.db.backends.sqlite3":
    # A deferred transaction that reads and then writes is refused under load whatever the timeout; IMMEDIATE
    # takes its place in the queue first. FULL keeps an acknowledged commit through a power cut.
    DATABASES["default"]["OPTIONS"] = {
        "transaction_mode": "IMMEDIATE",
        "timeout": 20,
        "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;",
    }
else:
    DATABASES["default"]["CONN_MAX_AGE"] = 60
    DATABASES["default"]["CONN_HEALTH_CHECKS"] = True

# --- people ---------------------------------------------------------------------------------------
AUTH_USER_MODEL = "projects.User"
AUTHENTICATION_BACKENDS = ["axes.backends.AxesStandaloneBackend", "django.contrib.auth.backends.ModelBackend"]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 12}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.NumericPasswordValidator"},
]
LOGIN_URL = "login"
LOGIN_REDIRECT_URL = "/"
LOGOUT_REDIRECT_URL = "login"

# Five wrong passwords for one name from one address close that pair for half an hour.
AXES_FAILURE_LIMIT = 5
AXES_COOLOFF_TIME = 0.5
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
AXES_RESET_ON_SUCCESS = True
AXES_LOCKOUT_TEMPLATE = "registration/locked_out.html"
AXES_VERBOSE = False

SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_AGE = 14 * 24 * 60 * 60
CSRF_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_HTTPONLY = True

# --- what a browser may do with our pages ---------------------------------------------------------
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [SELF],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF, "data:"],
        "object-src": [NONE],
        "base-uri": [NONE],
        "form-action": [SELF],
        "frame-ancestors": [NONE],
    },
}
X_FRAME_OPTIONS = "DENY"
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"

# --- words, numbers, time -------------------------------------------------------------------------
LANGUAGE_CODE = "en"
USE_I18N = True
USE_TZ = True
TIME_ZONE = env.str("TIME_ZONE", default="UTC")

# --- files ----------------------------------------------------------------------------------------
STATIC_URL = "static/"
STATIC_ROOT = VAR_DIR / "static"
# Uploads are never under a public URL: a view with a permission check serves them.
MEDIA_ROOT = VAR_DIR / "media"
MEDIA_URL = ""
FILE_UPLOAD_PERMISSIONS = 0o640
DATA_UPLOAD_MAX_MEMORY_SIZE = 5 * 1024 * 1024
DATA_UPLOAD_MAX_NUMBER_FIELDS = 2000

# --- background work ------------------------------------------------------------------------------
REDIS_URL: str = env.str("REDIS_URL", default="")
CELERY_BROKER_URL = REDIS_URL or "memory://localhost/"
CELERY_TASK_DEFAULT_QUEUE = env.str("CELERY_QUEUE", default="carrydown")
# A broker is not a database: nothing is kept there that the BackgroundJob row does not say.
CELERY_TASK_IGNORE_RESULT = True
CELERY_TASK_ALWAYS_EAGER = not REDIS_URL
CELERY_TASK_EAGER_PROPAGATES = False
CELERY_TASK_ACKS_LATE = True
CELERY_TASK_REJECT_ON_WORKER_LOST = True
CELERY_WORKER_PREFETCH_MULTIPLIER = 1
CELERY_TASK_SOFT_TIME_LIMIT = 540
CELERY_TASK_TIME_LIMIT = 600
# Above the longest task, or Redis hands a running task out a second time.
CELERY_BROKER_TRANSPORT_OPTIONS = {"visibility_timeout": 3600, "socket_connect_timeout": 3}
CELERY_BROKER_CONNECTION_RETRY_ON_STARTUP = True
CELERY_TASK_PUBLISH_RETRY_POLICY = {"max_retries": 1, "interval_start": 0, "interval_step": 0.2}
CELERY_WORKER_SOFT_SHUTDOWN_TIMEOUT = 30
CELERY_WORKER_HIJACK_ROOT_LOGGER = False
CELERY_TASK_SERIALIZER = "json"
CELERY_ACCEPT_CONTENT = ["json"]
CELERY_TIMEZONE = TIME_ZONE
CELERY_BEAT_SCHEDULE = {
    "look for lapsing permits": {
        "task": "projects.look_for_lapsing_permits",
        "schedule": crontab(hour=4, minute=10),
    },
    "send waiting background jobs again": {
        "task": "projects.requeue_stale_jobs",
        "schedule": 300.0,
    },
}

CACHES: dict[str, dict[str, Any]] = {
    "default": (
        {
            "BACKEND": "django.core.cache.backends.redis.RedisCache",
            "LOCATION": REDIS_URL,
            "KEY_PREFIX": "carrydown",
        }
        if REDIS_URL
        else {"BACKEND": "django.core.cache.backends.locmem.LocMemCache", "LOCATION": "carrydown"}
    ),
}

# --- logs -----------------------------------------------------------------------------------------
LOG_LEVEL = env.str("LOG_LEVEL", default="INFO")
LOGGING: dict[str, Any] = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {
        "plain": {
            "()": "projects.config.logs.OneLineFormatter",
            "format": "%(asctime)s %(levelname)s %(name)s: %(message)s",
        },
        "json": {"()": "projects.config.logs.JsonFormatter"},
    },
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "plain"}},
    "root": {"handlers": ["console"], "level": LOG_LEVEL},
    "loggers": {
        "django.server": {"handlers": ["console"], "level": "WARNING", "propagate": False},
        "axes": {"level": "WARNING"},
        # In process, a task that went well is not news; a worker's own log has its own level.
        "celery.app.trace": {"level": "WARNING" if CELERY_TASK_ALWAYS_EAGER else LOG_LEVEL},
    },
}
