"""Decimals, dates, sums and units as each language writes them (Unicode CLDR); thousands as ISO 80000-1 has them."""

from datetime import date

import pytest

from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import NO_BREAK, THIN, Figures
from tracksworn.documents.words.language import Language

DAY = date(2031, 4, 8)


def figures(code: str, units: str = "mm") -> Figures:
    return Figures("in" if units == "in" else "mm", Language(code))


@pytest.mark.parametrize(
    ("code", "long", "short", "month", "short_month"),
    [
        ("en", "8 April 2031", "8 Apr 2031", "April 2031", "Apr 2031"),
        ("en-US", "April 8, 2031", "Apr 8, 2031", "April 2031", "Apr 2031"),
        ("de", "8. April 2031", "08.04.2031", "April 2031", "Apr. 2031"),
        ("es", "8 de abril de 2031", "8 abr 2031", "abril de 2031", "abr 2031"),
        ("fr", "8 avril 2031", "8 avr. 2031", "avril 2031", "avr. 2031"),
    ],
)
def test_dates(code: str, long: str, short: str, month: str, short_month: str) -> None:
    told = figures(code)
    assert (told.day(DAY), told.short_day(DAY)) == (long, short)
    assert (told.month(DAY), told.month(DAY, short=True)) == (month, short_month)


@pytest.mark.parametrize(
    ("code", "number"),
    [("en", "12 345.6"), ("de", "12 345,6"), ("es", "12 345,6"), ("fr", "12 345,6"), ("de-CH", "12 345.6")],
)
def test_numbers_have_their_decimal_mark_and_a_space_between_thousands(code: str, number: str) -> None:
    assert figures(code).number(12345.6, 1) == number.replace(" ", THIN)


@pytest.mark.parametrize(
    ("code", "money"),
    [("en", "EUR 2 680"), ("de", "2 680 EUR"), ("de-AT", "EUR 2 680"), ("es", "2 680 EUR"), ("fr", "2 680 EUR")],
)
def test_a_currency_stands_where_the_language_has_it_and_does_not_break_off(code: str, money: str) -> None:
    said = figures(code).money(2680.0, "EUR")
    assert said.replace(NO_BREAK, " ").replace(THIN, " ") == money
    assert " " not in said


@pytest.mark.parametrize(
    ("code", "inches", "millimetres"),
    [("en", "5.161 in", "131.1 mm"), ("de", "5,161 in", "131,1 mm"), ("fr", "5,161 po", "131,1 mm")],
)
def test_units_have_the_symbol_of_the_language(code: str, inches: str, millimetres: str) -> None:
    assert figures(code, "in").length(131.1) == inches.replace(" ", THIN)
    assert figures(code).length(131.1) == millimetres.replace(" ", THIN)


@pytest.mark.parametrize(
    ("code", "said"), [("en", "the links"), ("de", "Die Kettenglieder"), ("es", "los"), ("fr", "les")]
)
def test_a_sentence_inside_another_begins_small_where_nouns_do(code: str, said: str) -> None:
    begun = {"en": "The links", "de": "Die Kettenglieder", "es": "Los", "fr": "Les"}[code]
    assert labels.within(begun, Language(code)) == said


@pytest.mark.parametrize(("code", "said"), [("en", "a; b; c"), ("fr", f"a{THIN}; b{THIN}; c")])
def test_clauses_follow_one_another(code: str, said: str) -> None:
    assert labels.clauses(["a", "", "b", "c"], Language(code)) == said
    assert labels.clauses([], Language(code)) == ""
