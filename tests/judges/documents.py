"""The documents that are judged: every kind, of every layout, in every language. A new kind is one line more."""

import shutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Final

from tracksworn.assessment.comparing.difference import differences
from tracksworn.documents.certificate.build import certificate
from tracksworn.documents.comparison.build import Compared, comparison
from tracksworn.documents.full.build import full_report
from tracksworn.documents.listing.build import listing
from tracksworn.documents.render.certificate import CERTIFICATE
from tracksworn.documents.render.comparison import COMPARISON
from tracksworn.documents.render.document import Document
from tracksworn.documents.render.fitting import Fitted
from tracksworn.documents.render.full_report import FULL_REPORT
from tracksworn.documents.render.gate.identity import wanted_of_identity
from tracksworn.documents.render.gate.wanted import Piece
from tracksworn.documents.render.kind import Kind as LaidOut
from tracksworn.documents.render.listing import LISTING
from tracksworn.documents.render.own.folder import read_templates
from tracksworn.documents.report import assess_dossier, make_comparison, make_report
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.languages import LANGUAGES
from tracksworn.inspection.reading import read_inspection
from tracksworn.inspection.vocabulary import Layout

DEMO: Final = Path(__file__).parents[2] / "demo_inspections"
EXAMPLE: Final = DEMO.parent / "templates" / "example"
TERMS: Final = "terms/lantern-plan.yaml"


class Kind(StrEnum):
    """Which document."""

    FULL = "full"
    LISTING = "listing"
    CERTIFICATE = "certificate"
    COMPARISON = "comparison"


MACHINES: Final[Mapping[Layout, str]] = {
    Layout.ELEVATED_SPROCKET: "MPS-2031-0418",
    Layout.OVAL: "OXB-0227",
    Layout.EXCAVATOR: "MPS-2031-0402",
    Layout.TRACK_LOADER: "MPS-2031-0433",
    Layout.RUBBER: "OXB-0236",
}
"""A demo inspection of each layout."""
BY_EYE: Final = "OXB-0231"


@dataclass(frozen=True, slots=True)
class Judged:
    """A document that is judged; of a comparison, `numbers` are several."""

    kind: Kind
    numbers: tuple[str, ...]
    language: str
    in_own_order: bool = False

    def __str__(self) -> str:
        own = " in a yard's own order" if self.in_own_order else ""
        return f"{self.kind} of {' and '.join(self.numbers)} in {self.language}{own}"


def every() -> tuple[Judged, ...]:
    """Every kind, of every layout, in every language."""
    return tuple(
        _of(kind, place, language) for kind in Kind for place in range(len(MACHINES)) for language in LANGUAGES
    )


def few() -> tuple[Judged, ...]:
    """Every layout in two kinds and two languages, every kind of two layouts and in two languages, at least."""
    kinds = tuple(Kind)
    turned = [
        (kinds[(1 + place + 2 * turn) % len(kinds)], place) for turn in range(2) for place in range(len(MACHINES))
    ]
    return tuple(_of(kind, place, LANGUAGES[at % len(LANGUAGES)]) for at, (kind, place) in enumerate(turned))


def _of(kind: Kind, place: int, language: str) -> Judged:
    numbers = tuple(MACHINES.values())
    beside = (numbers[(place + 1) % len(numbers)],) if kind is Kind.COMPARISON else ()
    return Judged(kind, (numbers[place], *beside), language)


BESIDE: Final = (
    Judged(Kind.FULL, (BY_EYE,), "es"),
    Judged(Kind.LISTING, (BY_EYE,), "fr"),
    Judged(Kind.FULL, ("OXB-0227",), "en", in_own_order=True),
    Judged(Kind.LISTING, ("OXB-0227",), "en", in_own_order=True),
)
"""An inspection without a chart, and a firm's own templates."""


@cache
def demo(number: str, *, under_terms: bool = False) -> Dossier:
    """A demo inspection, read once; where it names no terms and a certificate needs them, a copy that does."""
    found = read_inspection(DEMO / number)
    if found.terms is not None or not under_terms:
        return found
    with TemporaryDirectory() as folder:
        copy = Path(shutil.copytree(DEMO, Path(folder) / "demo", ignore=shutil.ignore_patterns("*.py", "pictures")))
        file = copy / number / "inspection.yaml"
        file.write_text(f"{file.read_text('utf-8')}\nterms: ../{TERMS}\n", encoding="utf-8")
        return read_inspection(file)


def dossiers(judged: Judged) -> list[Dossier]:
    """What a document is made of."""
    return [demo(number, under_terms=judged.kind is Kind.CERTIFICATE) for number in judged.numbers]


def made(judged: Judged, formats: list[str]) -> Mapping[str, bytes]:
    """Its files by their names, made as the command makes them."""
    templates = read_templates(EXAMPLE) if judged.in_own_order else None
    read = dossiers(judged)
    if judged.kind is Kind.COMPARISON:
        return make_comparison(read, formats=formats, language=judged.language, templates=templates)
    return make_report(read[0], document=judged.kind, formats=formats, language=judged.language, templates=templates)


def wanted(judged: Judged) -> tuple[Piece, ...]:
    """What a reader must be able to see on its sheets."""
    view, kind = _view(judged), LAID_OUT[judged.kind]
    fitted = Fitted(view, kind.width(view))
    return tuple(dict.fromkeys((*kind.wanted(view), *wanted_of_identity(view, fitted, paged=True))))


LAID_OUT: Final[Mapping[Kind, LaidOut[Any]]] = {
    Kind.FULL: FULL_REPORT,
    Kind.LISTING: LISTING,
    Kind.CERTIFICATE: CERTIFICATE,
    Kind.COMPARISON: COMPARISON,
}
BUILDERS: Final[Mapping[Kind, Callable[..., Document]]] = {
    Kind.FULL: full_report,
    Kind.LISTING: listing,
    Kind.CERTIFICATE: certificate,
}


def _view(judged: Judged) -> Document:
    pairs = [Compared(one, assess_dossier(one)) for one in dossiers(judged)]
    if judged.kind is Kind.COMPARISON:
        return comparison(pairs, differences([one.assessed for one in pairs]), language=judged.language)
    (pair,) = pairs
    return BUILDERS[judged.kind](pair.dossier, pair.assessment, language=judged.language)


def written(files: Mapping[str, bytes], folder: Path) -> Mapping[str, Path]:
    """All files in a folder; the documents among them by their formats."""
    for name, content in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)
    return {Path(name).suffix.removeprefix("."): folder / name for name in files if "/" not in name}
