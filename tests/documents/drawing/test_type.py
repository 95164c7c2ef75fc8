"""Widths of type from the fonts' own advances."""

import pytest

from tracksworn.documents.drawing.plain import Text
from tracksworn.documents.drawing.type import Weight, text_width, width_mm
from tracksworn.documents.typefaces import Family

POINT = 25.4 / 72


@pytest.mark.parametrize("family", ["Barlow", "Barlow Semi Condensed"])
@pytest.mark.parametrize("weight", [400, 500, 600, 700])
def test_figures_are_all_as_wide_as_each_other(family: Family, weight: Weight) -> None:
    assert len({round(width_mm(digit, 10, family, weight), 6) for digit in "0123456789"}) == 1


def test_width_adds_up_and_grows_with_size_and_weight() -> None:
    assert width_mm("ab", 7) == pytest.approx(width_mm("a", 7) + width_mm("b", 7))
    assert width_mm("links", 14) == pytest.approx(2 * width_mm("links", 7))
    assert width_mm("links", 7, weight=600) > width_mm("links", 7, weight=400)
    assert width_mm("links", 7, "Barlow") > width_mm("links", 7)
    assert width_mm("", 7) == 0


def test_narrow_blanks_are_known_and_what_no_font_has_counts_as_an_em() -> None:
    assert 0 < width_mm("\u202f", 10) < width_mm(" ", 10)
    assert width_mm("\u6f22", 10) == pytest.approx(10 * POINT)


def test_the_width_of_a_text_is_that_of_its_words() -> None:
    assert text_width(Text((3, 4), "107", 8, 700)) == width_mm("107", 8, weight=700)
