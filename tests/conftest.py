"""Settings for all tests, and what they share."""

import signal
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest
from hypothesis import HealthCheck, settings

if TYPE_CHECKING:
    from playwright.sync_api import Browser

CHROMIUM: Final = Path("/usr/bin/chromium-headless-shell")
settings.register_profile(
    "steady", derandomize=True, deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("steady")


def pytest_addoption(parser: pytest.Parser) -> None:
    told = "judge every kind of document of every layout in every language, not a few alone"
    parser.addoption("--all", action="store_true", help=told)


def pytest_configure() -> None:
    """Heed interrupts, which a shell has what runs in its background ignore, and with it every process begun there."""
    signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.fixture(scope="session")
def browser() -> "Iterator[Browser]":
    """One browser for all tests of a worker."""
    from playwright.sync_api import sync_playwright

    assert CHROMIUM.is_file(), "the browser is not installed (Debian: chromium-headless-shell)"
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield opened
        opened.close()
