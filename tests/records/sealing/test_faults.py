"""Death, a full or broken disk, or one that is only read, at every system call by which a seal is written.

strace (Debian) has the kernel do it: a call is not made, and the process killed or told that the machine refuses.
"""

import errno
import os
import re
import shutil
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Final, NamedTuple

import pytest
from asn1crypto import pem
from judges.specimen import sound
from records import authorities
from records.sealed import sealed

from tracksworn.cli.passwords import VARIABLE

pytestmark = pytest.mark.slow

CHANGING: Final = (
    "openat,mkdir,write,pwrite64,fsync,fdatasync,rename,renameat2,unlink,unlinkat,rmdir,sendfile,copy_file_range,"
    "ftruncate,chmod,fchmod,utimensat,link,symlink"
)
WRITING: Final = """
import sys
from pathlib import Path
from tracksworn.documents.writing import write_together
from tracksworn.inspection.faults import Failed
try:
    write_together(Path("out"), {"a.pdf": Path("new.pdf").read_bytes()})
except Failed as error:
    print(error)
    sys.exit(3)
"""
CALL: Final = re.compile(r"^\d+ +(\w+)\((.*)$")
KILL: Final = "signal=SIGKILL"
REFUSALS: Final = ("error=ENOSPC", "error=EIO", "error=EROFS")


class Call(NamedTuple):
    """A system call that changes something: the how many-th of its name, and what it was given."""

    name: str
    number: int
    given: str


def traced(folder: Path, words: Sequence[str], inject: str = "") -> "subprocess.CompletedProcess[str]":
    command = shutil.which("strace")
    assert command is not None, "strace is not installed (Debian: strace)"
    how = ["-e", f"inject={inject}"] if inject else []
    return subprocess.run(
        [command, "-f", "-qq", "-e", f"trace={CHANGING}", *how, "-o", "calls", sys.executable, *words],
        cwd=folder,
        env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1", VARIABLE: authorities.PASSWORD},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )


def changes(folder: Path) -> Iterator[Call]:
    """The calls of the last run that change a file, or a folder."""
    seen: Counter[str] = Counter()
    for line in (folder / "calls").read_text(encoding="utf-8", errors="replace").splitlines():
        found = CALL.match(line)
        if found is None:
            continue
        name, given = found.groups()
        seen[name] += 1
        reads = name == "openat" and not re.search(r"O_WRONLY|O_RDWR|O_CREAT", given)
        if not reads and not (name == "write" and re.match(r"[12],", given)):
            yield Call(name, seen[name], given)


def prepared(folder: Path, *, old: bool) -> Path:
    folder.mkdir()
    (folder / "new.pdf").write_bytes(sealed())
    if old:
        (folder / "out").mkdir()
        (folder / "out/a.pdf").write_bytes(sound())
    return folder


@pytest.mark.parametrize("old", [True, False], ids=["over an old one", "for the first time"])
@pytest.mark.parametrize("how", [KILL, *REFUSALS])
def test_a_seal_is_the_old_file_or_the_new_at_every_call(how: str, old: bool, tmp_path: Path) -> None:
    whole = prepared(tmp_path / "whole", old=old)
    assert traced(whole, ["-c", WRITING]).returncode == 0
    calls = list(changes(whole))
    assert {"mkdir", "openat", "write", "fsync", "rename"} <= {call.name for call in calls}
    outcomes = []
    for index, call in enumerate(calls):
        folder = prepared(tmp_path / str(index), old=old)
        done = traced(folder, ["-c", WRITING], f"{call.name}:{how}:when={call.number}")
        outcomes.append(check(folder, done, how, call, old=old))
    assert not all(outcomes)
    assert outcomes[-1]
    assert how != KILL or outcomes == sorted(outcomes), "once it is there, it stays there"


def check(folder: Path, done: "subprocess.CompletedProcess[str]", how: str, call: Call, *, old: bool) -> bool:
    """Whether the new file is there; nothing but that or what was there before may be, and it is said."""
    place = folder / "out/a.pdf"
    found = place.read_bytes() if place.exists() else None
    assert found in (sealed(), sound() if old else None), call
    if how == KILL:
        assert done.returncode in (-9, 137), (call, done)
        return found == sealed()
    assert done.returncode in (0, 3), (call, done)
    assert found == sealed() or done.returncode == 3, (call, done)
    assert done.returncode == 0 or os.strerror(getattr(errno, how.partition("=")[2])) in done.stdout, (call, done)
    left = {each.name for each in (folder / "out").iterdir()} - {"a.pdf"} if (folder / "out").exists() else set()
    assert not left or call.name in ("unlink", "unlinkat", "rmdir"), (call, left)
    return found == sealed()


def test_sealing_changes_nothing_but_the_folder_that_it_writes_to(tmp_path: Path) -> None:
    """So that what holds for the writing above holds for the whole command."""
    (tmp_path / "a.pdf").write_bytes(sealed(countersign=True))
    (tmp_path / "client.p12").write_bytes(authorities.packed("client"))
    (tmp_path / "root.pem").write_bytes(pem.armor("CERTIFICATE", authorities.certificate("root")))
    code = "from tracksworn.cli.main import main; main()"
    done = traced(tmp_path, ["-c", code, "seal", "a.pdf", "--key", "client.p12", "--to", "out"])
    assert done.returncode == 0, done.stderr
    named = [call for call in changes(tmp_path) if '"' in call.given and call.name != "write"]
    elsewhere = [call for call in named if not re.search(r'"(out|/dev/null)[/"]', call.given)]
    strangers = [
        call for call in elsewhere if call.name not in ("unlinkat",)
    ]  # those are relative to a folder's number
    assert len(named) > 5
    assert strangers == []
    assert authorities.PASSWORD not in (tmp_path / "calls").read_text(encoding="utf-8", errors="replace")
