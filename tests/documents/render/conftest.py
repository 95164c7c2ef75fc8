"""One rendering of each report for all tests of a worker."""

from functools import cache

import views

from tracksworn.documents.full.view import FullReport
from tracksworn.documents.render.files import File
from tracksworn.documents.render.render import render


@cache
def made(kind: str, form: str) -> tuple[File, ...]:
    """A report of that kind in one format, made once."""
    return render(view(kind), [form])


@cache
def view(kind: str) -> FullReport:
    made_by = {"like most": views.report, "short": views.short_report, "long": views.long_report}
    return made_by[kind]()
