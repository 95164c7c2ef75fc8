"""The invented machines: whole, without a warning, light, and plainly invented."""

import runpy
from pathlib import Path

import pytest
from PIL import Image

from tracksworn.inspection.reading import check, read_inspection
from tracksworn.inspection.vocabulary import Layout

DEMO = Path(__file__).parents[2] / "demo_inspections"
INSPECTIONS = sorted(DEMO.glob("*/inspection.yaml"))
FILES = sorted(DEMO.glob("*/*.yaml"))
PHOTOS = sorted(DEMO.glob("*/photos/*.jpg"))


def by_name(path: Path) -> str:
    return path.relative_to(DEMO).as_posix()


@pytest.mark.parametrize("file", FILES, ids=by_name)
def test_a_demo_file_has_no_fault_and_no_warning(file: Path) -> None:
    assert check(file) == ()


@pytest.mark.parametrize("file", INSPECTIONS, ids=by_name)
def test_every_demo_photo_belongs_to_a_place_and_every_named_one_is_there(file: Path) -> None:
    photos = read_inspection(file).photos or {}
    there = {path.relative_to(file.parent).as_posix() for path in file.parent.glob("photos/*")}
    assert {path.as_posix() for path in photos} == there


def test_the_demo_shows_the_range() -> None:
    inspections = [read_inspection(file).inspection for file in INSPECTIONS]
    assert {inspection.machine.layout for inspection in inspections} == set(Layout)
    assert any(inspection.chart is None for inspection in inspections)
    assert any(inspection.revision for inspection in inspections)


def test_the_demo_shows_what_decisions_rest_on() -> None:
    dossiers = {file.parent.name: read_inspection(file) for file in INSPECTIONS}
    whole = dossiers["MPS-2031-0418"]
    assert len(whole.earlier) == 3
    assert len({older.inspection.inspector.name for older in whole.earlier}) == 2
    assert whole.prices is not None
    assert whole.terms is not None
    assert any(one.prices and not one.earlier for one in dossiers.values())
    assert any(one.terms and not one.prices for one in dossiers.values())
    assert any(not (one.chart or one.prices or one.terms or one.earlier) for one in dossiers.values())


@pytest.mark.parametrize("file", FILES, ids=by_name)
def test_every_demo_file_says_that_it_is_invented(file: Path) -> None:
    assert "nvented for demonstration" in file.read_text(encoding="utf-8").replace(
        "for\n  demonstration", "for demonstration"
    )


def test_every_photo_is_drawn_by_the_script_beside_them() -> None:
    drawn = runpy.run_path(str(DEMO / "draw_photos.py"))["PICTURES"]
    assert {by_name(photo) for photo in PHOTOS} == set(drawn)


def test_some_photos_are_held_askew_and_some_know_their_place_but_none_of_it_is_kept() -> None:
    askew, placed = set(), set()
    for photo in PHOTOS:
        with Image.open(photo) as picture:
            exif = picture.getexif()
        askew |= {exif.get(0x0112, 1)}
        placed |= {bool(exif.get_ifd(0x8825))}
    assert askew >= {1, 3, 6, 8}
    assert placed == {True, False}
    for file in INSPECTIONS:
        for picture_kept in (read_inspection(file).photos or {}).values():
            assert b"Exif" not in picture_kept.content


def test_the_demo_is_light() -> None:
    assert (
        sum(file.stat().st_size for file in DEMO.rglob("*") if file.parent.name != "pictures" and file.is_file())
        < 2_000_000
    )
