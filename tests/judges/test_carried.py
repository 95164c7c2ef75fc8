"""A PDF that carries less, more or other than its inspection names is refused, and one in another language."""

from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest
from judges import carried
from judges.documents import DEMO, Judged, Kind

JUDGED = Judged(Kind.LISTING, ("OXB-0236",), "fr")


def loaded(folder: Path, spoil: Callable[[pikepdf.Pdf], object]) -> Path:
    """A PDF with what the sheet should carry, then spoiled."""
    with pikepdf.new() as pdf:
        pdf.add_blank_page()
        pdf.Root.Lang = "fr"
        for name in carried.names(JUDGED):
            content = b"{}" if name in carried.COMPUTED else (DEMO / name).read_bytes()
            pdf.attachments[name] = pikepdf.AttachedFileSpec(pdf, content, filename=name)
        spoil(pdf)
        pdf.save(folder / "loaded.pdf")
    return folder / "loaded.pdf"


def another(pdf: pikepdf.Pdf, name: str) -> None:
    pdf.attachments[name] = pikepdf.AttachedFileSpec(pdf, b"other", filename=name)


@pytest.mark.parametrize(
    ("spoil", "found"),
    [
        (lambda pdf: None, []),
        (lambda pdf: pdf.attachments.pop("assessment.json"), ["it does not carry assessment.json"]),
        (lambda pdf: another(pdf, "prices/2031.yaml"), ["it carries prices/2031.yaml too"]),
        (lambda pdf: another(pdf, "OXB-0236/inspection.yaml"), ["OXB-0236/inspection.yaml is not as it was read"]),
        (lambda pdf: setattr(pdf.Root, "Lang", "en"), ["its language is 'en', not 'fr'"]),
    ],
)
def test_what_it_carries(spoil: Callable[[pikepdf.Pdf], object], found: list[str], tmp_path: Path) -> None:
    assert carried.faults(loaded(tmp_path, spoil), JUDGED) == found
