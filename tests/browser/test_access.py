"""Every kind of page on a phone and on a desk, light and dark: axe finds nothing, nothing spills sideways."""

from __future__ import annotations

import pytest

from tests.need import require

pytestmark = pytest.mark.browser

PAGES = [
    "/",
    "/properties/",
    "/properties/1/",
    "/properties/new/",
    "/people/",
    "/jobs/1/",
    "/jobs/1/record/",
    "/jobs/1/stage/",
    "/jobs/1/survey/",
    "/jobs/1/survey/findings/new/joist_direction/",
    "/jobs/1/verdict/",
    "/jobs/1/holds/",
    "/jobs/1/structure/section/",
    "/jobs/1/structure/section/products/",
    "/jobs/1/structure/section/products/1/void/",
    "/jobs/1/structure/section/loads/",
    "/jobs/1/structure/section/offset/",
    "/jobs/1/structure/sizes/",
    "/jobs/1/structure/sizes/?family=flitch&answer=fails",
    "/jobs/1/structure/sizes/members/",
    "/jobs/1/structure/sizes/load-path/",
    "/jobs/1/structure/sizes/shoring/",
    "/jobs/1/structure/sizes/schedule/",
    "/jobs/1/structure/sizes/schedule/sealed/",
    "/jobs/1/estimate/",
    "/jobs/1/estimate/takeoff/",
    "/jobs/1/estimate/cut-list/",
    "/jobs/1/estimate/settings/",
    "/jobs/5/structure/sizes/schedule/sealed/",
    "/jobs/7/",
    "/jobs/7/engineering/",
    "/jobs/7/structure/section/",
    "/jobs/7/structure/section/products/",
    "/jobs/7/structure/section/loads/",
    "/jobs/7/structure/section/offset/",
    "/jobs/7/structure/sizes/",
    "/jobs/7/structure/sizes/members/",
    "/jobs/7/structure/sizes/load-path/",
    "/jobs/7/structure/sizes/shoring/",
    "/jobs/7/structure/sizes/schedule/",
    "/jobs/7/estimate/",
    "/jobs/7/estimate/takeoff/",
    "/jobs/7/estimate/cut-list/",
    "/jobs/7/estimate/settings/",
    "/prices/",
    "/prices/?country=ca",
    "/prices/rates/?country=ca",
    "/verification/",
    "/verification/own-post-off-centre/",
]
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@pytest.mark.slow
@pytest.mark.parametrize(
    ("width", "theme"), [(320, "light"), (1280, "dark")], ids=["phone-light", "desk-dark"]
)
def test_no_accessibility_fault_and_nothing_wider_than_the_screen(page_as, width: int, theme: str) -> None:
    try:
        from axe_playwright_python.sync_playwright import Axe
    except ImportError:
        require(False, "axe-playwright-python is not installed")
    page = page_as("contractor", size={"width": width, "height": 800}, theme=theme)
    axe, faults = Axe(), []
    for path in PAGES:
        answer = page.goto(path)
        assert answer.status == 200, path
        wide = page.evaluate("document.documentElement.scrollWidth")
        if wide > width:
            faults.append(f"{path}: {wide} px wide on a screen of {width}")
        found = axe.run(page, options={"runOnly": {"type": "tag", "values": RULES}})
        for fault in found.response["violations"]:
            where = "; ".join(" ".join(map(str, node["target"])) for node in fault["nodes"][:3])
            faults.append(f"{path}: {fault['id']} ({fault['help']}) at {where}")
    assert faults == []
