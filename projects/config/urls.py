"""The root of all addresses: each app under its own namespace."""

from django.contrib import admin
from django.contrib.auth.views import LoginView, LogoutView
from django.urls import include, path

from projects.config.health import healthz, readyz
from projects.config.icon import favicon

urlpatterns = [
    path("healthz", healthz, name="healthz"),
    path("readyz", readyz, name="readyz"),
    path("favicon.ico", favicon, name="favicon"),
    path("sign-in/", LoginView.as_view(redirect_authenticated_user=True), name="login"),
    path("sign-out/", LogoutView.as_view(), name="logout"),
    path("admin/", admin.site.urls),
    path("", include("projects.urls")),
    path("", include("structure.urls")),
    path("", include("estimating.urls")),
]
