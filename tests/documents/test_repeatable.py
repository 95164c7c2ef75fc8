"""The same input gives the same bytes, whoever makes them, when and where."""

import json
import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo_inspections"
RUN = """
import json
import sys
import time_machine
with time_machine.travel(sys.argv[1] + "T12:00"):
    import time
    assert time.strftime("%Y") == sys.argv[1][:4], "the clock is not set"
    from tracksworn.cli.main import run
    sys.exit(max(map(run, json.loads(sys.argv[2]))))
"""


def _in_another(language: str, number: str, document: str) -> list[str]:
    """The command that makes a document in another language than its letterhead's."""
    asked = ["--language", language, "--document", document, "--format", "pdf,html,md,png"]
    return ["report", number, *asked, "--to", f"made/{language}"]


FEW = (["report", "OXB-0231", "--format", "pdf,html,md", "--to", "made"],)
MORE = (
    _in_another("de", "OXB-0236", "listing"),
    ["report", "MPS-2031-0418", "--format", "html", "--to", "made"],
    ["compare", "OXB-0227", "OXB-0236", "--format", "pdf", "--to", "made"],
    _in_another("es", "MPS-2031-0433", "listing"),
    _in_another("fr", "MPS-2031-0402", "certificate"),
)


@dataclass(frozen=True)
class Desk:
    """Where and when documents are made."""

    day: str
    zone: str
    language: str
    seed: str
    folder: str


HERE = Desk("2031-04-20", "Pacific/Kiritimati", "C", "1", "here")
THERE = Desk("2044-12-31", "America/Anchorage", "de_DE.UTF-8", "4711", "there with blänks/and deeper")


def made_at(desk: Desk, commands: tuple[list[str], ...], tmp_path: Path) -> dict[str, bytes]:
    """All files of the commands, made in a process of its own from a copy of the demo whose files are of that hour."""
    folder = tmp_path / desk.folder
    shutil.copytree(DEMO, folder, copy_function=shutil.copyfile, ignore=shutil.ignore_patterns("*.py", "*.png"))
    own = {"TZ": desk.zone, "LC_ALL": desk.language, "LANGUAGE": desk.language, "PYTHONHASHSEED": desk.seed}
    environment = {"PATH": os.environ["PATH"], "HOME": str(folder), "PYTHONPATH": str(ROOT / "src"), "PYTHONUTF8": "1"}
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", RUN, desk.day, json.dumps(commands)],
        cwd=folder,
        env=environment | own,
        capture_output=True,
        text=True,
        check=False,
        timeout=300,
    )
    assert done.returncode == 0, done.stderr
    made = folder / "made"
    return {path.relative_to(made).as_posix(): path.read_bytes() for path in made.rglob("*") if path.is_file()}


@pytest.mark.slow
@pytest.mark.parametrize(("commands", "sheets"), [(FEW, 1), pytest.param(MORE, 4, marks=pytest.mark.long)])
def test_two_desks_on_two_days_make_the_same_bytes(
    commands: tuple[list[str], ...], sheets: int, tmp_path: Path
) -> None:
    here, there = made_at(HERE, commands, tmp_path), made_at(THERE, commands, tmp_path)
    assert sum(name.endswith(".pdf") for name in here) == sheets
    assert here.keys() == there.keys()
    assert [name for name, content in here.items() if content != there[name]] == []
    for name, content in here.items():
        for trace in (b"2044", b"Kiritimati", b"Anchorage", str(tmp_path).encode()):
            assert trace not in content, name
