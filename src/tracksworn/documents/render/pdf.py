"""The sheets for print and for keeping: PDF/A-3a and PDF/UA-1, the same bytes each time."""

import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from io import BytesIO
from threading import Lock
from typing import TYPE_CHECKING, Any, Final

import pikepdf
from markupsafe import Markup
from pikepdf.settings import set_flate_compression_level

import tracksworn
from tracksworn.documents.attached import Attachment
from tracksworn.documents.drawing.plain import Drawing, Text
from tracksworn.documents.drawing.svg import number
from tracksworn.documents.full.view import PhotoView
from tracksworn.documents.render import engine, pages, photos, pictures, reading_back
from tracksworn.documents.render.accessible import declare_accessible
from tracksworn.documents.render.attaching import attach
from tracksworn.documents.render.document import Document
from tracksworn.documents.render.engine import Part
from tracksworn.documents.render.fitting import Fitted
from tracksworn.documents.render.fonts import configured
from tracksworn.documents.render.gate.printed import all_said, check_pdf
from tracksworn.documents.render.gate.wanted import Piece
from tracksworn.documents.render.heads import FOOT_HEIGHT, HEAD_HEIGHT, MARK, draw_foot, draw_head
from tracksworn.documents.render.kind import Kind
from tracksworn.documents.render.own.templates import OwnTemplates
from tracksworn.documents.render.panel import PANEL, show_panel
from tracksworn.documents.typefaces import Face

if TYPE_CHECKING:
    from weasyprint.text.fonts import FontConfiguration

_AT_PIN: Final = re.compile(r'<a class="at-pin" href="#([^"]+)"[^>]*></a>')
PHOTO_BOXES: Final = {"finding": (36.0, 24.0), "gallery": (58.0, 42.0)}


class _Parts:
    """Puts stand-ins for drawings, and photos in the size of print, among the parts that the page may show."""

    def __init__(self, view: Document) -> None:
        self.parts: dict[str, Part] = {}
        self.drawings: dict[int, Drawing] = {}
        mark = view.branding.mark
        self.mark = self._image("mark", Part(mark.content, mark.media_type), view.branding.firm, None) if mark else None

    def __call__(self, drawing: Drawing) -> Markup:
        name = f"drawing-{len(self.drawings)}"
        return self._image(name, self._stand_in(drawing), drawing.alternative, (drawing.width, drawing.height))

    def behind(self, drawing: Drawing, name: str) -> None:
        """A drawing that a style sheet shows behind what it says, by its name."""
        self.parts[f"part:{name}"] = self._stand_in(drawing)

    def _stand_in(self, drawing: Drawing) -> Part:
        index = len(self.drawings)
        self.drawings[index] = drawing
        return Part(pictures.stand_in(index), "image/png")

    def photo(self, photo: PhotoView, place: str) -> Markup:
        box = PHOTO_BOXES[place]
        small = photos.for_print(photo.picture, *box)
        part = Part(small.content, small.media_type)
        return self._image(f"{place}-{photo.name}", part, photo.alternative, photos.placed(photo.picture, *box))

    def _image(self, name: str, part: Part, alternative: str, size: tuple[float, float] | None) -> Markup:
        self.parts[f"part:{name}"] = part
        style = f"width:{number(size[0])}mm;height:{number(size[1])}mm" if size else ""
        return Markup('<img src="part:{}" alt="{}" style="{}"/>').format(name, alternative, style)


