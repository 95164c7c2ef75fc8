"""Exit statuses are a contract: 0 done, 1 faults, 2 wrong use, 3 failed, 130 interrupted. Never a traceback."""

import errno
import os
import signal
import subprocess
import sys
from pathlib import Path

import click
import pytest
from cli.conftest import DEMO, Run

from tracksworn.cli.exits import Exit, exit_for
from tracksworn.inspection.faults import Failed, Fault, Faulty, WrongUse

GOOD = DEMO / "OXB-0231" / "inspection.yaml"


@pytest.mark.parametrize(
    ("error", "status", "words"),
    [
        (Faulty([Fault(Path("a.yaml"), 3, 5, "no unit")]), Exit.FAULTS, "a.yaml:3:5: no unit"),
        (WrongUse("x is there already"), Exit.WRONG_USE, "wrong use: x is there already"),
        (Failed("the disk is full"), Exit.FAILED, "the disk is full"),
        (OSError(errno.EACCES, "Permission denied", "/a/b"), Exit.FAILED, "Permission denied: /a/b"),
        (MemoryError(), Exit.FAILED, "no memory left"),
        (click.UsageError("no such option"), Exit.WRONG_USE, "no such option"),
        (click.Abort(), Exit.INTERRUPTED, "interrupted"),
        (ZeroDivisionError("division by zero"), Exit.FAILED, "tracksworn itself has a fault (ZeroDivisionError"),
    ],
)
def test_every_error_has_its_status_and_sentence(
    error: Exception, status: Exit, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert exit_for(error) == status
    said = capsys.readouterr()
    assert words in said.err
    assert said.out == ""
    assert "Traceback" not in said.err


@pytest.mark.parametrize(
    "words",
    [
        ["nonsense"],
        ["check"],
        ["report", str(GOOD)],
        ["report", str(GOOD), "--to", "out", "--format", "docx"],
        ["report", str(GOOD), "--to", "out", "--paper", "A3"],
        ["schema", "wheel"],
        ["new", "inspection"],
        ["assess", str(GOOD), "--verbose"],
    ],
)
def test_wrong_use_is_2_and_says_what_would_be_right(tracksworn: Run, words: list[str], tmp_path: Path) -> None:
    done = tracksworn(*words)
    assert done.returncode == Exit.WRONG_USE
    assert "Usage: tracksworn" in done.stderr
    assert done.stdout == ""
    assert list(tmp_path.iterdir()) == []


def test_faults_are_1_and_are_told_with_their_place(tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "inspection.yaml").write_text("tracksworn: inspection 1\nnumbr: A-1\n")
    for words in (["check", "inspection.yaml"], ["assess", "inspection.yaml"], ["report", ".", "--to", "out"]):
        done = tracksworn(*words)
        assert done.returncode == Exit.FAULTS
        assert "inspection.yaml:2:1: " in done.stderr
        assert "number" in done.stderr
        assert done.stdout == ""
    assert sorted(path.name for path in tmp_path.iterdir()) == ["inspection.yaml"]


def test_a_folder_that_cannot_be_written_is_3_and_leaves_nothing(tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("a file, no folder")
    done = tracksworn("report", GOOD, "--to", "taken/out", "--format", "md")
    assert done.returncode == Exit.FAILED
    assert "cannot write to taken/out" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["taken"]


def test_an_interrupt_is_130_and_leaves_nothing(tmp_path: Path) -> None:
    code = (
        "import os, signal, tracksworn.documents.report as room, tracksworn.cli.main as cli\n"
        "room.make_report = lambda *_, **__: os.kill(os.getpid(), signal.SIGINT)\n"
        "cli.main()"
    )
    command = [sys.executable, "-c", code, "report", str(GOOD), "--to", "out"]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode == Exit.INTERRUPTED, done.stderr
    assert done.stderr.strip() == "interrupted"
    assert list(tmp_path.iterdir()) == []


def test_a_reader_that_goes_away_is_no_fault() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    command = [sys.executable, "-c", "from tracksworn.cli.main import main; main()", "schema", "inspection"]
    done = subprocess.run(command, stdout=writing, stderr=subprocess.PIPE, text=True, check=False)
    os.close(writing)
    assert (done.returncode, done.stderr) == (-signal.SIGPIPE, "")
