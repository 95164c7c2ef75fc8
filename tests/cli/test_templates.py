"""`--templates`: a firm's own pages, and what is told where they are wrong."""

import shutil
from pathlib import Path

from cli.conftest import GOOD, ROOT, Run


def test_the_example_copied_and_changed_in_an_empty_folder(tracksworn: Run, tmp_path: Path) -> None:
    own = tmp_path / "own"
    shutil.copytree(ROOT / "templates" / "example", own)
    page = (own / "full.md").read_text(encoding="utf-8").replace("bring a torch", "bring boots")
    (own / "full.md").write_text(page, encoding="utf-8")
    done = tracksworn("report", GOOD, "--to", "out", "--format", "md", "--templates", "own")
    assert (done.returncode, done.stderr) == (0, "")
    assert "bring boots" in (tmp_path / "out" / "OXB-0231-r0-full.md").read_text(encoding="utf-8")


def test_a_fault_is_told_with_its_line_and_nothing_is_written(tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "own").mkdir()
    text = '{% extends "tracksworn/compare.md" %}\n{% block word %}{% endblock %}'
    (tmp_path / "own" / "compare.md").write_text(text, encoding="utf-8")
    done = tracksworn("compare", GOOD, GOOD, "--to", "out", "--format", "md", "--templates", "own")
    assert done.returncode == 1
    assert done.stderr.startswith(
        "own/compare.md:2:1: `word` is no block of tracksworn/compare.md; did you mean `words`"
    )
    assert not (tmp_path / "out").exists()


def test_what_the_gate_refuses_names_folder_and_document(tracksworn: Run, tmp_path: Path) -> None:
    (tmp_path / "own").mkdir()
    text = '{% extends "tracksworn/full.md" %}{% block not_seen %}{% endblock %}'
    (tmp_path / "own" / "full.md").write_text(text, encoding="utf-8")
    done = tracksworn("report", GOOD, "--to", "out", "--format", "md", "--templates", "own")
    assert done.returncode == 1
    assert done.stderr.startswith("own:1:1: OXB-0231-r0-full: the document is not handed over: its list of what was")
    assert not (tmp_path / "out").exists()


def test_no_folder_there(tracksworn: Run) -> None:
    done = tracksworn("report", GOOD, "--to", "out", "--templates", "absent")
    assert done.returncode == 1
    assert done.stderr == "absent:1:1: this folder of templates is not there\n"
