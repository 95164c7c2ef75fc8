"""From the view of a full report to finished files, all in memory and all through the gate."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from tracksworn.documents.full.view import FullReport
from tracksworn.documents.render.files import File, Format
from tracksworn.documents.render.gate.wanted import Piece, wanted
from tracksworn.documents.render.plates import Plates, draw_plates


def render(view: FullReport, formats: Sequence[str], *, templates: Path | None = None) -> tuple[File, ...]:
    """The report in the formats asked for: `pdf`, `html`, `md`; Markdown brings its pictures.

    `templates` is a folder of a firm's own templates, looked up before the program's. Raises Refused where a template
    cannot be used, or where not all cautions can be read in what was made; nothing is handed over then.
    """
    pieces = wanted(view.cautions)
    plates = draw_plates(view)
    asked = dict.fromkeys(map(Format, formats))
    return tuple(file for one in asked for file in _files(one, view, plates, templates, pieces))


def _files(
    one: Format, view: FullReport, plates: Plates, templates: Path | None, pieces: tuple[Piece, ...]
) -> Iterator[File]:
    """One format. What it takes is imported only where it is asked for."""
    name = f"{view.identification.stem}.{one.value}"
    if one is Format.PDF:
        from tracksworn.documents.render.gate.printed import check_pdf  # noqa: PLC0415
        from tracksworn.documents.render.pdf import write_pdf  # noqa: PLC0415

        content = write_pdf(view, plates, templates)
        check_pdf(content, pieces)
        yield File(name, content)
    elif one is Format.HTML:
        from tracksworn.documents.render.gate.shown import check_html  # noqa: PLC0415
        from tracksworn.documents.render.html import write_html  # noqa: PLC0415

        page = write_html(view, plates, templates)
        check_html(page, pieces)
        yield File(name, page.encode("utf-8"))
    else:
        from tracksworn.documents.render.gate.marked import check_markdown  # noqa: PLC0415
        from tracksworn.documents.render.markdown import write_markdown  # noqa: PLC0415

        page, pictures = write_markdown(view, plates, templates)
        check_markdown(page, pieces)
        yield File(name, page.encode("utf-8"))
        yield from pictures
