"""Progress is for the eye alone."""

import io
import sys

import pytest

from tracksworn.cli.progress import each


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_without_a_terminal_there_is_none(capsys: pytest.CaptureFixture[str]) -> None:
    assert list(each(("a", "b"), "reports")) == ["a", "b"]
    assert capsys.readouterr() == ("", "")


def test_results_stay_on_standard_output_while_a_bar_stands_on_the_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    bar, results = Terminal(), io.StringIO()
    monkeypatch.setattr(sys, "stderr", bar)
    monkeypatch.setattr(sys, "stdout", results)
    for thing in each(("one", "two"), "reports"):
        print(thing)
    assert results.getvalue() == "one\ntwo\n"
    assert "reports" in bar.getvalue()
