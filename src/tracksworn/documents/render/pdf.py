"""The sheets for print and for keeping: PDF/A-3a and PDF/UA-1, the same bytes each time."""

from io import BytesIO
from pathlib import Path
from typing import Final

import pikepdf
from markupsafe import Markup

import tracksworn
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.svg import number
from tracksworn.documents.full.view import FullReport, PhotoView
from tracksworn.documents.render import pages, photos, pictures
from tracksworn.documents.render.accessible import declare_accessible
from tracksworn.documents.render.engine import Part, Sheets, lay_out
from tracksworn.documents.render.fitting import WIDTH, Fitted
from tracksworn.documents.render.heads import FOOT_HEIGHT, HEAD_HEIGHT, MARK, draw_foot, draw_head
from tracksworn.documents.render.plates import Plates

PHOTO_BOXES: Final = {"finding": (36.0, 24.0), "gallery": (58.0, 42.0)}
SECTIONS: Final = ("parts", "findings", "record")
ENDS: Final = {"parts": "end-whole", "findings": "end-parts", "record": "end-findings"}
"""What may begin a sheet of its own, and where that which stands before it ends."""
ENOUGH: Final = 0.55
"""How far down a sheet must be filled for the next section to begin a new one."""


class _Parts:
    """Puts stand-ins for drawings, and photos in the size of print, among the parts that the page may show."""

    def __init__(self, view: FullReport) -> None:
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


def write_pdf(view: FullReport, plates: Plates, templates: Path | None) -> bytes:
    """The report as PDF. Where a section would leave half a sheet empty before it, it goes on there instead."""
    flowing = frozenset({"record"})
    sheets, drawings = _lay_out(view, plates, templates, flowing)
    legend_after = len(view.strips)
    while (fewer := _strips_before_legend(sheets, legend_after)) < legend_after:
        legend_after = fewer
        sheets, drawings = _lay_out(view, plates, templates, flowing, legend_after)
    for names in (("parts", "findings"), ("record",)):  # what comes later stands elsewhere once the first have moved
        better = flowing.difference(names) | {name for name in names if _goes_on(sheets, name, name in flowing)}
        if better != flowing:
            flowing = better
            sheets, drawings = _lay_out(view, plates, templates, flowing, legend_after)
    return _finished(sheets.write(), drawings)


def _lay_out(
    view: FullReport, plates: Plates, templates: Path | None, flowing: frozenset[str], legend_after: int | None = None
) -> tuple[Sheets, dict[int, Drawing]]:
    parts, fitted = _Parts(view), Fitted(view)
    parts.behind(draw_head(fitted), "head")
    parts.behind(draw_foot(fitted), "foot")
    values = {
        "view": view,
        "words": view.headings,
        "plates": plates,
        "draw": parts,
        "fitted": fitted,
        "paged": True,
        "flowing": flowing,
        "legend_after": len(view.strips) if legend_after is None else legend_after,
        "pages": _page_names(flowing),
        "version": tracksworn.__version__,
    }
    page = pages.fill_page("full.html", templates, values)
    styles = [
        pages.style("print.css") + pages.style(f"{view.branding.paper.lower()}.css"),
        _on_every_sheet(view) + pages.extra_style(templates),
    ]
    return lay_out(page, styles, parts.parts), parts.drawings


def _on_every_sheet(view: FullReport) -> str:
    """The style of what stands on every sheet of this report: the head and foot drawn, the mark, the title's indent."""
    head = f"url(part:head) no-repeat 0 11mm / {number(WIDTH)}mm {number(HEAD_HEIGHT)}mm"
    foot = f"url(part:foot) no-repeat 0 2.5mm / {number(WIDTH)}mm {number(FOOT_HEIGHT)}mm"
    sheet = f'counter(page) " {_quoted(view.headings.of)} " counter(pages)'
    mark, indent = "", "0"
    if view.branding.mark:
        width, height = photos.placed(view.branding.mark, MARK, MARK)
        mark, indent = f"url(part:mark) no-repeat 0 11mm / {number(width)}mm {number(height)}mm, ", "12mm"
    return (
        f"@page {{ @top-left {{ background: {mark}{head}; padding-left: {indent} }}"
        f" @bottom-left {{ background: {foot}; content: {sheet} }} }}"
        f" .sheet-head {{ padding-left: {indent} }}"
    )


def _quoted(text: str) -> str:
    """Text within a style sheet's quotes."""
    return "".join(f"\\{ord(character):06x}" if character in '"\\\n' else character for character in text)


def _page_names(flowing: frozenset[str]) -> dict[str, str]:
    """Which kind of sheet each section stands on: its own, or that of the section it follows on."""
    names, latest = {}, "whole"
    for name in SECTIONS:
        latest = latest if name in flowing else name
        names[name] = f"on-{latest}"
    return names


def _strips_before_legend(sheets: Sheets, strips: int) -> int:
    """How many strips of rollers may stand before the legend: one fewer if it came to a later sheet than the rows."""
    rows, legend = sheets.place("end-rows"), sheets.place("legend")
    if rows is None or legend is None or rows[0] == legend[0]:
        return strips
    return max(strips - 1, 0)


def _goes_on(sheets: Sheets, name: str, flowing: bool) -> bool:
    """Not where it came to the top of a sheet anyway; surely where the sheet before would be left half empty."""
    start, end = sheets.place(name), sheets.place(ENDS[name])
    if start is None or end is None or start[0] == end[0]:
        return flowing
    return end[1] < ENOUGH if not flowing else False


def _finished(laid_out: bytes, drawings: dict[int, Drawing]) -> bytes:
    out = BytesIO()
    with pikepdf.open(BytesIO(laid_out)) as pdf:
        pictures.swap(pdf, drawings)
        declare_accessible(pdf)
        pdf.save(out, deterministic_id=True, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    return out.getvalue()
