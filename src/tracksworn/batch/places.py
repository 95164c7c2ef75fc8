"""Where the results of a batch go: a folder on a disk, or a place that fsspec knows, as s3://… or memory://….

On a disk the documents of a lot stand together, whole, or not at all, and a second batch into the same folder is
refused. Elsewhere each file is put whole by one call, as far as the service does that; nothing keeps two batches apart.
"""

import fcntl
import os
from collections.abc import Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager, nullcontext
from pathlib import Path, PurePosixPath
from typing import Any, Final, Protocol
from urllib.parse import unquote, urlsplit

from tracksworn.documents.writing import clear_left_over, write_together
from tracksworn.inspection.faults import Failed, WrongUse, printable

OWN: Final = ".batch"
"""The folder within a place that holds what a batch notes for the next one."""


class Place(Protocol):
    """What a batch needs of where its results go. Names have `/`; every call raises Failed where it is refused."""

    def held(self) -> AbstractContextManager[None]:
        """Keep it for this run, and clear what a killed one has left."""
        ...

    def write(self, files: Mapping[str, bytes]) -> None:
        """Put the documents of a lot there; a folder among them is replaced as a whole."""
        ...

    def note(self, name: str, content: bytes) -> None:
        """Put a file of our own there, of which a crash may leave the old one."""
        ...

    def read(self, name: str) -> bytes | None:
        """A file's bytes; None where there is none."""
        ...

    def state(self, name: str) -> str | None:
        """What changes whenever a file does; None where there is none."""
        ...

    def names(self, folder: str) -> Iterator[str]:
        """The files that lie in a folder, in order."""
        ...

    def shown(self, name: str) -> str:
        """A file as a user would name it."""
        ...


def place_of(where: str) -> Place:
    """The place that a path or an address names. Raises WrongUse where nothing here can speak to such an address."""
    if where.startswith("file://"):  # what a folder promises holds for it however it is named
        return Folder(Path(unquote(urlsplit(where).path)))
    return Elsewhere(where) if "://" in where else Folder(Path(where))


class Folder:
    """A folder on a disk."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    @contextmanager
    def held(self) -> Iterator[None]:
        """Keep it by a lock that ends with this process."""
        with _refusals(self.folder):
            (self.folder / OWN).mkdir(parents=True, exist_ok=True)
            handle = os.open(self.folder / OWN / "lock", os.O_RDWR | os.O_CREAT, 0o644)
        try:
            self._lock(handle)
            clear_left_over(self.folder)
            yield
        finally:
            os.close(handle)

    def _lock(self, handle: int) -> None:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise Failed(
                f"another batch is writing to {printable(self.folder)}; wait until it has ended, or name another folder"
            ) from None
        except OSError:
            return  # some disks of a network know no locks

    def write(self, files: Mapping[str, bytes]) -> None:
        """All of them, or none."""
        write_together(self.folder, files)

    def note(self, name: str, content: bytes) -> None:
        """Written beside its place and renamed; not synced, since a lost note only costs making a lot anew."""
        path = self.folder / name
        beside = path.with_name(f"{path.name}.new")
        with _refusals(path.parent):
            path.parent.mkdir(parents=True, exist_ok=True)
            beside.write_bytes(content)
            beside.replace(path)

    def read(self, name: str) -> bytes | None:
        """None also where a folder has that name."""
        with _refusals(self.folder / name, "read"):
            try:
                return (self.folder / name).read_bytes()
            except (FileNotFoundError, NotADirectoryError, IsADirectoryError):
                return None

    def state(self, name: str) -> str | None:
        """Size, times and place on the disk."""
        try:
            found = os.stat(self.folder / name)  # noqa: PTH116 - many of them
        except OSError:
            return None
        return f"{found.st_size} {found.st_mtime_ns} {found.st_ctime_ns} {found.st_ino}"

    def names(self, folder: str) -> Iterator[str]:
        """None where there is no such folder."""
        with _refusals(self.folder / folder, "read"):
            try:
                found = sorted(entry.name for entry in os.scandir(self.folder / folder) if entry.is_file())
            except FileNotFoundError:
                found = []
        yield from (f"{folder}/{name}" for name in found)

    def shown(self, name: str) -> str:
        """Its path."""
        return printable(self.folder / name)


@contextmanager
def _refusals(path: Path, doing: str = "write to") -> Iterator[None]:
    try:
        yield
    except (FileExistsError, NotADirectoryError) as error:
        raise Failed(f"cannot {doing} {printable(path)}: what stands there is no folder") from error
    except OSError as error:
        raise Failed(f"cannot {doing} {printable(path)}: {error.strerror or error}") from error


class Elsewhere:
    """A place that fsspec knows, by its address."""

    def __init__(self, address: str) -> None:
        import fsspec  # noqa: PLC0415 - only where one is named

        self.address = address.rstrip("/")
        try:
            found: tuple[Any, str] = fsspec.core.url_to_fs(self.address)
        except (ImportError, ValueError) as error:
            raise WrongUse(f"{address!r} is no place that can be written to from here: {error}") from error
        self.system, self.root = found

    def held(self) -> AbstractContextManager[None]:
        """Nothing: no lock is common to all such places."""
        return nullcontext()

    def write(self, files: Mapping[str, bytes]) -> None:
        """One after the other."""
        with self._refusals():
            for name, content in files.items():
                self._put(name, content)
            for folder in {str(PurePosixPath(name).parent) for name in files} - {"."}:
                for stale in set(self._files(folder)) - set(files):
                    self.system.rm_file(self._path(stale))

    def note(self, name: str, content: bytes) -> None:
        """As any other file."""
        with self._refusals():
            self._put(name, content)

    def read(self, name: str) -> bytes | None:
        """All of it."""
        with self._refusals():
            try:
                content: bytes = self.system.cat_file(self._path(name))
            except FileNotFoundError:
                return None
        return content

    def state(self, name: str) -> str | None:
        """What the service tells of it."""
        with self._refusals():
            try:
                return str(self.system.ukey(self._path(name)))
            except FileNotFoundError:
                return None

    def names(self, folder: str) -> Iterator[str]:
        """None where there is no such folder."""
        with self._refusals():
            yield from sorted(self._files(folder))

    def shown(self, name: str) -> str:
        """Its address."""
        return f"{self.address}/{name}"

    def _files(self, folder: str) -> Iterator[str]:
        try:
            found = self.system.ls(self._path(folder), detail=True)
        except FileNotFoundError:
            return
        yield from (f"{folder}/{PurePosixPath(one['name']).name}" for one in found if one["type"] == "file")

    def _put(self, name: str, content: bytes) -> None:
        path = self._path(name)
        self.system.makedirs(str(PurePosixPath(path).parent), exist_ok=True)
        self.system.pipe_file(path, content)

    def _path(self, name: str) -> str:
        return f"{self.root.rstrip('/')}/{name}"

    @contextmanager
    def _refusals(self) -> Iterator[None]:
        try:
            yield
        except Exception as error:
            raise Failed(f"{self.address} refuses: {type(error).__name__}: {error}") from error
