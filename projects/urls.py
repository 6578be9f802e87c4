"""Addresses of the projects app."""

from django.urls import path

from projects.views import theme

app_name = "projects"

urlpatterns = [
    path("theme/", theme.theme_set, name="theme"),
]
