"""What a test needs from the machine: skipped with a reason when missing, a failure when the run must be full."""

from __future__ import annotations

import os
import shutil

import pytest

FULL = os.environ.get("CARRYDOWN_FULL") == "1"


def require(available: object, reason: str) -> None:
    """Go on when `available` is true. Else skip with the reason, or fail when CARRYDOWN_FULL=1."""
    if available:
        return
    if FULL:
        pytest.fail(f"CARRYDOWN_FULL=1 and {reason}", pytrace=False)
    pytest.skip(reason)


def require_program(*names: str) -> str:
    """Path of the first of these programs that is installed."""
    found = next((path for name in names if (path := shutil.which(name))), None)
    require(found, f"{' or '.join(names)} is not installed")
    return str(found)
