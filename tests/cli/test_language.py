"""`--language`: documents in the reader's language, whatever the letterhead says."""

import re
from pathlib import Path

import pytest
from cli.conftest import GOOD, Run, copied

WRONG = "is no language of the documents; these are de, en, es and fr"


@pytest.mark.parametrize("language", ["de", "en-US", "es-MX", "fr"])
def test_a_report_is_in_the_language_asked_for(tracksworn: Run, tmp_path: Path, language: str) -> None:
    done = tracksworn("report", GOOD, "--to", tmp_path / "out", "--format", "html", "--language", language)
    assert (done.returncode, done.stderr) == (0, "")
    page = Path(done.stdout.strip()).read_text(encoding="utf-8")
    assert re.findall(r'<html lang="([^"]*)"', page) == [language]


def test_a_comparison_is_in_the_language_asked_for(tracksworn: Run, tmp_path: Path) -> None:
    first = copied(tmp_path / "one", "number: OXB-0231", "number: ONE")
    second = copied(tmp_path / "two", "number: OXB-0231", "number: TWO")
    done = tracksworn("compare", first, second, "--to", tmp_path / "out", "--format", "html", "--language", "de")
    assert (done.returncode, done.stderr) == (0, "")
    assert '<html lang="de"' in Path(done.stdout.strip()).read_text(encoding="utf-8")


@pytest.mark.parametrize("language", ["pt", "de-ZZ", "german", "DE", ""])
def test_a_language_that_there_is_not_is_told(tracksworn: Run, tmp_path: Path, language: str) -> None:
    done = tracksworn("report", GOOD, "--to", tmp_path / "out", "--language", language)
    assert done.returncode == 2
    assert f"'{language}' {WRONG}" in " ".join(done.stderr.split())
    assert not (tmp_path / "out").exists()
