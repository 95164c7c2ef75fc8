"""Where the results of a batch go: a folder on a disk, or a place that fsspec knows, as s3://… or memory://….

On a disk each document stands whole or not at all, and those of a lot together, unless the run is killed in the moment
in which they are renamed: pictures then stand before the pages that name them, and the next run puts the rest. A second
batch into the same folder is refused. Elsewhere each file is put whole by one call, as far as the service does that;
nothing keeps two batches apart.
"""

import errno
import fcntl
import os
import re
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager, suppress
from pathlib import Path, PurePosixPath
from tempfile import TemporaryFile
from typing import Any, Final, Protocol
from urllib.parse import unquote

from tracksworn.documents.writing import clear_left_over, write_together
from tracksworn.inspection.faults import Failed, WrongUse, printable

OWN: Final = ".batch"
"""The folder within a place that holds what a batch notes for the next one."""
_TRIED: Final = f"{OWN}/place"
"""Put there at the beginning, and read again."""
PAUSES: Final = (1.0, 2.0, 4.0)
"""Seconds before a service that did not answer is asked again."""
_OF_A_DISK: Final = frozenset({"file", "local"})
_OF_BUCKETS: Final = frozenset({"s3", "s3a", "gs", "gcs", "az", "abfs", "adl", "oci", "oss", "tos"})
"""Services that have no folders: to ask for one would make a bucket of a name that was mistyped."""
_ANSWERS: Final = (FileNotFoundError, FileExistsError, IsADirectoryError, NotADirectoryError, PermissionError)
"""What it would answer again."""
_OF_A_NAME: Final = frozenset(
    {
        errno.EACCES,
        errno.EEXIST,
        errno.EISDIR,
        errno.ENAMETOOLONG,
        errno.ENOTDIR,
        errno.ENOTEMPTY,
        errno.EPERM,
    }
)
"""What a disk refuses one file for and may still take another."""
_OF_A_NAME_BY_FTP: Final = ("501", "550", "553")
"""As RFC 959 numbers such replies."""


class Refused(Failed):
    """A place does not take these names, and does take others: a failure of one lot, not of the run."""


class Place(Protocol):
    """What a batch needs of where its results go. Names have `/`; every call raises Failed where it is refused."""

    def held(self) -> AbstractContextManager[str]:
        """Keep it for this run, and clear what a killed one has left.

        Gives what a user must be told where a place that should keep a second batch away cannot; else nothing.
        """
        ...

    def write(self, files: Mapping[str, bytes]) -> None:
        """Put the documents of a lot there; a folder among them is replaced as a whole.

        Raises Refused where it is only these names that are not taken: a folder stands in the place of a file, one file
        may not be changed. Any other Failed is of the whole place: no room, gone, nothing may be written at all.
        """
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
    """The place that a path or an address names. Raises WrongUse where it is none that files can be put into.

    Raises Failed where it does not answer.
    """
    kind, between, rest = where.partition("://")
    if not between:
        return Folder(Path(where))
    if "::" in where:
        raise WrongUse(f"{_quoted(where)} names several places, one within another; name one, as s3://bucket/sale")
    if not kind or not rest.strip("/"):
        raise WrongUse(f"{_quoted(where)} is no whole address, as s3://bucket/sale is")
    return _folder_at(where, rest) if kind in _OF_A_DISK else Elsewhere(where)


def _folder_at(where: str, rest: str) -> Place:
    """What a folder promises holds for it however it is named. RFC 8089: a path from the root, after this host."""
    path = unquote(rest.removeprefix("localhost"))
    if not path.startswith("/"):
        raise WrongUse(f"{where!r} has no path from the root, as file:///srv/sale has; or name the folder by its path")
    return Folder(Path(path))


def _quoted(where: str) -> str:
    return repr(_without_password(where))


def _without_password(where: str) -> str:
    """The address as it may be printed."""
    return re.sub("(?<=://)([^/@:]*):[^/]*@", r"\1:…@", where)


