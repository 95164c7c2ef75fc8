"""A shell completes commands, options, words and lists."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from cli.conftest import Run

from tracksworn.cli.commands import SHELLS

SCRIPT = """
eval "$(tracksworn --completion bash)"
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _tracksworn_completion tracksworn
printf '%s\\n' "${COMPREPLY[@]}"
"""


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A PATH on which `tracksworn` is found."""
    folder = tmp_path_factory.mktemp("bin")
    program = folder / "tracksworn"
    program.write_text(f"#!{sys.executable}\nfrom tracksworn.cli.main import main\nmain()\n")
    program.chmod(0o755)
    return f"{folder}:{os.environ['PATH']}"


@pytest.mark.parametrize(
    ("typed", "completed"),
    [
        (["re"], ["report"]),
        (["new", "inspection", "--layout", "e"], ["elevated-sprocket", "excavator"]),
        (["report", "--format", "pdf,h"], ["pdf,html"]),
    ],
)
def test_bash_completes(typed: list[str], completed: list[str], path: str, tmp_path: Path) -> None:
    command = ["bash", "--norc", "-c", SCRIPT, "bash", "tracksworn", *typed]
    environment = os.environ | {"PATH": path, "PYTHONPATH": os.pathsep.join(sys.path)}
    done = subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=False)
    assert (done.stdout.split(), done.stderr) == (completed, "")


@pytest.mark.parametrize("shell", SHELLS)
def test_each_shell_has_its_script(tracksworn: Run, shell: str) -> None:
    done = tracksworn("--completion", shell)
    assert (done.returncode, done.stderr) == (0, "")
    assert f"_TRACKSWORN_COMPLETE={shell}_complete" in done.stdout
