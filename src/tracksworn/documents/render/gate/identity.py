"""What a firm's own templates must show beside what every document must: which document of which machine it is."""

from collections.abc import Iterator
from typing import Final

from tracksworn.documents.comparison.view import Comparison
from tracksworn.documents.listing.view import Listing
from tracksworn.documents.render.document import Document
from tracksworn.documents.render.fitting import Fitted
from tracksworn.documents.render.gate.wanted import Piece

WHAT: Final = "identification"
LEAST: Final = 5.5
"""How small it may be set, pt: smaller than a caution, as in the head and foot of every sheet."""


def wanted_of_identity(view: Document, fitted: Fitted, *, paged: bool) -> Iterator[Piece]:
    """Title, number, what stands in the strip, who answers for it, and the fingerprint.

    A sheet shortens what has no room on one line, so that there the shortened words are wanted.
    """
    said = {
        "title": view.identification.title,
        "number": _number(view, fitted, paged=paged),
        "signatory": view.signature.name,
        "day": view.signature.day,
    }
    revision = getattr(view.identification, "revision", "") or getattr(view, "revision", "")
    said |= {"revision": revision} if revision else {}
    if not (paged and isinstance(view, Listing)):
        said["fingerprint"] = fitted.fingerprint
    for name, text in said.items():
        yield Piece(name, text, WHAT, LEAST)
    yield from _strip(view, fitted, paged=paged)


def _number(view: Document, fitted: Fitted, *, paged: bool) -> str:
    """A listing sheet has its lot's number in the head, and its own at the foot."""
    if isinstance(view, Listing) and view.identification.lot:
        return fitted.foot.labelled[0].value if paged else view.foot[0].value
    return fitted.first.number if paged else view.identification.number


def _strip(view: Document, fitted: Fitted, *, paged: bool) -> Iterator[Piece]:
    """Machine, serial, hours, day, inspector; of a comparison, those of every machine."""
    if isinstance(view, Comparison):
        for one in view.machines:
            for text in (one.name, one.serial, one.hours, one.inspected):
                yield Piece(one.name, text, WHAT, LEAST)
        return
    strip = fitted.strip.labelled if paged and isinstance(view, Listing) else view.identification.strip
    yield from (Piece(said.label, said.value, WHAT, LEAST) for said in strip)
