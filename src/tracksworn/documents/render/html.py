"""The page for a browser: one file with everything in it, no script, nothing fetched."""

from base64 import b64encode
from typing import Any, Final

from markupsafe import Markup

import tracksworn
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.svg import svg
from tracksworn.documents.full.view import PhotoView
from tracksworn.documents.render import pages, photos, web_fonts
from tracksworn.documents.render.document import Document
from tracksworn.documents.render.fitting import Fitted
from tracksworn.documents.render.gate.brought import Styles
from tracksworn.documents.render.kind import Kind
from tracksworn.documents.render.own.templates import OwnTemplates
from tracksworn.inspection.dossier import Picture

_FURTHER: Final = "/* further scripts */"  # what the page says decides which fonts stand here
PHOTO: Final = (120.0, 90.0)  # mm in which a photo is shown at most on a screen, at print's resolution


class _Inline:
    """Puts pictures into the page itself."""

    def __init__(self, view: Document) -> None:
        self._count = 0
        mark = view.branding.mark
        self.mark = _image(mark, view.branding.firm) if mark else None

    def __call__(self, drawing: Drawing, name: str | None = None) -> Markup:
        """The drawing; what is named may be shown again, as small as a phone is wide."""
        self._count += 1
        return Markup(svg(drawing, title_id=f"drawing-{self._count}", marks_id=name))  # noqa: S704 - our own, escaped there

    def photo(self, photo: PhotoView, place: str) -> Markup:  # noqa: ARG002
        return _image(photos.for_print(photo.picture, *PHOTO), photo.alternative)


def write_html(
    view: Document, kind: Kind[Any], plates: object, own: OwnTemplates | None, styles: Styles | None = None
) -> str:
    """A document as one self-contained HTML file; its style is read anew where it is not given."""
    styles = styles or style_sheet(kind, own)
    values = {
        "view": view,
        "words": view.headings,
        "plates": plates,
        "draw": _Inline(view),
        "fitted": Fitted(view, kind.width(view)),
        "paged": False,
        "styles": Markup(f"{web_fonts.own()}{_FURTHER}{styles.text}"),  # noqa: S704
        "version": tracksworn.__version__,
        **kind.unpaged(view),
    }
    page = pages.fill_page(f"{kind.name}.html", own, values)
    return page.replace(_FURTHER, web_fonts.further(page, view.branding.faces), 1)


def style_sheet(kind: Kind[Any], own: OwnTemplates | None) -> Styles:
    """The style of a document in a browser, but for its fonts."""
    added = [(name, own.style(name)) for name in ("extra.css", "screen.css")] if own else []
    return Styles("".join(map(pages.style, kind.screen_styles)), tuple(one for one in added if one[1]))


def _image(picture: Picture, alternative: str) -> Markup:
    data = f"data:{picture.media_type};base64,{b64encode(picture.content).decode('ascii')}"
    size = Markup('width="{}" height="{}"').format(picture.width, picture.height)
    return Markup('<img src="{}" alt="{}" {}/>').format(data, alternative, size)
