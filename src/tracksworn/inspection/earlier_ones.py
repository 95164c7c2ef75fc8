"""Which inspections of a folder are the earlier ones of others there, which a sale of that folder does not offer."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path, PurePosixPath
from typing import Final

from tracksworn.inspection.faults import Failed
from tracksworn.inspection.file_types.fields import path_of
from tracksworn.inspection.folders import find, read_at_most
from tracksworn.inspection.written import FaultList, Items, Text, Wrong
from tracksworn.inspection.yaml_source import LARGEST_FILE, read_yaml

_SAYS_EARLIER: Final = re.compile(rb"^[^#\n]*\bearlier[\"']?\s*:", re.MULTILINE)
"""What stands in every file that names any: only those are parsed, which takes 6 ms of processor time each."""


def named_as_earlier(folder: Path, inspections: Sequence[PurePosixPath]) -> frozenset[PurePosixPath]:
    """Those that another of them names under `earlier`, itself or by way of others.

    Of some that name each other in a circle none is earlier, so that the fault is told of each. A file that cannot be
    read names none; why is told with its lot.
    """
    files = {name: real for name in inspections if (real := _real(name, folder)) is not None}
    there = frozenset(files.values())
    names = {real: there.intersection(_named_by(folder / name)) - {real} for name, real in files.items()}
    lots = there.difference(*names.values())
    earlier = _reached(lots, names) - lots
    return frozenset(name for name, real in files.items() if real in earlier)


def _reached(lots: Iterable[Path], names: Mapping[Path, Iterable[Path]]) -> set[Path]:
    """The lots and all that they name, that these name, and so on."""
    reached: set[Path] = set()
    ahead = list(lots)
    while ahead:
        one = ahead.pop()
        if one not in reached:
            reached.add(one)
            ahead.extend(names[one])
    return reached


def _named_by(inspection: Path) -> Iterator[Path]:
    """The files that one names as earlier, links resolved."""
    try:
        content = read_at_most(inspection, LARGEST_FILE)
    except Failed:
        return
    record = read_yaml(content, FaultList(inspection)) if _SAYS_EARLIER.search(content) else None
    named = None if record is None else record.get("earlier")
    for name in named if isinstance(named, Items) else ():
        real = _real(name, inspection.parent) if isinstance(name, Text) else None
        if real is not None:
            yield real


def _real(name: PurePosixPath | Text, folder: Path) -> Path | None:
    try:
        return find(path_of(name) if isinstance(name, Text) else name, folder, None)
    except (Wrong, Failed):
        return None
