"""The digest of the program changes with the versions that it stands on, too."""

import pytest

from tracksworn.batch import libraries, program


def test_a_package_of_another_version_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    before = program.program_digest.__wrapped__()
    assert program.program_digest.__wrapped__() == before
    monkeypatch.setattr(program, "packages", lambda: ["pydyf 0.1"])
    assert program.program_digest.__wrapped__() != before


def test_a_library_of_the_system_of_another_version_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    before = program.program_digest.__wrapped__()
    others = {"Pango": lambda _: "1.0", **{name: ask for name, ask in libraries._ASKED.items() if name != "Pango"}}
    monkeypatch.setattr(libraries, "_ASKED", others)
    assert program.program_digest.__wrapped__() != before


def test_the_programs_own_files_count(monkeypatch: pytest.MonkeyPatch) -> None:
    before = program.program_digest.__wrapped__()
    monkeypatch.setattr(program, "files_digest", lambda: "others")
    assert program.program_digest.__wrapped__() != before
