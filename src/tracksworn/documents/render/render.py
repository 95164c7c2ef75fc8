"""From the view of a document to finished files, all in memory and all through the gate."""

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import Any, Final

from tracksworn.documents.attached import Attachment
from tracksworn.documents.certificate.view import Certificate
from tracksworn.documents.comparison.view import Comparison
from tracksworn.documents.full.view import FullReport
from tracksworn.documents.listing.view import Listing
from tracksworn.documents.render.certificate import CERTIFICATE
from tracksworn.documents.render.comparison import COMPARISON
from tracksworn.documents.render.document import Document
from tracksworn.documents.render.files import File, Format
from tracksworn.documents.render.full_report import FULL_REPORT
from tracksworn.documents.render.kind import Kind
from tracksworn.documents.render.listing import LISTING

KINDS: Final[Mapping[type, Kind[Any]]] = {
    FullReport: FULL_REPORT,
    Listing: LISTING,
    Certificate: CERTIFICATE,
    Comparison: COMPARISON,
}
"""How each kind of view becomes pages."""


def render(
    view: Document,
    formats: Sequence[str],
    *,
    templates: Path | None = None,
    attachments: Sequence[Attachment] = (),
) -> tuple[File, ...]:
    """A document in the formats asked for: `pdf`, which carries the attachments, `html`, `md` with its pictures, `png`.

    `templates` is a folder of a firm's own templates, looked up before the program's. Raises Refused where a template
    cannot be used, or where not all cautions can be read in what was made; nothing is handed over then.
    """
    kind = KINDS[type(view)]
    made = _Made(view, kind, templates, attachments)
    asked = dict.fromkeys(map(Format, formats))
    return tuple(file for one in asked for file in made.files(one))


class _Made:
    """One document with what all its formats share. What a format takes is imported only where it is asked for."""

    def __init__(
        self, view: Document, kind: Kind[Any], templates: Path | None, attachments: Sequence[Attachment]
    ) -> None:
        self._pieces = kind.wanted(view)
        self._of = (view, kind, kind.draw(view), templates)
        self._attachments = attachments
        self._stem = view.identification.stem

    def files(self, one: Format) -> Iterator[File]:
        name = f"{self._stem}.{one.value}"
        if one is Format.PDF:
            yield File(name, self._pdf)
        elif one is Format.PNG:
            yield from self._pictures()
        elif one is Format.HTML:
            from tracksworn.documents.render.gate.shown import check_html  # noqa: PLC0415
            from tracksworn.documents.render.html import write_html  # noqa: PLC0415

            page = write_html(*self._of)
            check_html(page, self._pieces, self._of[0].branding.faces)
            yield File(name, page.encode("utf-8"))
        else:
            from tracksworn.documents.render.gate.marked import check_markdown  # noqa: PLC0415
            from tracksworn.documents.render.markdown import write_markdown  # noqa: PLC0415

            page, pictures = write_markdown(*self._of)
            check_markdown(page, self._pieces)
            yield File(name, page.encode("utf-8"))
            yield from pictures

    @cached_property
    def _pdf(self) -> bytes:
        from tracksworn.documents.render.gate.printed import check_pdf  # noqa: PLC0415
        from tracksworn.documents.render.pdf import write_pdf  # noqa: PLC0415

        content = write_pdf(*self._of, self._attachments)
        check_pdf(content, self._pieces)
        return content

    def _pictures(self) -> Iterator[File]:
        """One file a page, numbered where there are several."""
        from tracksworn.documents.render.raster import draw_pages  # noqa: PLC0415

        pages = list(draw_pages(self._pdf))
        for number, content in enumerate(pages, start=1):
            page = f"-{number}" if len(pages) > 1 else ""
            yield File(f"{self._stem}{page}.{Format.PNG.value}", content)
