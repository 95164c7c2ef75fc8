"""Files that belong together, written so that the old or the new set stands, never a part of a file.

Each is written beside its place, synced, read again and compared, and only then renamed.
"""

import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

from tracksworn.inspection.faults import Failed


def write_together(folder: Path, files: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write files (names relative to the folder, with `/`); returns the paths of those not in a folder of their own.

    A folder among them is replaced as a whole. Raises Failed where the machine refuses; nothing is then half written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        beside = Path(tempfile.mkdtemp(prefix=".writing-", dir=folder))
    except OSError as error:
        raise Failed(_sentence(folder, error)) from error
    try:
        for name, content in files.items():
            _write(beside / PurePosixPath(name), content)
        tops = tuple(dict.fromkeys(PurePosixPath(name).parts[0] for name in files))
        for top in sorted(tops, key=lambda name: (beside / name).is_file()):  # pictures before the page that shows them
            _put(beside / top, folder / top, beside)
        _sync(folder)
    except OSError as error:
        raise Failed(_sentence(folder, error)) from error
    finally:
        shutil.rmtree(beside, ignore_errors=True)
    return tuple(folder / name for name in files if len(PurePosixPath(name).parts) == 1)


def _sentence(folder: Path, error: OSError) -> str:
    return f"cannot write to {folder}: {error.strerror or error}"


def _write(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    if path.read_bytes() != content:
        raise OSError(0, "what was written does not read back the same")


def _put(new: Path, place: Path, beside: Path) -> None:
    """Rename into place; a folder that stands there is moved aside first, since folders are not renamed over."""
    if not place.is_dir() or place.is_symlink():
        new.replace(place)
        return
    old = beside / f"{place.name}.old"
    place.rename(old)
    try:
        new.rename(place)
    except OSError:
        old.rename(place)
        raise


def _sync(folder: Path) -> None:
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
