"""What every page needs besides its own content."""

from __future__ import annotations

from importlib.metadata import PackageNotFoundError, version
from typing import Any

from django.http import HttpRequest

from projects.panels import main_links_for

THEMES = {
    "auto": ("light", "Light sheet"),
    "light": ("dark", "Dark sheet"),
    "dark": ("auto", "Sheet as the device"),
}
THEME_COOKIE = "theme"

try:
    VERSION = version("carrydown")
except PackageNotFoundError:
    VERSION = "from source"


def theme_of(request: HttpRequest) -> str:
    """The colour setting asked for by the visitor's cookie; `auto` for none or nonsense."""
    asked = request.COOKIES.get(THEME_COOKIE, "auto")
    return asked if asked in THEMES else "auto"


def page(request: HttpRequest) -> dict[str, Any]:
    """Theme, version and the links that other apps add to the main navigation."""
    theme = theme_of(request)
    following, label = THEMES[theme]
    user = getattr(request, "user", None)
    return {
        "theme": theme,
        "theme_next": following,
        "theme_next_label": label,
        "carrydown_version": VERSION,
        "main_links": main_links_for(user) if user is not None and user.is_authenticated else [],
    }
