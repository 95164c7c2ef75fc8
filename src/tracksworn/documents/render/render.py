"""From the view of a document to finished files, all in memory and all through the gate."""

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from typing import Any

from tracksworn.documents.attached import Attachment
from tracksworn.documents.render.document import Document
from tracksworn.documents.render.files import File, Format, Refused
from tracksworn.documents.render.fitting import Fitted
from tracksworn.documents.render.gate.wanted import Piece
from tracksworn.documents.render.kind import Kind
from tracksworn.documents.render.kinds import kind_of
from tracksworn.documents.render.own.templates import OwnTemplates
from tracksworn.inspection.faults import Fault, Faulty


def render(
    view: Document,
    formats: Sequence[str],
    *,
    templates: OwnTemplates | None = None,
    attachments: Sequence[Attachment] = (),
) -> tuple[File, ...]:
    """A document in the formats asked for: `pdf`, which carries the attachments, `html`, `md` with its pictures, `png`.

    `templates` are a firm's own, which go before the program's and run in a process that is bounded. Raises Faulty for
    what is wrong in one of them, or where not all cautions, identification and gaps can be read in what was made, and
    Refused where that is so without them; nothing is handed over then.
    """
    asked = dict.fromkeys(map(Format, formats))
    made = _Made(view, kind_of(view), templates, attachments)
    if templates is None:
        return made.all(asked)
    from tracksworn.documents.render.own.bounds import within_bounds  # noqa: PLC0415

    try:
        return within_bounds(lambda: made.all(asked), templates.folder)
    except Refused as error:
        raise Faulty([Fault(templates.folder, 1, 1, f"{view.identification.stem}: {error}")]) from error


class _Made:
    """One document with what all its formats share. What a format takes is imported only where it is asked for."""

    def __init__(
        self, view: Document, kind: Kind[Any], own: OwnTemplates | None, attachments: Sequence[Attachment]
    ) -> None:
        self._own = own
        self._of = (view, kind, kind.draw(view), own)
        self._attachments = attachments
        self._stem = view.identification.stem

    def all(self, asked: Iterable[Format]) -> tuple[File, ...]:
        return tuple(file for one in asked for file in self.files(one))

    def _pieces(self, *, paged: bool = False) -> tuple[Piece, ...]:
        """What no template may leave out; of which document it is, the program's own never do."""
        view, kind, *_ = self._of
        pieces = kind.wanted(view)
        if self._own is None:
            return pieces
        from tracksworn.documents.render.gate.identity import wanted_of_identity  # noqa: PLC0415

        fitted = Fitted(view, kind.width(view))
        return tuple(dict.fromkeys((*pieces, *wanted_of_identity(view, fitted, paged=paged))))

    def _on_each_sheet(self) -> Piece:
        """What every sheet says of the document that it is part of; it stands in the foot, which is ours."""
        view, kind, *_ = self._of
        said = Fitted(view, kind.width(view)).foot.labelled[0]
        return Piece(said.label, said.value, "identification")

    def files(self, one: Format) -> Iterator[File]:
        name = f"{self._stem}.{one.value}"
        if one is Format.PDF:
            yield File(name, self._pdf)
        elif one is Format.PNG:
            yield from self._pictures()
        elif one is Format.HTML:
            from tracksworn.documents.render.gate.shown import check_html  # noqa: PLC0415
            from tracksworn.documents.render.html import style_sheet, write_html  # noqa: PLC0415

            styles = style_sheet(self._of[1], self._own)
            page = write_html(*self._of, styles)
            check_html(page, self._pieces(), self._of[0].branding.faces, styles if self._own else None)
            yield File(name, page.encode("utf-8"))
        else:
            from tracksworn.documents.render.gate.marked import check_markdown  # noqa: PLC0415
            from tracksworn.documents.render.markdown import write_markdown  # noqa: PLC0415

            page, pictures = write_markdown(*self._of)
            check_markdown(page, self._pieces())
            yield File(name, page.encode("utf-8"))
            yield from pictures

    @cached_property
    def _pdf(self) -> bytes:
        from tracksworn.documents.render.pdf import write_pdf  # noqa: PLC0415

        content = write_pdf(*self._of, self._attachments)
        if self._own is not None:
            from tracksworn.documents.render.gate.printed import check_pdf  # noqa: PLC0415

            check_pdf(content, self._pieces(paged=True), self._on_each_sheet())
        return content

    def _pictures(self) -> Iterator[File]:
        """One file a page, numbered where there are several."""
        from tracksworn.documents.render.raster import draw_pages  # noqa: PLC0415

        pages = list(draw_pages(self._pdf))
        for number, content in enumerate(pages, start=1):
            page = f"-{number}" if len(pages) > 1 else ""
            yield File(f"{self._stem}{page}.{Format.PNG.value}", content)
