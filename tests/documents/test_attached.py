"""What a document carries is enough to compute its assessment anew, with nothing but the document at hand."""

import json
import shutil
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from hashlib import sha256
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from documents.render.tools import run, words_of_pdf

from tracksworn.assessment.model import Assessment
from tracksworn.documents import attached
from tracksworn.documents.attached import Attachment, Relationship, attachments, attachments_of_parts, state
from tracksworn.documents.fingerprint import fingerprint, first_digits
from tracksworn.documents.full import closing
from tracksworn.documents.render.attaching import attach
from tracksworn.documents.render.files import Refused, Sheet
from tracksworn.documents.report import assess_dossier, make_comparison, make_report
from tracksworn.documents.statement import in_json, statement
from tracksworn.documents.words.language import Language
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.reading import read_attached, read_inspection
from tracksworn.inspection.vocabulary import Kind

DEMO = Path(__file__).parents[2] / "demo_inspections"
NUMBERS = sorted(path.parent.name for path in DEMO.glob("*/inspection.yaml"))


@cache
def demo(number: str) -> tuple[Dossier, Assessment]:
    dossier = read_inspection(DEMO / number)
    return dossier, assess_dossier(dossier)


def named(carried: tuple[Attachment, ...]) -> dict[str, bytes]:
    return {one.name: one.content for one in carried}


def write(files: Mapping[str, bytes], folder: Path) -> None:
    for name, content in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)


def assert_computed_anew(folder: Path, number: str) -> str:
    """The assessment in a folder is what its files give, its fingerprint of these very files; the fingerprint."""
    dossier = read_attached(folder / number / "inspection.yaml")
    assessment = assess_dossier(dossier)
    assert (folder / "assessment.json").read_text(encoding="utf-8") == in_json(statement(assessment))
    held = (folder / "fingerprint.json").read_bytes()
    of = json.loads(held)
    assert of["assessment"] == json.loads((folder / "assessment.json").read_bytes())
    own = dossier.digests or {}
    assert own.items() <= of["files"].items()
    assert all("/photos/" in name for name in of["files"].keys() - own.keys())
    assert sha256(held).hexdigest() == fingerprint(statement(assessment), of["files"])
    return sha256(held).hexdigest()


@pytest.mark.parametrize("number", NUMBERS)
def test_every_demo_is_computed_anew_from_what_is_attached_alone(number: str, tmp_path: Path) -> None:
    dossier, assessment = demo(number)
    write(named(attachments(dossier, state(dossier, assessment), Language())), tmp_path)
    assert assert_computed_anew(tmp_path, number) == fingerprint(statement(assessment), dossier.digests or {})


def test_each_says_what_it_is_to_the_document() -> None:
    dossier, assessment = demo("MPS-2031-0418")
    carried = attachments(dossier, state(dossier, assessment), Language())
    assert {one.name: (str(one.relationship), one.media_type) for one in carried} == {
        "assessment.json": ("Data", "application/json"),
        "fingerprint.json": ("Data", "application/json"),
        "MPS-2031-0418/inspection.yaml": ("Source", "application/yaml"),
        "charts/hollin-h640e.yaml": ("Source", "application/yaml"),
        "letterheads/millrace.yaml": ("Source", "application/yaml"),
        "prices/2031.yaml": ("Source", "application/yaml"),
        "terms/lantern-plan.yaml": ("Source", "application/yaml"),
        **{
            f"{number}/inspection.yaml": ("Source", "application/yaml")
            for number in ("MPS-2030-0377", "MPS-2030-0219", "MPS-2029-0512")
        },
    }
    said = [one.what for one in carried]
    assert said.count("Earlier inspection") == 3
    assert all(said)


def test_what_a_file_says_later_is_not_what_was_read(tmp_path: Path) -> None:
    shutil.copytree(DEMO, tmp_path / "demo", ignore=shutil.ignore_patterns("*.py", "pictures"))
    dossier = read_inspection(tmp_path / "demo" / "OXB-0231")
    file = tmp_path / "demo" / "OXB-0231" / "inspection.yaml"
    read = file.read_bytes()
    file.write_bytes(read.replace(b"6120", b"1000"))
    carried = attachments(dossier, state(dossier, assess_dossier(dossier)), Language())
    assert named(carried)["OXB-0231/inspection.yaml"] == read


def detached_by_poppler(file: Path, folder: Path) -> dict[str, bytes]:
    """What pdfdetach lists and saves, one after the other."""
    _, *listed = run("pdfdetach", "-list", file).splitlines()
    found = {}
    for line in listed:
        index, name = line.split(": ", 1)
        run("pdfdetach", "-save", index, "-o", folder / index, file)
        found[name] = (folder / index).read_bytes()
    return found


