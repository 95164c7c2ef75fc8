"""The files that an assessment is computed from, kept as they were read."""

from dataclasses import replace
from hashlib import sha256
from pathlib import Path

import pytest

from tracksworn.inspection import inputs, reading
from tracksworn.inspection.faults import Faulty
from tracksworn.inspection.reading import read_attached, read_inspection
from tracksworn.inspection.vocabulary import Kind

LONG = "MPS-2031-0418/inspection.yaml"
NAMES = {
    LONG: Kind.INSPECTION,
    "charts/hollin-h640e.yaml": Kind.CHART,
    "letterheads/millrace.yaml": Kind.LETTERHEAD,
    "prices/2031.yaml": Kind.PRICES,
    "terms/lantern-plan.yaml": Kind.TERMS,
    "MPS-2030-0377/inspection.yaml": Kind.INSPECTION,
}


def test_each_is_kept_under_its_name_with_its_kind(example: Path) -> None:
    dossier = read_inspection(example / LONG)
    assert {source.name: source.kind for source in dossier.sources} == NAMES
    assert dossier.sources[0].name == LONG
    for source in dossier.sources:
        assert source.content == (example / source.name).read_bytes()
        assert sha256(source.content).hexdigest() == (dossier.digests or {})[source.name]


def test_a_file_is_read_once_so_that_its_digest_is_of_what_was_read(
    example: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[Path] = []
    genuine = inputs.read_input

    def noted(path: Path, real: Path, limit: int) -> tuple[bytes, inputs.Input]:
        read.append(real)
        return genuine(path, real, limit)

    monkeypatch.setattr(reading, "read_input", noted)
    read_inspection(example / LONG)
    assert len(read) == len(set(read))
    assert {(example / name).resolve() for name in NAMES} <= set(read)


def write_attached(example: Path, folder: Path) -> Path:
    for source in read_inspection(example / LONG).sources:
        (folder / source.name).parent.mkdir(parents=True, exist_ok=True)
        (folder / source.name).write_bytes(source.content)
    return folder / LONG


def test_they_are_enough_to_read_it_anew_without_pictures(example: Path, tmp_path: Path) -> None:
    whole, anew = read_inspection(example / LONG), read_attached(write_attached(example, tmp_path / "alone"))
    assert (anew.photos, anew.mark, anew.fonts, anew.warnings) == ({}, None, (), ())
    assert anew.sources == whole.sources
    photos = {f"MPS-2031-0418/{name}" for name in whole.photos or {}}
    assert {**(anew.digests or {})} == {
        name: digest for name, digest in (whole.digests or {}).items() if name not in photos
    }
    like_it = replace(
        anew, folder=whole.folder, mark=whole.mark, fonts=whole.fonts, photos=whole.photos, digests=whole.digests
    )
    assert replace(like_it, earlier=(), warnings=(), inputs=()) == replace(whole, earlier=(), warnings=(), inputs=())
    assert [older.inspection for older in anew.earlier] == [older.inspection for older in whole.earlier]


def test_what_earlier_inspections_name_is_not_looked_for(example: Path, tmp_path: Path) -> None:
    earlier = example / "MPS-2030-0377/inspection.yaml"
    oldest = earlier.read_text(encoding="utf-8").replace("MPS-2030-0377", "MPS-2029-0001")
    (example / "MPS-2029-0001").mkdir()
    (example / "MPS-2029-0001/inspection.yaml").write_text(
        oldest.replace("2030-05-06", "2029-05-06").replace("6900", "5600"), encoding="utf-8"
    )
    named = earlier.read_text(encoding="utf-8").replace("chart:", "earlier: [../MPS-2029-0001/inspection.yaml]\nchart:")
    earlier.write_text(named, encoding="utf-8")
    alone = write_attached(example, tmp_path / "alone")
    assert read_attached(alone).earlier[0].earlier == ()
    with pytest.raises(Faulty, match="MPS-2029-0001"):
        read_inspection(alone)


def test_what_the_inspection_itself_names_must_be_there(example: Path, tmp_path: Path) -> None:
    alone = write_attached(example, tmp_path / "alone")
    (tmp_path / "alone/charts/hollin-h640e.yaml").unlink()
    with pytest.raises(Faulty, match="hollin-h640e"):
        read_attached(alone)
