"""A made-up sale stands as a whole, or not at all."""

import errno
import os
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

from tracksworn.batch.sample.sample import LIST, sample
from tracksworn.batch.sample.writing import write_sample
from tracksworn.documents import writing
from tracksworn.inspection.faults import Failed, WrongUse

GROUPS: tuple[Mapping[str, bytes], ...] = tuple(sample(2, 7))


def tree(folder: Path) -> dict[str, bytes]:
    found = (path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in found}


def whole() -> dict[str, bytes]:
    return {name: content for files in GROUPS for name, content in files.items()}


def test_it_is_there_at_once(tmp_path: Path) -> None:
    to = tmp_path / "made" / "sale"

    def watched() -> Iterator[Mapping[str, bytes]]:
        for files in GROUPS:
            assert not to.exists()
            yield files

    write_sample(to, watched())
    assert tree(tmp_path / "made") == {f"sale/{name}": content for name, content in whole().items()}


def test_an_empty_folder_stays_the_one_that_it_was(tmp_path: Path) -> None:
    before = tmp_path.stat().st_ino
    (tmp_path / ".tracksworn-sample-killed").mkdir()
    write_sample(tmp_path, GROUPS)
    assert tree(tmp_path) == whole()
    assert tmp_path.stat().st_ino == before
    with pytest.raises(WrongUse, match="has something in it; name another folder, or empty that one"):
        write_sample(tmp_path, GROUPS)


@pytest.mark.parametrize("empty", [True, False])
def test_a_full_disk_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, empty: bool) -> None:
    genuine, to = writing._write, tmp_path / "sale"

    def fill(path: Path, content: bytes) -> None:
        if path.name == LIST:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        genuine(path, content)

    monkeypatch.setattr(writing, "_write", fill)
    if empty:
        to.mkdir()
    with pytest.raises(Failed, match=f"^cannot write to {to}: No space left on device$"):
        write_sample(to, GROUPS)
    assert list(tmp_path.rglob("*")) == ([to] if empty else [])


def test_the_folder_that_grows_is_not_looked_through_for_each_lot(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    cleared: list[Path] = []
    monkeypatch.setattr(writing, "clear_left_over", cleared.append)
    write_sample(tmp_path / "sale", GROUPS)
    assert cleared == []
