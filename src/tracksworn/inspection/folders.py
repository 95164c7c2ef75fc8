"""Finding the files that a file names: real, ordinary files inside a folder, links resolved."""

import os
import stat
from difflib import get_close_matches
from pathlib import Path, PurePosixPath

from tracksworn.inspection.faults import Failed, printable
from tracksworn.inspection.written import Wrong, quoted


def find(name: PurePosixPath | str, folder: Path, root: Path | None) -> Path:
    """The file of that name, from `folder`, which must lie inside `root` if one is given; raises Wrong or Failed."""
    path = folder / name
    try:
        real = path.resolve(strict=True)
        mode = real.stat().st_mode
    except (FileNotFoundError, NotADirectoryError):
        raise Wrong(f"{quoted(str(name))} is not there{_beside(path, root)}") from None
    except UnicodeEncodeError:
        raise Failed(f"{quoted(str(name))} cannot be looked for in this locale; set LC_ALL=C.UTF-8") from None
    except PermissionError as error:
        raise Failed(f"{printable(path)} cannot be read: {error.strerror}") from error
    except (OSError, RuntimeError, ValueError):  # a circle of links, a name that is too long
        raise Wrong(f"{quoted(str(name))} leads to no file") from None
    if root is not None and not real.is_relative_to(root.resolve()):
        raise Wrong(f"{quoted(str(name))} lies outside the folder {quoted(root.resolve().name)}, where it belongs")
    if not stat.S_ISREG(mode):
        raise Wrong(f"{quoted(str(name))} is {'a folder' if stat.S_ISDIR(mode) else 'no ordinary file'}; name a file")
    return real


def _beside(path: Path, root: Path | None) -> str:
    """The name of a file beside the place that was looked at, where it differs by a slip of the pen."""
    try:
        folder = path.parent.resolve(strict=True)
        if root is not None and not folder.is_relative_to(root.resolve()):
            return ""
        near = get_close_matches(path.name.lower(), [each.name.lower() for each in folder.iterdir()], n=1, cutoff=0.8)
        found = next(each.name for each in folder.iterdir() if each.name.lower() in near)
    except (OSError, RuntimeError, ValueError, StopIteration):
        return ""
    return f"; did you mean {quoted(found)}?"


def read_at_most(path: Path, limit: int) -> bytes:
    """The file's bytes, and one more than the limit where it is larger; raises Failed."""
    try:
        with path.open("rb") as stream:
            return stream.read(limit + 1)
    except OSError as error:
        raise Failed(f"{printable(path)} cannot be read: {error.strerror or error}") from error


def shown(name: PurePosixPath, folder: Path) -> Path:
    """How a named file is shown in a fault: as the user would type it, from where the user stands."""
    return Path(os.path.normpath(folder / name))
