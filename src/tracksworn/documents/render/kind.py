"""What one kind of document is laid out with: its templates, style sheets, drawings, and how it goes on to sheets."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, Protocol, TypeVar

from tracksworn.documents.attached import Attachment
from tracksworn.documents.render.document import Document
from tracksworn.documents.render.gate.wanted import Piece

D = TypeVar("D", bound=Document)


class Sheets(Protocol):
    """Sheets laid out and not yet written."""

    @property
    def count(self) -> int:
        """How many they are."""

    def place(self, anchor: str) -> tuple[int, float] | None:
        """On which sheet an element of that id stands, from 0, and how far down: 0 at the top, 1 at the foot."""

    def says(self, pieces: Sequence[Piece]) -> bool:
        """Whether every piece stands on the sheets, by their words alone: whether it can be seen is not looked at."""

    def write(self, attachments: Sequence[Attachment]) -> bytes:
        """The sheets as a PDF file, its drawings in place, which carries these files."""


LayOut = Callable[[Mapping[str, object]], Sheets]
"""Lays a document out with further values for its template."""


def _as_it_flows(view: Document, lay_out: LayOut) -> Sheets:  # noqa: ARG001
    return lay_out({})


@dataclass(frozen=True, slots=True)
class Kind(Generic[D]):
    """One kind of document. `name` is that of its templates, `NAME.html` and `NAME.md`."""

    name: str
    draw: Callable[[D], object]  # its drawings, once for all formats; `plates` in its templates
    width: Callable[[D], float]  # of the text on a sheet, mm
    sheet_styles: Callable[[D], tuple[str, ...]]  # built-in style sheets for print, in their order
    screen_styles: tuple[str, ...]  # those for a browser
    wanted: Callable[[D], tuple[Piece, ...]]  # what no template may leave out
    arrange: Callable[[D, LayOut], Sheets] = _as_it_flows  # the best of the ways in which it can go on to sheets
    unpaged: Callable[[D], Mapping[str, object]] = lambda view: {}  # noqa: ARG005  further values without sheets
    one_sheet: bool = False  # no sheet follows the first, so that none has a head drawn
