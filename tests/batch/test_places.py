"""Results go to any place that fsspec knows as they go to a folder."""

from collections.abc import Iterator
from pathlib import Path

import fsspec
import pytest
from sales import run, tree, write_lot, write_sale

from tracksworn.batch.places import Elsewhere, Folder, place_of
from tracksworn.inspection.faults import Failed, WrongUse

ADDRESS = "memory://yard/sale"


@pytest.fixture
def memory() -> Iterator[fsspec.AbstractFileSystem]:
    system = fsspec.filesystem("memory")
    system.store.clear()
    yield system
    system.store.clear()


@pytest.fixture
def sale(tmp_path: Path) -> Path:
    return write_sale(tmp_path / "sale", 3)


def stored(system: fsspec.AbstractFileSystem) -> dict[str, bytes]:
    names = [name for name in system.find("/yard/sale") if "/.batch/" not in name]
    return {name.removeprefix("/yard/sale/"): system.cat_file(name) for name in names}


def test_a_place_elsewhere_gets_what_a_folder_gets(
    sale: Path, tmp_path: Path, memory: fsspec.AbstractFileSystem
) -> None:
    run(sale, tmp_path / "out")
    assert run(sale, place_of(ADDRESS)).outcomes == ["made"] * 3
    assert stored(memory) == tree(tmp_path / "out")
    assert run(sale, place_of(ADDRESS)).asked == []


def test_only_what_has_changed_is_put_there_again(sale: Path, memory: fsspec.AbstractFileSystem) -> None:
    run(sale, place_of(ADDRESS))
    write_lot(sale, 2, worn=70)
    memory.pipe_file("/yard/sale/OXB-3-r0-listing.pdf", b"mine")
    assert run(sale, place_of(ADDRESS)).asked == ["lot-2", "lot-3"]


def test_a_folder_among_files_is_replaced_as_a_whole(memory: fsspec.AbstractFileSystem) -> None:
    place = Elsewhere(ADDRESS)
    place.write({"a.md": b"old", "a/1.svg": b"1", "a/2.svg": b"2"})
    place.write({"a.md": b"new", "a/1.svg": b"one"})
    assert stored(memory) == {"a.md": b"new", "a/1.svg": b"one"}
    assert (place.state("a/2.svg"), place.read("a/2.svg")) == (None, None)
    assert list(place.names("nothing")) == []


def test_a_service_that_refuses_is_told(memory: fsspec.AbstractFileSystem, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise RuntimeError("quota")

    monkeypatch.setattr(type(memory), "pipe_file", refuse)
    with pytest.raises(Failed, match="memory://yard/sale refuses: RuntimeError: quota"):
        Elsewhere(ADDRESS).write({"a.pdf": b""})


def test_an_address_that_nothing_here_speaks_to() -> None:
    with pytest.raises(WrongUse, match="'nowhere://bucket' is no place that can be written to from here"):
        place_of("nowhere://bucket")


def test_a_path_is_a_folder(tmp_path: Path) -> None:
    place = place_of(str(tmp_path / "out"))
    assert isinstance(place, Folder)
    assert (place.state("a.pdf"), place.read("a.pdf")) == (None, None)
    place.write({"a.pdf": b"1"})
    before = place.state("a.pdf")
    place.write({"a.pdf": b"2"})
    assert before != place.state("a.pdf")
    assert place.read("a.pdf") == b"2"


def test_a_folder_by_its_address_is_that_folder(tmp_path: Path) -> None:
    place = place_of(f"file://{tmp_path}/of%20the%20yard")
    assert isinstance(place, Folder)
    assert place.folder == tmp_path / "of the yard"


def test_what_stands_in_the_way_of_notes_is_named(tmp_path: Path) -> None:
    place = Folder(tmp_path)
    (tmp_path / ".batch").write_text("mine")
    with pytest.raises(Failed, match=f"^cannot write to {tmp_path}/.batch/lots: what stands there is no folder$"):
        place.note(".batch/lots/a.json", b"")
    with pytest.raises(Failed, match=f"^cannot read {tmp_path}/.batch/lots: what stands there is no folder$"):
        list(place.names(".batch/lots"))
    assert place.read(".batch/lots/a.json") is None


def test_a_file_that_cannot_be_read_is_named(tmp_path: Path) -> None:
    (tmp_path / "circle").symlink_to("circle")
    with pytest.raises(Failed, match=f"^cannot read {tmp_path}/circle: Too many levels of symbolic links$"):
        Folder(tmp_path).read("circle")
