"""Pages in five scripts, in a letterhead's own font and with stand-ins are PDF/A-3a and PDF/UA-1 too."""

from pathlib import Path

import pytest
from five_scripts import JAPANESE, five_scripts
from judges import sheets
from judges.verapdf import VeraPdf

from tracksworn.documents.full.build import full_report
from tracksworn.documents.render.render import render
from tracksworn.documents.report import assess_dossier

pytestmark = pytest.mark.slow


@pytest.mark.parametrize(
    ("place", "fonts", "postscript"),
    [("ساحة النور، صف 14", "", False), ("日本 🚜 ساحة", JAPANESE, False), ("日本 🚜 ساحة", JAPANESE, True)],
)
def test_no_judge_finds_a_fault(place: str, fonts: str, postscript: bool, verapdf: VeraPdf, tmp_path: Path) -> None:
    dossier = five_scripts(place=place, fonts=fonts, postscript=postscript)
    (made,) = render(full_report(dossier, assess_dossier(dossier)), ["pdf"])
    (tmp_path / made.name).write_bytes(made.content)
    assert sheets.faults(tmp_path / made.name, verapdf) == []
