"""The root of all addresses: each app under its own namespace."""

from django.contrib import admin
from django.urls import include, path

from projects.config.health import healthz, readyz

urlpatterns = [
    path("healthz", healthz, name="healthz"),
    path("readyz", readyz, name="readyz"),
    path("admin/", admin.site.urls),
    path("", include("projects.urls")),
    path("", include("structure.urls")),
    path("", include("estimating.urls")),
]
