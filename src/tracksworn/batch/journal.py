"""What a batch notes of each lot once its documents stand, so that the next one knows what has changed.

A note is a small JSON file in `.batch/lots/`, put there after the documents that it tells of. It is as good as gone
where it does not read: then the lot is made anew.
"""

import json
import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass, fields, replace
from hashlib import sha256
from pathlib import Path
from typing import Any, Final

import rfc8785

from tracksworn.batch.order import Order
from tracksworn.batch.places import OWN, Place
from tracksworn.documents.sale.lot import SaleLot
from tracksworn.documents.sale.lot_json import as_json, lot_of_json
from tracksworn.inspection.faults import Failed
from tracksworn.inspection.inputs import Input, read_input
from tracksworn.inspection.sale_list import Listed

KIND: Final = "batch note 1"
LOTS: Final = f"{OWN}/lots"
LARGEST_INPUT: Final = 100_000_000  # bytes, of which none is larger


@dataclass(frozen=True, slots=True)
class Output:
    """A document's file: its name, the SHA-256 of its bytes, and its state as the place tells it."""

    name: str
    sha256: str
    state: str | None


@dataclass(frozen=True, slots=True)
class Note:
    """A lot whose documents stand. `digest` is that of all that they follow from, `asked` of all but the program.

    `sealing` is what its seals follow from. `former` are files that it had before and has no more; `archived` those
    that some archive holds.
    """

    name: str
    digest: str
    asked: str
    inputs: tuple[Input, ...]
    outputs: tuple[Output, ...]
    lot: SaleLot
    warnings: tuple[str, ...] = ()
    former: tuple[str, ...] = ()
    archived: tuple[str, ...] = ()
    sealing: str = ""


