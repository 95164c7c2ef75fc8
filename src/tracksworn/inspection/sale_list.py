"""The lots of a sale: a list in CSV that names inspections, or every inspection under a folder."""

from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Listed:
    """One lot of a sale as it was listed.

    `inspection` is the path to open. `name` is the same from the folder that the list lies in, or from the folder that
    was searched, with `/`: the same wherever the sale lies. `lot` and `documents` go before what the inspection and
    the command say. `line` is the list's, where there is one.
    """

    inspection: Path
    name: str
    lot: str | None = None
    documents: tuple[str, ...] | None = None
    line: int | None = None
