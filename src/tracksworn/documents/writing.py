"""Files that belong together, written so that the old or the new set stands, never a part of a file.

Each is written beside its place, synced, read again and compared, and only then renamed; while they are renamed no
other process that writes to the same folder in this way does so.
"""

import errno
import fcntl
import os
import shutil
import signal
import threading
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path, PurePosixPath

from tracksworn.documents.held_folders import clear_dead, held_folder
from tracksworn.inspection.faults import Failed, printable

_BESIDE = ".tracksworn-writing-"  # nobody else names a folder so, and none of theirs is cleared away
_INTERRUPTS = (signal.SIGINT, signal.SIGTERM)


def write_together(folder: Path, files: Mapping[str, bytes], *, clearing: bool = True) -> tuple[Path, ...]:
    """Write files (names relative to the folder, with `/`); returns the paths of those not in a folder of their own.

    A folder among them is replaced as a whole. What killed processes have left there is taken away before, unless
    whoever writes very often sees to it once. Raises Failed where the machine refuses; nothing is then half written.
    """
    made = [each for each in (folder, *folder.parents) if not each.exists()]
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if clearing:
            clear_left_over(folder)
        _write_beside(folder, files)
    except OSError as error:
        with suppress(OSError):
            for each in made:
                each.rmdir()
        raise Failed(f"cannot write to {printable(folder)}: {_sentence(error)}") from error
    return tuple(folder / name for name in files if len(PurePosixPath(name).parts) == 1)


def _sentence(error: OSError) -> str:
    if isinstance(error, FileExistsError):
        return "what stands there is no folder"
    return error.strerror or str(error)


def _write_beside(folder: Path, files: Mapping[str, bytes]) -> None:
    with held_folder(folder, _BESIDE) as beside:
        for name, content in files.items():
            _write(beside / PurePosixPath(name), content)
        tops = tuple(dict.fromkeys(PurePosixPath(name).parts[0] for name in files))
        with _alone(folder), _undisturbed():
            _refuse_strangers(folder, beside, tops)
            _put_all(
                folder, beside, sorted(tops, key=lambda top: (beside / top).is_file())
            )  # pages after their pictures


def clear_left_over(folder: Path) -> None:
    """Take away what killed processes have left half written beside the files of a folder."""
    clear_dead(folder, _BESIDE)


def _write(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    if path.read_bytes() != content:
        raise OSError(0, "what was written does not read back the same")


@contextmanager
def _alone(folder: Path) -> Iterator[None]:
    """Hold the folder for this process; at the end its entries are on the disk."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        with suppress(OSError):  # some disks of a network know no locks
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
        sync_folder(handle)
    finally:
        os.close(handle)


def sync_folder(handle: int) -> None:
    """Make the names durable that an open folder holds; some disks of a network do that only by themselves."""
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno not in (errno.EINVAL, errno.ENOTSUP, errno.EBADF):
            raise


@contextmanager
def _undisturbed() -> Iterator[None]:
    """Put an interrupt off to the end."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    came: list[int] = []
    before = {each: signal.signal(each, lambda number, _: came.append(number)) for each in _INTERRUPTS}
    try:
        yield
    finally:
        for each, handler in before.items():
            signal.signal(each, handler)
        for number in came:
            signal.raise_signal(number)


def _refuse_strangers(folder: Path, beside: Path, tops: tuple[str, ...]) -> None:
    """Refuse, before anything is moved, to put a file in the place of a folder or the other way round."""
    for top in tops:
        place = folder / top
        is_folder = place.is_dir() and not place.is_symlink()
        if os.path.lexists(place) and is_folder is not (beside / top).is_dir():
            what, number = ("a folder", errno.EISDIR) if is_folder else ("no folder", errno.ENOTDIR)
            raise OSError(number, f"{top} there is {what}; move it away")


def _put_all(folder: Path, beside: Path, tops: Iterable[str]) -> None:
    """Rename into place, one after the other; where one fails, all become what they were."""
    kept = beside / ".old"
    kept.mkdir()
    begun: list[str] = []
    try:
        for top in tops:
            _keep(folder / top, kept / top)
            begun.append(top)  # not before: what was kept in part must not be taken back
            (beside / top).replace(folder / top)
    except OSError:
        for top in begun:
            _take_back(folder / top, beside / top, kept / top)
        raise


def _keep(place: Path, kept: Path) -> None:
    """Keep what stands in a place: a folder out of the way, since none is renamed over; a file stays there as well."""
    if place.is_dir() and not place.is_symlink():
        place.rename(kept)
    elif os.path.lexists(place):
        shutil.copy2(place, kept, follow_symlinks=False)


def _take_back(place: Path, new: Path, kept: Path) -> None:
    if not os.path.lexists(new):
        place.rename(new)
    if os.path.lexists(kept):
        kept.replace(place)
