"""The files of a sale's index: one page, tables for other programs, and the catalogue."""

from collections.abc import Mapping, Sequence
from enum import StrEnum

from tracksworn.documents.sale.lot import SaleLot
from tracksworn.inspection.dossier import Stationery


class Layout(StrEnum):
    """How the catalogue tells of a lot."""

    LINES = "lines"
    BLOCKS = "blocks"


def index_files(
    lots: Sequence[SaleLot],
    *,
    stationery: Stationery | None = None,
    catalogue: Layout | None = None,
    language: str | None = None,
    paper: str | None = None,
) -> Mapping[str, bytes]:
    """All files of the index of these lots, in the order of the list, by their names; the same bytes each time.

    `index.html`, `index.csv`, `index.xlsx`, `index.jsonl`, `index.parquet` where pyarrow is there, and `catalogue.pdf`
    where it is asked for. Looks and language are those of the stationery where they are not asked for.
    """
    raise NotImplementedError
