"""Glyphs of scripts that join, stack or turn: what stands on the page, and what it reads back as."""

import pytest

from tracksworn.documents.shaping import shaped
from tracksworn.documents.typefaces import FACES, Face, face_for

ARABIC = face_for("Vazirmatn", 400)
HEBREW = face_for("Noto Sans Hebrew", 400)


def test_arabic_letters_take_the_forms_in_which_they_join() -> None:
    joined = [glyph.number for glyph in shaped(ARABIC, "بيت")]
    alone = [shaped(ARABIC, letter)[0].number for letter in "تيب"]
    assert len(joined) == 3
    assert all(one != other for one, other in zip(joined, alone, strict=True))
    assert shaped(ARABIC, "ب")[0].number == alone[2]


@pytest.mark.parametrize("face", [one for one in FACES if one.family == "Vazirmatn"], ids=lambda face: face.file)
@pytest.mark.parametrize("alef", "اأإآٱ")
def test_lam_alef_is_one_form_that_reads_back_as_two_letters(face: Face, alef: str) -> None:
    glyphs = shaped(face, f"ل{alef}")
    assert [glyph.characters for glyph in glyphs] == [alef, "ل"]
    assert glyphs[0].advance == 0
    assert glyphs[1].number not in {shaped(face, letter)[0].number for letter in "لاأإآ"}


@pytest.mark.parametrize("word", ["محمد", "ثلاثة بكرات", "الله أعلم", "שלום", "Ωραίου", "Ђорђе", "مُحَمَّد", "שָׁלוֹם"])
def test_every_letter_reads_back_once(word: str) -> None:
    face = next(one for one in FACES if ord(word[0]) in _held(one))
    back = "".join(sorted("".join(glyph.characters for glyph in shaped(face, word))))
    assert back == "".join(sorted(word))


def _held(face: Face) -> frozenset[int]:
    from tracksworn.documents.typefaces import characters

    return characters(face)


def test_marks_stand_over_their_bases() -> None:
    marks = [glyph for glyph in shaped(HEBREW, "שָׁ") if glyph.advance == 0]
    assert len(marks) == 2
    assert all(mark.across for mark in marks)
    assert any(glyph.up for glyph in shaped(ARABIC, "مَّ"))


def test_a_bracket_that_reads_leftward_is_noted_as_what_it_shows() -> None:
    face = face_for("Barlow", 400)
    opening = shaped(face, "(", leftward=False)[0]
    assert shaped(face, ")", leftward=True)[0] == opening


def test_signs_without_ink_leave_no_glyph() -> None:
    assert [glyph.characters for glyph in shaped(ARABIC, "\u2068مم\u2069")] == ["م", "م"]
