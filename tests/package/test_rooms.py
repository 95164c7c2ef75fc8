"""The rooms import in one direction, and the pure ones stay pure."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_a_room_imports_only_rooms_to_its_left() -> None:
    command = [sys.executable, "-c", "from importlinter.cli import lint_imports_command as lint; lint()", "--no-cache"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "0 broken" in done.stdout


def test_starting_up_imports_nothing_heavy() -> None:
    heavy = [
        "numpy",
        "scipy",
        "shapely",
        "weasyprint",
        "PIL",
        "pikepdf",
        "pydantic",
        "yaml",
        "jinja2",
        "rich",
        "babel",
        "matplotlib",
    ]
    code = f"import sys, tracksworn.cli.main; print([m for m in {heavy} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_the_assessment_needs_no_page_and_no_file_library() -> None:
    kept_out = [
        "weasyprint",
        "PIL",
        "pikepdf",
        "yaml",
        "pydantic",
        "jinja2",
        "shapely",
        "matplotlib",
        "scipy.interpolate",
    ]
    code = f"import sys, tracksworn.assessment.assess; print([m for m in {kept_out} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
