"""The index as one page for a browser: a table that reads as it is, which a small script of ours sorts and filters."""

from base64 import b64encode
from dataclasses import dataclass
from hashlib import sha256
from typing import Final

from tracksworn.documents.drawing.distribution import draw_distribution
from tracksworn.documents.drawing.plain import Drawing
from tracksworn.documents.drawing.whole_bar import draw_scale, draw_whole_bar
from tracksworn.documents.render import pages
from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.fitting import WIDTH
from tracksworn.documents.render.gate.shown import check_html
from tracksworn.documents.render.gate.wanted import wanted
from tracksworn.documents.render.html import style_sheet, write_html
from tracksworn.documents.render.kind import Kind
from tracksworn.documents.sale.view import Sale

BAR: Final = 30.0
SCRIPT: Final = "sale.js"
TOOLS_STYLE: Final = "sale-tools.css"
_HEAD_ENDS: Final = "</head>"
_TOOLS: Final = "<!--tools-->"
_SCRIPT: Final = "<!--script-->"
_ROWS: Final = "<!--rows-->"
_ROWS_END: Final = "<!--end of rows-->"
_POLICY: Final = "default-src 'none';"


@dataclass(frozen=True, slots=True)
class IndexPlates:
    """The drawings of the index; `bars` by lot."""

    distribution: Drawing
    scale: Drawing
    bars: tuple[Drawing | None, ...]


def _draw(view: Sale) -> IndexPlates:
    return IndexPlates(
        distribution=draw_distribution(view.distribution),
        scale=draw_scale(BAR, view.distribution.limit, view.headings.reach),
        bars=tuple(draw_whole_bar(lot.read.whole.bar, BAR) if lot.read else None for lot in view.lots),
    )


INDEX: Final[Kind[Sale]] = Kind(
    name="sale",
    draw=_draw,
    width=lambda view: WIDTH,  # noqa: ARG005
    sheet_styles=lambda view: (),  # noqa: ARG005
    screen_styles=("screen.css", "sale-screen.css"),
    wanted=lambda view: wanted(view.cautions),
)


def write_page(view: Sale) -> str:
    """The page. Raises Refused where a caution is not in it."""
    page = write_html(view, INDEX, _draw(view), None, style_sheet(INDEX, None))
    check_html(_without_rows(page), INDEX.wanted(view), view.branding.faces)
    return _with_script(page, pages.fill_page("sale-tools.html", None, {"view": view, "words": view.headings}))


def _without_rows(page: str) -> str:
    """What is judged: the page without script, which adds no words, and without rows, which lead to other files."""
    before, _, rest = page.partition(_ROWS)
    _, end, after = rest.partition(_ROWS_END)
    if not end:
        raise Refused("the page of the index does not mark where its rows begin and end")
    return before + after


def _with_script(page: str, tools: str) -> str:
    """The page with its tools, their style and its script, which alone its policy lets run."""
    script = pages.style(SCRIPT)
    digest = b64encode(sha256(script.encode("utf-8")).digest()).decode("ascii")
    for mark, instead in (
        (_POLICY, f"{_POLICY} script-src 'sha256-{digest}';"),
        (_ROWS, ""),
        (_ROWS_END, ""),
        (_HEAD_ENDS, f"<style>{pages.style(TOOLS_STYLE)}</style>{_HEAD_ENDS}"),
        (_TOOLS, tools),
        (_SCRIPT, f"<script>{script}</script>"),
    ):
        if page.count(mark) != 1:
            raise Refused(f"the page of the index has {page.count(mark)} places for {mark}, not one")
        page = page.replace(mark, instead)
    return page
