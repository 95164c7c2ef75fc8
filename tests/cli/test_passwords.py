"""Where a password is taken from: a descriptor before the variable, the variable before a prompt."""

import io
import os
import socket
import sys

import click
import pytest

from tracksworn.cli.passwords import LONGEST, VARIABLE, password
from tracksworn.inspection.faults import WrongUse


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def typed(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What is typed at a terminal's prompts, one after the other."""
    lines: list[str] = []
    monkeypatch.delenv(VARIABLE, raising=False)
    monkeypatch.setattr(sys, "stdin", Terminal())
    monkeypatch.setattr("click.termui.hidden_prompt_func", lambda _: lines.pop(0))
    return lines


def piped(content: bytes) -> int:
    reading, writing = os.pipe()
    os.write(writing, content)
    os.close(writing)
    return reading


def test_a_prompt_asks_once_for_a_key_that_is_there(typed: list[str]) -> None:
    typed += ["secret", "never asked for"]
    assert password("Password of a.p12", None) == "secret"
    assert typed == ["never asked for"]


def test_and_twice_for_a_new_one_until_both_agree(typed: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    typed += ["secret", "sekret", "secret", "secret"]
    assert password("Password for the new key", None, twice=True) == "secret"
    assert typed == []
    said = capsys.readouterr()
    assert said.out == ""
    assert "secret" not in said.err


def test_a_descriptor_goes_before_the_variable_and_that_before_a_prompt(
    typed: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv(VARIABLE, "from the variable")
    assert password("Password", None) == "from the variable"
    assert password("Password", piped(b"from the descriptor\nand more")) == "from the descriptor"
    assert typed == []


def test_a_line_that_is_written_in_pieces_is_one_password() -> None:
    reading, writing = socket.socketpair(socket.AF_UNIX, socket.SOCK_SEQPACKET)  # what is sent at once is read at once
    with reading, writing:
        for piece in (b"half and ", b"half\r\n", b"not this\n"):
            writing.send(piece)
        assert password("Password", reading.fileno()) == "half and half"


def test_a_line_that_is_too_long_is_told_and_not_cut() -> None:
    assert password("Password", piped(b"x" * LONGEST + b"\n")) == "x" * LONGEST
    with pytest.raises(WrongUse, match="its first line is over 4096 bytes"):
        password("Password", piped(b"x" * (LONGEST + 1) + b"\n"))


@pytest.mark.parametrize(("content", "said"), [(b"", "is empty"), (b"\n", "is empty"), (b"\xff\n", "no text in UTF-8")])
def test_a_descriptor_without_a_password_is_wrong_use(content: bytes, said: str) -> None:
    with pytest.raises(WrongUse, match=said):
        password("Password", piped(content))


def test_who_ends_a_prompt_is_heard(typed: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(_: str) -> str:
        raise KeyboardInterrupt

    monkeypatch.setattr("click.termui.hidden_prompt_func", interrupted)
    with pytest.raises(click.Abort):
        password("Password", None)
