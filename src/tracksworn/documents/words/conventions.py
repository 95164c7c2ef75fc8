"""How a language's readers write decimals, dates, sums of money and units: Unicode CLDR, through Babel."""

from dataclasses import dataclass
from datetime import date
from functools import cache, cached_property
from typing import Final

from babel import Locale, UnknownLocaleError
from babel.dates import format_date, format_skeleton
from babel.units import format_unit

from tracksworn.documents.words.catalogues.catalogue import SOURCES

INTERNATIONAL: Final = "en-001"
"""English without a country is not that of one country: 18 April 2031."""
NAMED_BY_COUNTRY: Final = {"in": "length-inch", "ft": "length-foot"}
"""Units with a symbol of their own in some languages, by their names in CLDR."""


@dataclass(frozen=True)
class Conventions:
    """Those of one locale. What goes between thousands is no matter of the locale: see `Figures`."""

    locale: Locale

    @cached_property
    def decimal_mark(self) -> str:
        """What stands before the decimals."""
        return str(self.locale.number_symbols["latn"]["decimal"])

    def day(self, day: date) -> str:
        """A date in words: `18 April 2031`, `18. April 2031`, `1er avril 2031`."""
        return self._with_first(format_date(day, "long", locale=self.locale), day)

    def short_day(self, day: date) -> str:
        """A date for a table: `12 Jan 2031`, `12.01.2031`."""
        return self._with_first(format_date(day, "medium", locale=self.locale), day)

    def _with_first(self, said: str, day: date) -> str:
        """French has an ordinal for the first of a month, which CLDR does not write (common practice, no source)."""
        first = self.locale.language == "fr" and day.day == 1
        return said.replace("1", "1er", 1) if first and said.startswith("1 ") else said

    def month(self, day: date, *, short: bool = False) -> str:
        """A month with its year: `October 2031`, `octubre de 2031`; `Oct 2031` where there is little room."""
        return format_skeleton("yMMM" if short else "yMMMM", day, locale=self.locale)

    def month_alone(self, day: date) -> str:
        """A month without its year: `October`."""
        return format_date(day, "LLLL", locale=self.locale)

    def money(self, sum_of: str, currency: str) -> str:
        """A sum with its currency by code, on the side where the locale has it, unbroken: `EUR 2 680`, `2 680 EUR`."""
        pattern = str(self.locale.currency_formats["standard"].pattern)
        ends = (currency, sum_of) if pattern.startswith("¤") else (sum_of, currency)
        return "\u00a0".join(ends)

    def symbol(self, unit: str) -> str:
        """The symbol of a unit of length: `in` is `po` in French. Metric ones are the same everywhere (ISO 80000-1)."""
        name = NAMED_BY_COUNTRY.get(unit)
        return unit if name is None else format_unit("", name, "short", locale=self.locale).strip()


@cache
def conventions(code: str) -> Conventions:
    """The conventions of a BCP 47 code; those of English where it is unknown."""
    try:
        return Conventions(Locale.parse(INTERNATIONAL if code == SOURCES else code, sep="-"))
    except (UnknownLocaleError, ValueError):
        return Conventions(Locale.parse(INTERNATIONAL, sep="-"))
