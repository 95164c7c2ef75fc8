"""The notation of readings: what it gives, in whichever unit, and what it refuses."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.inspection import notation
from tracksworn.inspection.numbers import number, whole
from tracksworn.inspection.values import ByEye, Estimate, NotSeen, Sizes, Temperatures, Value
from tracksworn.inspection.vocabulary import Unit
from tracksworn.inspection.written import Wrong

hundredths = st.integers(min_value=1, max_value=999_999).map(lambda count: Decimal(count) / 100)
percents = st.integers(min_value=0, max_value=150)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("131.2, 131.0, 130.8, 131.4 mm", Sizes((131.2, 131.0, 130.8, 131.4))),
        ("252.0, 244.5, -, 246.1 mm", Sizes((252.0, 244.5, None, 246.1))),
        ("252.0, 244.5, - mm", Sizes((252.0, 244.5, None))),
        ("252.0 mm, -, -", Sizes((252.0, None, None))),
        ("-", Sizes((None,))),
        ("5mm", Sizes((5.0,))),
        (".5 mm", Sizes((0.5,))),
        ("5. mm", Sizes((5.0,))),
        ("  5   mm ", Sizes((5.0,))),
        ("5,  6 mm", Sizes((5.0, 6.0))),
        ("7.1 cm", Sizes((71.0,), Unit.CENTIMETRE)),
        ("6 15/16 in", Sizes((176.2125,), Unit.INCH)),
        ("15/16, 1 in", Sizes((23.8125, 25.4), Unit.INCH)),
        ("2 ft", Sizes((609.6,), Unit.FOOT)),
        ("by eye 40 to 50 %", ByEye(Estimate.RANGE, 40.0, 50.0)),
        ("by eye 40 to 40%", ByEye(Estimate.RANGE, 40.0, 40.0)),
        ("by eye about 40 %", ByEye(Estimate.ABOUT, 40.0, 40.0)),
        ("by  eye at least 40.5 %", ByEye(Estimate.AT_LEAST, 40.5, 40.5)),
        ("by eye at most 120 %", ByEye(Estimate.AT_MOST, 120.0, 120.0)),
        ("not seen (mud)", NotSeen("mud")),
        ("not seen (guards (both), fitted)", NotSeen("guards (both), fitted")),
    ],
)
def test_a_value_reads(text: str, value: Value) -> None:
    assert notation.value(text) == value


@pytest.mark.parametrize(
    ("text", "offset"),
    [
        ("92,5 mm", 2),
        ("131.2, 92,5 mm", 9),
        ("131.2, 131.0", 12),
        ("131.2, 131.0 MM", 13),
        ("131.2 mm, 131.0 mm", 6),
        ("131.2 mm, 131.0", 6),
        ("131.2, 1e2 mm", 7),
        ("131.2, 0 mm", 7),
        ("131.2, -1 mm", 7),
        ("131.2, , 5 mm", 7),
        ("131.2 131.0 mm", 0),
        ("1 9/8 in", 0),
        ("8/8 in", 0),
        ("1.5 1/2 in", 0),
        ("+5 mm", 0),
        ("1234567890123456 mm", 0),
        ("5 mm.", 2),
        ("5 mm 6 mm", 0),
        ("131.2, 13１.0 mm", 9),
        ("5 ″", 2),
        ("by eye 40 %", 7),
        ("by eye fair to poor %", 7),
        ("by eye about 4o %", 13),
        ("By eye about 40 %", 0),
        ("not seen mud", 0),
        ("not seen (mud", 0),
        ("nan mm", 0),
        ("inf mm", 0),
        ("?", 0),
        ("", 0),
    ],
)
def test_what_does_not_read_is_told_at_its_character(text: str, offset: int) -> None:
    with pytest.raises(Wrong) as caught:
        notation.value(text)
    assert caught.value.offset == offset


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("5 inches", "write `in`"),
        ("5 feet", "write `ft`"),
        ('5 "', "write `in`"),
        ("5 millimeters", "write `mm`"),
        ("5 km", "write one of mm, cm, in, ft"),
        ("5 ½ in", "fractions are written `3/16`"),
        ("5 − 6 mm", "a minus is written `-`"),
        ("5\u00a0mm", "not a no-break space"),
        ("± 5 mm", "without `±`"),
        ("5, 6", "the unit is missing"),
        ("1..2 mm", "at most one point"),
        ("5 6 mm", "commas between them"),
        ("by eye about 40", "the `%` is missing"),
        ("N/A", "not seen (reason)"),
    ],
)
def test_the_message_says_what_would_be_right(text: str, words: str) -> None:
    with pytest.raises(Wrong, match=r".") as caught:
        notation.value(text)
    assert words in caught.value.what


def test_nought_reads_only_where_it_may() -> None:
    assert notation.value("0 mm", nought=True) == Sizes((0.0,))
    assert notation.length("0 mm", nought=True) == 0.0
    with pytest.raises(Wrong, match="above nought"):
        notation.length("0 mm")


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("31, 33, 58, 32 C", (31.0, 33.0, 58.0, 32.0)),
        ("-5, -, 7 C", (-5.0, None, 7.0)),
        ("32, 212 F", (0.0, 100.0)),
        ("-40 F", (-40.0,)),
        ("-", (None,)),
    ],
)
def test_temperatures_read_in_celsius(text: str, values: tuple[float | None, ...]) -> None:
    assert notation.temperatures(text) == Temperatures(values)


@pytest.mark.parametrize("text", ["31", "31 K", "31 c", "31 °C", "-300 C", "- 5 C", "31,5 C", "1/2 C"])
def test_other_temperatures_are_refused(text: str) -> None:
    with pytest.raises(Wrong):
        notation.temperatures(text)


def test_a_range_has_two_sizes_and_one_unit() -> None:
    assert notation.length_range("55 to 75 mm") == (55.0, 75.0)
    assert notation.length_range("1 1/4 to 1 3/4 in") == (31.75, 44.45)
    for text in ("55 mm to 75 mm", "75 to 55 mm", "55 to 55 mm", "55 mm", "55 to 75", "0 to 75 mm", "55 to 60, 75 mm"):
        with pytest.raises(Wrong):
            notation.length_range(text)


@given(st.lists(hundredths, min_size=1, max_size=20))
def test_what_is_written_reads_back(sizes: list[Decimal]) -> None:
    text = ", ".join(map(str, sizes)) + " mm"
    assert notation.value(text) == Sizes(tuple(float(size) for size in sizes))


@given(hundredths)
def test_a_size_is_the_same_in_every_unit(size: Decimal) -> None:
    """25.4 mm are an inch by definition (Yard and Pound agreement, 1959)."""
    as_written = [f"{size * 254 / 10} mm", f"{size * 254 / 100} cm", f"{size} in"]
    assert len({notation.length(text) for text in as_written}) == 1
    assert notation.length(f"{size} ft") == notation.length(f"{size * 12} in")


@given(st.integers(0, 99), st.integers(1, 6).flatmap(lambda power: st.tuples(st.just(2**power), st.integers(1, 63))))
def test_a_fraction_is_the_decimal_that_it_stands_for(whole_inches: int, parts: tuple[int, int]) -> None:
    below, above = parts[0], parts[1] % parts[0]
    if above:
        text = f"{whole_inches} {above}/{below} in" if whole_inches else f"{above}/{below} in"
        decimal = whole_inches + Decimal(above) / below
        assert notation.length(text) == notation.length(f"{decimal} in")


@given(percents, percents)
def test_an_estimate_is_never_wider_or_narrower_than_said(one: int, other: int) -> None:
    low, high = sorted((one, other))
    assert notation.by_eye(f"by eye {low} to {high} %") == ByEye(Estimate.RANGE, float(low), float(high))


@given(st.integers(-100, 400))
def test_fahrenheit_and_celsius_agree(celsius: int) -> None:
    fahrenheit = Fraction(celsius) * 9 / 5 + 32
    assert notation.temperature(f"{float(fahrenheit)} F") == pytest.approx(celsius, abs=1e-12)


@given(st.text(max_size=60))
def test_no_text_is_read_as_more_than_it_says(text: str) -> None:
    """Whatever reads holds digits 0 to 9, a dash, or a reason; all else is Wrong, at a place in the text."""
    try:
        read = notation.value(text)
    except Wrong as error:
        assert 0 <= error.offset <= len(text)  # noqa: PT017 - either outcome is right
    else:
        assert isinstance(read, NotSeen) or any(digit in text for digit in "0123456789") or text.strip() == "-"


@given(st.text(alphabet="0123456789., /-mcift", max_size=16))
def test_near_readings_are_read_or_refused(text: str) -> None:
    try:
        read = notation.value(text)
    except Wrong as error:
        assert 0 <= error.offset <= len(text)  # noqa: PT017
    else:
        assert isinstance(read, Sizes)
        assert all(value > 0 for value in read.measured)


@pytest.mark.parametrize("text", ["", " ", "1,5", "1e5", "1_0", "0x1", "٣", "1.2.3", "1/2", "--1", "inf", "1 2"])
def test_numbers_are_digits_with_at_most_one_point(text: str) -> None:
    with pytest.raises(Wrong):
        number(text)


@pytest.mark.parametrize("text", ["", "-1", "21", "1.0", "01", "1e1", "٣", "9" * 5000])
def test_whole_numbers_are_digits_between_bounds(text: str) -> None:
    assert whole("20", 1, 20) == 20
    with pytest.raises(Wrong):
        whole(text, 0, 20)
