"""How much of the first sheet is left for the elevations once the words above and the legend below have theirs."""

from collections.abc import Sequence
from typing import Final

from tracksworn.documents.drawing.key import SIZE as KEY
from tracksworn.documents.drawing.lettering import broken
from tracksworn.documents.drawing.plain import Text
from tracksworn.documents.drawing.ruler import HEIGHT as RULER
from tracksworn.documents.drawing.type import MM_PER_POINT, width_mm
from tracksworn.documents.full.view import Identification, Labelled, Summary, Whole

MOST: Final = 84.0  # mm that one elevation takes at most
LEAST: Final = 54.0
"""Under which a drawing says nothing, mm: the sheet then runs over."""
_SHEETS: Final = {"A4": 297.0 - 11.0 - 15.5, "letter": 279.4 - 11.0 - 15.5}
_WIDTH: Final = 182.0
_MASTHEAD: Final = 12.9
_WORDS: Final = Text((0, 0), "", 9.0, 400, family="Barlow")
_WORDS_WIDTH: Final = 88.5
_LINE: Final = 9.0 * 1.38 * MM_PER_POINT
_BENEATH: Final = Text((0, 0), "", 8.2, 400, family="Barlow")
_BENEATH_LINE: Final = 8.2 * 1.38 * MM_PER_POINT
_ROUND: Final = 1.4
_FACTS_WIDTH: Final = 48.5
_FACT: Final = 5.4
_FACT_LINE: Final = 8.8 * 1.36 * MM_PER_POINT  # of its value, where that stands under its label
_COUNT: Final = Text((0, 0), "", 6.6)
_COUNT_LINE: Final = 6.6 * 1.2 * MM_PER_POINT
_COUNTS: Final = 7.6 - _COUNT_LINE  # but for the lines of their labels
_BIG: Final = 54.0 * 0.74 * MM_PER_POINT + 3.2
_OVERALL_WIDTH: Final = 40.0
_CAPTION: Final = Text((0, 0), "", 9.6, 600)
_CAPTION_LINE: Final = 9.6 * 1.3 * MM_PER_POINT
_INTERVAL: Final = Text((0, 0), "", 8.2)
_INTERVAL_LINE: Final = 8.2 * 1.35 * MM_PER_POINT
_BETWEEN_LABELS: Final = 4.0
_RESTS: Final = 0.2  # what the line of their notes adds to the strip's own padding
_AROUND: Final = 3.2 + 3.4 + 0.5 + 2 * 1.9  # above the words, round the ruler, rules, and over each side
_LEGEND_LINE: Final = 7.2 * 1.3 * MM_PER_POINT
_LEGEND_LINES: Final = 3
_LEGEND: Final = 1.6 + KEY + _LEGEND_LINES * _LEGEND_LINE
_SMALL: Final = Text((0, 0), "", 7.2)
_SAFE: Final = 2.5


def room_for_elevations(paper: str, identification: Identification, first: Summary, whole: Whole) -> float:
    """The height in mm that each of the two has, so that figure, words, both sides and the legend share a sheet."""
    above = _MASTHEAD + _strip(identification.strip) + _columns(first, whole)
    above += _lines(identification.revision) + _lines(" ".join(first.beneath))
    left = _SHEETS[paper] - above - RULER - _AROUND - _LEGEND - _SAFE
    return min(max(left / 2, LEAST), MOST)


def beyond_room(unnamed: Sequence[str], drawn: str) -> float:
    """What stands beneath the elevations beyond what was kept for it, mm, as it is known only once they are drawn.

    `unnamed` are the lines beneath each side, `drawn` is the legend's paragraph.
    """
    beneath = sum(len(broken(text, _WIDTH, _SMALL)) * _LEGEND_LINE + 1.0 for text in unnamed if text)
    return beneath + max(len(broken(drawn, _WIDTH, _SMALL)) - _LEGEND_LINES, 0) * _LEGEND_LINE


def _strip(labelled: Sequence[Labelled]) -> float:
    """The strip under the head: a line of values, or two where they do not fit side by side; then what they rest on."""
    wide = sum(max(width_mm(one.value, 8.6, weight=500), width_mm(one.label, 6.4)) for one in labelled)
    lines = 1 if wide + _BETWEEN_LABELS * len(labelled) <= _WIDTH else 2
    notes = "; ".join(f"{one.label}: {one.note}" for one in labelled if one.note)
    rest = len(broken(notes, _WIDTH, _SMALL)) * _LEGEND_LINE + _RESTS if notes else 0.0
    return 3.7 + (6.4 * 1.35 + lines * 8.6 * 1.3) * MM_PER_POINT + rest


def _lines(text: str) -> float:
    """A paragraph over the whole width."""
    return _BENEATH_LINE * len(broken(text, 0.985 * _WIDTH, _BENEATH)) + _ROUND if text else 0.0


def _columns(first: Summary, whole: Whole) -> float:
    """The highest of the overall figure, the words and the facts."""
    words = _LINE * len(broken(f"{first.headline} {first.text}", _WORDS_WIDTH, _WORDS))
    return max(words, sum(map(_fact, whole.facts)) + _counts(whole.counts), _overall(whole))


def _fact(one: Labelled) -> float:
    wide = width_mm(one.label, 7.4, weight=600 if one.strong else 400) + 2.0 + width_mm(one.value, 8.8, weight=600)
    return _FACT if wide <= _FACTS_WIDTH else _FACT + _FACT_LINE


def _counts(labelled: Sequence[Labelled]) -> float:
    room = _FACTS_WIDTH / max(len(labelled), 1)
    return _COUNTS + _COUNT_LINE * max((len(broken(one.label, room, _COUNT)) for one in labelled), default=1)


def _overall(whole: Whole) -> float:
    """The large figure and what it is."""
    beneath = sum(len(broken(text, _OVERALL_WIDTH, _INTERVAL)) for text in (whole.interval, whole.shares) if text)
    caption = len(broken(whole.caption, _OVERALL_WIDTH - 2.0, _CAPTION))
    return _BIG + _CAPTION_LINE * caption + _INTERVAL_LINE * beneath
