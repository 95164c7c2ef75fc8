"""The lots of a sale: a list in CSV that names inspections, or every inspection under a folder."""

import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Final, TypeVar

from tracksworn.inspection.characters import decoded
from tracksworn.inspection.earlier_ones import named_as_earlier
from tracksworn.inspection.faults import Failed, Fault, Faulty, printable
from tracksworn.inspection.file_types.fields import lot_of, path_of
from tracksworn.inspection.folders import find, read_at_most
from tracksworn.inspection.reading import INSPECTION_NAME, check
from tracksworn.inspection.separated import NotSeparated, rows_of
from tracksworn.inspection.written import TOP, FaultList, Text, Wrong, one_of, quoted, suggestion

T = TypeVar("T")
LARGEST_LIST: Final = 10_000_000  # bytes
COLUMNS: Final = ("inspection", "lot", "documents")
DOCUMENTS: Final = ("full", "listing", "certificate")
_EXAMPLE: Final = "its first row names the columns: `inspection`, and `lot` and `documents` if there are any"


@dataclass(frozen=True, slots=True)
class Listed:
    """One lot of a sale as it was listed.

    `inspection` is the path to open. `name` is the same from the folder that the list lies in, or from the folder that
    was searched, with `/`: the same wherever the sale lies. `place` is its place among them, from 1. `lot` and
    `documents` go before what the inspection and the command say. `line` is the list's, where there is one, and
    `faults` are those of that line.
    """

    inspection: Path
    name: str
    place: int
    lot: str | None = None
    documents: tuple[str, ...] | None = None
    line: int | None = None
    faults: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True)
class Sale:
    """The lots of a list or a folder, and the inspections of that folder that are none, as they are the earlier ones.

    `earlier` are their paths from the folder; a list has none, since what it names is a lot.
    """

    lots: tuple[Listed, ...]
    earlier: tuple[str, ...] = ()


def read_sale(path: Path) -> Sale:
    """The lots of a list, in its order, or of a folder, by path; raises Failed, and Faulty where there are none."""
    if path.is_dir():
        return _sale_of_folder(path)
    if path.suffix.lower() in (".yaml", ".yml"):
        raise Faulty(
            [Fault(path, 1, 1, "a sale is a folder of inspections or a list in CSV, not a single file in YAML")]
        )
    return Sale(read_sale_list(path))


def read_sale_list(path: Path) -> tuple[Listed, ...]:
    """The lots of a list in its order, each with the faults of its line. Raises Faulty where it is no such list."""
    faults = FaultList(path)
    content = read_at_most(path, LARGEST_LIST)
    if len(content) > LARGEST_LIST:
        faults.add(TOP, f"the list is larger than {LARGEST_LIST // 1_000_000} MB")
        raise Faulty(faults.faults)
    text = decoded(content, faults)
    listed = () if text is None or faults.bad else _listed(text, path, faults)
    if faults.bad:
        raise Faulty(faults.faults)
    return listed


def find_inspections(folder: Path) -> tuple[Listed, ...]:
    """Every inspection under a folder, by path, as a lot; hidden folders and links to folders are left alone."""
    return _as_lots(folder, _inspections(folder))


def _sale_of_folder(folder: Path) -> Sale:
    """Every inspection under a folder but those that another of them names as earlier."""
    found = _inspections(folder)
    earlier = named_as_earlier(folder, found)
    lots = _as_lots(folder, [name for name in found if name not in earlier])
    return Sale(lots, tuple(printable(Path(name)) for name in sorted(earlier)))


def _inspections(folder: Path) -> list[PurePosixPath]:
    """The paths of all inspections from a folder, in order; raises Faulty where there is none."""

    def refuse(error: OSError) -> None:
        raise Failed(f"{printable(Path(error.filename or folder))} cannot be read: {error.strerror}") from error

    found: list[PurePosixPath] = []
    for place, folders, files in os.walk(folder, onerror=refuse):
        folders[:] = [name for name in folders if not name.startswith(".")]
        if INSPECTION_NAME in files:
            found.append(PurePosixPath(Path(place).relative_to(folder).as_posix(), INSPECTION_NAME))
    if not found:
        raise Faulty([Fault(folder, 1, 1, f"no `{INSPECTION_NAME}` lies in this folder, nor in any below it")])
    return sorted(found)


def _as_lots(folder: Path, names: Iterable[PurePosixPath]) -> tuple[Listed, ...]:
    return tuple(_lot_of(folder, name, place) for place, name in enumerate(names, 1))


