"""How a certificate goes on to its sheets: the verdict on the first, what it rests on and the signature on the next."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from tracksworn.documents.certificate.view import Certificate
from tracksworn.documents.drawing.allowed import draw_allowed
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.qr import draw_qr
from tracksworn.documents.drawing.strokes import draw_ring
from tracksworn.documents.render.fitting import WIDTH
from tracksworn.documents.render.gate.unseen import wanted_of_unseen
from tracksworn.documents.render.gate.verdict import wanted_of_terms
from tracksworn.documents.render.gate.wanted import Piece, wanted
from tracksworn.documents.render.kind import Kind, LayOut, Sheets
from tracksworn.documents.render.terms_plates import TermsPlates, draw_terms

AIM: Final = 2
"""How many sheets a certificate is to take."""
SPACINGS: Final = ("", "close", "close closer", "close closer even", "close closer even evener")
"""Classes of its style sheet, from the widest way to the closest; the last share words out over columns."""
BAR: Final = 39.0
"""How wide a bar is drawn, mm: less than in a report, as sizes stand beside it."""


@dataclass(frozen=True, slots=True)
class CertificatePlates:
    """The drawings of a certificate."""

    bars: TermsPlates
    allowed: Drawing
    ring: Drawing
    code: Drawing


def draw_certificate(view: Certificate) -> CertificatePlates:
    """All of them."""
    return CertificatePlates(
        bars=draw_terms(view.terms, BAR),
        allowed=draw_allowed(view.allowed),
        ring=draw_ring(view.ring),
        code=draw_qr(view.check.code, alternative=view.check.code_alternative),
    )


def _arrange(view: Certificate, lay_out: LayOut) -> Sheets:  # noqa: ARG001
    """On two sheets, its lines closer where they need to be; where they cannot, on more, and less close again."""
    tried = []
    for spacing in SPACINGS:
        tried.append(lay_out({"spacing": spacing}))
        if _count(tried[-1]) <= AIM:
            return tried[-1]
    return tried[1]


def _count(sheets: Sheets) -> int:
    end = sheets.place("end")
    return 1 if end is None else end[0] + 1


def _wanted(view: Certificate) -> Iterator[Piece]:
    """What no template may leave out: cautions, verdict and rule, what was not seen, what it is and is not."""
    yield from wanted(view.cautions)
    yield from wanted_of_terms(view.terms)
    yield from wanted_of_unseen(view.not_seen)
    yield Piece("title", view.identification.title, "statement")
    yield from (Piece("reach", text, "statement") for text in view.statement)
    if view.revision:
        yield Piece("revision", view.revision, "statement")


CERTIFICATE: Final[Kind[Certificate]] = Kind(
    name="certificate",
    draw=draw_certificate,
    width=lambda view: WIDTH,  # noqa: ARG005
    sheet_styles=lambda view: ("print.css", f"{view.branding.paper.lower()}.css", "certificate-print.css"),
    screen_styles=("screen.css", "certificate-screen.css"),
    arrange=_arrange,
    unpaged=lambda view: {"spacing": SPACINGS[0]},  # noqa: ARG005
    wanted=lambda view: tuple(_wanted(view)),
)
