"""Files that belong together are written whole or not at all."""

import errno
from pathlib import Path

import pytest

from tracksworn.documents.writing import write_together
from tracksworn.inspection.faults import Failed

OLD = {"a.md": b"old page", "a/one.svg": b"old one", "a/two.svg": b"old two"}
NEW = {"a.md": b"new page", "a/three.svg": b"new three"}


def tree(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_files_and_their_folders_are_written(tmp_path: Path) -> None:
    assert write_together(tmp_path / "new" / "folder", OLD) == (tmp_path / "new" / "folder" / "a.md",)
    assert tree(tmp_path / "new" / "folder") == OLD


def test_a_folder_among_them_is_replaced_as_a_whole(tmp_path: Path) -> None:
    (tmp_path / "other.md").write_bytes(b"not ours")
    write_together(tmp_path, OLD)
    write_together(tmp_path, NEW)
    assert tree(tmp_path) == NEW | {"other.md": b"not ours"}


@pytest.mark.parametrize("call", ["fsync", "rename", "replace", "mkdtemp"])
def test_a_machine_that_refuses_leaves_the_old_set(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str) -> None:
    write_together(tmp_path, OLD)

    def refuse(*_: object, **__: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    target = {
        "fsync": "os.fsync",
        "rename": "pathlib.Path.rename",
        "replace": "os.replace",
        "mkdtemp": "tempfile.mkdtemp",
    }
    monkeypatch.setattr(target[call], refuse)
    with pytest.raises(Failed, match=f"cannot write to {tmp_path}: No space left on device"):
        write_together(tmp_path, {"a/one.svg": b"x"} if call == "rename" else {"a.md": b"x"})
    assert tree(tmp_path) == OLD


def test_what_does_not_read_back_is_not_handed_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Path, "read_bytes", lambda _self: b"something else")
    with pytest.raises(Failed, match="does not read back the same"):
        write_together(tmp_path, {"a.md": b"page"})
    monkeypatch.undo()
    assert tree(tmp_path) == {}
