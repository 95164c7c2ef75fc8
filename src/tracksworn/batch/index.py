"""The index of a sale, written once all lots are done with, and only where it would be another one."""

import json
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any, Final

import rfc8785

from tracksworn.batch.journal import Journal, Output
from tracksworn.batch.places import OWN
from tracksworn.batch.program import installed
from tracksworn.batch.run import Taken
from tracksworn.documents.sale.lot_json import as_json
from tracksworn.inspection.dossier import Stationery
from tracksworn.inspection.faults import TrackswornError
from tracksworn.inspection.reading import read_letterhead

NOTE: Final = f"{OWN}/index.json"
KIND: Final = "index note 1"


@dataclass(frozen=True, slots=True)
class Index:
    """The files of the index, `written` in this run or standing; `former` ones stand as well, and are of it no more."""

    names: tuple[str, ...]
    written: bool
    former: tuple[str, ...]


def write_index(taken: Sequence[Taken], journal: Journal, catalogue: str | None, title: str = "") -> Index:
    """Bring the index up to the lots. `catalogue` is how it tells of a lot, if one is asked for; `title` the sale's."""
    stationery = _stationery(taken)
    digest = _digest(taken, journal, [catalogue, title], stationery)
    noted, outputs, former = _noted(journal)
    if noted == digest and all(journal.still_there(one) for one in outputs):
        return Index(tuple(one.name for one in outputs), written=False, former=_standing(former, journal))
    from tracksworn.documents.sale.catalogue import Layout  # noqa: PLC0415 - these import the engine
    from tracksworn.documents.sale.index import index_files  # noqa: PLC0415

    files = index_files(
        [one.lot for one in taken],
        stationery=stationery,
        title=title,
        catalogue=None if catalogue is None else Layout(catalogue),
        language=journal.order.language,
        paper=journal.order.paper,
    )
    journal.place.write(files)
    now = journal.outputs(files)
    former = _standing({*former, *(one.name for one in outputs)} - set(files), journal)
    said = {"tracksworn": KIND, "digest": digest, "outputs": [asdict(one) for one in now], "former": former}
    journal.place.note(NOTE, json.dumps(said, indent=1).encode())
    return Index(tuple(files), written=True, former=former)


def stands(journal: Journal) -> bool:
    """Whether there is an index of an earlier run, as far as that is noted."""
    _, outputs, _ = _noted(journal)
    return any(journal.place.state(one.name) for one in outputs)


def _standing(names: Iterable[str], journal: Journal) -> tuple[str, ...]:
    return tuple(sorted(filter(journal.place.state, names)))


def _stationery(taken: Sequence[Taken]) -> Stationery | None:
    """The letterhead of the first lot that has one that can be read."""
    for one in taken:
        read = one.lot.read
        if read is None or read.letterhead is None:
            continue
        inspection = one.listed.inspection
        folder = inspection if inspection.is_dir() else inspection.parent
        try:
            return read_letterhead(folder / Path(read.letterhead))
        except TrackswornError:  # told with that lot
            continue
    return None


def _digest(taken: Sequence[Taken], journal: Journal, asked: list[str | None], stationery: Stationery | None) -> str:
    letterhead: list[Any] = []
    if stationery is not None:
        parts = (stationery.mark, *stationery.fonts)
        letterhead = [repr(stationery.letterhead), *(sha256(part.content).hexdigest() for part in parts if part)]
    by = [journal.program, installed("pyarrow")]  # without which there is one file less
    said: list[Any] = [[as_json(one.lot) for one in taken], journal.common, by, asked, letterhead]
    return sha256(rfc8785.dumps(said)).hexdigest()


def _noted(journal: Journal) -> tuple[str, tuple[Output, ...], tuple[str, ...]]:
    """The digest of what the index follows from, its files, and those that it had before."""
    try:
        said = json.loads(journal.place.read(NOTE) or b"")
        return str(said["digest"]), tuple(Output(**one) for one in said["outputs"]), tuple(said.get("former", ()))
    except (ValueError, KeyError, TypeError):
        return "", (), ()
