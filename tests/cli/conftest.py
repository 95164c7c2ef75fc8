"""Commands are run as a user runs them: through the last door, in a folder of their own."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo_inspections"

Run = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture
def tracksworn(tmp_path: Path) -> Run:
    """Run `tracksworn` in an empty folder with arguments, and with more environment by keyword."""

    def run(*words: str | Path, **environment: str) -> "subprocess.CompletedProcess[str]":
        command = [sys.executable, "-c", "from tracksworn.cli.main import main; main()", *map(str, words)]
        return subprocess.run(
            command, cwd=tmp_path, env=os.environ | environment, capture_output=True, text=True, check=False
        )

    return run
