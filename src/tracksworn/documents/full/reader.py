"""What was read as a document tells it, and how figures are written for its reader."""

from collections.abc import Sequence
from dataclasses import replace

from tracksworn.assessment.model import Assessment
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.readings import written_in_fractions
from tracksworn.documents.legible import legible
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.language import Language
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.vocabulary import ROLLERS


def context_for(
    dossier: Dossier,
    assessment: Assessment,
    language: str | None,
    units: str | None,
    *,
    sealed: bool = False,
    fingerprint: str | None = None,
) -> Context:
    """What one document tells, in the language and units asked for, else in those of its letterhead."""
    return replace(contexts_for([(dossier, assessment)], language, units)[0], sealed=sealed, fingerprint=fingerprint)


def contexts_for(
    read: Sequence[tuple[Dossier, Assessment]], language: str | None, units: str | None
) -> tuple[Context, ...]:
    """What one document tells of several inspections; all of it can be printed."""
    printed = legible(read)
    return tuple(
        Context(
            dossier,
            assessment,
            figures_for(dossier, assessment, language, units),
            computed=None if assessment is computed else computed,
            faces=printed.faces,
        )
        for (dossier, assessment), (_, computed) in zip(printed.read, read, strict=True)
    )


def figures_for(dossier: Dossier, assessment: Assessment, language: str | None, units: str | None) -> Figures:
    """Figures in the language and units asked for, else in those of the letterhead, else in English and mm."""
    letterhead = dossier.letterhead
    code = language or (letterhead.language if letterhead else "en")
    chosen = units or (letterhead.units if letterhead else "mm")
    positions = {one: max(row.position or 0 for row in assessment.rows(one)) for one in ROLLERS if assessment.rows(one)}
    lone = frozenset(component for component, highest in positions.items() if highest == 1)
    return Figures("in" if chosen == "in" else "mm", Language(code), lone, written_in_fractions(dossier.inspection))
