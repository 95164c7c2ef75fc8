"""The judges of PDF/A-3a, of PDF/UA-1 and of sound files refuse what is none."""

from collections.abc import Callable
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from judges import sheets, specimen
from judges.verapdf import ACCESSIBLE, ARCHIVABLE, JARS, VeraPdf

pytestmark = pytest.mark.slow


def test_no_judge_finds_a_fault_in_the_specimen(verapdf: VeraPdf, tmp_path: Path) -> None:
    (tmp_path / "sound.pdf").write_bytes(specimen.sound())
    assert sheets.faults(tmp_path / "sound.pdf", verapdf) == []


@pytest.mark.parametrize(
    ("spoil", "flavour", "rule"),
    [
        (specimen.font_left_out, ARCHIVABLE, "6.2.11.4.1-1"),
        (specimen.font_left_out, ACCESSIBLE, "7.21.4.1-1"),
        (specimen.no_relationship, ARCHIVABLE, "6.8-"),
        (specimen.not_associated, ARCHIVABLE, "6.8-"),
        (specimen.no_media_type, ARCHIVABLE, "6.8-"),
        (specimen.no_tags, ARCHIVABLE, "6.7.3.3-1"),
        (specimen.script, ARCHIVABLE, "6.5.1-1"),
        (specimen.no_title, ACCESSIBLE, "7.1-9"),
        (specimen.title_not_shown, ACCESSIBLE, "7.1-10"),
        (specimen.no_language, ACCESSIBLE, "7.2-"),
        (specimen.no_alternative, ACCESSIBLE, "7.3-1"),
        (specimen.not_declared, ACCESSIBLE, "5-1"),
    ],
)
def test_verapdf_refuses(
    spoil: Callable[[pikepdf.Pdf], None], flavour: str, rule: str, verapdf: VeraPdf, tmp_path: Path
) -> None:
    with pikepdf.open(BytesIO(specimen.sound())) as pdf:
        spoil(pdf)
        pdf.save(tmp_path / "spoiled.pdf")
    broken = verapdf.broken(tmp_path / "spoiled.pdf", flavour)
    assert any(one.startswith(rule) for one in broken), broken


def test_pdffonts_refuses_a_font_left_out(tmp_path: Path) -> None:
    with pikepdf.open(BytesIO(specimen.sound())) as pdf:
        specimen.font_left_out(pdf)
        pdf.save(tmp_path / "spoiled.pdf")
    assert any("not embedded" in fault for fault in sheets.of_fonts(tmp_path / "spoiled.pdf"))


def test_pdffonts_refuses_a_whole_font(tmp_path: Path) -> None:
    with pikepdf.open(BytesIO(specimen.sound())) as pdf:
        specimen.not_called_a_subset(pdf)
        pdf.save(tmp_path / "spoiled.pdf")
    assert any("not a subset" in fault for fault in sheets.of_fonts(tmp_path / "spoiled.pdf"))


def test_qpdf_refuses_a_broken_file(tmp_path: Path) -> None:
    (tmp_path / "cut.pdf").write_bytes(specimen.sound()[:-200])
    assert sheets.of_form(tmp_path / "cut.pdf") != []


def test_a_file_that_is_none_is_not_judged_sound(verapdf: VeraPdf, tmp_path: Path) -> None:
    (tmp_path / "none.pdf").write_bytes(b"no PDF")
    with pytest.raises(AssertionError, match="not judged"):
        verapdf.broken(tmp_path / "none.pdf", ARCHIVABLE)


def test_a_standard_that_is_not_known_is_not_taken_for_another(verapdf: VeraPdf, tmp_path: Path) -> None:
    (tmp_path / "sound.pdf").write_bytes(specimen.sound())
    with pytest.raises(AssertionError, match=r"^(judged as another|not judged)"):
        verapdf.broken(tmp_path / "sound.pdf", "9z")


def test_a_judge_that_is_not_there_fails(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match="libjaxb-java"):
        VeraPdf([*JARS[:-1], tmp_path / "absent.jar"])
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(AssertionError, match="default-jre-headless"):
        VeraPdf()
    with pytest.raises(AssertionError, match="not installed"):
        sheets.of_form(tmp_path / "any.pdf")
    with pytest.raises(AssertionError, match="not installed"):
        sheets.of_fonts(tmp_path / "any.pdf")
