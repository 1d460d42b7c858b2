"""What holds for every test: no display, short derandomised searches, nothing left running."""

import logging
import os
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, Phase, settings

from tests.support.leftovers import nothing_left_running
from tests.support.tools import required_tool

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

MARKED_BY_FIXTURE = {"qapp": "qt", "qtbot": "qt", "ngspice": "ngspice"}

# A machine under load must not fail a search for being slow. Why a found example fails is left to
# the study: tracing it can take longer than all the rest.
settings.register_profile(
    "quick",
    max_examples=50,
    derandomize=True,
    phases=[phase for phase in Phase if phase is not Phase.explain],
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile(
    "study",
    max_examples=2000,
    deadline=None,
    print_blob=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("quick")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--study", action="store_true", help="run the longer studies and searches too")


def pytest_configure(config: pytest.Config) -> None:
    if config.getoption("--study"):
        settings.load_profile("study")


@pytest.hookimpl(tryfirst=True)  # before pytest chooses by -m
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    for item in items:
        for fixture in getattr(item, "fixturenames", ()):
            if fixture in MARKED_BY_FIXTURE:
                item.add_marker(MARKED_BY_FIXTURE[fixture])
    studies = [item for item in items if item.get_closest_marker("study")]
    if studies and not config.getoption("--study"):
        config.hook.pytest_deselected(items=studies)
        items[:] = [item for item in items if item not in studies]


@pytest.fixture(autouse=True)
def _nothing_left_running() -> Iterator[None]:
    with nothing_left_running():
        yield


@pytest.fixture(autouse=True)
def _no_unexpected_log_line(caplog: pytest.LogCaptureFixture) -> Iterator[None]:
    """A test that expects a warning in the log reads it and calls ``caplog.clear()``."""
    yield
    unexpected = [
        record.getMessage()
        for record in caplog.get_records("call")
        if record.levelno >= logging.WARNING
    ]
    assert not unexpected


@pytest.fixture(scope="session")
def ngspice() -> str:
    """The full path of ngspice; without it the test is skipped, or fails where CI=true."""
    return required_tool("ngspice", "ngspice")


@pytest.fixture(scope="session")
def pdftotext() -> str:
    """The full path of pdftotext; without it the test is skipped, or fails where CI=true."""
    return required_tool("pdftotext", "poppler-utils")
