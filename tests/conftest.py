"""Fixtures for every room."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, Phase
from hypothesis import settings as drawn

from tests import factories
from tests.need import require, require_program

__all__ = ["require", "require_program"]

# How fast the machine is today is not what these tests are about.
drawn.register_profile(
    "carrydown", deadline=None, suppress_health_check=[HealthCheck.too_slow], print_blob=True
)
# For tests that run thousands of times on code with a fault in it: the first failure is enough.
drawn.register_profile(
    "mutation",
    drawn.get_profile("carrydown"),
    phases=(Phase.explicit, Phase.generate),
    derandomize=True,
    database=None,
    max_examples=30,
)
drawn.load_profile("carrydown")


@pytest.fixture
def company(db):
    """A contractor's company."""
    return factories.make_company("Larkmoor Builders (invented)")


@pytest.fixture
def stranger(db):
    """A contractor of another company."""
    return factories.make_user(factories.make_company("Quarrel Hill Homes (invented)"))


@pytest.fixture
def contractor(company):
    """The contractor."""
    return factories.make_user(company, "contractor")


@pytest.fixture
def estimator(company):
    """The estimator."""
    return factories.make_user(company, "estimator")


@pytest.fixture
def project_manager(company):
    """The project manager."""
    return factories.make_user(company, "project_manager")


@pytest.fixture
def crew(company):
    """The crew lead, who sees no prices."""
    return factories.make_user(company, "crew")


@pytest.fixture
def job(company):
    """A wall in a house."""
    return factories.make_job(company)


@pytest.fixture(autouse=True)
def uploads_apart(tmp_path, settings):
    """Every test has a folder of its own for uploads. The fixture tells the storage, which keeps its folder."""
    settings.MEDIA_ROOT = tmp_path / "media"


@pytest.fixture(scope="session")
def chromium():
    """Path of a Chromium that Playwright can drive."""
    return require_program("chromium", "chromium-browser", "google-chrome")


@pytest.fixture(scope="session")
def soffice():
    """Path of LibreOffice."""
    return require_program("soffice", "libreoffice")
