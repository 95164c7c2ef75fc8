"""Every rounding with its reason, and what no rounding may ever do."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.assessment.assumed import Assumptions
from tracksworn.assessment.model import Comparison, Stage
from tracksworn.assessment.sayings import Celsius, HoursLeft, Length, Percent, Points, Rate, Several, Subject, Topic
from tracksworn.assessment.stages import stage
from tracksworn.documents.words.conventions import conventions
from tracksworn.documents.words.figures import MINUS, NO_BREAK, THIN, Figures
from tracksworn.documents.words.language import Language
from tracksworn.documents.words.rounding import as_written, deserved
from tracksworn.documents.words.worn import delta_words
from tracksworn.inspection.values import ByEye, Estimate, Sizes
from tracksworn.inspection.vocabulary import Component, Grade, Layout, PartPlace, Side, Sign, Track, Unit

MM = Figures()
INCH = Figures("in")
GERMAN = Figures("mm", Language("de"))

PERCENTS = st.floats(-30.0, 180.0, allow_nan=False)


def read(text: str) -> float:
    return float(text.replace(MINUS, "-").replace(THIN, ""))


@pytest.mark.parametrize(
    ("value", "printed", "reason"),
    [
        (79.3, "79", "whole"),
        (42.5, "42", "halves go to the even neighbour, as Python and ISO 80000-1 do"),
        (79.6, "79.6", "80 would be near the limit"),
        (49.6, "49.6", "50 would be the second half"),
        (99.7, "99.7", "100 would be past the limit"),
        (79.97, "79.9", "80.0 would be near the limit as well"),
        (80.0 - 1e-10, "80", "a figure this near a boundary is on it"),
        (80.3, "80", "it has crossed already"),
        (100.2, "100", "100 and over is past the limit"),
        (107.4, "107", "more than 100 is printed as it is"),
        (0.3, "0", "whole"),
        (-0.3, "0", "never a minus before nought"),
        (-3.6, MINUS + "4", "better than new is shown, with a real minus"),
    ],
)
def test_percent_is_whole_unless_that_would_be_another_stage(value: float, printed: str, reason: str) -> None:
    assert MM.percent(value) == printed, reason


@pytest.mark.parametrize(
    ("low", "high", "printed", "reason"),
    [
        (75.8, 82.9, "75 to 83", "outwards, so that it never looks narrower"),
        (33.5, 49.6, "33 to 49.6", "50 would be the second half"),
        (79.9, 80.0, "79 to 80", "down is never across a boundary"),
        (-3.2, 6.0, f"{MINUS}4 to 6", "not cut at nought"),
        (50.0, None, "at least 50", "one end only"),
        (None, 30.0, "at most 30", "one end only"),
    ],
)
def test_an_interval_is_rounded_outwards(low: float | None, high: float | None, printed: str, reason: str) -> None:
    assert MM.interval(low, high) == printed, reason


@given(PERCENTS)
def test_no_figure_is_printed_in_another_stage(value: float) -> None:
    assert stage(read(MM.percent(value))) is stage(value)
    assert stage(read(MM.percent_at_most(value))) is stage(value)


@given(PERCENTS, st.floats(0.0, 60.0), st.floats(0.0, 60.0))
def test_a_printed_interval_holds_the_printed_figure(value: float, below: float, above: float) -> None:
    low, high = MM.interval(value - below, value + above).split(" to ")
    assert read(low) <= read(MM.percent(value)) <= read(high)


@given(PERCENTS, st.floats(0.0, 60.0))
def test_a_printed_interval_is_narrower_by_at_most_a_tenth(value: float, within: float) -> None:
    low, high = MM.interval(value - within, value + within).split(" to ")
    assert read(low) <= value - within + 1e-9
    assert read(high) >= value + within - 0.1


@pytest.mark.parametrize(
    ("said", "printed", "tight"),
    [
        (ByEye(Estimate.RANGE, 40, 60), "40 to 60", "40–60"),
        (ByEye(Estimate.RANGE, 42.5, 60), "42.5 to 60", "42.5–60"),
        (ByEye(Estimate.ABOUT, 50, 50), "about 50", "≈50"),
        (ByEye(Estimate.AT_LEAST, 50, 50), "at least 50", "≥50"),
        (ByEye(Estimate.AT_MOST, 30, 30), "at most 30", "≤30"),
        (ByEye(Estimate.RANGE, 49.6, 79.6), "49.6 to 79.6", "49.6–79.6"),
        (ByEye(Estimate.AT_LEAST, 100, 100), "at least 100", "≥100"),
    ],
)
def test_an_estimate_prints_as_it_was_said(said: ByEye, printed: str, tight: str) -> None:
    assert (MM.estimate(said), MM.tight_estimate(said)) == (printed, tight)


@pytest.mark.parametrize(
    ("fraction", "printed", "reason"),
    [
        (0.852, "85", "whole"),
        (1.0, "100", "all of it"),
        (0.996, "99.6", "100 would say all of it"),
        (0.99999, "99.9", "never all of it unless it is"),
        (0.001, "0.1", "0 would say nothing at all"),
        (0.00001, "0.1", "never nothing unless it is"),
        (0.0, "0", "nothing"),
    ],
)
def test_a_share_says_all_or_nothing_only_where_it_is(fraction: float, printed: str, reason: str) -> None:
    assert MM.share(fraction) == printed + NO_BREAK + "%", reason


@pytest.mark.parametrize(
    ("delta", "within", "printed", "reason"),
    [
        (12.5, 3.3, "+12 ± 4", "an uncertainty is rounded up (JCGM 100:2008, 7.2.6)"),
        (-12.6, 3.0, f"{MINUS}13 ± 3", "right ahead, with a real minus"),
        (-0.2, 11.0, "0 ± 11", "no sign at nought"),
        (4.8, 3.0, "+4.8 ± 3", "5 would look like a difference"),
        (-4.97, 3.0, f"{MINUS}4.9 ± 3", "5.0 would as well"),
        (20.0, 123.1, "+20 ± 130", "an uncertainty has at most two figures"),
        (20.0, 0.2, "+20 ± 1", "a whole point, like the figure beside it"),
    ],
)
def test_delta(delta: float, within: float, printed: str, reason: str) -> None:
    assert MM.delta(delta, within).replace(NO_BREAK, " ") == printed, reason


@given(st.floats(0.0, 500.0))
def test_an_uncertainty_is_never_printed_smaller(within: float) -> None:
    assert read(MM.half_width(within)) >= within - 1e-9


def compared(delta: float, within: float, factor: float) -> Comparison:
    differs = abs(delta) >= 5.0 - 1e-9 and abs(delta) > factor * within + 1e-9
    return Comparison(Component.LINK, None, None, delta, delta - within, delta + within, differs, pairs=1)


@given(st.floats(-60.0, 60.0), st.floats(0.01, 40.0), st.sampled_from([1.0, 1.5]))
def test_words_of_a_delta_never_contradict_its_figure(delta: float, within: float, factor: float) -> None:
    entry = compared(delta, within, factor)
    words = delta_words(entry, MM, Assumptions())
    shown, half_width = read(words.figure.lstrip("+")), read(words.within.lstrip("±").strip())
    assert words.differs is entry.differs
    if words.differs:
        assert words.words in {f"{'left' if shown > 0 else 'right'}{just} more worn" for just in ("", " just")}
        assert abs(shown) >= 5
        assert ("just" in words.words) is (abs(shown) <= half_width)
    else:
        assert words.words.startswith("no difference shown")
        if abs(shown) > half_width + 1:
            assert "under" in words.words, "figures that look like a difference carry their reason"
        if "under 5 points" in words.words:
            assert abs(shown) < 5


@pytest.mark.parametrize(
    ("mm", "decimals", "metric", "inches"),
    [
        (131.1, None, "131.1", "5.161"),
        (866.0, None, "866", "34.09"),
        (80.15, None, "80.15", "3.156"),
        (131.10000000000002, None, "131.1", "5.161"),
        (143.0, 1, "143.0", "5.630"),
        (6.9375 * 25.4, None, "176.2", "6.938"),
        (3280.0, None, f"3{THIN}280", "129.13"),
    ],
)
def test_length(mm: float, decimals: int | None, metric: str, inches: str) -> None:
    assert MM.length(mm, decimals) == metric + THIN + "mm"
    assert INCH.length(mm, decimals) == inches + THIN + "in"


def test_a_length_has_no_more_decimals_than_say_it_and_those_beside_it() -> None:
    assert INCH.length(22 * 25.4) == "22" + THIN + "in"
    assert INCH.length(22 * 25.4, among=(20.5 * 25.4,)) == "22.0" + THIN + "in"
    assert INCH.length(131.1) == "5.161" + THIN + "in", "read in mm, so as fine as that"
    assert MM.length(131.0, among=(130.25,)) == "131.00" + THIN + "mm"


def test_lengths_deserve_the_decimals_with_which_they_were_written() -> None:
    assert deserved((131.0, 131.25)) == 2
    assert deserved((4.5 * 25.4, 1 / 64 * 25.4)) == 1, "not written in mm"


@pytest.mark.parametrize(
    ("values", "unit", "printed"),
    [
        ((131.2, None, 131.0), Unit.MILLIMETRE, "131.2, –, 131.0"),
        ((6 + 15 / 16,), Unit.INCH, f"6{NO_BREAK}15/16"),
        ((15 / 16, 1.0), Unit.INCH, "15/16, 1"),
        ((1.758,), Unit.INCH, "1.758"),
        ((0.6123,), Unit.INCH, "0.6123"),
        ((8.89,), Unit.CENTIMETRE, "8.89"),
    ],
)
def test_readings_stand_as_they_were_taken(values: tuple[float | None, ...], unit: Unit, printed: str) -> None:
    per = {Unit.MILLIMETRE: 1.0, Unit.CENTIMETRE: 10.0, Unit.INCH: 25.4}[unit]
    sizes = Sizes(tuple(None if value is None else value * per for value in values), unit)
    assert INCH.as_taken(sizes, as_written(sizes)) == printed + THIN + unit


def test_inches_have_one_spelling_in_a_document() -> None:
    inches = Figures("in", fractions=True)
    assert inches.length(7.5625 * 25.4) == f"7{NO_BREAK}9/16{THIN}in"
    assert inches.length(7.5625 * 25.4, 1, unit=False) == f"7{NO_BREAK}9/16"
    assert inches.length(7.5 * 25.4, among=(190.0,)) == f"7{NO_BREAK}1/2{THIN}in", "whatever stands beside it"
    assert inches.length(190.0, 1) == f"7.480{THIN}in"
    assert inches.small_length(25.4 / 32) == f"1/32{THIN}in"
    assert inches.small_length(0.254) == f"0.01{THIN}in"
    assert inches.as_taken(Sizes((1.5 * 25.4,), Unit.INCH), 1) == f"1{NO_BREAK}1/2{THIN}in"
    assert Figures("mm", fractions=True).length(25.4 / 2) == f"12.7{THIN}mm"


def test_a_language_has_its_decimal_mark_and_its_months() -> None:
    assert GERMAN.length(131.1) == f"131,1{THIN}mm"
    assert GERMAN.percent(79.6) == "79,6"
    assert GERMAN.day(date(2031, 4, 18)) == "18. April 2031"
    assert MM.day(date(2031, 4, 18)) == "18 April 2031"
    assert MM.short_day(date(2031, 1, 12)) == "12 Jan 2031"
    assert Figures("mm", Language("qq")).percent(79.6) == "79.6", "an unknown language writes figures as English does"


@pytest.mark.parametrize(
    ("code", "day", "written", "short"),
    [
        ("fr", date(2031, 4, 1), "1er avril 2031", "1er avr. 2031"),
        ("fr-CA", date(2031, 4, 1), "1er avril 2031", "1er avr. 2031"),
        ("fr", date(2031, 1, 11), "11 janvier 2031", "11 janv. 2031"),
        ("es", date(2031, 4, 1), "1 de abril de 2031", "1 abr 2031"),
    ],
)
def test_french_alone_has_an_ordinal_for_the_first_of_a_month(code: str, day: date, written: str, short: str) -> None:
    """Common practice, no source."""
    assert (conventions(code).day(day), conventions(code).short_day(day)) == (written, short)


def test_spaces_do_not_break() -> None:
    assert MM.hours(8412.0) == f"8{THIN}412{THIN}h"
    assert MM.hours(8412.5) == f"8{THIN}412.5{THIN}h"
    assert MM.money(13847.5, "EUR") == f"EUR{NO_BREAK}13{THIN}800"
    assert MM.per_cent(79.3) == f"79{NO_BREAK}%"


@pytest.mark.parametrize(("degrees", "difference", "fahrenheit"), [(58.0, False, "136"), (15.0, True, "27")])
def test_temperature(degrees: float, difference: bool, fahrenheit: str) -> None:
    assert MM.temperature(degrees, difference=difference) == f"{degrees:.0f}{THIN}°C"
    assert INCH.temperature(degrees, difference=difference) == f"{fahrenheit}{THIN}°F"


@pytest.mark.parametrize(
    ("used", "printed"), [(54.4, "54"), (99.6, "99.6"), (99.98, "99.9"), (100.0, "100"), (112.0, "112")]
)
def test_travel_is_used_up_only_where_it_is(used: float, printed: str) -> None:
    assert MM.travel(used) == printed


@pytest.mark.parametrize(
    ("mm", "in_mm", "in_inches"),
    [(0.05, "0.05", "0.0020"), (0.5, "0.5", "0.020"), (1.0, "1", "0.039"), (25.4, "25.4", "1")],
)
def test_small_lengths_of_gauges_keep_two_figures(mm: float, in_mm: str, in_inches: str) -> None:
    assert Figures("mm").small_length(mm) == in_mm + THIN + "mm"
    assert Figures("in").small_length(mm) == in_inches + THIN + "in"


LEFT = Side.LEFT


@pytest.mark.parametrize(
    ("amount", "printed"),
    [
        (Subject(Component.BOTTOM_ROLLER, LEFT, 3), "left bottom roller 3"),
        (Percent(107.4, 102.0, 112.0), "107 % (102 to 112)"),
        (Percent(54.0), "54 %"),
        (Percent(None, 50.0), "at least 50 %"),
        (Percent(50.0, 40.0, 60.0, ByEye(Estimate.RANGE, 40, 60)), "40 to 60 %"),
        (Points(12.5, 3.3), "+12 ± 4"),
        (Points(-12.5, 3.3, signed=False), "12 ± 4"),
        (Length(131.1), "131.1 mm"),
        (Length(131.0, 1), "131.0 mm"),
        (Celsius(58.0), "58 °C"),
        (HoursLeft(623.0, 1061.0), "620 to 1 070"),
        (HoursLeft(299.0), "over 290"),
        (Rate(2.08), "2.1"),
        (Rate(0.432), "0.43"),
        (Rate(9.97), "10"),
        (Component.FRONT_IDLER, "front idler"),
        (Layout.RUBBER, "rubber track machine"),
        (Track.RUBBER, "rubber track"),
        (Topic.CHART, "chart"),
        (Sign.LEAK, "leak"),
        (Grade.MARKED, "marked"),
        (PartPlace.INNER_TREAD, "inner tread"),
        (Several((Sign.LEAK, Sign.BENT)), "leak and bent"),
        (8412, "8 412"),
        ((3, 13, 23), "3, 13 and 23"),
        ("the owner's {words}", "the owner's {words}"),
    ],
)
def test_amounts_of_findings(amount: object, printed: str) -> None:
    text = MM.amount(amount)  # type: ignore[arg-type]
    assert text.replace(THIN, " ").replace(NO_BREAK, " ") == printed


def test_every_stage_begins_on_its_boundary() -> None:
    assert [stage(read(MM.percent(edge))) for edge in (0.0, 50.0, 80.0, 100.0)] == list(Stage)


@pytest.mark.parametrize(("amount", "said"), [(47113.0, "47100"), (19962.0, "20000"), (2684.9, "2680"), (352.4, "352")])
def test_money_has_three_figures(amount: float, said: str) -> None:
    assert MM.amount_of_money(amount).replace(THIN, "") == said


def test_lengths_compared_by_eye_are_all_fractions_or_all_decimals() -> None:
    inches = Figures("in", fractions=True)
    new, mean = 2.8125 * 25.4, 2.668 * 25.4
    assert inches.among([new]).length(new, 1, unit=False) == f"2{NO_BREAK}13/16"
    assert inches.among([new, mean]).length(new, 1, unit=False) == "2.812"
