"""The demo site served from a folder of its own, and Debian's Chromium to look at it with."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import yaml

ROOT = Path(__file__).resolve().parents[2]
START_SECONDS = 60
DEMO_SECONDS = 300
CHROMIUM_FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
]


@dataclass(frozen=True)
class Site:
    """A running site: where it answers, where it keeps its files, and what its demo printed."""

    url: str
    folder: Path
    printed: str


def chromium_path() -> str | None:
    """Where Chromium is on this machine, or None."""
    return shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def served_demo(folder: Path) -> Iterator[Site]:
    """Load the demo into `folder` and serve it on a free port until the block ends."""
    folder.mkdir(parents=True, exist_ok=True)
    environment = {
        **os.environ,
        "DJANGO_SETTINGS_MODULE": "projects.config.settings.dev",
        "CARRYDOWN_VAR": str(folder),
        "DATABASE_URL": f"sqlite:///{folder / 'site.sqlite3'}",
    }
    environment.pop("REDIS_URL", None)
    loaded = subprocess.run(
        [sys.executable, "manage.py", "demo", "--once"],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        timeout=DEMO_SECONDS,
        check=False,
    )
    if loaded.returncode != 0:
        raise RuntimeError(f"the demo did not load:\n{loaded.stdout}\n{loaded.stderr}")
    port = free_port()
    log = (folder / "server.log").open("w", encoding="utf-8")
    server = subprocess.Popen(
        [sys.executable, "manage.py", "runserver", f"127.0.0.1:{port}", "--noreload"],
        cwd=ROOT,
        env=environment,
        stdout=log,
        stderr=subprocess.STDOUT,
    )
    try:
        url = f"http://127.0.0.1:{port}"
        _wait_for(f"{url}/healthz", server)
        yield Site(url, folder, loaded.stdout)
    finally:
        server.terminate()
        server.wait(timeout=20)
        log.close()


def _wait_for(address: str, server: subprocess.Popen[bytes]) -> None:
    deadline = time.monotonic() + START_SECONDS
    while time.monotonic() < deadline:
        if server.poll() is not None:
            raise RuntimeError("the server stopped before it answered")
        try:
            with urllib.request.urlopen(address, timeout=5):  # noqa: S310  (a loopback address made above)
                return
        except (urllib.error.URLError, OSError):
            time.sleep(0.2)
    raise RuntimeError(f"{address} did not answer within {START_SECONDS} s")


def sign_in(page: object, site: Site, role: str) -> None:
    """Sign the demo person of `role` in, through the form as a person would."""
    people = yaml.safe_load((ROOT / "fixtures" / "demo" / "company.yaml").read_text(encoding="utf-8"))
    name = next(row["username"] for row in people["people"] if row["role"] == role)
    page.goto(f"{site.url}/sign-in/")
    page.get_by_label("Username").fill(name)
    page.get_by_label("Password").fill(people["password"])
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(f"{site.url}/")
