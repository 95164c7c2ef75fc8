"""One browser and one rendering of each report for all tests of a worker."""

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
import views
from playwright.sync_api import Browser, sync_playwright

from tracksworn.documents.full.view import FullReport
from tracksworn.documents.render.files import File
from tracksworn.documents.render.render import render

CHROMIUM = Path("/usr/bin/chromium")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    assert CHROMIUM.is_file(), "chromium is not installed (Debian: chromium)"
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield opened
        opened.close()


@cache
def made(kind: str, form: str) -> tuple[File, ...]:
    """A report of that kind in one format, made once."""
    return render(view(kind), [form])


@cache
def view(kind: str) -> FullReport:
    made_by = {"like most": views.report, "short": views.short_report, "long": views.long_report}
    return made_by[kind]()
