"""Exit statuses are a contract: 0 done, 1 faults, 2 wrong use, 3 failed, 130 interrupted. Never a traceback."""

import errno
import os
import signal
import subprocess
import sys
from pathlib import Path

import click
import pytest
from cli.conftest import GOOD, Run, Start, copied

from tracksworn.cli.exits import Exit, exit_for
from tracksworn.documents.render.files import Refused
from tracksworn.inspection.faults import Failed, Fault, Faulty, WrongUse


@pytest.mark.parametrize(
    ("error", "status", "words"),
    [
        (Faulty([Fault(Path("a.yaml"), 3, 5, "no unit")]), Exit.FAULTS, "a.yaml:3:5: no unit\n"),
        (WrongUse("x is there already"), Exit.WRONG_USE, "wrong use: x is there already\n"),
        (Failed("the disk is full"), Exit.FAILED, "the disk is full\n"),
        (Refused("a caution is missing"), Exit.FAILED, "a caution is missing\n"),
        (
            OSError(errno.EACCES, "Permission denied", "/a/b"),
            Exit.FAILED,
            "the machine refuses: Permission denied: /a/b\n",
        ),
        (MemoryError(), Exit.FAILED, "the machine has no memory left for this\n"),
        (click.UsageError("no such option"), Exit.WRONG_USE, "Error: no such option\n"),
        (click.Abort(), Exit.INTERRUPTED, "interrupted\n"),
        (
            ZeroDivisionError("x"),
            Exit.FAILED,
            "tracksworn itself has a fault (ZeroDivisionError: x). Nothing was half written. Please report it.\n",
        ),
    ],
)
def test_every_error_has_its_status_and_sentence(
    error: Exception, status: Exit, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert exit_for(error) == status
    assert capsys.readouterr() == ("", words)


@pytest.mark.parametrize(
    ("words", "right"),
    [
        (["nonsense"], "No such command 'nonsense'"),
        (["check"], "Missing argument 'PATH...'"),
        (["check", ""], "a path is missing here"),
        (["report", "x"], "Missing option '--to'"),
        (["report", "x", "--to", ""], "a path is missing here"),
        (
            ["report", "x", "--to", "out", "--format", "pdf;html"],
            "is not one of pdf, html, md, png; several have commas",
        ),
        (["report", "x", "--to", "out", "--paper", "A3"], "'A3' is not one of 'A4', 'letter'"),
        (["schema", "wheel"], "'inspection', 'chart', 'letterhead', 'prices', 'terms', 'findings'"),
        (["new", "inspection"], "Missing option '--to'"),
        (["new", "inspection", "--to", "x", "--layout", "dozer"], "'elevated-sprocket', 'oval', 'excavator'"),
        (["assess", "x", "--verbose"], "No such option '--verbose'"),
    ],
)
def test_wrong_use_is_2_and_says_what_would_be_right(
    tracksworn: Run, words: list[str], right: str, tmp_path: Path
) -> None:
    done = tracksworn(*words)
    assert done.returncode == Exit.WRONG_USE
    assert "Usage: tracksworn" in done.stderr
    assert right in done.stderr
    assert done.stdout == ""
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("words", [["check", "."], ["assess", "."], ["report", ".", "--to", "out"]])
def test_faults_are_1_and_are_told_with_their_place(tracksworn: Run, tmp_path: Path, words: list[str]) -> None:
    (tmp_path / "inspection.yaml").write_text("tracksworn: inspection 1\nnumbr: A-1\n")
    done = tracksworn(*words)
    assert (done.returncode, done.stdout) == (Exit.FAULTS, "")
    assert "inspection.yaml:2:1: `numbr` is no key here; did you mean `number`?\n" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["inspection.yaml"]


def refuse(*_: object, **__: object) -> None:
    raise PermissionError(errno.EACCES, "Permission denied")


def test_what_cannot_be_read_is_3_and_the_others_are_checked(
    tracksworn: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "bad.yaml").write_text("tracksworn: inspection 9\n")
    (tmp_path / "kept.yaml").write_text("")
    genuine = Path.open
    monkeypatch.setattr(Path, "open", lambda path, *how: refuse() if path.name == "kept.yaml" else genuine(path, *how))
    done = tracksworn("check", "kept.yaml", "bad.yaml")
    assert done.returncode == Exit.FAILED
    assert done.stderr.splitlines()[-1] == "kept.yaml cannot be read: Permission denied"
    assert done.stderr.startswith("bad.yaml:1:13: ")


def test_a_folder_that_cannot_be_written_is_3_and_leaves_nothing(tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file, no folder")
    done = tracksworn("report", GOOD, "--to", "taken/out", "--format", "md")
    assert (done.returncode, done.stdout) == (Exit.FAILED, "")
    assert done.stderr == "cannot write to taken/out: Not a directory\n"
    assert [path.name for path in tmp_path.iterdir()] == ["taken"]


def test_a_full_disk_is_3_and_leaves_nothing(tracksworn: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    done = tracksworn("new", "chart", "--to", "charts/mine.yaml")
    assert (done.returncode, done.stdout) == (Exit.FAILED, "")
    assert done.stderr == "cannot write to charts: No space left on device\n"
    assert list(tmp_path.iterdir()) == []


def test_an_interrupt_is_130_and_leaves_nothing(
    tracksworn: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupt(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("tracksworn.documents.report.make_report", interrupt)
    done = tracksworn("report", GOOD, "--to", "out")
    assert (done.returncode, done.stdout, done.stderr.strip()) == (Exit.INTERRUPTED, "", "interrupted")
    assert list(tmp_path.iterdir()) == []


def test_an_interrupt_while_the_program_starts_is_130(process: Start) -> None:
    first = """
import sys
class Interrupt:
    def find_spec(self, name, *_):
        if name == "tracksworn.cli.commands":
            raise KeyboardInterrupt
sys.meta_path.insert(0, Interrupt())"""
    done = process("check", "x", first=first)
    assert (done.returncode, done.stdout, done.stderr) == (Exit.INTERRUPTED, "", "interrupted\n")


def test_a_process_that_is_ended_while_it_writes_leaves_nothing(process: Start, tmp_path: Path) -> None:
    first = "import os, signal; os.fsync = lambda _: os.kill(os.getpid(), signal.SIGTERM)"
    done = process("new", "chart", "--to", "mine.yaml", first=first)
    assert (done.returncode, done.stdout, done.stderr) == (128 + signal.SIGTERM, "", "")
    assert list(tmp_path.iterdir()) == []


def test_a_reader_that_goes_away_is_no_fault() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    command = [sys.executable, "-c", "from tracksworn.cli.main import main; main()", "schema", "inspection"]
    done = subprocess.run(command, stdout=writing, stderr=subprocess.PIPE, text=True, check=False)
    os.close(writing)
    assert (done.returncode, done.stderr) == (-signal.SIGPIPE, "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device of Linux")
def test_a_result_that_finds_no_room_is_3() -> None:
    command = [sys.executable, "-c", "from tracksworn.cli.main import main; main()", "schema", "inspection"]
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, check=False)
    assert (done.returncode, done.stderr) == (Exit.FAILED, "the machine refuses: No space left on device\n")


def test_a_name_that_the_locale_cannot_say_is_3_and_says_how(process: Start, tmp_path: Path) -> None:
    copied(tmp_path / "lot", "photos/left-side.jpg", "photos/Größe.jpg")
    done = process("check", "lot", LC_ALL="C", PYTHONUTF8="0", PYTHONCOERCECLOCALE="0")
    assert done.returncode == Exit.FAILED
    assert done.stderr.endswith("cannot be looked for in this locale; set LC_ALL=C.UTF-8\n")
