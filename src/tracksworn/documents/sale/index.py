"""The files of a sale's index: one page, tables for other programs, a workbook, and the catalogue."""

from collections.abc import Mapping, Sequence
from typing import Final

from tracksworn.documents.attached import JSON, Attachment, Relationship
from tracksworn.documents.sale.build import sale
from tracksworn.documents.sale.catalogue import Layout, write_catalogue
from tracksworn.documents.sale.lot import SaleLot
from tracksworn.documents.sale.page import write_page
from tracksworn.documents.sale.tables import write_csv, write_lines, write_parquet
from tracksworn.documents.sale.view import Sale
from tracksworn.documents.sale.workbook import write_workbook
from tracksworn.documents.words.language import N_, Language
from tracksworn.inspection.dossier import Stationery

LINES: Final = "index.jsonl"


def index_files(
    lots: Sequence[SaleLot],
    *,
    stationery: Stationery | None = None,
    title: str = "",
    catalogue: Layout | None = None,
    language: str | None = None,
    paper: str | None = None,
) -> Mapping[str, bytes]:
    """All files of the index of these lots, in the order of the list, by their names; the same bytes each time.

    `index.html`, `index.csv`, `index.xlsx`, `index.jsonl`, `index.parquet` where pyarrow is there, and `catalogue.pdf`
    where it is asked for, which carries the lots as data. Look and language are those of the stationery where they are
    not asked for. Raises Refused where a document would lack a caution.
    """
    view = sale(lots, stationery=stationery, title=title, language=language, paper=paper)
    lines = write_lines(lots)
    files = {
        "index.html": write_page(view).encode("utf-8"),
        "index.csv": write_csv(lots),
        "index.xlsx": write_workbook(lots, view),
        LINES: lines,
    }
    table = write_parquet(lots)
    if table is not None:
        files["index.parquet"] = table
    if catalogue is not None:
        files["catalogue.pdf"] = write_catalogue(view, catalogue, (_carried(lines, view),))
    return files


def _carried(lines: bytes, view: Sale) -> Attachment:
    """The lots as the catalogue carries them."""
    description = Language(view.branding.language).say(N_("The lots as data, one a line"))
    return Attachment(LINES, lines, JSON, Relationship.DATA, description)
