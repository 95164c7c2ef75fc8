"""A change to the files in three steps, of which the second decides: stage it beside, log its act, put it in place.

Staged is a folder `staging/POSITION` with the pieces, the act, and `moves.json`, which says where each piece goes. All
of it is durable before the act is logged. Once the log's checkpoint counts the act, the moves are done, and done again
after a crash, until all are in place; before that they are thrown away. So a crash leaves the old state or the new for
whoever opens the archive.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Final

from tracksworn.records.disk import Disk
from tracksworn.records.log.log import Log

STAGING: Final = "staging"
MOVES: Final = "moves.json"
ACT: Final = "act.json"
OLD: Final = "old"


@dataclass(frozen=True, slots=True)
class Piece:
    """A file, or a folder of files, and where it goes from the archive's folder."""

    target: PurePosixPath
    files: Mapping[PurePosixPath, bytes] | bytes


class Changes:
    """Makes changes in an archive's folder. Whoever uses it holds the archive's lock."""

    def __init__(self, folder: Path, disk: Disk, log: Log) -> None:
        self.folder = folder
        self.staging = folder / STAGING
        self.disk = disk
        self.log = log

    def make(self, act: bytes, at: str, pieces: Sequence[Piece]) -> None:
        """Do all of it, or nothing of it."""
        self.log.signing_key()  # where it is missing, nothing is begun
        if pieces:
            self._stage(act, pieces)
        self.log.append([act], at)
        self.settle()

    def unsettled(self) -> bool:
        """Whether a change was begun, by this process or another, and is not done."""
        return self.staging.is_dir() and any(self.staging.iterdir())

    def settle(self) -> None:
        """Finish what counts, and throw away what does not."""
        if not self.staging.is_dir():
            return
        for place in sorted(self.staging.iterdir()):
            if self._counts(place):
                self._move(place)
            self.disk.remove(place)

    def _stage(self, act: bytes, pieces: Sequence[Piece]) -> None:
        last = self.log.checkpoint()
        place = self.staging / str(last.size)
        self.disk.make_folders(place, durable=False)
        for number, piece in enumerate(pieces):
            self._write(place / str(number), piece.files)
        self.disk.write(place / ACT, act, durable=False)
        moves = {"position": last.size, "offset": last.length, "targets": [str(piece.target) for piece in pieces]}
        self.disk.write(place / MOVES, json.dumps(moves).encode("utf-8"), durable=False)
        for path in (*sorted(place.rglob("*")), place, self.staging):  # only now, for a disk does all of it together
            self.disk.sync(path)

    def _write(self, path: Path, files: Mapping[PurePosixPath, bytes] | bytes) -> None:
        if isinstance(files, bytes):
            self.disk.write(path, files, durable=False)
            return
        folders = {path} | {(path / name).parent for name in files}
        folders |= {path / above for name in files for above in name.parents}
        for folder in sorted(folders):
            self.disk.make_folders(folder, durable=False)
        for name, content in files.items():
            self.disk.write(path / name, content, durable=False)

    def _counts(self, place: Path) -> bool:
        """Whether the act of what is staged there is in the log."""
        try:
            moves = json.loads((place / MOVES).read_bytes())
            act = (place / ACT).read_bytes()
        except (OSError, ValueError):
            return False
        if moves["position"] >= self.log.checkpoint().size:
            return False
        return self.log.at(moves["position"], moves["offset"]).content == act

    def _move(self, place: Path) -> None:
        moves = json.loads((place / MOVES).read_bytes())
        for number, name in enumerate(moves["targets"]):
            piece, target = place / str(number), self.folder / PurePosixPath(name)
            if not piece.exists():
                continue
            self.disk.make_folders(target.parent)
            if target.is_dir():
                self.disk.rename(target, place / f"{OLD}-{number}")
            self.disk.rename(piece, target)