class Journal:
    """The notes in a place. `base` is the folder from which lots are named; program and seal are those of every lot."""

    def __init__(self, place: Place, base: Path, order: Order, program: str, sealing: str = "") -> None:
        self.place = place
        self.base = base
        self.order = order
        self.program = program
        self.sealing = sealing
        self.common = _plain(order)
        self._roots = (Path(os.path.abspath(base)), base.resolve())  # noqa: PTH100 - links are not followed

    def note_of(self, listed: Listed) -> Note | None:
        """What is noted of a lot."""
        return self._read(_file(listed.name))

    def notes_of_others(self, listed: Sequence[Listed]) -> Iterator[Note]:
        """Those of lots that are listed no more."""
        own = {_file(one.name) for one in listed}
        read = (self._read(name) for name in self.place.names(LOTS) if name.endswith(".json") and name not in own)
        yield from (note for note in read if note is not None)

    def keep(self, note: Note) -> None:
        """Note a lot; its documents stand by now."""
        said = {
            "tracksworn": KIND,
            **{name: getattr(note, name) for name in ("name", "digest", "asked", "sealing")},
            **{name: getattr(note, name) for name in ("warnings", "former", "archived")},
            "inputs": [self._input_said(one) for one in note.inputs],
            "outputs": [asdict(one) for one in note.outputs],
            "lot": as_json(note.lot),
        }
        self.place.note(_file(note.name), json.dumps(said, indent=1).encode())

    def digest(self, asked: str) -> str:
        """SHA-256 of all that a lot's documents follow from: what was asked and read, and the program."""
        return sha256(f"{asked} {self.program}".encode()).hexdigest()

    def asked(self, listed: Listed, inputs: Sequence[Input]) -> str:
        """SHA-256 of what was asked of a lot, and of every file that was read for it."""
        files = {self._from_base(one.path): one.sha256 for one in inputs}
        documents = sorted(self.order.documents_of(listed))
        own = {"name": listed.name, "lot": listed.lot, "documents": documents, "files": files}
        return sha256(rfc8785.dumps({**self.common, **own})).hexdigest()

    def outputs(self, files: Mapping[str, bytes]) -> tuple[Output, ...]:
        """What has just been put there."""
        return tuple(
            Output(name, sha256(content).hexdigest(), self.place.state(name)) for name, content in files.items()
        )

    def as_it_is(self, note: Note, listed: Listed, held: Callable[[], bool]) -> Note | None:
        """The note as it holds now, files seen again; None where anything has changed.

        What any archive holds stands though the program be another: made anew, it would be another record. What the
        archive of this run holds, as `held` tells, stands though the seal be another as well: there it stays.
        """
        asked = self.asked(listed, note.inputs)
        by_this = note.sealing == self.sealing and (note.archived or note.digest == self.digest(asked))
        if note.asked != asked or not (by_this or held()):
            return None
        inputs = [self._seen_again(one) for one in note.inputs]
        if None in inputs:
            return None
        outputs = [self.still_there(one) for one in note.outputs]
        if None in outputs:
            return None
        return replace(note, inputs=tuple(filter(None, inputs)), outputs=tuple(filter(None, outputs)))

    def _seen_again(self, noted: Input) -> Input | None:
        """The file by its state, else by its bytes; None where it is another."""
        try:
            found = os.stat(noted.path)  # noqa: PTH116 - many of them
            times = (found.st_mtime_ns, found.st_ctime_ns, found.st_ino)
            if (found.st_size, *times) == (noted.size, noted.mtime_ns, noted.ctime_ns, noted.inode):
                return noted
            _, now = read_input(noted.path, noted.path.resolve(strict=True), LARGEST_INPUT)
        except (OSError, Failed):
            return None
        return now if (now.real, now.sha256) == (noted.real, noted.sha256) else None

    def still_there(self, noted: Output) -> Output | None:
        """The document by its state, else by its bytes; None where it is gone or another."""
        state = self.place.state(noted.name)
        if state is None or state == noted.state:
            return noted if state else None
        try:
            content = self.place.read(noted.name)
        except Failed:
            return None  # what is made in its place tells of it when it is written
        same = content is not None and sha256(content).hexdigest() == noted.sha256
        return replace(noted, state=state) if same else None

    def _read(self, name: str) -> Note | None:
        content = self.place.read(name)
        try:
            said = json.loads(content or b"")
            if said["tracksworn"] != KIND:
                return None
            return Note(
                name=said["name"],
                digest=said["digest"],
                asked=said["asked"],
                sealing=said["sealing"],
                inputs=tuple(map(self._input_read, said["inputs"])),
                outputs=tuple(Output(**one) for one in said["outputs"]),
                lot=lot_of_json(said["lot"]),
                **{field: tuple(said[field]) for field in ("warnings", "former", "archived")},
            )
        except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
            return None

    def _input_said(self, one: Input) -> dict[str, Any]:
        return {**asdict(one), "path": self._from_base(one.path), "real": self._from_base(one.real)}

    def _input_read(self, said: dict[str, Any]) -> Input:
        path, real = self.base / said["path"], Path(os.path.normpath(self._roots[1] / said["real"]))
        return Input(**{**said, "path": path, "real": real})

    def _from_base(self, path: Path) -> str:
        """A path from the folder of the list, so that a sale can be moved as a whole; as it is where it lies apart."""
        whole = path if path.is_absolute() else Path.cwd() / path
        for root in self._roots:
            if whole.is_relative_to(root):
                return whole.relative_to(root).as_posix()
        return os.path.relpath(whole, self._roots[1]) if whole == whole.resolve() else str(whole)


def _file(name: str) -> str:
    return f"{LOTS}/{sha256(name.encode()).hexdigest()[:32]}.json"


def _plain(order: Order) -> dict[str, Any]:
    """What an order asks for, as JSON has it, but for the documents, of which each lot may have its own.

    Neither where templates lie nor in which order formats are named changes a document.
    """
    plain = {one.name: getattr(order, one.name) for one in fields(order) if one.name != "documents"}
    texts = order.templates and {name: sha256(text.encode()).hexdigest() for name, text in order.templates.texts}
    return {**plain, "formats": sorted(order.formats), "templates": texts}
