"""Finding the files that a file names: real, ordinary files inside a folder, links resolved."""

import os
import stat
from pathlib import Path, PurePosixPath

from tracksworn.inspection.faults import Failed
from tracksworn.inspection.written import Wrong, quoted


def find(name: PurePosixPath | str, folder: Path, root: Path | None) -> Path:
    """The file of that name, from `folder`, which must lie inside `root` if one is given; raises Wrong or Failed."""
    path = folder / name
    try:
        real = path.resolve(strict=True)
        mode = real.stat().st_mode
    except (FileNotFoundError, NotADirectoryError):
        raise Wrong(f"{quoted(str(name))} is not there") from None
    except PermissionError as error:
        raise Failed(f"{path} cannot be read: {error.strerror}") from error
    except (OSError, RuntimeError, ValueError):  # a circle of links, a name that is too long
        raise Wrong(f"{quoted(str(name))} leads to no file") from None
    if root is not None and not real.is_relative_to(root.resolve()):
        raise Wrong(f"{quoted(str(name))} lies outside the folder {quoted(root.resolve().name)}, where it belongs")
    if not stat.S_ISREG(mode):
        raise Wrong(f"{quoted(str(name))} is no ordinary file")
    return real


def read_at_most(path: Path, limit: int) -> bytes:
    """The file's bytes, and one more than the limit where it is larger; raises Failed."""
    try:
        with path.open("rb") as stream:
            return stream.read(limit + 1)
    except OSError as error:
        raise Failed(f"{path} cannot be read: {error.strerror or error}") from error


def shown(name: PurePosixPath, folder: Path) -> Path:
    """How a named file is shown in a fault: as the user would type it, from where the user stands."""
    return Path(os.path.normpath(folder / name))
