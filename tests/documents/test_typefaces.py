"""Which face holds which character, and that the table of printed characters is true to the fonts."""

from itertools import combinations

import pytest
from tiny_font import tiny_font

from tracksworn.documents.typefaces import (
    FURTHER,
    OWN,
    Face,
    built_in_characters,
    characters,
    face_for,
    nearest,
    pieces,
    ranges,
    table,
)
from tracksworn.inspection.lettering import TABLE, built_in

LATIN = face_for("Barlow", 400)


def families() -> dict[str, list[Face]]:
    found: dict[str, list[Face]] = {}
    for face in (*OWN, *FURTHER):
        found.setdefault(face.family, []).append(face)
    return found


def test_the_table_that_inspections_are_checked_by_is_that_of_the_fonts() -> None:
    assert TABLE.read_text(encoding="ascii") == table(built_in_characters())
    assert built_in() == built_in_characters()


@pytest.mark.parametrize("family", families())
def test_all_weights_of_a_family_hold_the_same(family: str) -> None:
    assert len({characters(face) for face in families()[family]}) == 1


def test_families_do_not_share_characters_but_marks_and_the_blank() -> None:
    """So that a word is set in one face, whatever order an engine looks through them in."""
    for one, other in combinations(families().values(), 2):
        shared = {code for code in characters(one[0]) & characters(other[0]) if not 0x300 <= code <= 0x36F}
        if not {one[0].family, other[0].family} <= {"Barlow", "Barlow Semi Condensed"}:
            assert shared <= {0x20}


@pytest.mark.parametrize(
    ("script", "alphabet"),
    [
        ("Latin", "AaÄäÇçĐđĞğŁłŐőŞşŤťŽžƠơẾếʼ"),
        ("Greek", "ΑαΆάΒβΓγΔδΕεΏώΩωΐΰςᾳ"),
        ("Cyrillic", "АаБбЁёЂђЄєЇїЎўЏџЩщЫыЭэЯяҐґҚқӘә"),
        ("Arabic", "ءآأؤإئابةتثجحخدذرزسشصضطظعغفقكلمنهوىيپچژکگیٹڈڑںہے٠١٩۰۱۹،؛؟"),
        ("Hebrew", "אבגדהוזחטיכךלמםנןסעפףצץקרשת־׳״₪"),
    ],
)
def test_the_alphabets_of_five_scripts_are_held(script: str, alphabet: str) -> None:
    assert {one for one in alphabet if ord(one) not in built_in()} == set()


def test_a_word_is_set_in_one_face_and_a_mark_stays_with_its_base() -> None:
    assert [(face.family if face else None, part) for face, part in pieces("für μΩ и\u0301 שָׁ", LATIN)] == [
        ("Barlow", "für "),
        ("Noto Sans", "μΩ"),
        ("Barlow", " "),
        ("Noto Sans", "и\u0301"),
        ("Barlow", " "),
        ("Noto Sans Hebrew", "שָׁ"),
    ]


def test_what_no_face_holds_has_none_but_a_letterheads() -> None:
    own = Face("Letterhead 1", 400, "own.ttf", content=tiny_font("日"))
    assert list(pieces("日本", LATIN)) == [(None, "日本")]
    assert list(pieces("日本", LATIN, [own])) == [(own, "日"), (None, "本")]
    assert list(pieces("", LATIN)) == []


@pytest.mark.parametrize(("weight", "wanted"), [(400, 400), (500, 400), (600, 600), (700, 600)])
def test_the_nearest_weight_stands_in(weight: int, wanted: int) -> None:
    ((face, _),) = pieces("щ", face_for("Barlow Semi Condensed", weight))
    assert face is not None
    assert face.weight == wanted == nearest(FURTHER[:2], weight).weight


def test_ranges_hold_both_their_ends() -> None:
    assert ranges([5, 3, 4, 9]) == [(3, 5), (9, 9)]
    assert table([0x41, 0x42, 0x1F69C]) == "0041-0042\n1F69C-1F69C\n"
