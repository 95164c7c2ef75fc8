"""The digest of the program changes with anything that could change a byte of a document."""

import shutil
from pathlib import Path

import pytest

import tracksworn
from tracksworn.documents import program, resources


@pytest.fixture
def copied(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The package's own files, small ones of each room, as another installation has them."""
    package = Path(tracksworn.__file__).parent
    for name in ("assessment/stages.py", "documents/report.py", "inspection/model.py", "batch/run.py"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        shutil.copy(package / name, tmp_path / name)
    (tmp_path / "templates").mkdir()
    shutil.copy(resources.templates() / "listing.html", tmp_path / "templates")
    monkeypatch.setattr(program, "_PACKAGE", tmp_path)
    monkeypatch.setattr(resources, "templates", lambda: tmp_path / "templates")
    return tmp_path


def digest() -> str:
    return program.files_digest.__wrapped__()


@pytest.mark.parametrize(
    "name", ["assessment/stages.py", "documents/report.py", "inspection/model.py", "templates/listing.html"]
)
def test_any_file_that_makes_documents_counts(copied: Path, name: str) -> None:
    before = digest()
    assert digest() == before
    with (copied / name).open("a") as file:
        file.write("\n")
    assert digest() != before


def test_a_new_file_and_another_name_count(copied: Path) -> None:
    before = digest()
    (copied / "documents" / "more.py").touch()
    with_one = digest()
    (copied / "documents" / "more.py").rename(copied / "documents" / "other.py")
    assert len({before, with_one, digest()}) == 3


def test_what_only_writes_and_what_was_compiled_do_not_count(copied: Path) -> None:
    before = digest()
    (copied / "batch" / "run.py").write_text("")
    (copied / "documents" / "__pycache__").mkdir()
    (copied / "documents" / "__pycache__" / "report.pyc").touch()
    assert digest() == before


def test_it_follows_the_version() -> None:
    assert program.program() == f"{tracksworn.__version__}+{program.files_digest()[:12]}"
