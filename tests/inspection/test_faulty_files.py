"""Every fault is told at its line and column, in words that say what would be right."""

import re
import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest
from tiny_font import tiny_font

from tracksworn.inspection.reading import check

EXAMPLE = Path(__file__).with_name("example")
TABLE = Path(__file__).with_name("faulty_files.txt")
KINDS = {
    "inspection": "OXB-0231/inspection.yaml",
    "chart": "charts/hollin-h640e.yaml",
    "prices": "prices/2031.yaml",
    "terms": "terms/lantern-plan.yaml",
    "letterhead": "letterheads/millrace.yaml",
}


@dataclass(frozen=True)
class Case:
    """In the good file of that kind `old` becomes `new`, and these faults are told."""

    what: str
    kind: str
    old: str | None
    new: str
    faults: tuple[str, ...]


def unescaped(line: str) -> str:
    return re.sub(r"\\(?:x..|u....|[rt])", lambda found: found[0].encode().decode("unicode_escape"), line)


def cases() -> list[Case]:
    read = []
    for block in TABLE.read_text(encoding="utf-8").split("\n== ")[1:]:
        title, *lines = block.splitlines()
        what, _, kind = title.rpartition(" [") if " [" in title else ("", "", title.removeprefix("["))
        old = [line[2:] for line in lines if line.startswith("-")]
        new = [unescaped(line[2:]) if line.startswith("+\\") else line[2:] for line in lines if line.startswith("+")]
        faults = tuple(line[2:] for line in lines if line.startswith("!"))
        read.append(Case(what, kind.removesuffix("]"), "\n".join(old) if old else None, "\n".join(new), faults))
    return read


GOOD, *CASES = cases()


def test_the_table_is_whole() -> None:
    assert len(CASES) >= 60
    assert len({case.what for case in CASES}) == len(CASES)
    assert all(case.faults for case in CASES)
    assert {case.kind for case in CASES} == set(KINDS)


def test_the_good_file_has_no_fault(tmp_path: Path) -> None:
    file = tmp_path / "inspection.yaml"
    file.write_text(GOOD.new + "\n", encoding="utf-8")
    assert check(file) == ()


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.what)
def test_every_fault_is_told_where_it_stands(case: Case, tmp_path: Path) -> None:
    file = tmp_path / KINDS[case.kind]
    file.parent.mkdir()
    good = GOOD.new + "\n" if case.kind == "inspection" else (EXAMPLE / KINDS[case.kind]).read_text(encoding="utf-8")
    if case.kind == "letterhead":
        (file.parent / "NotoSansJP.ttf").write_bytes(tiny_font("\u65e5\u672c"))
        for name in ("letterheads/millrace.svg", "charts/hollin-h640e.yaml"):
            (tmp_path / name).parent.mkdir(exist_ok=True)
            shutil.copy(EXAMPLE / name, tmp_path / name)
    if case.old is not None:
        assert case.old in good
    text = case.new if case.old is None else good.replace(case.old, case.new, 1)
    file.write_bytes(text.encode("utf-8", "surrogateescape"))
    faults = check(file)
    assert tuple(str(fault).removeprefix(f"{file}:") for fault in faults) == case.faults
