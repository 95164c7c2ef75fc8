"""The whole way from what was read to finished files, on one screen."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from tracksworn.assessment.assess import assess
from tracksworn.assessment.comparing.difference import differences
from tracksworn.assessment.model import Assessment
from tracksworn.documents.attached import Stated, attachments, attachments_of_parts, state
from tracksworn.documents.making import making_attached, making_of
from tracksworn.documents.render.document import Document
from tracksworn.documents.render.files import Sheet
from tracksworn.documents.render.own.templates import OwnTemplates
from tracksworn.documents.render.render import render
from tracksworn.documents.words.language import Language
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.letterhead import Assumed


@dataclass(frozen=True)
class Assessed:
    """What was read together with what follows from it: for several documents of one inspection."""

    dossier: Dossier
    assessment: Assessment

    @cached_property
    def stated(self) -> Stated:
        """What every document of it says of its data."""
        return state(self.dossier, self.assessment)


def builder_of(document: Sheet) -> Callable[..., Document]:
    """What makes the view of that document of one inspection; nothing is imported for the others."""
    if document is Sheet.FULL:
        from tracksworn.documents.full.build import full_report  # noqa: PLC0415

        return full_report
    if document is Sheet.LISTING:
        from tracksworn.documents.listing.build import listing  # noqa: PLC0415

        return listing
    from tracksworn.documents.certificate.build import certificate  # noqa: PLC0415

    return certificate


def assess_dossier(dossier: Dossier) -> Assessment:
    """Assess what was read, with the firm's own values where its letterhead sets them."""
    assumed = dossier.letterhead.assumed if dossier.letterhead else Assumed()
    return assess(
        dossier.inspection,
        dossier.chart,
        assumed,
        earlier=[older.inspection for older in dossier.earlier],
        prices=dossier.prices,
        terms=dossier.terms,
    )


def make_report(
    of: Dossier | Assessed,
    *,
    formats: Sequence[str],
    document: str = Sheet.FULL,
    language: str | None = None,
    units: str | None = None,
    paper: str | None = None,
    templates: OwnTemplates | None = None,
    sealed: bool = False,
) -> Mapping[str, bytes]:
    """A document of one inspection in the formats asked for: finished files by name, all of them or an error.

    `sealed` has its pages say that the file is: for who seals it next. It then carries how it was made, too.
    Raises NoTerms where a certificate is asked for and the inspection names no terms.
    """
    assessed = of if isinstance(of, Assessed) else Assessed(of, assess_dossier(of))
    dossier, assessment = assessed.dossier, assessed.assessment
    builder = builder_of(Sheet(document))
    view = builder(
        dossier,
        assessment,
        language=language,
        units=units,
        paper=paper,
        sealed=sealed,
        fingerprint=assessed.stated.fingerprint,
    )
    reader = Language(view.branding.language)
    carried = attachments(dossier, assessed.stated, reader)
    if sealed:
        carried += (making_attached(making_of(dossier, document, language, units, paper), reader),)
    return {file.name: file.content for file in render(view, formats, templates=templates, attachments=carried)}


def make_comparison(
    dossiers: Sequence[Dossier],
    *,
    formats: Sequence[str],
    host: int | None = None,
    language: str | None = None,
    units: str | None = None,
    paper: str | None = None,
    templates: OwnTemplates | None = None,
) -> Mapping[str, bytes]:
    """Machines side by side, each assessed with its own chart and letterhead: finished files by name, or an error.

    The document has the letterhead of `host`, else the first that there is.
    """
    from tracksworn.documents.comparison.build import Compared, comparison  # noqa: PLC0415

    compared = [Compared(dossier, assess_dossier(dossier)) for dossier in dossiers]
    apart = differences([one.assessed for one in compared])
    view = comparison(compared, apart, host=host, language=language, units=units, paper=paper)
    parts = [(one.dossier, state(one.dossier, one.assessment)) for one in compared]
    carried = attachments_of_parts(parts, Language(view.branding.language))
    return {file.name: file.content for file in render(view, formats, templates=templates, attachments=carried)}
