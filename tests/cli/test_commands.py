"""What each command gives, as a user sees it."""

import json
import os
from pathlib import Path

import click
import pytest
from cli.conftest import DEMO, GOOD, Run, copied

from tracksworn.cli.commands import tracksworn as group
from tracksworn.inspection.vocabulary import Kind

COMMANDS = sorted(group.commands)


def test_files_of_every_kind_are_checked_together(tracksworn: Run) -> None:
    done = tracksworn("check", GOOD, *sorted(DEMO.glob("charts/*.yaml")), *sorted(DEMO.glob("letterheads/*.yaml")))
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_the_assessment_as_json_is_the_statement(tracksworn: Run) -> None:
    done = tracksworn("assess", GOOD / "inspection.yaml", "--json")
    assert done.returncode == 0
    assert done.stderr == ""
    statement = json.loads(done.stdout)
    assert (statement["tracksworn"], statement["number"]) == ("assessment 1", "OXB-0231")


def test_the_assessment_as_a_table_fits_a_narrow_terminal_and_loses_nothing(tracksworn: Run) -> None:
    done = tracksworn("assess", GOOD, NO_COLOR="1", COLUMNS="80")
    assert done.returncode == 0
    assert "\x1b[3" not in done.stdout
    assert "…" not in done.stdout
    assert max(map(len, done.stdout.splitlines())) <= 80
    for words in ("Merrow Tarn 22", "about 40", "40 to 50", "left less right", "beside a wall", "bottom roller 8"):
        assert words in " ".join(done.stdout.split())


def test_a_report_is_named_by_its_inspection_and_names_alone_are_printed(tracksworn: Run, tmp_path: Path) -> None:
    done = tracksworn("report", GOOD, "--to", "out", "--format", "md,html,md")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.splitlines() == ["out/OXB-0231-r0-full.md", "out/OXB-0231-r0-full.html"]
    assert {path.name for path in (tmp_path / "out").iterdir()} == {
        "OXB-0231-r0-full", "OXB-0231-r0-full.md", "OXB-0231-r0-full.html",
    }  # fmt: skip


def test_faults_in_one_inspection_leave_the_others(tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "bad.yaml").write_text("tracksworn: inspection 1\n")
    done = tracksworn("report", "bad.yaml", GOOD, "--to", "out", "--format", "md")
    assert done.returncode == 1
    assert "bad.yaml:1:1: " in done.stderr
    assert done.stdout.split() == ["out/OXB-0231-r0-full.md"]


def test_no_inspection_takes_the_place_of_another_with_its_number(tracksworn: Run, tmp_path: Path) -> None:
    copied(tmp_path / "one")
    copied(tmp_path / "two", "Oxbow Sale Yard", "Withy Sale Yard")
    first = tracksworn("report", "one", "two", "one/inspection.yaml", "--to", "out", "--format", "md")
    assert first.returncode == 1
    assert first.stderr == (
        "two:1:1: OXB-0231-r0-full.md is that of one already: the same number and revision; "
        "nothing is written for this one\n"
    )
    assert first.stdout.split() == ["out/OXB-0231-r0-full.md"] * 2


@pytest.mark.parametrize("kind", Kind)
def test_a_starting_file_names_its_schema_and_says_what_to_fill_in(tracksworn: Run, tmp_path: Path, kind: Kind) -> None:
    begun = tracksworn("new", kind, "--to", f"mine/{kind}.yaml")
    assert (begun.returncode, begun.stdout) == (0, "")
    assert begun.stderr == f"mine/{kind}.yaml is there to be filled in; then: tracksworn check mine/{kind}.yaml\n"
    assert f"{kind}.schema.json" in (tmp_path / "mine" / f"{kind}.yaml").read_text().splitlines()[0]
    assert (tmp_path / "mine" / f"{kind}.schema.json").read_text() == tracksworn("schema", kind).stdout
    checked = tracksworn("check", f"mine/{kind}.yaml")
    assert checked.returncode == 0
    assert all(": warning: " in line for line in checked.stderr.splitlines())
    assert checked.stderr


@pytest.mark.parametrize("layout", ["track-loader", "track loader"])
def test_a_layout_may_be_typed_with_a_hyphen(tracksworn: Run, tmp_path: Path, layout: str) -> None:
    assert tracksworn("new", "inspection", "--layout", layout, "--to", "inspection.yaml").returncode == 0
    assert "  layout: track loader\n" in (tmp_path / "inspection.yaml").read_text()


@pytest.mark.parametrize("make", [Path.touch, Path.mkdir, lambda path: path.symlink_to("nowhere")])
def test_what_is_there_is_left_as_it_is(tracksworn: Run, tmp_path: Path, make: object) -> None:
    assert callable(make)
    make(tmp_path / "inspection.yaml")
    done = tracksworn("new", "inspection", "--to", "inspection.yaml")
    assert done.returncode == 2
    assert "inspection.yaml" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["inspection.yaml"]


def test_a_starting_file_does_not_take_the_place_of_its_schema(tracksworn: Run, tmp_path: Path) -> None:
    done = tracksworn("new", "inspection", "--to", "inspection.schema.json")
    assert done.returncode == 2
    assert "is the name of the schema" in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_the_table_of_findings_names_code_severity_and_meaning(tracksworn: Run) -> None:
    from tracksworn.documents.words.findings import catalogue

    done = tracksworn("schema", "findings", COLUMNS="200")
    rows = [line.split(maxsplit=1)[0] for line in done.stdout.splitlines()]
    assert rows == ["code", *(entry.code for entry in catalogue())]


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_explains_itself(tracksworn: Run, name: str) -> None:
    done = tracksworn(name, "--help")
    assert (done.returncode, done.stderr) == (0, "")
    for parameter in group.commands[name].params:
        if isinstance(parameter, click.Option):
            assert parameter.help
            assert parameter.opts[0] in done.stdout
        else:
            argument = f"{parameter.metavar}".split()[0].removesuffix("...")
            assert argument in done.stdout.partition("Options:")[0].partition("\n")[2]


def test_names_that_are_no_utf_8_are_read_and_told(tracksworn: Run, tmp_path: Path) -> None:
    folder = tmp_path / os.fsdecode(b"Gr\xff\x1b[1m")
    copied(folder)
    done = tracksworn("report", folder, "--to", "out", "--format", "md")
    assert (done.returncode, done.stderr) == (0, "")
    (folder / "photos" / "left-side.jpg").unlink()
    done = tracksworn("check", folder.name)
    assert done.returncode == 1
    assert done.stderr.startswith("Gr\\xff\\x1b[1m/inspection.yaml:")


def test_the_version_asked_alone_reads_as_the_version_among_options(tracksworn: Run) -> None:
    alone, among = tracksworn("--version"), tracksworn("--version", "check")
    assert alone.returncode == among.returncode == 0
    assert alone.stdout == among.stdout
