"""What README.md and DEVELOPERS.md say is true of the tree."""

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

import tracksworn
from tracksworn.cli.commands import tracksworn as commands
from tracksworn.cli.main import run
from tracksworn.inspection.reading import check, read_inspection

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
SAMPLES = re.findall(r"```yaml\n(.*?)```", README, re.DOTALL)


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda sample: sample.partition("\n")[0])
def test_a_sample_has_no_fault(sample: str, tmp_path: Path) -> None:
    file = tmp_path / "sample.yaml"
    file.write_text(sample, encoding="utf-8")
    assert check(file) == ()


def test_samples_show_every_kind_that_an_inspector_writes() -> None:
    assert [sample.split()[1] for sample in SAMPLES] == ["inspection", "wear", "letterhead", "prices", "terms"]


def test_faults_are_told_as_the_readme_shows_them(tmp_path: Path) -> None:
    told = re.findall(r"^    tarn-22/inspection\.yaml:(.+)$", README, re.MULTILINE)
    assert len(told) == 2
    slips = SAMPLES[0].replace("inspected: 2031-05-02", "inspected: 02.05.2031").replace("sprocket:", "sproket:")
    file = tmp_path / "inspection.yaml"
    file.write_text(slips, encoding="utf-8")
    assert [str(fault).removeprefix(f"{file}:") for fault in check(file)] == told


@pytest.mark.slow
def test_the_commands_to_begin_with_work_in_their_order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    typed = re.findall(r"^    tracksworn ([a-z].+)$", README, re.MULTILINE)
    names = [words.split()[0] for words in typed]
    assert names == [
        *("new", "check", "assess", "report", "compare", "sample", "batch", "key", "seal", "verify"),
        *["archive"] * 3,
    ]
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TRACKSWORN_KEY_PASSWORD", "practice")
    shutil.copytree(ROOT / "demo_inspections", tmp_path / "demo_inspections")
    assert [run([*_expanded(words)]) for words in typed] == [0] * len(typed)
    assert {path.name for path in (tmp_path / "output").iterdir()} == {
        "TO-BE-NUMBERED-r0-full.pdf",
        "compare-MPS-2031-0418-OXB-0227.pdf",
    }
    assert {"index.html", "index.xlsx", "catalogue.pdf"} < {path.name for path in (tmp_path / "sale").iterdir()}
    assert [path.name for path in (tmp_path / "sealed").iterdir()] == ["MPS-2031-0418-r0-full.pdf"]


def _expanded(words: str) -> Iterator[str]:
    """Words as a shell hands them on."""
    for word in words.split():
        yield from map(str, Path().glob(word)) if "*" in word else [word]


def test_what_an_inspection_says_of_its_history_has_no_fault(tmp_path: Path) -> None:
    (block,) = re.findall(r"^    earlier: .+\n((?:    .+\n)+)", README, re.MULTILINE)
    fitted = re.sub(r"^    ", "", block, flags=re.MULTILINE)
    file = tmp_path / "inspection.yaml"
    later = SAMPLES[0].replace("hours: 6120", "hours: 8412")
    file.write_text(later.replace("readings:", f"{fitted}readings:"), encoding="utf-8")
    assert check(file) == ()
    parts = read_inspection(file).inspection.fitted
    assert len(parts) == 4
    assert any(fitting.turned_at == 7100.0 for fitting in parts.values())


def test_the_table_of_commands_is_the_list_of_commands() -> None:
    rows = re.findall(r"^\| `tracksworn (\w+) ", README, re.MULTILINE)
    assert sorted(rows) == sorted(commands.list_commands(click.Context(commands)))


def test_the_table_of_demo_machines_is_the_list_of_them() -> None:
    rows = set(re.findall(r"^\| `([A-Z]+-[\d-]+)` ", README, re.MULTILINE))
    assert rows == {path.parent.name for path in (ROOT / "demo_inspections").glob("*/inspection.yaml")}


@pytest.mark.parametrize("text", [README, DEVELOPERS], ids=["README", "DEVELOPERS"])
def test_links_lead_to_files(text: str) -> None:
    for target in re.findall(r"\]\(([^)]+)\)", text):
        assert (ROOT / target).is_file(), target


def test_paths_that_contributors_are_told_of_are_there() -> None:
    named = re.findall(r"`([\w./]+?(?:\.py|/))`", DEVELOPERS)
    package = ROOT / "src" / "tracksworn"
    shown = (
        *("documents", "documents/full", "batch"),
        *("records", "records/sealing", "records/verifying", "records/archive", "records/log"),
        *("assessment", "assessment/findings", "assessment/forecast", "assessment/plan", "assessment/conformity"),
    )
    places = (
        ROOT,
        *(
            ROOT / folder
            for folder in ("tests", "tests/records", "tests/records/sealing", "tests/records/verifying", "tests/batch")
        ),
        package,
        *(package / room for room in shown),
    )
    for name in named:
        assert any((place / name).exists() for place in places), name


def test_the_changelog_begins_with_this_version() -> None:
    first = re.search(r"^## ([\d.]+)", (ROOT / "CHANGELOG.md").read_text(encoding="utf-8"), re.MULTILINE)
    assert first is not None
    assert first[1] == tracksworn.__version__
