"""Every change to files goes through here: in small calls, each durable before the next counts on it."""

import os
import shutil
import stat
from pathlib import Path

from tracksworn.documents.writing import sync_folder

PRIVATE = 0o600
COMMON = 0o644


class Disk:
    """A file system. Tests put one in its place that dies or refuses at a call of their choosing."""

    def before(self, call: str, path: Path) -> None:
        """Called before each call that changes anything."""

    def write(self, path: Path, content: bytes, mode: int = COMMON, *, durable: bool = True) -> None:
        """A file with that content; one of that name is written over, so its name counts only once renamed."""
        self.before("create", path)
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, mode)
        try:
            self._put(handle, path, content)
            if durable:
                self._sync(handle, path)
        finally:
            os.close(handle)

    def sync(self, path: Path) -> None:
        """Make a file durable, or which names a folder holds."""
        handle = os.open(path, os.O_RDONLY)
        try:
            self._sync(handle, path)
        finally:
            os.close(handle)

    def replace(self, path: Path, content: bytes, mode: int = COMMON) -> None:
        """A file with that content in the place of an older one: at every moment the whole old one or the whole new."""
        beside = path.with_name(f"{path.name}.new")
        self.write(beside, content, mode)
        self.rename(beside, path)

    def append(self, path: Path, at: int, content: bytes) -> None:
        """Content put at that length of a file, durable; whatever was behind it is cut off first."""
        self.before("open", path)
        handle = os.open(path, os.O_WRONLY | os.O_CREAT, COMMON)
        try:
            if os.fstat(handle).st_size != at:
                self.before("truncate", path)
                os.ftruncate(handle, at)
            os.lseek(handle, at, os.SEEK_SET)
            self._put(handle, path, content)
            self._sync(handle, path)
        finally:
            os.close(handle)

    def rename(self, old: Path, new: Path) -> None:
        """A file or folder moved, durable where it is now."""
        self.before("rename", new)
        old.rename(new)
        self.sync(new.parent)

    def make_folders(self, path: Path, *, durable: bool = True) -> None:
        """A folder with all that it lies in; what is there already stays. Not durable, they count only once synced."""
        if path.is_dir():
            return
        self.make_folders(path.parent, durable=durable)
        self.before("mkdir", path)
        path.mkdir(exist_ok=True)
        if durable:
            self.sync(path.parent)

    def remove(self, path: Path) -> None:
        """A folder with all in it. Not durable: after a crash it may be there again."""
        self.before("remove", path)
        shutil.rmtree(path)

    def _put(self, handle: int, path: Path, content: bytes) -> None:
        rest = memoryview(content)
        while rest:
            self.before("write", path)
            rest = rest[os.write(handle, rest) :]

    def _sync(self, handle: int, path: Path) -> None:
        self.before("sync", path)
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            sync_folder(handle)
        else:
            os.fsync(handle)
