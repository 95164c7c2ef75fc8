"""What is needed for a moment: gone afterwards, and a full disk is told once, in a sentence."""

import errno
import os
import re
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tracksworn.documents.held_folders import clear_dead
from tracksworn.documents.render import fonts
from tracksworn.documents.scratch import scratch
from tracksworn.inspection.faults import Failed


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))


def full() -> OSError:
    return OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def test_it_is_gone_afterwards(tmp_path: Path) -> None:
    with scratch(1000) as folder:
        assert folder.parent == tmp_path
        assert list(folder.iterdir()) == []
        (folder / "a").write_text("a")
    assert list(tmp_path.iterdir()) == []


KILLED = """
import os, signal, tempfile
from tracksworn.documents.scratch import scratch
with scratch() as folder:
    (folder / "document.pdf").write_bytes(b"finished")
    os.kill(os.getpid(), signal.SIGKILL)
"""


def test_what_a_killed_process_has_left_is_gone_with_the_next(tmp_path: Path) -> None:
    mine = tmp_path / "tracksworn-1.0.0"
    mine.mkdir()
    paths = str(Path(__file__).parents[2] / "src")
    done = subprocess.run(
        [sys.executable, "-c", KILLED], env={"PYTHONPATH": paths, "TMPDIR": str(tmp_path)}, check=False
    )
    assert done.returncode == -signal.SIGKILL
    (left,) = set(tmp_path.iterdir()) - {mine}
    assert (left / "document.pdf").read_bytes() == b"finished"
    with scratch() as folder:
        assert sorted(tmp_path.iterdir()) == sorted([mine, folder])


def test_what_another_process_is_at_stays(tmp_path: Path) -> None:
    with scratch() as folder:
        clear_dead(tmp_path, ".tracksworn-scratch-")
        assert folder.is_dir()


def test_a_full_disk_is_told_with_what_would_be_right(tmp_path: Path) -> None:
    said = rf"^no room is left in {re.escape(str(tmp_path))}, .+ name another folder by TMPDIR$"
    with pytest.raises(Failed, match=said), scratch():
        raise full()
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "error", [OSError(errno.EIO, "broken"), OSError(errno.ENOSPC, "full", "/elsewhere"), KeyError("other")]
)
def test_what_has_another_reason_is_not_laid_to_it(error: Exception) -> None:
    with pytest.raises(type(error)) as raised, scratch():
        raise error
    assert raised.value is error


def test_fonts_are_not_begun_where_there_is_no_room_for_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    """What else happens there is that fontconfig prints three lines of its own, past all that a program says."""

    def refused(handle: int, start: int, length: int) -> None:
        assert length > 100_000
        raise full()

    monkeypatch.setattr(os, "posix_fallocate", refused)
    with pytest.raises(Failed, match="no room is left in"):
        fonts.configuration.__wrapped__()
    assert capfd.readouterr() == ("", "")
    assert list(tmp_path.iterdir()) == []
