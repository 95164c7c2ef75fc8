"""A wheel built from the tree works from an empty folder: templates, fonts and schemas are in it."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(folder), str(ROOT)]
    subprocess.run(command, check=True, capture_output=True, cwd=folder)
    (built,) = folder.glob("*.whl")
    return built


def test_it_holds_what_the_program_reads(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    for folder in ("templates", "src/tracksworn/documents/fonts", "src/tracksworn/inspection/schemas"):
        wanted = [path for path in (ROOT / folder).rglob("*") if path.is_file() and "__pycache__" not in path.parts]
        assert wanted, folder
        for path in wanted:
            relative = path.relative_to(ROOT).as_posix().removeprefix("src/").removeprefix("tracksworn/")
            assert f"tracksworn/{relative}" in names


def test_it_works_from_an_empty_folder(wheel: Path, tmp_path: Path) -> None:
    """Installed without its dependencies; the locked ones lie on its path, so no network is needed."""
    environment = tmp_path / "environment"
    subprocess.run([sys.executable, "-m", "venv", str(environment)], check=True)
    python = environment / "bin" / "python"
    options = ["--quiet", "--no-deps", "--no-index", "--disable-pip-version-check"]
    install = [str(python), "-m", "pip", "install", *options, str(wheel)]
    subprocess.run(install, check=True)
    packages = next(environment.glob("lib/python*/site-packages"))
    locked = [path for path in sys.path if path.endswith("site-packages")]
    (packages / "locked.pth").write_text("\n".join(locked) + "\n")
    empty = tmp_path / "empty"
    empty.mkdir()
    clean = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}

    def tracksworn(*words: str) -> subprocess.CompletedProcess[str]:
        command = [str(environment / "bin" / "tracksworn"), *words]
        return subprocess.run(command, cwd=empty, env=clean, capture_output=True, text=True, check=False)

    code = "import tracksworn; print(tracksworn.__file__)"
    where = subprocess.run([python, "-c", code], cwd=empty, env=clean, capture_output=True, text=True, check=True)
    assert str(packages) in where.stdout

    begun = tracksworn("new", "inspection", "--layout", "excavator", "--to", "machine/inspection.yaml")
    assert begun.returncode == 0, begun.stderr
    reported = tracksworn("report", "machine/inspection.yaml", "--to", "out", "--format", "pdf,html,md")
    assert reported.returncode == 0, reported.stderr
    assert {path.suffix for path in (empty / "out").iterdir() if path.is_file()} == {".pdf", ".html", ".md"}
