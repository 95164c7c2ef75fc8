"""What each command gives, as a user sees it."""

import json
from pathlib import Path

import pytest
from cli.conftest import DEMO, ROOT, Run

from tracksworn.cli.commands import SHELLS
from tracksworn.cli.commands import tracksworn as group

GOOD = DEMO / "OXB-0231" / "inspection.yaml"
OTHER = DEMO / "MPS-2031-0402" / "inspection.yaml"
COMMANDS = sorted(group.commands)


def test_every_demo_is_without_fault(tracksworn: Run) -> None:
    done = tracksworn("check", *sorted(DEMO.glob("*/inspection.yaml")), *sorted(DEMO.glob("charts/*.yaml")))
    assert done.returncode == 0, done.stderr


def test_the_assessment_is_json_or_a_table_without_colour(tracksworn: Run) -> None:
    as_json = tracksworn("assess", GOOD, "--json")
    assert json.loads(as_json.stdout)["number"] == "OXB-0231"
    table = tracksworn("assess", GOOD.parent, NO_COLOR="1", FORCE_COLOR="", COLUMNS="160")
    assert table.returncode == 0, table.stderr
    assert "\x1b[3" not in table.stdout
    for word in ("Merrow Tarn 22", "about 40", "beside a wall", "left bottom roller 8"):
        assert word.lower() in table.stdout.lower()


def test_a_report_is_named_by_its_inspection(tracksworn: Run, tmp_path: Path) -> None:
    done = tracksworn("report", GOOD, "--to", "out", "--format", "md,html")
    assert done.returncode == 0, done.stderr
    assert set(done.stdout.split()) == {"out/OXB-0231-r0-full.md", "out/OXB-0231-r0-full.html"}
    assert (tmp_path / "out" / "OXB-0231-r0-full").is_dir()


def test_faults_in_one_inspection_leave_the_others(tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "bad.yaml").write_text("tracksworn: inspection 1\n")
    done = tracksworn("report", "bad.yaml", GOOD, "--to", "out", "--format", "md")
    assert done.returncode == 1
    assert "bad.yaml:1:1: " in done.stderr
    assert done.stdout.split() == ["out/OXB-0231-r0-full.md"]


@pytest.mark.parametrize("kind", ["inspection", "chart", "letterhead", "prices", "terms"])
def test_a_starting_file_is_without_fault_and_names_its_schema(tracksworn: Run, tmp_path: Path, kind: str) -> None:
    assert tracksworn("new", kind, "--to", f"mine/{kind}.yaml").returncode == 0
    first = (tmp_path / "mine" / f"{kind}.yaml").read_text().splitlines()[0]
    assert f"{kind}.schema.json" in first
    schema = json.loads((tmp_path / "mine" / f"{kind}.schema.json").read_text())
    assert schema == json.loads(tracksworn("schema", kind).stdout)
    assert tracksworn("check", f"mine/{kind}.yaml").returncode == 0


def test_a_file_that_is_there_is_left_as_it_is(tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "inspection.yaml").write_text("mine")
    done = tracksworn("new", "inspection", "--to", "inspection.yaml")
    assert done.returncode == 2
    assert "is there already" in done.stderr
    assert (tmp_path / "inspection.yaml").read_text() == "mine"


def test_the_table_of_findings_names_code_severity_and_meaning(tracksworn: Run) -> None:
    done = tracksworn("schema", "findings", COLUMNS="200")
    assert "dry-joint" in done.stdout
    assert "act" in done.stdout


@pytest.mark.parametrize("shell", SHELLS)
def test_a_shell_can_complete(tracksworn: Run, shell: str) -> None:
    done = tracksworn("--completion", shell)
    assert done.returncode == 0
    assert "_TRACKSWORN_COMPLETE" in done.stdout


def test_completion_knows_the_commands(tracksworn: Run) -> None:
    done = tracksworn(_TRACKSWORN_COMPLETE="bash_complete", COMP_WORDS="tracksworn re", COMP_CWORD="1")
    assert "report" in done.stdout


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_itself_and_is_in_the_readme(tracksworn: Run, name: str) -> None:
    done = tracksworn(name, "--help")
    assert done.returncode == 0
    assert len(done.stdout.splitlines()) >= 5
    assert f"`tracksworn {name}" in (ROOT / "README.md").read_text()


def test_the_readme_names_no_command_that_is_not_there() -> None:
    import re

    named = set(re.findall(r"`tracksworn ([a-z]+)", (ROOT / "README.md").read_text()))
    assert named <= set(COMMANDS)
