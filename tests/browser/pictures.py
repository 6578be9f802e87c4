"""Makes the pictures of real screens that the README shows: `python -m tests.browser.pictures`."""

from __future__ import annotations

import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

from tests.browser.site import CHROMIUM_FLAGS, ROOT, chromium_path, served_demo, sign_in

FOLDER = ROOT / "projects" / "static" / "projects" / "pictures"
# File name, address in the demo, height of the screen at 1280 px width.
SCREENS = [("job.png", "/jobs/1/structure/sizes/members/", 1480)]


def make(folder: Path = FOLDER) -> list[Path]:
    """Load and serve the demo in a folder of its own, and take each screen; the paths written."""
    executable = chromium_path()
    if executable is None:
        raise SystemExit("No Chromium on this machine.")
    folder.mkdir(parents=True, exist_ok=True)
    made = []
    with (
        tempfile.TemporaryDirectory() as place,
        served_demo(Path(place)) as site,
        sync_playwright() as driver,
    ):
        browser = driver.chromium.launch(executable_path=executable, args=CHROMIUM_FLAGS)
        page = browser.new_page(color_scheme="light")
        sign_in(page, site, "contractor")
        for name, address, height in SCREENS:
            page.set_viewport_size({"width": 1280, "height": height})
            page.goto(site.url + address)
            page.screenshot(path=folder / name)
            made.append(folder / name)
        browser.close()
    return made


if __name__ == "__main__":
    for path in make():
        print(path)  # noqa: T201
