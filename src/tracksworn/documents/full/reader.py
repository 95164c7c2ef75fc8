"""How figures are written for whoever reads a document."""

from tracksworn.assessment.model import Assessment
from tracksworn.documents.full.readings import written_in_fractions
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.language import Language
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.vocabulary import ROLLERS


def figures_for(dossier: Dossier, assessment: Assessment, language: str | None, units: str | None) -> Figures:
    """Figures in the language and units asked for, else in those of the letterhead, else in English and mm."""
    letterhead = dossier.letterhead
    code = language or (letterhead.language if letterhead else "en")
    chosen = units or (letterhead.units if letterhead else "mm")
    positions = {one: max(row.position or 0 for row in assessment.rows(one)) for one in ROLLERS if assessment.rows(one)}
    lone = frozenset(component for component, highest in positions.items() if highest == 1)
    return Figures("in" if chosen == "in" else "mm", Language(code), lone, written_in_fractions(dossier.inspection))
