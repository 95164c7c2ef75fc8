"""Commands are run as a user runs them, in an empty folder: most within this process, some as one of their own."""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from tracksworn.cli.main import run

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo_inspections"
GOOD = DEMO / "OXB-0231"
"""By eye alone, and so the quickest to make."""


@dataclass(frozen=True)
class Done:
    """What a command left: its exit status and what it printed."""

    returncode: int
    stdout: str
    stderr: str


def copied(folder: Path, old: str = "", new: str = "") -> Path:
    """A copy of that inspection that stands alone, in which the first `old` is `new`."""
    shutil.copytree(GOOD, folder)
    file = folder / "inspection.yaml"
    lines = [line for line in file.read_text(encoding="utf-8").splitlines() if not line.startswith("letterhead:")]
    assert old in "\n".join(lines)
    file.write_text("\n".join(lines).replace(old, new, 1), encoding="utf-8")
    return folder


Run = Callable[..., Done]
Start = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture
def tracksworn(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]) -> Run:
    """Run `tracksworn` within this process in an empty folder, with more environment by keyword."""
    monkeypatch.chdir(tmp_path)

    def within(*words: str | Path, **environment: str) -> Done:
        for name, value in environment.items():
            monkeypatch.setenv(name, value)
        status = run([str(word) for word in words])
        said = capfd.readouterr()
        return Done(int(status), said.out, said.err)

    return within


@pytest.fixture
def process(tmp_path: Path) -> Start:
    """Run `tracksworn` as a process of its own in an empty folder; `first` is Python that goes before."""

    def start(*words: str | Path, first: str = "", **environment: str) -> "subprocess.CompletedProcess[str]":
        code = f"{first}\nfrom tracksworn.cli.main import main\nmain()"
        command = [sys.executable, "-c", code, *map(str, words)]
        return subprocess.run(
            command, cwd=tmp_path, env=os.environ | environment, capture_output=True, text=True, check=False
        )

    return start
