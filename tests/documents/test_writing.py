"""Files that belong together are written whole or not at all."""

import errno
import fcntl
import os
import signal
import stat
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from pkgutil import resolve_name

import pytest

from tracksworn.documents.writing import clear_left_over, write_together
from tracksworn.inspection.faults import Failed

OLD = {"a.md": b"old page", "a/one.svg": b"old one", "a/two.svg": b"old two"}
NEW = {"a.md": b"new page", "a/three.svg": b"new three", "a.html": b"another page"}


def tree(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def failing(call: Callable[..., object], at: int) -> Callable[..., object]:
    """The same call, which fails at its so-many-th time for want of room."""
    calls = iter(range(1, 1000))

    def tried(*args: object, **more: object) -> object:
        if next(calls) == at:
            raise OSError(errno.ENOSPC, "No space left on device")
        return call(*args, **more)

    return tried


def test_files_and_their_folders_are_written(tmp_path: Path) -> None:
    assert write_together(tmp_path / "new" / "folder", OLD) == (tmp_path / "new" / "folder" / "a.md",)
    assert tree(tmp_path / "new" / "folder") == OLD


def test_a_folder_among_them_is_replaced_as_a_whole(tmp_path: Path) -> None:
    (tmp_path / "other.md").write_bytes(b"not ours")
    write_together(tmp_path, OLD)
    write_together(tmp_path, NEW)
    assert tree(tmp_path) == NEW | {"other.md": b"not ours"}


@pytest.mark.parametrize(
    ("call", "at"),
    [
        ("tempfile.mkdtemp", 1),
        *(("pathlib.Path.open", at) for at in (1, 2, 3)),
        *(("os.fsync", at) for at in (1, 2, 3)),
        ("pathlib.Path.rename", 1),  # of the old folder, out of the way
        *(("pathlib.Path.replace", at) for at in (1, 2, 3)),
        ("shutil.copy2", 1),
    ],
)
def test_a_machine_that_refuses_leaves_the_old_set(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str, at: int
) -> None:
    write_together(tmp_path, OLD)
    monkeypatch.setattr(call, failing(resolve_name(call), at))
    with pytest.raises(Failed, match=f"^cannot write to {tmp_path}: No space left on device$"):
        write_together(tmp_path, NEW)
    assert tree(tmp_path) == OLD


def test_what_was_kept_in_part_is_not_taken_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def half(source: Path, target: Path, **_: object) -> None:
        Path(target).write_bytes(Path(source).read_bytes()[:1])
        raise OSError(errno.ENOSPC, "No space left on device")

    write_together(tmp_path, OLD)
    monkeypatch.setattr("shutil.copy2", half)
    with pytest.raises(Failed):
        write_together(tmp_path, NEW)
    assert tree(tmp_path) == OLD


def test_a_disk_that_fails_at_the_very_end_leaves_the_new_set(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_together(tmp_path, OLD)
    monkeypatch.setattr("os.fsync", failing(os.fsync, 4))
    with pytest.raises(Failed):
        write_together(tmp_path, NEW)
    assert tree(tmp_path) == NEW


def test_folders_made_for_what_could_not_be_written_are_taken_away(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("os.fsync", failing(os.fsync, 1))
    with pytest.raises(Failed):
        write_together(tmp_path / "new" / "folder", NEW)
    assert list(tmp_path.iterdir()) == []


def test_what_does_not_read_back_is_not_handed_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Path, "read_bytes", lambda _self: b"something else")
    with pytest.raises(Failed, match="does not read back the same"):
        write_together(tmp_path, {"a.md": b"page"})
    monkeypatch.undo()
    assert tree(tmp_path) == {}


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_an_interrupt_between_two_renames_waits_for_the_second(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, number: signal.Signals
) -> None:
    def interrupt(*_: object) -> None:
        raise KeyboardInterrupt

    genuine = Path.replace

    def replace_and_interrupt(path: Path, place: Path) -> None:
        genuine(path, place)
        signal.raise_signal(number)

    before = signal.signal(number, interrupt)
    write_together(tmp_path, OLD)
    monkeypatch.setattr(Path, "replace", replace_and_interrupt)
    try:
        with pytest.raises(KeyboardInterrupt):
            write_together(tmp_path, NEW)
    finally:
        signal.signal(number, before)
    assert tree(tmp_path) == NEW


@pytest.mark.parametrize(
    ("there", "words"), [("a.md/mine.txt", "a.md there is a folder"), ("a", "a there is no folder")]
)
def test_nothing_of_another_sort_is_written_over(tmp_path: Path, there: str, words: str) -> None:
    (tmp_path / there).parent.mkdir(exist_ok=True)
    (tmp_path / there).write_text("mine")
    with pytest.raises(Failed, match=f"^cannot write to {tmp_path}: {words}; move it away$"):
        write_together(tmp_path, NEW)
    assert tree(tmp_path) == {there: b"mine"}


def test_a_link_is_replaced_and_what_it_leads_to_is_left(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").write_bytes(b"mine")
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "a.md").symlink_to("../elsewhere")
    write_together(tmp_path / "out", OLD)
    assert (tmp_path / "elsewhere").read_bytes() == b"mine"
    assert tree(tmp_path / "out") == OLD


def test_a_file_in_the_place_of_the_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "nowhere").symlink_to("missing")
    with pytest.raises(Failed, match=r"nowhere: what stands there is no folder$"):
        write_together(tmp_path / "nowhere", OLD)
    (tmp_path / "file").write_text("mine")
    with pytest.raises(Failed, match=r"file/below: Not a directory$"):
        write_together(tmp_path / "file" / "below", OLD)


def test_two_that_write_at_once_leave_the_set_of_one(tmp_path: Path) -> None:
    def write_often(number: int) -> None:
        for _ in range(20):
            write_together(tmp_path, {"a.md": b"%d" % number, f"a/{number}.svg": b""})

    with ThreadPoolExecutor(2) as pool:
        assert list(pool.map(write_often, (1, 2))) == [None, None]
    last = (tmp_path / "a.md").read_text()
    assert tree(tmp_path) == {"a.md": last.encode(), f"a/{last}.svg": b""}


def test_what_a_killed_process_has_left_is_cleared_and_what_another_is_at_stays(tmp_path: Path) -> None:
    killed, other = tmp_path / ".tracksworn-writing-killed", tmp_path / ".tracksworn-writing-other"
    for folder in (killed, other):
        (folder / ".old").mkdir(parents=True)
        (folder / "a.md").write_bytes(b"half")
    at_it = os.open(other, os.O_RDONLY)
    fcntl.flock(at_it, fcntl.LOCK_EX)
    clear_left_over(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == [".tracksworn-writing-other"]
    os.close(at_it)
    clear_left_over(tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_the_next_that_writes_clears_what_a_killed_one_has_left(tmp_path: Path) -> None:
    for name in (".tracksworn-writing-killed", ".writing-samples"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "a.md").write_bytes(b"half")
    write_together(tmp_path, OLD, clearing=False)
    assert (tmp_path / ".tracksworn-writing-killed").is_dir()
    write_together(tmp_path, OLD)
    assert tree(tmp_path) == {**OLD, ".writing-samples/a.md": b"half"}


def test_a_folder_that_is_cleared_away_before_it_is_locked_is_made_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    genuine = fcntl.flock
    cleared: list[Path] = []

    def cleared_before(handle: int, how: int) -> None:
        if how == fcntl.LOCK_EX and not cleared:
            cleared.extend(tmp_path.iterdir())
            clear_left_over(tmp_path)
        genuine(handle, how)

    monkeypatch.setattr(fcntl, "flock", cleared_before)
    write_together(tmp_path, OLD)
    assert len(cleared) == 1
    assert tree(tmp_path) == OLD


@pytest.mark.parametrize("code", [errno.EINVAL, errno.ENOTSUP])
def test_a_disk_that_knows_no_locks_and_syncs_no_folders_is_written_to(
    code: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As some of a network: names are durable there by themselves, and two that write at once are not kept apart."""
    genuine = os.fsync

    def without_folders(handle: int) -> None:
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(code, os.strerror(code))
        genuine(handle)

    def without_locks(_: int, how: int) -> None:
        raise OSError(errno.ENOLCK, os.strerror(errno.ENOLCK))

    monkeypatch.setattr(os, "fsync", without_folders)
    monkeypatch.setattr(fcntl, "flock", without_locks)
    write_together(tmp_path, OLD)
    write_together(tmp_path, NEW)
    assert tree(tmp_path) == NEW


def test_clearing_up_while_another_writes_disturbs_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    genuine = Path.replace

    def clear_and_replace(path: Path, place: Path) -> None:
        clear_left_over(tmp_path)
        genuine(path, place)

    monkeypatch.setattr(Path, "replace", clear_and_replace)
    write_together(tmp_path, NEW)
    assert tree(tmp_path) == NEW
