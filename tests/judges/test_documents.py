"""Every kind of document, of every layout, in every language, as PDF, HTML, Markdown and picture: no judge has a fault.

One test makes a document once and asks all judges. An ordinary run judges as few documents as hold every pair of kind,
layout and language; `./run test --all` judges them all.
"""

from pathlib import Path

import pytest
from judges import carried, filling, marked, rasters, screens, sheets
from judges.documents import BESIDE, Judged, Kind, covering, every, made, wanted, written
from judges.verapdf import VeraPdf
from playwright.sync_api import Browser

from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.gate.printed import check_pdf
from tracksworn.inspection.languages import LANGUAGES

pytestmark = pytest.mark.slow


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "judged" in metafunc.fixturenames:
        chosen = every() if metafunc.config.getoption("--all") else covering()
        metafunc.parametrize("judged", [*chosen, *BESIDE], ids=str)


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


def test_few_documents_hold_every_pair() -> None:
    def pairs(of: tuple[Judged, ...]) -> set[tuple[str, str]]:
        sides = [(str(one.kind), one.numbers[0], one.language) for one in of]
        return {
            pair for kind, number, language in sides for pair in ((kind, number), (kind, language), (number, language))
        }

    assert pairs(covering()) == pairs(every())
    assert len(set(every())) == len(Kind) * 5 * len(LANGUAGES)
