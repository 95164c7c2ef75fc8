"""Every kind of document, of every layout, in every language, as PDF, HTML, Markdown and picture: no judge has a fault.

One test makes a document once and asks all judges. An ordinary run judges a few documents, of every kind, layout and
language; `./run test --all` judges them all.
"""

from pathlib import Path
from typing import Final

import pytest
from judges import carried, filling, marked, rasters, screens, sheets
from judges.documents import BESIDE, MACHINES, Judged, Kind, every, few, made, wanted, written
from judges.verapdf import VeraPdf
from playwright.sync_api import Browser

from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.gate.printed import check_pdf
from tracksworn.inspection.languages import LANGUAGES

pytestmark = pytest.mark.slow
_SIDES: Final = ({str(kind) for kind in Kind}, set(MACHINES.values()), set(LANGUAGES))


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "judged" in metafunc.fixturenames:
        chosen = (*every(), *BESIDE) if metafunc.config.getoption("--all") else (*few(), BESIDE[1], BESIDE[-1])
        metafunc.parametrize("judged", chosen, ids=str)


def test_no_judge_finds_a_fault(judged: Judged, verapdf: VeraPdf, browser: Browser, tmp_path: Path) -> None:
    formats = ["pdf", "html", "md", *(["png"] if judged.kind is Kind.LISTING else [])]
    there = written(made(judged, formats), tmp_path)
    assert there.keys() == set(formats)
    found = {
        "pdf": [*sheets.faults(there["pdf"], verapdf), *carried.faults(there["pdf"], judged)],
        "sheets": filling.faults(there["pdf"]),
        "sight": of_sight(there["pdf"], judged) if not judged.in_own_order else [],
        "html": screens.faults(there["html"], browser, judged.language),
        "md": marked.faults(there["md"]),
        "png": rasters.faults(there["png"], there["pdf"]) if "png" in there else [],
    }
    assert {where: faults for where, faults in found.items() if faults} == {}


def of_sight(file: Path, judged: Judged) -> list[str]:
    """What must be seen and is not; the program itself looks only at what a firm's own templates make."""
    try:
        check_pdf(file.read_bytes(), wanted(judged))
    except Refused as error:
        return [str(error)]
    return []


def test_few_documents_hold_every_kind_layout_and_language() -> None:
    seen: dict[str, set[str]] = {}
    for one in few():
        sides = (str(one.kind), one.numbers[0], one.language)
        for side in sides:
            seen.setdefault(side, set()).update(sides)
    assert seen.keys() == {side for one in every() for side in (str(one.kind), one.numbers[0], one.language)}
    for side, beside in seen.items():
        assert all(len(beside & some) > 1 for some in _SIDES if side not in some), side
    assert len(set(every())) == len(Kind) * 5 * len(LANGUAGES)
