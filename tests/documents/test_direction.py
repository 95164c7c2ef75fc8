"""Which way text reads: the reordering examples of Unicode Standard Annex #9, section 3.4 (from memory)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.direction import as_seen, begins_leftward, levels, reads_leftward

HEBREW = str.maketrans("ABCDEFGHIJKLMNOPQRSTUVWXYZ", "אבגדהוזחטיכלמנסעפצקרשתםןץך")
LATIN = {chr(new): chr(old) for old, new in HEBREW.items()}


def seen(memory: str) -> str:
    """As the annex writes its examples: capitals read leftward, `[` and `]` set a run apart that reads leftward."""
    line = memory.translate(HEBREW).replace("[", "\u2067").replace("]", "\u2069")
    ordered = "".join(part for _, part in as_seen(list(zip(levels(line), line, strict=True))))
    return "".join(LATIN.get(one, one) for one in ordered if one not in "\u2067\u2069")


@pytest.mark.parametrize(
    ("memory", "display"),
    [
        ("car means CAR.", "car means RAC."),
        ("he said [car MEANS CAR]. [IT DOES], she agreed.", "he said RAC SNAEM car. SEOD TI, she agreed."),
        ("IT IS A bmw 500, OK.", "A SI TI bmw 500, KO."),
    ],
)
def test_the_annex_examples(memory: str, display: str) -> None:
    assert seen(memory) == display


def test_digits_within_hebrew_keep_their_order() -> None:
    assert levels("א 12") == (1, 1, 2, 2)
    assert levels("12 mm") == (0,) * 5


@given(st.lists(st.integers(0, 5)))
def test_nothing_is_lost_and_what_reads_rightward_stays(found: list[int]) -> None:
    parts = list(zip(found, range(len(found)), strict=True))
    assert sorted(as_seen(parts), key=lambda part: part[1]) == parts
    assert as_seen([(0, index) for _, index in parts]) == [(0, index) for _, index in parts]


@pytest.mark.parametrize(("text", "leftward"), [("12 שלום", True), ("a שלום", False), ("12", False), ("محمد", True)])
def test_the_first_letter_decides(text: str, leftward: bool) -> None:
    assert begins_leftward(text) is leftward
    assert begins_leftward("12", otherwise=True)


def test_arabic_figures_alone_are_set_apart_too() -> None:
    assert reads_leftward("١٢")
    assert not reads_leftward("Ωμέγα № 3")
