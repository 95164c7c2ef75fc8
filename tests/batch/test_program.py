"""The digest of the program changes with the versions that it stands on, too."""

from importlib.metadata import version

import pytest

from tracksworn.batch import program


def test_a_library_of_another_version_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    before = program.program_digest.__wrapped__()
    genuine = version
    assert program.program_digest.__wrapped__() == before
    monkeypatch.setattr(program, "version", lambda name: "0.1" if name == "weasyprint" else genuine(name))
    assert program.program_digest.__wrapped__() != before


def test_the_programs_own_files_count(monkeypatch: pytest.MonkeyPatch) -> None:
    before = program.program_digest.__wrapped__()
    monkeypatch.setattr(program, "files_digest", lambda: "others")
    assert program.program_digest.__wrapped__() != before
