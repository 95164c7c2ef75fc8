"""The documents that are judged, one of each kind. A new kind is one line more."""

from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from typing import Final

from tracksworn.documents.render.own.folder import read_templates
from tracksworn.documents.report import make_comparison, make_report
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.reading import read_inspection

DEMO: Final = Path(__file__).parents[2] / "demo_inspections"
EXAMPLE: Final = DEMO.parent / "templates" / "example"


@cache
def demo(number: str) -> Dossier:
    """A demo inspection, read once."""
    return read_inspection(DEMO / number)


DOCUMENTS: Final[Mapping[str, Callable[[str], Mapping[str, bytes]]]] = {
    "full report": lambda form: make_report(demo("MPS-2031-0418"), formats=[form]),
    "full report by eye": lambda form: make_report(demo("OXB-0231"), formats=[form]),
    "listing sheet": lambda form: make_report(demo("MPS-2031-0418"), document="listing", formats=[form]),
    "listing sheet by eye": lambda form: make_report(demo("OXB-0231"), document="listing", formats=[form]),
    "certificate": lambda form: make_report(demo("MPS-2031-0402"), formats=[form], document="certificate"),
    "full report in a yard's own order": lambda form: make_report(
        demo("OXB-0227"), formats=[form], templates=read_templates(EXAMPLE)
    ),
    "listing sheet in a yard's own order": lambda form: make_report(
        demo("OXB-0227"), document="listing", formats=[form], templates=read_templates(EXAMPLE)
    ),
    "comparison": lambda form: make_comparison([demo("MPS-2031-0418"), demo("OXB-0227")], formats=[form]),
}
"""By name, how each is made in one format: its files by their names."""


@cache
def files(name: str, form: str) -> Mapping[str, bytes]:
    """The files of a document in one format, made once for all tests of a worker."""
    return DOCUMENTS[name](form)


def written(name: str, form: str, folder: Path) -> Path:
    """All of them in a folder; the document itself."""
    for file, content in files(name, form).items():
        (folder / file).parent.mkdir(parents=True, exist_ok=True)
        (folder / file).write_bytes(content)
    return next(folder / file for file in files(name, form) if "/" not in file)
