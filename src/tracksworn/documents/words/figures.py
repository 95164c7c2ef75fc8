"""Every figure as text, rounded as `rounding` has it."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, Decimal
from enum import StrEnum
from fractions import Fraction
from functools import cached_property, partial
from typing import Final, Literal

from tracksworn.assessment.boundaries import TIE
from tracksworn.assessment.sayings import Amount, Celsius, HoursLeft, Length, Percent, Points, Rate, Several, Subject
from tracksworn.documents.words import labels
from tracksworn.documents.words.conventions import Conventions, conventions
from tracksworn.documents.words.language import N_, NP_, Language
from tracksworn.documents.words.rounding import (
    FINEST,
    below_least_delta,
    deserved,
    half_width,
    in_fractions,
    in_sixty_fourths,
    outwards,
    rounded,
    step_of,
    step_of_hours,
    three_figures,
    upper_end,
    within_stage,
)
from tracksworn.inspection.model import Spot
from tracksworn.inspection.values import ByEye, Estimate, Sizes
from tracksworn.inspection.vocabulary import MILLIMETRES_PER, Unit

Units = Literal["mm", "in"]

THIN: Final = "\u202f"
"""Narrow no-break space: before a unit, and between thousands in every language, by ISO 80000-1: a comma or point there
is a decimal mark to the next reader."""
NO_BREAK: Final = "\u00a0"
"""No-break space: before the per cent sign."""
MINUS: Final = "\u2212"
DASH: Final = "\u2013"


@dataclass(frozen=True)
class Figures:
    """Figures in a reader's units of length and language."""

    units: Units = "mm"
    language: Language = field(default_factory=Language)
    lone: labels.Lone = frozenset()  # rollers of which a side has only one
    fractions: bool = False  # whether inches are written `7 9/16` where sixty-fourths say them wholly

    # --- percents ---------------------------------------------------------------------------------------------------

    def percent(self, value: float) -> str:
        """Percent worn without its sign: `79`; `79.6` where 80 would be another stage."""
        return self._points(within_stage(value, ROUND_HALF_EVEN))

    def per_cent(self, value: float) -> str:
        """Percent with its sign: `79 %`."""
        return self.percent(value) + NO_BREAK + "%"

    def percent_at_most(self, high: float) -> str:
        """The upper end of an interval alone, rounded up: `84`."""
        return self._points(within_stage(high, ROUND_CEILING))

    def interval(self, low: float | None, high: float | None) -> str:
        """A 95 % interval, rounded outwards: `75 to 84`; `at least 75` or `at most 84` with one end."""
        low_text = None if low is None else self._points(within_stage(low, ROUND_FLOOR))
        high_text = None if high is None else self.percent_at_most(high)
        return self._between(low_text, high_text)

    def travel(self, used: float) -> str:
        """Percent of travel used without its sign, whole: `54`; a tenth where a whole number would say all of it."""
        step = "0.1" if 99.5 <= used < 100 - TIE else "1"
        return self._decimal(rounded(used, step, ROUND_FLOOR if step == "0.1" else ROUND_HALF_EVEN))

    def estimate(self, said: ByEye) -> str:
        """An estimate by eye as it was said: `40 to 60`, `about 50`, `at least 50`, `at most 30`."""
        low, high = self._as_said(said.low), self._as_said(said.high)
        match said.kind:
            case Estimate.RANGE:
                return self._between(low, high)
            case Estimate.ABOUT:
                return self.language.say(N_("about {value}"), value=low)
            case Estimate.AT_LEAST:
                return self._between(low, None)
            case Estimate.AT_MOST:
                return self._between(None, low)

    def tight_estimate(self, said: ByEye) -> str:
        """The same where there is little room: `40–60`, `≈50`, `≥50`, `≤30`."""
        low, high = self._as_said(said.low), self._as_said(said.high)
        signs = {Estimate.ABOUT: "≈", Estimate.AT_LEAST: "≥", Estimate.AT_MOST: "≤"}
        return f"{low}{DASH}{high}" if said.kind is Estimate.RANGE else signs[said.kind] + low

    def share(self, fraction: float) -> str:
        """A part of the whole: `93 %`; a tenth where a whole number would say all or nothing, `99.6 %`."""
        value = 100 * fraction
        step = "0.1" if TIE < value < 0.5 or 99.5 <= value < 100 - TIE else "1"
        told = rounded(value, step, ROUND_HALF_EVEN)
        if step == "0.1":
            told = min(max(told, Decimal("0.1")), Decimal("99.9"))
        return self._points(told) + NO_BREAK + "%"

    def probability(self, chance: float) -> str:
        """How likely: `31 %`; a tenth near either end, and never all or nothing: `99.5 %`, `over 99.9 %`."""
        value, sign = 100 * chance, NO_BREAK + "%"
        if value < 0.1 or value > 99.9:
            pattern, bound = (N_("under {value}"), 0.1) if value < 0.1 else (N_("over {value}"), 99.9)
            return self.language.say(pattern, value=self.number(bound, 1) + sign)
        return self.number(value, 0 if 1 <= value < 99 else 1) + sign

    def risk(self, chance: float) -> str:
        """A risk agreed on, to two figures: `2.5 %`, `0.17 %`."""
        value = 100 * chance
        decimals = max(1 - math.floor(math.log10(value)), 0) if value > 0.0 else 0
        return self.exact(round(value, decimals)) + NO_BREAK + "%"

    def delta(self, points: float, within: float | None = None) -> str:
        """A difference in points: `+12 ± 4`, `0 ± 11`; `+4.8` where 5 would look like a difference."""
        return self._with_half_width(self._signed(below_least_delta(points)), within)

    def half_width(self, within: float) -> str:
        """An uncertainty in points, rounded up to at most two figures: `4`, `11`, `130`."""
        return self.number(half_width(within))

    def rounds_alike(self, delta: float, within: float) -> bool:
        """Whether a difference and its uncertainty print alike, so that the figures alone would not tell them apart."""
        return abs(below_least_delta(delta)) <= half_width(within)

    # --- sizes ------------------------------------------------------------------------------------------------------

    def length(
        self, mm: float, decimals: int | None = None, *, among: tuple[float, ...] = (), unit: bool = True
    ) -> str:
        """A length in the reader's units: `131.1 mm`, `5.161 in`, `22 in`.

        `decimals` are those it deserves in mm; without them it has what it and those `among` which it stands deserve.
        """
        if self._as_fraction(mm):
            text = self._fraction(mm / MILLIMETRES_PER[Unit.INCH])
        else:
            kept = self._kept((mm, *among)) if decimals is None else self._as_fine(decimals)
            text = self._decimal(rounded(mm / MILLIMETRES_PER[Unit(self.units)], step_of(kept), ROUND_HALF_EVEN))
        return text + self.unit if unit else text

    def _kept(self, mm: tuple[float, ...]) -> int:
        """The decimals that lengths deserve in the reader's unit: fewer where these say them wholly."""
        own = [one / MILLIMETRES_PER[Unit(self.units)] for one in mm]
        fine = self._as_fine(deserved(mm))
        return next((n for n in range(fine) if all(abs(one - round(one, n)) < 1e-7 for one in own)), fine)

    def _as_fine(self, decimals: int) -> int:
        """Decimals in the reader's unit that are as fine as so many in mm."""
        return min(decimals + 2, 3) if self.units == "in" else decimals

    def as_taken(self, sizes: Sizes, decimals: int) -> str:
        """Lengths as they were written, in their own unit, a dash for a gap: `131.2, –, 130.8 mm`, `6 15/16 in`."""
        values = [None if size is None else size / MILLIMETRES_PER[sizes.unit] for size in sizes.values]
        fractions = in_fractions(sizes) and (self.fractions or decimals == FINEST)
        write = self._fraction if fractions else partial(self.number, decimals=decimals)
        return ", ".join(DASH if value is None else write(value) for value in values) + self.symbol(sizes.unit)

    def among(self, mm: Iterable[float]) -> "Figures":
        """Those for lengths that are compared by eye: in fractions only where these say all of them."""
        return self if not self.fractions or all(map(self._as_fraction, mm)) else replace(self, fractions=False)

    def _fraction(self, value: float) -> str:
        whole, rest = divmod(Fraction(round(value * 64), 64), 1)
        if not rest:
            return self.number(whole)
        return f"{self.number(whole)}{NO_BREAK}{rest}" if whole else str(rest)

    def _as_fraction(self, mm: float) -> bool:
        """Whether a length is written as a fraction of an inch, wherever it stands."""
        return self.fractions and self.units == "in" and in_sixty_fourths(mm / MILLIMETRES_PER[Unit.INCH])

    @property
    def unit(self) -> str:
        """The unit of length behind its space."""
        return self.symbol(self.units)

    def symbol(self, unit: str) -> str:
        """A unit of length behind its space, as the reader's language writes it."""
        return THIN + self._conventions.symbol(unit)

    def temperature(self, degrees: float, *, difference: bool = False) -> str:
        """A temperature, or a difference of two: `58 °C`; Fahrenheit where lengths are in inches."""
        if self.units == "in":
            degrees = degrees * 1.8 + (0 if difference else 32)
        return self.number(degrees) + self._scale

    def temperatures(self, degrees: Iterable[float | None]) -> str:
        """Temperatures in the order taken, a dash for a gap: `31, 33, –, 32 °C`."""
        values = [DASH if one is None else self.temperature(one).removesuffix(self._scale) for one in degrees]
        return ", ".join(values) + self._scale

    @property
    def _scale(self) -> str:
        return THIN + ("°F" if self.units == "in" else "°C")

    def hours(self, hours: float) -> str:
        """Machine hours: `8 412 h`; a tenth only where the hours have one."""
        step = "1" if abs(hours - round(hours)) < 0.05 else "0.1"
        return self._decimal(rounded(hours, step, ROUND_HALF_EVEN)) + THIN + "h"

    def hours_left(self, low: float, high: float | None) -> str:
        """A range of hours to come, rounded outwards, without unit: `620 to 1 070`, `over 290`."""
        low_text, high_text = self._ends(low, high)
        if high_text is None:
            return self.language.say(N_("over {value}"), value=low_text)
        return self._between(low_text, high_text)

    def hours_from(self, low: float) -> str:
        """The hours before which nothing is to be expected, rounded down: `2 770`."""
        return self._ends(low, None)[0]

    def hours_between(self, low: float, high: float | None) -> str:
        """The same for a table: one figure where both ends print alike."""
        low_text, high_text = self._ends(low, high)
        return low_text if low_text == high_text else self.hours_left(low, high)

    def _ends(self, low: float, high: float | None) -> tuple[str, str | None]:
        """Both ends to whole hours, tens or hundreds, the coarser the longer the range: never narrower than it is."""
        high = upper_end(low, high)
        step = step_of_hours(low if high is None else high - low)
        low_text = self._decimal(outwards(low, step, ROUND_FLOOR))
        return low_text, None if high is None else self._decimal(outwards(high, step, ROUND_CEILING))

    def rate(self, per_100_h: float) -> str:
        """Points of percent worn in 100 hours, to two figures: `2.1`, `0.43`, `12`."""
        two_figures = float(f"{per_100_h:.2g}")
        decimals = 1 - math.floor(math.log10(two_figures)) if two_figures > 0.0 else 0
        return self.number(two_figures, max(decimals, 0))

    def about_hours(self, hours: float) -> str:
        """Hours that are only a best value, to the ten: `9 250 h`; whole ones under a hundred."""
        step = 10 if hours >= 100 else 1
        return self._decimal(outwards(hours, step, ROUND_HALF_EVEN)) + THIN + "h"

    def money(self, amount: float, currency: str) -> str:
        """A sum as no more than an estimate knows it: `EUR 2 680`, `20 000 EUR`."""
        return self._conventions.money(self.amount_of_money(amount), currency)

    def amount_of_money(self, amount: float) -> str:
        """The same without its currency, for a table."""
        return self._decimal(three_figures(amount))

    def number(self, value: float, decimals: int = 0) -> str:
        """A plain number with so many decimals: `1 070`, `0.05`."""
        return self._decimal(rounded(value, step_of(decimals), ROUND_HALF_EVEN))

    def exact(self, value: float) -> str:
        """A number as it was given, with as few decimals as say it: `0.05`, `2`."""
        return self._decimal(Decimal(repr(round(value, 6))).normalize())

    def small_length(self, mm: float) -> str:
        """A gauge's own figure, mm: as it was given, or in another unit to two figures: `0.05 mm`, `0.0020 in`."""
        if self._as_fraction(mm):
            return self.length(mm)
        value = mm / MILLIMETRES_PER[Unit(self.units)]
        if abs(value - round(value, 3)) < TIE or value <= 0.0:
            return self.exact(round(value, 3)) + self.unit
        return self.number(value, 1 - math.floor(math.log10(value))) + self.unit

    def points(self, value: float) -> str:
        """Points of percent worn as they were given: `1 point`, `2 points`."""
        one = 1 if value == 1.0 else 2
        return self.language.count(*NP_("{points} point", "{points} points"), one, points=self.exact(value))

    # --- days -------------------------------------------------------------------------------------------------------

    def day(self, day: date) -> str:
        """A date in words: `18 April 2031`."""
        return self._conventions.day(day)

    def short_day(self, day: date) -> str:
        """A date for a table: `12 Jan 2031`."""
        return self._conventions.short_day(day)

    def month(self, day: date, *, short: bool = False) -> str:
        """A month: `October 2031`; `Oct 2031` where there is little room."""
        return self._conventions.month(day, short=short)

    def months(self, first: date, last: date | None) -> str:
        """From one month to another, a common year once: `June to July 2031`; `from June 2031` with no end."""
        begins = self.month(first)
        if last is None:
            return self.language.say(N_("from {value}"), value=begins)
        ends = self.month(last)
        if begins == ends:
            return begins
        return self._between(self._conventions.month_alone(first) if first.year == last.year else begins, ends)

    # --- amounts in findings ----------------------------------------------------------------------------------------

    def part(self, subject: Subject | Spot) -> str:
        """Which part is spoken of: `left bottom roller 3`; `left top roller` where there is only one."""
        return labels.part(subject, self.language, self.lone)

    def parts(self, subjects: Iterable[Subject]) -> str:
        """Several parts as one list: `left bottom rollers 1 and 3 to 6`."""
        return labels.parts(subjects, self.language, self.lone)

    def amount(self, amount: Amount) -> str:
        """What fills a place in a sentence, as text. A `str` is the user's own and stays as it is."""
        match amount:
            case Subject():
                return self.part(amount)
            case Several(items):
                return self._several(items)
            case Percent():
                return self._percent_amount(amount)
            case Points(value, within):
                return self.delta(value, within) if amount.signed else self._unsigned(abs(value), within)
            case Length() | Celsius() | HoursLeft() | Rate():
                return self._quantity(amount)
            case StrEnum():
                return labels.word(amount, self.language)
            case int():
                return self.number(amount)
            case tuple():
                return labels.runs(amount, self.language)
            case _:
                return str(amount)

    def _quantity(self, amount: Length | Celsius | HoursLeft | Rate) -> str:
        match amount:
            case Length(mm, decimals):
                return self.length(mm, decimals)
            case Celsius(degrees, difference):
                return self.temperature(degrees, difference=difference)
            case HoursLeft(low, high):
                return self.hours_left(low, high)
            case Rate(per_100_h):
                return self.rate(per_100_h)

    def _several(self, items: tuple[Subject | StrEnum, ...]) -> str:
        words = [labels.word(item, self.language) for item in items if isinstance(item, StrEnum)]
        if words:
            return labels.listed(words, self.language)
        return self.parts(item for item in items if isinstance(item, Subject))

    def _percent_amount(self, amount: Percent) -> str:
        if amount.said is not None:
            return self.estimate(amount.said) + NO_BREAK + "%"
        if amount.value is None:
            return self.interval(amount.low, amount.high) + NO_BREAK + "%"
        if amount.low is None and amount.high is None:
            return self.per_cent(amount.value)
        return f"{self.per_cent(amount.value)} ({self.interval(amount.low, amount.high)})"

    # --- how numbers look -------------------------------------------------------------------------------------------

    @cached_property
    def _conventions(self) -> Conventions:
        return conventions(self.language.code)

    @property
    def decimal_mark(self) -> str:
        """The language's decimal mark."""
        return self._conventions.decimal_mark

    def _decimal(self, value: Decimal) -> str:
        sign = MINUS if value < 0 else ""
        whole, _, fraction = f"{abs(value):,f}".partition(".")
        return sign + whole.replace(",", THIN) + (self.decimal_mark + fraction if fraction else "")

    def _points(self, value: Decimal) -> str:
        return self._decimal(value)

    def _signed(self, value: Decimal) -> str:
        return ("+" if value > 0 else "") + self._decimal(value)

    def _unsigned(self, points: float, within: float | None) -> str:
        return self._with_half_width(self._decimal(below_least_delta(points)), within)

    def _with_half_width(self, text: str, within: float | None) -> str:
        return text if within is None else f"{text}{NO_BREAK}±{NO_BREAK}{self.half_width(within)}"

    def _as_said(self, value: float) -> str:
        return self.exact(value)

    def _between(self, low: str | None, high: str | None) -> str:
        if low is not None and high is not None:
            return self.language.say(N_("{low} to {high}"), low=low, high=high)
        if low is not None:
            return self.language.say(N_("at least {value}"), value=low)
        if high is not None:
            return self.language.say(N_("at most {value}"), value=high)
        return DASH
