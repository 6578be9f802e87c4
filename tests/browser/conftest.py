"""One served demo and one Chromium for the whole folder; a fresh, signed-in page for each test."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from tests.browser.site import CHROMIUM_FLAGS, Site, served_demo, sign_in
from tests.need import require

WIDE, PHONE = {"width": 1280, "height": 900}, {"width": 390, "height": 844}


@pytest.fixture(scope="session")
def site(chromium: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """The demo, loaded and served in a process of its own."""
    with served_demo(tmp_path_factory.mktemp("site")) as running:
        yield running


@pytest.fixture(scope="session")
def browser(chromium: str) -> Iterator[object]:
    """Chromium, driven by Playwright."""
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        require(False, "playwright is not installed")
    with sync_playwright() as driver:
        opened = driver.chromium.launch(executable_path=chromium, args=CHROMIUM_FLAGS)
        yield opened
        opened.close()


def _is_fault(said) -> bool:
    # A form that comes back with its errors answers 422, which Chromium reports as if it were a fault.
    return said.type == "error" and "422 (Unprocessable" not in said.text


@pytest.fixture
def page_as(site: Site, browser) -> Iterator[Callable[..., object]]:
    """`page_as("contractor", width=390)`: a page of its own, signed in as the demo person of that role.

    Fails the test on a script error or on a request to another host.
    """
    contexts, wrong = [], []

    def opened(role: str = "contractor", *, size: dict[str, int] | None = None, theme: str = "light", **more):
        context = browser.new_context(
            viewport=size or WIDE, color_scheme=theme, base_url=site.url, accept_downloads=True, **more
        )
        contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: wrong.append(f"{page.url}: {error}"))
        page.on("console", lambda said: wrong.append(f"{page.url}: {said.text}") if _is_fault(said) else None)
        page.on(
            "request",
            lambda asked: (
                None
                if asked.url.startswith((site.url, "data:", "blob:"))
                else wrong.append(f"asked {asked.url}")
            ),
        )
        sign_in(page, site, role)
        return page

    yield opened
    for context in contexts:
        context.close()
    assert wrong == []
