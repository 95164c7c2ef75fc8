"""A CommonMark parser refuses what is not read as it is meant."""

from pathlib import Path

import pytest
from judges.marked import faults

SOUND = "# A title\n\n![A dot](a/dot.svg)\n\n| a | b |\n| --- | --- |\n| 1 | 2 |\n\n## A part\n\nWords.\n"


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        ("", "", ""),
        ("Words.", "<b>Words</b>.", "raw HTML"),
        ("| a | b |\n", "", "1 tables are meant, 0 are read"),
        ("| 1 | 2 |\n", "", "a table without rows"),
        ("dot.svg", "other.svg", "a picture that is not there"),
        ("A dot", "", "a picture without words"),
        ("Words.", "** Words.**", "mark-up came through"),
        ("## A", "### A", "level 3 follows 1"),
        ("## A", "# A", "it has not one title"),
    ],
)
def test_it_refuses(old: str, new: str, fault: str, tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "a" / "dot.svg").write_text("<svg/>", encoding="utf-8")
    (tmp_path / "page.md").write_text(SOUND.replace(old, new, 1), encoding="utf-8")
    found = faults(tmp_path / "page.md")
    assert (found == []) if not fault else any(one.startswith(fault) for one in found)
