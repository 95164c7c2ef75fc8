"""What lies below the program is found without importing it."""

import subprocess
import sys
from collections.abc import Callable
from importlib.metadata import version
from pathlib import Path

import pytest
from weasyprint.text.ffi import ffi, fontconfig, harfbuzz, pango

from tracksworn.batch import libraries
from tracksworn.batch.libraries import packages, system_libraries

Install = Callable[..., None]


@pytest.fixture
def install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Install:
    """Put a package's own description where packages are found."""
    monkeypatch.syspath_prepend(tmp_path)

    def put(name: str, number: str, *needs: str) -> None:
        folder = tmp_path / f"{name.replace('-', '_')}-{number}.dist-info"
        folder.mkdir()
        lines = ["Metadata-Version: 2.1", f"Name: {name}", f"Version: {number}"]
        lines += [f"Requires-Dist: {one}" for one in needs]
        (folder / "METADATA").write_text("\n".join(lines) + "\n\nRequires-Dist: prose\n")

    return put


def test_what_is_needed_in_turn_is_found_and_what_is_optional_is_not(install: Install) -> None:
    install("yard", "1", "yard-sets[fine]>=1; python_version >= '3'", "yard-old; python_version < '3'", "yard-none")
    install("yard-sets", "2", "Yard_Lines", "yard-ink; extra == 'fine'", "yard-test; extra == 'test'")
    install("yard-lines", "3", "yard-sets")
    for name in ("yard-ink", "yard-old", "yard-test"):
        install(name, "4")
    assert list(packages("yard")) == ["yard-ink 4", "yard-lines 3", "yard-none none", "yard-sets 2"]


def test_the_packages_below_the_page_engine_are_among_them() -> None:
    assert {f"{name} {version(name)}" for name in ("weasyprint", "pydyf", "pyphen", "tinycss2")} <= set(packages())


def test_the_libraries_are_those_that_the_page_engine_has_loaded() -> None:
    found = dict(system_libraries())
    ffi.cdef("const char *hb_version_string(void);")
    ffi.cdef("int FcGetVersion(void);")
    ffi.cdef("const char *pango_version_string(void);")
    assert found["Pango"] == ffi.string(pango.pango_version_string()).decode()
    assert found["HarfBuzz"] == ffi.string(harfbuzz.hb_version_string()).decode()
    numbers = [int(number) for number in found["Fontconfig"].split(".")]
    assert sum(number * by for number, by in zip(numbers, (10_000, 100, 1), strict=True)) == fontconfig.FcGetVersion()
    assert all(found[name].count(".") == 2 for name in ("FreeType", "FriBidi"))


def test_a_library_that_is_not_there_has_no_version(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(libraries._ELSEWHERE, "Pango", "libpango-0.so.9")
    monkeypatch.setitem(libraries._DARWIN, "Pango", "libpango-0.9.dylib")
    assert dict(system_libraries())["Pango"] == "none"


def test_no_engine_is_imported_to_ask() -> None:
    code = (
        "import sys; from tracksworn.batch.program import program_digest; program_digest(); "
        "print(*{'weasyprint', 'cffi', 'fontTools', 'numpy'} & sys.modules.keys())"
    )
    paths = str(Path(__file__).parents[2] / "src")
    done = subprocess.run(
        [sys.executable, "-c", code], env={"PYTHONPATH": paths}, capture_output=True, text=True, check=True
    )
    assert done.stdout == "\n"
