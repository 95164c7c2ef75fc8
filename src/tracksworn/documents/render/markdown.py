"""A document as CommonMark with tables, and its pictures beside it: drawings as SVG, photos as JPEG."""

import re
from collections import Counter
from typing import Any, Final

import tracksworn
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.svg import svg
from tracksworn.documents.full.view import PhotoView
from tracksworn.documents.render import pages, photos
from tracksworn.documents.render.document import Document
from tracksworn.documents.render.files import File
from tracksworn.documents.render.fitting import Fitted
from tracksworn.documents.render.kind import Kind
from tracksworn.documents.render.notes import escaped
from tracksworn.documents.render.own.templates import OwnTemplates
from tracksworn.documents.render.pages import Ready

_NAME: Final = re.compile(r"[a-z][a-z0-9-]{0,39}")
PHOTO: Final = (150.0, 110.0)  # mm at print's resolution


class _Beside:
    """Gathers the pictures as files of a folder and refers to them by their place."""

    def __init__(self, view: Document) -> None:
        self._folder = view.identification.stem
        self._counts: Counter[str] = Counter()
        self.files: dict[str, bytes] = {}

    def __call__(self, drawing: Drawing, kind: str) -> Ready:
        if not _NAME.fullmatch(kind):
            raise ValueError(f"{kind!r} names no picture; write small letters, digits and hyphens, as `ruler`")
        self._counts[kind] += 1
        name = f"{kind}-{self._counts[kind]}.svg"
        return self._shown(name, svg(drawing, fitted=True).encode("utf-8"), drawing.alternative)

    def photo(self, photo: PhotoView) -> Ready:
        picture = photos.for_print(photo.picture, *PHOTO)
        return self._shown(f"photo-{photo.name}.jpg", picture.content, photo.alternative)

    def _shown(self, name: str, content: bytes, alternative: str) -> Ready:
        place = f"{self._folder}/{name}"
        self.files[place] = content
        return Ready(f"![{escaped(alternative)}]({place})")


def write_markdown(
    view: Document, kind: Kind[Any], plates: object, own: OwnTemplates | None
) -> tuple[str, tuple[File, ...]]:
    """The page and the pictures that lie beside it."""
    beside = _Beside(view)
    values = {
        "view": view,
        "words": view.headings,
        "plates": plates,
        "draw": beside,
        "fitted": Fitted(view, kind.width(view)),
        "version": tracksworn.__version__,
    }
    page = pages.fill_markdown(f"{kind.name}.md", own, values)
    return _tidied(page), tuple(File(name, content) for name, content in sorted(beside.files.items()))


def _tidied(page: str) -> str:
    """No blanks at the end of a line but the two of a line break, one empty line between blocks."""
    return re.sub(r"\n{3,}", "\n\n", re.sub(r"(?<! )(?: | {3,})\n|\n {2,}\n", "\n", page)).strip() + "\n"
