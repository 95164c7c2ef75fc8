"""The gate where a line breaks at a hyphen, as French and other words have it."""

import pytest

from tracksworn.documents.render.engine import lay_out
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.gate.printed import check_pdf
from tracksworn.documents.render.gate.wanted import Piece

SAID = "au-dessus de la limite, au-delà de l’usure"


def pdf(words: str, width: str) -> bytes:
    body = f'<h1>t</h1><p style="width: {width}">{words}</p>'
    page = f'<html lang="fr"><head><title>t</title></head><body>{body}</body></html>'
    return lay_out(page, ["html { font: 9pt Barlow; color: #1b2329 }"], {}).write()


@pytest.mark.parametrize("width", ["8mm", "40mm"])
def test_a_word_may_break_at_its_hyphen(width: str) -> None:
    piece = Piece("rule", SAID)
    check_pdf(pdf(SAID, width), [piece])
    with pytest.raises(Refused, match="rule"):
        check_pdf(pdf(SAID.replace("delà", "deçà"), width), [piece])