def _lot_of(folder: Path, name: PurePosixPath, place: int) -> Listed:
    """A lot of a folder; index and notes are UTF-8, and have no way to say a name that is not."""
    inspection = folder / name
    if _is_utf8(str(name)):
        return Listed(inspection, str(name), place)
    what = "the name of a folder on the way to this inspection is not UTF-8; rename that folder"
    return Listed(inspection, printable(Path(name)), place, faults=(Fault(inspection, 1, 1, what),))


def _is_utf8(name: str) -> bool:
    """Whether a name as the system gave it has no byte that stands for itself alone."""
    return not any("\ud800" <= sign <= "\udfff" for sign in name)


def check_sale_list(path: Path) -> tuple[Fault, ...]:
    """Every fault of a list, then those of each inspection in its order; raises Failed."""
    try:
        listed = read_sale_list(path)
    except Faulty as error:
        return error.faults
    of_list = [fault for lot in listed for fault in lot.faults]
    return (*of_list, *(fault for lot in listed if not lot.faults for fault in check(lot.inspection)))


def _listed(text: str, path: Path, faults: FaultList) -> tuple[Listed, ...]:
    try:
        rows = list(rows_of(text, faults))
    except NotSeparated:
        return ()
    columns = _columns(rows[0], faults) if rows else None
    if not rows:
        faults.add(TOP, f"the list is empty; {_EXAMPLE}")
    elif columns and len(rows) == 1:
        faults.add(rows[0][0].mark, "the list names no inspection; each goes on a line of its own below the first")
    if columns is None or faults.bad:
        return ()
    seen: dict[Path, int] = {}
    return tuple(_row(row, place, columns, path, seen) for place, row in enumerate(rows[1:], 1))


def _columns(row: Sequence[Text], faults: FaultList) -> tuple[str, ...] | None:
    """The names of the columns, in order."""
    names = [name.lower() for name in row]
    for number, (name, cell) in enumerate(zip(names, row, strict=True)):
        if name in names[:number]:
            faults.add(cell.mark, f"the column {quoted(cell)} is there twice; keep one")
        elif name not in COLUMNS and any(sign in cell for sign in ";\t"):
            faults.add(cell.mark, "columns are parted by commas; save the list as CSV with commas")
        elif name not in COLUMNS:
            faults.add(cell.mark, f"{quoted(cell)} is no column that is known here; {suggestion(name, COLUMNS)}")
    if "inspection" not in names and not faults.bad:
        faults.add(row[0].mark, f"the column `inspection` is missing; {_EXAMPLE}")
    return None if faults.bad else tuple(names)


def _row(row: Sequence[Text], place: int, columns: Sequence[str], path: Path, seen: dict[Path, int]) -> Listed:
    """A lot, with the faults of its line."""
    faults = FaultList(path)
    line = row[0].mark.line
    if len(row) > len(columns):
        faults.add(row[len(columns)].mark, f"a value too many: the first row names {len(columns)} columns")
    cells = dict(zip(columns, row, strict=False))
    cell = cells.get("inspection", Text("", row[0].mark))
    if not cell:
        faults.add(cell.mark, "an inspection is missing here: its path from the list's folder")
    name = _read(cells, "inspection", path_of, faults)
    real = None if name is None else _read(cells, "inspection", lambda _: _found(name, path.parent), faults)
    first = line if real is None else seen.setdefault(real, line)
    if first != line:
        faults.add(cell.mark, f"{quoted(cell)} stands in line {first} already; a sale lists an inspection once")
    lot = _read(cells, "lot", lot_of, faults)
    documents = _read(cells, "documents", _documents, faults)
    return Listed(path.parent / (name or ""), str(name or ""), place, lot, documents, line, tuple(faults.faults))


def _read(cells: Mapping[str, Text], column: str, read: Callable[[Text], T], faults: FaultList) -> T | None:
    """What a cell says; None where it is empty or wrong."""
    cell = cells.get(column)
    if not cell:
        return None
    try:
        return read(cell)
    except Wrong as error:
        faults.wrong(cell, error)
        return None


def _found(name: PurePosixPath, folder: Path) -> Path:
    """The inspection's file, links resolved; as named where the machine refuses, which is told of its lot alone."""
    whole = name / INSPECTION_NAME if os.path.isdir(folder / name) else name  # noqa: PTH112 - raises nothing
    try:
        return find(whole, folder, None)
    except Failed:
        return folder / whole


def _documents(text: Text) -> tuple[str, ...]:
    words = text.split()
    for word in words:
        if word not in DOCUMENTS:
            raise Wrong(f"{quoted(word)} is no document; write {one_of(DOCUMENTS)}, several with a blank between")
    return tuple(dict.fromkeys(words))