@dataclass(frozen=True)
class _LaidOut:
    """Sheets with the drawings that are to stand on them."""

    sheets: engine.Sheets
    drawings: Mapping[int, Drawing]
    faces: Sequence[Face]
    day: str  # of all that is attached, ISO 8601

    @property
    def count(self) -> int:
        return self.sheets.count

    def place(self, anchor: str) -> tuple[int, float] | None:
        return self.sheets.place(anchor)

    def says(self, pieces: Sequence[Piece]) -> bool:
        texts = (mark.content for one in self.drawings.values() for mark in one.marks if isinstance(mark, Text))
        return all_said(self._bare, "".join(texts), pieces)

    def write(self, attachments: Sequence[Attachment]) -> bytes:
        out = BytesIO()
        with pikepdf.open(BytesIO(self._bare)) as pdf:
            reading_back.mend(pdf, self.faces)
            pictures.swap(pdf, self.drawings, self.faces)
            declare_accessible(pdf)
            show_panel(pdf, self.sheets.area(PANEL))
            attach(pdf, attachments, self.day)
            with _quick_compression():
                pdf.save(out, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
        return out.getvalue()

    @cached_property
    def _bare(self) -> bytes:
        """The file as the engine writes it, with stand-ins for drawings."""
        return self.sheets.write()


_SAVING: Final = Lock()


@contextmanager
def _quick_compression() -> Iterator[None]:
    """A third of the time that zlib's own level takes, for 3 to 4 % more bytes; the setting is the process's."""
    with _SAVING:
        set_flate_compression_level(4)
        try:
            yield
        finally:
            set_flate_compression_level(-1)


def write_pdf(
    view: Document, kind: Kind[Any], plates: object, own: OwnTemplates | None, attachments: Sequence[Attachment] = ()
) -> bytes:
    """A document as PDF, on its sheets as its kind arranges them, with the files that it carries.

    Raises Refused where the program's own templates leave out what none may; whether a firm's own do is not looked at.
    """
    with configured(view.branding.faces) as fonts:
        sheets = kind.arrange(view, lambda more: _lay_out((view, kind, plates, own), fonts, more))
        content = sheets.write(attachments)
        if own is None and not sheets.says(pieces := kind.wanted(view)):
            check_pdf(content, pieces)
        return content


def _lay_out(
    of: tuple[Document, Kind[Any], object, OwnTemplates | None], fonts: "FontConfiguration", more: Mapping[str, object]
) -> _LaidOut:
    view, kind, plates, own = of
    parts, fitted = _Parts(view), Fitted(view, kind.width(view))
    if kind.one_sheet:
        parts.behind(draw_foot(fitted, f"1 {view.headings.of} 1"), "foot")
    else:
        parts.behind(draw_head(fitted), "head")
        parts.behind(draw_foot(fitted), "foot")
    values = {
        "view": view,
        "words": view.headings,
        "plates": plates,
        "draw": parts,
        "fitted": fitted,
        "paged": True,
        "version": tracksworn.__version__,
        **more,
    }
    page = _with_pins_that_lead_somewhere(pages.fill_page(f"{kind.name}.html", own, values))
    if own is not None:
        from tracksworn.documents.render.gate.brought import no_style_on_sheets  # noqa: PLC0415

        no_style_on_sheets(page)
    styles = [
        "".join(map(pages.style, kind.sheet_styles(view))),
        _foot(view, kind) + ("" if kind.one_sheet else _head(view, kind.width(view))),
        own.style("extra.css") + own.style("print.css") if own else "",
    ]
    sheets = engine.lay_out(page, styles, parts.parts, fonts)
    return _LaidOut(sheets, parts.drawings, view.branding.faces, view.identification.issued)


def _with_pins_that_lead_somewhere(page: str) -> str:
    """Without the links over a drawing's pins of which no observation is on the page, as a firm's own may have it."""
    return _AT_PIN.sub(lambda link: link[0] if f'id="{link[1]}"' in page else "", page)


def _foot(view: Document, kind: Kind[Any]) -> str:
    """The style of every sheet's foot: drawn, the number of one of several sheets set beside it."""
    foot = f"url(part:foot) no-repeat 0 2.5mm / {number(kind.width(view))}mm {number(FOOT_HEIGHT)}mm"
    sheet = '""' if kind.one_sheet else f'counter(page) " {_quoted(view.headings.of)} " counter(pages)'
    return f"@page {{ @bottom-left {{ background: {foot}; content: {sheet} }} }}"


def _head(view: Document, width: float) -> str:
    """The style of the head on every sheet but the first: drawn, with the mark beside it."""
    head = f"url(part:head) no-repeat 0 11mm / {number(width)}mm {number(HEAD_HEIGHT)}mm"
    mark = ""
    if view.branding.mark:
        size = photos.placed(view.branding.mark, MARK, MARK)
        mark = f"url(part:mark) no-repeat 0 11mm / {number(size[0])}mm {number(size[1])}mm, "
    return f"@page {{ @top-left {{ background: {mark}{head} }} }}"


def _quoted(text: str) -> str:
    """Text within a style sheet's quotes."""
    return "".join(f"\\{ord(character):06x}" if character in '"\\\n' else character for character in text)
