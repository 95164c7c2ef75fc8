"""What a PDF carries: its language, and the files that its inspections name, as they lie in the demo."""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

import pikepdf
import yaml
from documents.render.tools import run
from judges.documents import DEMO, TERMS, Judged, Kind

COMPUTED: Final = ("assessment.json", "fingerprint.json")
_NAMED: Final = ("chart", "letterhead", "prices", "terms")


def faults(file: Path, judged: Judged) -> list[str]:
    """Whatever differs from what it should carry."""
    with pikepdf.open(file) as pdf:
        language = str(pdf.Root.get("/Lang", ""))
        contents = {name: one.get_file().read_bytes() for name, one in pdf.attachments.items()}
    found = [] if language == judged.language else [f"its language is {language!r}, not {judged.language!r}"]
    wanted, listed = set(names(judged)), _listed(file)
    found += [f"it does not carry {name}" for name in sorted(wanted - listed)]
    found += [f"it carries {name} too" for name in sorted(listed - wanted)]
    return found + [f"{name} is not as it was read" for name in sorted(wanted & listed) if not _as_read(name, contents)]


def names(judged: Judged) -> Iterator[str]:
    """The files that it should carry, read from the inspections themselves."""
    if judged.kind is not Kind.COMPARISON:
        yield from _beside(judged.numbers[0])
        if judged.kind is Kind.CERTIFICATE and "terms" not in _read(judged.numbers[0]):
            yield TERMS
        return
    yield "fingerprint.json"
    for number in judged.numbers:
        yield from (f"{number}-r{_read(number).get('revision', 0)}/{name}" for name in _beside(number))


def _beside(number: str) -> Iterator[str]:
    yield from COMPUTED
    yield f"{number}/inspection.yaml"
    found = _read(number)
    for named in (*(found[key] for key in _NAMED if key in found), *found.get("earlier", ())):
        if named.endswith(".yaml"):
            yield os.path.normpath(f"{number}/{named}")


def _read(number: str) -> dict[str, Any]:
    found: dict[str, Any] = yaml.safe_load((DEMO / number / "inspection.yaml").read_text("utf-8"))
    return found


def _listed(file: Path) -> set[str]:
    heading, *lines = run("pdfdetach", "-list", file).splitlines()
    assert heading.endswith("embedded files"), heading
    return {line.partition(": ")[2] for line in lines}


def _as_read(name: str, contents: dict[str, bytes]) -> bool:
    """Whether it is the file of the demo; a line of terms may follow where the demo has none."""
    if name.endswith(COMPUTED):
        return True
    whole = DEMO / name
    there = whole if whole.is_file() else DEMO / name.partition("/")[2]
    return contents[name].removesuffix(f"\nterms: ../{TERMS}\n".encode()) == there.read_bytes()
