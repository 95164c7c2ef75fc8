"""What every part of the report is told from."""

import math
from collections.abc import Callable
from dataclasses import dataclass

from tracksworn.assessment.model import Assessment, AssumedValue, Row
from tracksworn.assessment.sayings import Subject
from tracksworn.documents.typefaces import Face
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.language import Language
from tracksworn.documents.words.rounding import deserved
from tracksworn.inspection.chart import ChartComponent, WearChart
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.vocabulary import Component

LETTERED = (
    AssumedValue.INSPECTOR,
    AssumedValue.SEAT,
    AssumedValue.SPREAD,
    AssumedValue.INSTRUMENT,
    AssumedValue.IMPACT,
)
"""Assumed values in the order in which they take their letters."""


@dataclass(frozen=True, slots=True)
class Context:
    """One inspection with all that it names, its assessment, and how figures are written for the reader."""

    dossier: Dossier
    assessment: Assessment
    figures: Figures
    computed: Assessment | None = None  # the assessment before any text in it was made printable, if one was
    faces: tuple[Face, ...] = ()  # of letterheads' own fonts, as this document needs them
    sealed: bool = False  # whether the document is made to be sealed
    fingerprint: str | None = None  # where it is known already

    @property
    def inspection(self) -> Inspection:
        """The inspection."""
        return self.dossier.inspection

    @property
    def chart(self) -> WearChart | None:
        """The wear chart, where there is one."""
        return self.dossier.chart

    @property
    def language(self) -> Language:
        """The reader's language."""
        return self.figures.language

    @property
    def say(self) -> Callable[..., str]:
        """A sentence in the reader's language with its places filled."""
        return self.figures.language.say

    @property
    def letters(self) -> dict[AssumedValue, str]:
        """The letter of each assumed value that was used: `a` for the first."""
        assumed = self.assessment.assumed_values
        used = [value for value in LETTERED if value in assumed]
        return dict(zip(used, "abcde", strict=False))

    def entry(self, component: Component) -> ChartComponent | None:
        """What the chart says of a component."""
        return self.chart.components.get(component) if self.chart else None


def subject(row: Row) -> Subject:
    """The part that a row speaks of."""
    return Subject(row.component, row.side, row.position)


def sizes_read(row: Row) -> tuple[float, ...]:
    """Every size that was read on a part, mm."""
    return tuple(single.size for place in row.places for single in place.singles)


def decimals(context: Context, component: Component) -> int:
    """The decimals, in mm, that all sizes of a component deserve: those of its readings and of the chart."""
    rows = context.assessment.rows(component)
    read = tuple(size for row in rows for size in sizes_read(row))
    scales = [scale for row in rows if (scale := row.scale) is not None]
    return max((deserved(sizes) for sizes in (read, *((scale.new, scale.limit) for scale in scales))), default=0)


def sizes_in(context: Context, component: Component) -> Figures:
    """In what all sizes of a component are written, as read and as the chart has them: in fractions or in decimals."""
    rows = context.assessment.rows(component)
    scales = [scale for row in rows if (scale := row.scale) is not None]
    known = [size for scale in scales for size in (scale.new, scale.limit)]
    return context.figures.among([*known, *(row.size_mm for row in rows if row.size_mm is not None)])


def derived_decimals(context: Context, component: Component) -> int:
    """Those of what is worked out from its readings: no more than its coarsest gauge is true to, a tenth at least."""
    gauges = [context.inspection.instruments.get(row.gauge or "") for row in context.assessment.rows(component)]
    known = [gauge.accuracy or gauge.uncertainty or 0.0 if gauge else 0.0 for gauge in gauges]
    fine = [max(math.floor(-math.log10(one)), 1) if one > 0.0 else 1 for one in known]
    return min([decimals(context, component), *fine])


def size_decimals(context: Context, row: Row) -> int:
    """Those of a part's size: of one reading as it was read, of a mean as it is known."""
    return derived_decimals(context, row.component) if row.readings > 1 else decimals(context, row.component)