@pytest.mark.slow
def test_a_report_carries_it_for_any_reader(tmp_path: Path) -> None:
    dossier, assessment = demo("MPS-2031-0418")
    carried = attachments(dossier, state(dossier, assessment), Language())
    file = tmp_path / "report.pdf"
    file.write_bytes(make_report(dossier, formats=["pdf"])["MPS-2031-0418-r0-full.pdf"])
    (tmp_path / "poppler").mkdir()
    assert detached_by_poppler(file, tmp_path / "poppler") == named(carried)
    with pikepdf.open(file) as pdf:
        write({name: pdf.attachments[name].get_file().read_bytes() for name in pdf.attachments}, tmp_path / "alone")
        associated = [spec for spec in pdf.Root.AF]  # noqa: C416 - an array of PDF, not of Python
        assert [str(spec.UF) for spec in associated] == [one.name for one in carried]
        stamp = dossier.inspection.date_of_document.strftime("D:%Y%m%d")
        for spec, one in zip(associated, carried, strict=True):
            assert str(spec.AFRelationship) == f"/{one.relationship}"
            assert str(spec.Desc) == one.what
            assert str(spec.EF.UF.Subtype) == f"/{one.media_type}"
            assert str(spec.EF.UF.Params.ModDate) == str(spec.EF.UF.Params.CreationDate) == stamp
            assert spec.EF.UF.Params.Size == len(one.content)
    digits = assert_computed_anew(tmp_path / "alone", "MPS-2031-0418")
    assert first_digits(digits) in words_of_pdf(file)


@pytest.mark.slow
def test_a_comparison_carries_that_of_each_part(tmp_path: Path) -> None:
    numbers = ("MPS-2031-0418", "OXB-0227")
    parts = [demo(number) for number in numbers]
    file = tmp_path / "comparison.pdf"
    (content,) = make_comparison([dossier for dossier, _ in parts], formats=["pdf"]).values()
    file.write_bytes(content)
    with pikepdf.open(BytesIO(content)) as pdf:
        write({name: pdf.attachments[name].get_file().read_bytes() for name in pdf.attachments}, tmp_path / "alone")
    digits = [assert_computed_anew(tmp_path / "alone" / f"{number}-r0", number) for number in numbers]
    held = (tmp_path / "alone" / "fingerprint.json").read_bytes()
    assert json.loads(held) == {"parts": digits}
    assert first_digits(sha256(held).hexdigest()) in words_of_pdf(file)


def test_parts_with_the_same_files_keep_them_apart() -> None:
    dossier, assessment = demo("OXB-0231")
    later = replace(dossier, inspection=replace(dossier.inspection, revision=1))
    parts = [(one, state(one, assessment)) for one in (dossier, later)]
    names = [one.name for one in attachments_of_parts(parts, Language())]
    assert len(names) == len(set(names)) == 9
    assert {"OXB-0231-r0/letterheads/oxbow.yaml", "OXB-0231-r1/letterheads/oxbow.yaml"} <= set(names)


@pytest.mark.slow
@pytest.mark.parametrize("document", Sheet)
def test_a_document_states_its_assessment_once(document: Sheet, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[Assessment] = []

    def counted(assessment: Assessment) -> dict[str, object]:
        asked.append(assessment)
        return statement(assessment)

    for module in (attached, closing):
        monkeypatch.setattr(module, "statement", counted)
    dossier, _ = demo("MPS-2031-0418")
    make_report(dossier, document=document, formats=["md"])
    assert len(asked) == 1


def test_two_files_of_one_name_are_refused() -> None:
    dossier, assessment = demo("OXB-0231")
    chart = replace(dossier.sources[0], name="assessment.json", kind=Kind.CHART)
    carried = attachments(replace(dossier, sources=(*dossier.sources, chart)), state(dossier, assessment), Language())
    with pikepdf.new() as pdf, pytest.raises(Refused, match=r"the name 'assessment\.json'; give one of them another"):
        attach(pdf, carried, "2031-05-02")


def test_an_inspection_that_was_not_read_from_files_carries_its_assessment(tmp_path: Path) -> None:
    dossier, assessment = demo("OXB-0231")
    told = replace(dossier, sources=(), digests=None)
    carried = attachments(told, state(told, assessment), Language())
    assert [one.relationship for one in carried] == [Relationship.DATA] * 2
