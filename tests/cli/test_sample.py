"""`tracksworn sample` as a user sees it."""

from pathlib import Path

from cli.conftest import Run


def test_a_sale_lies_in_its_folder_and_has_no_fault(tracksworn: Run, tmp_path: Path) -> None:
    done = tracksworn("sample", "--count", "3", "--seed", "7", "--photos", "1", "--to", "made/sale")
    assert (done.returncode, done.stdout) == (0, "")
    assert done.stderr == "3 invented lots are listed in made/sale/lots.csv\n"
    lots = sorted(path.name for path in (tmp_path / "made/sale").glob("SMP-*"))
    assert [name for name in lots if "-E" not in name] == ["SMP-7-0001", "SMP-7-0002", "SMP-7-0003"]
    checked = tracksworn("check", *(f"made/sale/{name}" for name in lots))
    assert (checked.returncode, checked.stderr) == (0, "")


def test_a_folder_with_something_in_it_is_left_alone(tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "charts").write_text("of my own")
    done = tracksworn("sample", "--count", "3", "--seed", "7", "--to", "mine")
    assert done.returncode == 2
    assert done.stderr == "wrong use: mine has something in it; name another folder, or empty that one\n"
    assert [path.name for path in (tmp_path / "mine").iterdir()] == ["charts"]


def test_a_share_beyond_all_is_wrong_use(tracksworn: Run, tmp_path: Path) -> None:
    done = tracksworn("sample", "--count", "3", "--seed", "7", "--to", "sale", "--faults", "20")
    assert done.returncode == 2
    assert "--faults" in done.stderr
    assert not (tmp_path / "sale").exists()
