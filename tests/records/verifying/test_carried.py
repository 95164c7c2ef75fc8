"""What a file carries is read as a stranger's: bounded, nowhere but below its folder, and none of it elsewhere."""

import errno
import json
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from records.verifying.recorded import NUMBER, carried_by, sheet_with

from tracksworn.records.verifying import carried as room
from tracksworn.records.verifying.carried import NotCarried, read_carried


def test_it_is_what_was_attached_in_its_order() -> None:
    found = read_carried(sheet_with(carried_by(NUMBER)))
    assert list(found.files.items()) == list(carried_by(NUMBER).items())
    assert (found.number, found.revision) == (NUMBER, 0)
    assert found.digests == json.loads(carried_by(NUMBER)["fingerprint.json"])["files"]


def test_it_is_laid_out_as_it_lay(tmp_path: Path) -> None:
    inspection = read_carried(sheet_with(carried_by(NUMBER))).lay_out(tmp_path)
    assert inspection == tmp_path / NUMBER / "inspection.yaml"
    laid = {str(path.relative_to(tmp_path)): path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()}
    assert laid == dict(carried_by(NUMBER))


@pytest.mark.parametrize(
    "name", ["../x.yaml", "/x.yaml", "a/../../x.yaml", "a//x.yaml", "a\\x.yaml", "c:x.yaml", "a\n.yaml"]
)
def test_a_name_that_leads_elsewhere_is_refused(name: str) -> None:
    with pytest.raises(NotCarried, match="a file has the name"):
        read_carried(sheet_with({**carried_by(NUMBER), name: b""}))


def test_files_in_the_place_of_folders_are_refused(tmp_path: Path) -> None:
    files = {**carried_by(NUMBER), f"{NUMBER}/inspection.yaml/x.yaml": b""}
    with pytest.raises(NotCarried, match="cannot be laid out"):
        read_carried(sheet_with(files)).lay_out(tmp_path)


@pytest.mark.parametrize("name", ["assessment.json", "fingerprint.json"])
@pytest.mark.parametrize("content", [b"", b"[]", b"{}", b"[" * 100_000, b'{"files": 1}', b'{"number": 1}'])
def test_what_does_not_say_what_it_should_is_refused(name: str, content: bytes) -> None:
    with pytest.raises(NotCarried, match="not those of one inspection"):
        read_carried(sheet_with({**carried_by(NUMBER), name: content}))


@pytest.mark.parametrize(
    ("number", "revision"),
    [
        ('"A"', "1e999"), ('"A"', "-1"), ('"A"', "1000"), ('"A"', "true"), ('"A"', "0.0"), ('["A"]', "0"),
        ('""', "0"), (f'"{"A" * 65}"', "0"), ('"\\u001b[2J"', "0"), ('"\\ud800"', "0"), ('"A\\u0000"', "0"),
    ],
)  # fmt: skip
def test_a_number_or_revision_that_no_record_has_is_refused(number: str, revision: str) -> None:
    content = f'{{"number": {number}, "revision": {revision}}}'.encode()
    with pytest.raises(NotCarried, match="not those of one inspection"):
        read_carried(sheet_with({**carried_by(NUMBER), "assessment.json": content}))


@pytest.mark.parametrize("content", [b"[" * 100_000, b"", b"\xff"])
def test_what_says_of_no_document_that_it_is_one_is_none(content: bytes) -> None:
    assert read_carried(sheet_with({**carried_by(NUMBER), "document.json": content})).document == ""


def test_nor_is_one_whose_name_would_act_on_a_terminal() -> None:
    making = carried_by(NUMBER)["document.json"].replace(b'"listing"', b'"\\u001b[2J"')
    assert making != carried_by(NUMBER)["document.json"]
    assert read_carried(sheet_with({**carried_by(NUMBER), "document.json": making})).document == ""


def test_a_full_disk_is_not_the_files_fault(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(path: Path, content: bytes) -> int:
        raise OSError(errno.ENOSPC, "No space left on device")

    carried = read_carried(sheet_with(carried_by(NUMBER)))
    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(OSError, match="No space left"):
        carried.lay_out(tmp_path)


@pytest.mark.parametrize("name", ["assessment.json", "fingerprint.json"])
def test_what_is_missing_is_told(name: str) -> None:
    files = {each: content for each, content in carried_by(NUMBER).items() if each != name}
    with pytest.raises(NotCarried, match=f"it carries no {name}"):
        read_carried(sheet_with(files))


def test_without_an_inspection_there_is_nothing_to_lay_out(tmp_path: Path) -> None:
    files = {name: content for name, content in carried_by(NUMBER).items() if name.endswith(".json")}
    with pytest.raises(NotCarried, match=r"it carries no inspection\.yaml"):
        read_carried(sheet_with(files)).lay_out(tmp_path)


def test_a_file_that_unpacks_to_too_much_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "MOST_BYTES", 100_000)
    with pytest.raises(NotCarried, match="more than 100000 bytes"):
        read_carried(sheet_with({**carried_by(NUMBER), "more.yaml": b"#" * 200_000}))


def test_too_many_files_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "MOST_FILES", 3)
    with pytest.raises(NotCarried, match="more than 3 files"):
        read_carried(sheet_with(carried_by(NUMBER)))


def test_a_file_that_belongs_to_nothing_is_refused() -> None:
    out = BytesIO()
    with pikepdf.open(BytesIO(sheet_with(carried_by(NUMBER)))) as pdf:
        del pdf.Root.AF[0]
        pdf.save(out)
    with pytest.raises(NotCarried, match="are not those that belong to it"):
        read_carried(out.getvalue())


def test_a_pdf_that_carries_nothing_is_told() -> None:
    with pikepdf.new() as pdf:
        pdf.add_blank_page()
        out = BytesIO()
        pdf.save(out)
    with pytest.raises(NotCarried, match="cannot be read"):
        read_carried(out.getvalue())
