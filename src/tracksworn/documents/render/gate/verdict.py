"""What must stand beside a verdict in every document that states one."""

from tracksworn.documents.full.terms_view import TermsView
from tracksworn.documents.render.gate.wanted import Piece


def wanted_of_terms(terms: TermsView | None) -> tuple[Piece, ...]:
    """The verdict itself, the rule by which it was decided, and what it is not; nothing without terms."""
    if terms is None:
        return ()
    said = (("verdict", (terms.verdict, terms.title)), ("decision rule", terms.rule), ("conformity", terms.is_not))
    return tuple(Piece(identity, text, "statement") for identity, texts in said for text in texts)
