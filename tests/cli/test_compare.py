"""`tracksworn compare`: what it writes, and what it refuses with nothing written."""

from pathlib import Path

import pytest
from cli.conftest import GOOD, Run, copied


@pytest.fixture
def lots(tmp_path: Path) -> list[Path]:
    """Three that stand alone: the third is another look at the first machine."""
    return [
        copied(tmp_path / "one", "number: OXB-0231", "number: ONE"),
        _other(copied(tmp_path / "two", "number: OXB-0231", "number: TWO")),
        copied(tmp_path / "three", "number: OXB-0231", "number: THREE"),
    ]


def _other(folder: Path) -> Path:
    file = folder / "inspection.yaml"
    text = (
        file.read_text(encoding="utf-8").replace('serial: "20417"', 'serial: "20418"').replace("lot: 131", "lot: 132")
    )
    file.write_text(text, encoding="utf-8")
    return folder


def test_a_comparison_is_named_by_its_numbers(tracksworn: Run, lots: list[Path], tmp_path: Path) -> None:
    done = tracksworn("compare", *lots[:2], "--to", tmp_path / "out", "--format", "html,md")
    assert (done.returncode, done.stderr) == (0, "")
    assert [Path(line).name for line in done.stdout.splitlines()] == ["compare-ONE-TWO.html", "compare-ONE-TWO.md"]
    page = (tmp_path / "out" / "compare-ONE-TWO.md").read_text(encoding="utf-8")
    assert "Lots 131 and 132 cannot be told apart" in page
    assert "track guide fitted" in page


def test_two_looks_at_one_machine_are_told_as_that(tracksworn: Run, lots: list[Path], tmp_path: Path) -> None:
    done = tracksworn("compare", lots[0], lots[2], "--to", tmp_path / "out", "--format", "md")
    assert done.returncode == 0
    page = (tmp_path / "out" / "compare-ONE-THREE.md").read_text(encoding="utf-8")
    assert "One machine, inspected twice: both are of one day" in page
    assert "Merrow" in page
    assert "more worn than" not in page


@pytest.mark.parametrize("count", [1, 9])
def test_too_few_and_too_many_are_told(tracksworn: Run, tmp_path: Path, count: int) -> None:
    done = tracksworn("compare", *[GOOD] * count, "--to", tmp_path / "out")
    assert done.returncode == 1
    assert "a comparison holds 2 to 8 inspections" in done.stderr
    assert f"{count}\n" in done.stderr
    assert not (tmp_path / "out").exists()


def test_the_same_one_twice_is_told(tracksworn: Run, lots: list[Path], tmp_path: Path) -> None:
    done = tracksworn("compare", lots[0], lots[1], lots[0], "--to", tmp_path / "out")
    assert done.returncode == 1
    assert "number ONE, revision 0, is that of" in done.stderr
    assert "give each inspection once" in done.stderr
    assert not (tmp_path / "out").exists()


def test_faults_of_all_are_told_and_nothing_is_written(tracksworn: Run, tmp_path: Path) -> None:
    bad = copied(tmp_path / "bad", "layout: excavator", "layout: digger")
    worse = copied(tmp_path / "worse", "inspected: 2031-05-02", "inspected: soon")
    done = tracksworn("compare", bad, worse, GOOD, "--to", tmp_path / "out")
    assert done.returncode == 1
    assert "digger" in done.stderr
    assert "soon" in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "out").exists()


def test_a_letterhead_of_no_inspection_here_is_wrong_use(tracksworn: Run, lots: list[Path], tmp_path: Path) -> None:
    done = tracksworn("compare", *lots[:2], "--to", tmp_path / "out", "--letterhead-of", "FOUR")
    assert done.returncode == 2
    assert "is none of the inspections here: ONE, TWO" in done.stderr