class Folder:
    """A folder on a disk."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    @contextmanager
    def held(self) -> Iterator[str]:
        """Keep it by a lock that ends with this process."""
        with _refusals(self.folder):
            (self.folder / OWN).mkdir(parents=True, exist_ok=True)
            handle = os.open(self.folder / OWN / "lock", os.O_RDWR | os.O_CREAT, 0o644)
        try:
            told = self._lock(handle)
            clear_left_over(self.folder)
            yield told
        finally:
            os.close(handle)

    def _lock(self, handle: int) -> str:
        """Nothing, or what holds where the disk has no locks: each file is whole even so, as at an address."""
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise Failed(
                f"another batch is writing to {printable(self.folder)}; wait until it has ended, or name another folder"
            ) from None
        except OSError:
            return (
                f"the disk of {printable(self.folder)} knows no locks, so nothing keeps a second batch out of it: "
                "start none there before this one has ended"
            )
        return ""

    def write(self, files: Mapping[str, bytes]) -> None:
        """All of them, or none."""
        with _names_apart(self._take_another):
            write_together(self.folder, files, clearing=False)  # `held` has

    def _take_another(self) -> None:
        with _refusals(self.folder), TemporaryFile(dir=self.folder):
            pass

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
def _names_apart(take_another: Callable[[], None]) -> Iterator[None]:
    """Raise Refused in the place of Failed where that is of a name alone, since the place takes another."""
    try:
        yield
    except Failed as error:
        if not _is_of_a_name(error.__cause__):
            raise
        take_another()
        raise Refused(str(error)) from error


def _is_of_a_name(error: BaseException | None) -> bool:
    from ftplib import error_perm  # noqa: PLC0415 - only where something is refused

    if isinstance(error, error_perm):
        return str(error).startswith(_OF_A_NAME_BY_FTP)
    if isinstance(error, OSError) and error.errno is not None:
        return error.errno in _OF_A_NAME
    return isinstance(error, FileExistsError | IsADirectoryError | NotADirectoryError | PermissionError)


@contextmanager
def _refusals(path: Path, doing: str = "write to") -> Iterator[None]:
    try:
        yield
    except (FileExistsError, NotADirectoryError) as error:
        raise Failed(f"cannot {doing} {printable(path)}: what stands there is no folder") from error
    except OSError as error:
        raise Failed(f"cannot {doing} {printable(path)}: {error.strerror or error}") from error


class Elsewhere:
    """A place that fsspec knows, by its address. What was not answered is asked again; `wait` is for how long."""

    def __init__(self, address: str, wait: Callable[[float], object] = time.sleep) -> None:
        self._address = address.rstrip("/")
        self._shown = _without_password(self._address)
        self._wait = wait
        self._has_folders = address.partition("://")[0] not in _OF_BUCKETS
        self._folders: set[str] = set()  # that are known to be there
        self._system: Any = None
        self._system, self.root = _system_of(self._address)

    @contextmanager
    def held(self) -> Iterator[str]:
        """No lock is common to all such places; yet one that takes nothing is found before any lot is made."""
        self._take_another()
        if self.read(_TRIED) != self._tried():
            raise Failed(f"{self._shown} does not give back what was put there")
        yield ""

    def _take_another(self) -> None:
        self.note(_TRIED, self._tried())

    def _tried(self) -> bytes:
        return f"{self._shown}\n".encode()

    def write(self, files: Mapping[str, bytes]) -> None:
        """One after the other, pages after the pictures that they name."""
        with _names_apart(self._take_another):
            for name in sorted(files, key=lambda name: "/" not in name):
                self._put(name, files[name], f" {name}")
            for folder in {str(PurePosixPath(name).parent) for name in files} - {"."}:
                for stale in set(self.names(folder)) - set(files):
                    self._remove(stale)

    def note(self, name: str, content: bytes) -> None:
        """As any other file."""
        self._put(name, content)

    def read(self, name: str) -> bytes | None:
        """All of it."""
        content: bytes | None = self._found(lambda system: system.cat_file(self._path(name)))
        return content

    def state(self, name: str) -> str | None:
        """What the service tells of it."""
        found = self._found(lambda system: system.ukey(self._path(name)))
        return None if found is None else str(found)

    def names(self, folder: str) -> Iterator[str]:
        """None where there is no such folder."""
        found = self._found(lambda system: system.ls(self._path(folder), detail=True)) or ()
        yield from sorted(f"{folder}/{PurePosixPath(one['name']).name}" for one in found if one["type"] == "file")

    def shown(self, name: str) -> str:
        """Its address."""
        return f"{self._shown}/{name}"

    def _put(self, name: str, content: bytes, said: str = "") -> None:
        path = self._path(name)
        folder = str(PurePosixPath(path).parent)
        if self._has_folders and folder not in self._folders:
            self._asked(lambda system: system.makedirs(folder, exist_ok=True), said)
            self._folders.add(folder)
        self._asked(lambda system: system.pipe_file(path, content), said)

    def _remove(self, name: str) -> None:
        def remove(system: Any) -> None:
            with suppress(FileNotFoundError):  # where it was asked twice
                system.rm_file(self._path(name))

        self._asked(remove, f" {name}")

    def _path(self, name: str) -> str:
        return f"{self.root.rstrip('/')}/{name}"

    def _found(self, ask: Callable[[Any], Any]) -> Any:
        """What the service answers, or None where there is no such file."""
        try:
            return self._asked(ask)
        except Failed as error:
            if isinstance(error.__cause__, FileNotFoundError):
                return None
            raise

    def _asked(self, ask: Callable[[Any], Any], said: str = "") -> Any:
        """What the service answers. Raises Failed where it refuses, or answers nothing at the last time either.

        A connection that broke is not used again.
        """
        pauses = iter(PAUSES)
        while True:
            try:
                self._system = self._system or _connected(self._address)[0]
                return ask(self._system)
            except Exception as error:  # noqa: BLE001 - whatever speaks to it raises
                wrong = _beneath(error)
                if not _is_unanswered(wrong) or (pause := next(pauses, None)) is None:
                    raise Failed(f"{self._shown} refuses{said}: {_said(wrong)}") from wrong
            self._system = None
            self._wait(pause)


def _beneath(error: Exception) -> Exception:
    """What went wrong: some say that a file is not there, too, where they were cut off."""
    cause = error.__cause__
    return cause if isinstance(cause, Exception) and _is_unanswered(cause) else error


def _is_unanswered(error: Exception) -> bool:
    from ftplib import Error, error_perm  # noqa: PLC0415 - only where something went wrong

    if isinstance(error, Error | EOFError):
        return not isinstance(error, error_perm)
    return isinstance(error, OSError) and not isinstance(error, _ANSWERS)


def _connected(address: str) -> tuple[Any, str]:
    """What speaks to such places, by a connection of its own, and the path there."""
    import fsspec  # noqa: PLC0415 - only where one is named

    found: tuple[Any, str] = fsspec.core.url_to_fs(address, skip_instance_cache=True)
    return found


def _system_of(address: str) -> tuple[Any, str]:
    """As `_connected`. Raises WrongUse where nothing speaks to such places, Failed where none answers."""
    import fsspec  # noqa: PLC0415 - only where one is named
    from fsspec.archive import AbstractArchiveFileSystem  # noqa: PLC0415

    said = _quoted(address)
    try:
        kind = fsspec.get_filesystem_class(address.partition("://")[0])
        if issubclass(kind, AbstractArchiveFileSystem):
            raise WrongUse(f"{said} is a packed file, which no batch can go on with; name a folder, and pack that")
        return _connected(address)
    except (ImportError, ValueError) as error:
        raise WrongUse(f"{said} is no place that can be written to from here: {error}") from error
    except (TypeError, AttributeError) as error:  # of what needs more than an address
        raise WrongUse(f"{said} is no place that an address alone names") from error
    except WrongUse:
        raise
    except Exception as error:
        raise Failed(f"{_without_password(address)} cannot be reached: {_said(error)}") from error


def _said(error: Exception) -> str:
    return f"{type(error).__name__}: {error}"
