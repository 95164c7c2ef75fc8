"""What reaches its limit first and in how many hours, and of what near its limit no hours can be told."""

from collections.abc import Iterator, Sequence

from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.decisions import ForecastRow, RateFrom
from tracksworn.assessment.findings.foreign import foretold, without_foreign
from tracksworn.assessment.findings.lives import first_of, latest_end
from tracksworn.assessment.findings.rubber import corded_sides
from tracksworn.assessment.findings.telling import finding, has_figure, hours_left, part_of, several
from tracksworn.assessment.findings.troubles import is_near_limit, is_past_limit
from tracksworn.assessment.fitting import began, fitting_of
from tracksworn.assessment.model import Basis, Row
from tracksworn.assessment.sayings import Finding, Saying, Severity, Subject
from tracksworn.assessment.so_far import SoFar
from tracksworn.inspection.vocabulary import Evidence


def stops_first(so_far: SoFar) -> Iterator[Finding]:
    """Which part reaches its limit first, in how many hours, and which others may.

    Nothing is said where a part is past its limit already, for that one was first, nor where cord shows; where one of
    which no hours can be told is worn as far; or where more of the others may be first than may not.
    """
    rows = foretold(so_far)
    if len(rows) < 2 or any(map(is_past_limit, so_far.components)) or corded_sides(so_far):
        return
    first = first_of(rows)
    rivals = _rivals(rows, first)
    if 2 * len(rivals) > len(rows) - len(first):
        return
    silent = _without_forecast(so_far)
    worn = max(_percent(so_far, row) for row in first)
    if any(reaches(row.counted or 0.0, worn) for row in silent):
        return
    because = [*map(hours_left, first), *_may_be_first(rivals), *_by_word(so_far, first)]
    if silent:
        parts = tuple(dict.fromkeys(Subject(row.component, row.side) for row in silent))
        because.append(Saying("no-hours-for", parts, {"parts": several(parts)}))
    amounts = {"parts": several(map(part_of, first))}
    yield finding("stops-first", Severity.NOTE, because, about=map(part_of, first), amounts=amounts)


def hours_left_unknown(so_far: SoFar) -> Iterator[Finding]:
    """A part near its limit of which no hours can be told while others have theirs, and what was missing for it.

    Common practice, no source: an invoice or a stamp with the hours at fitting costs nothing on the day; later nobody
    knows. Where the machine's hours rest on the owner's word, that is told of them.
    """
    hours = so_far.inspection.machine.hours
    if not so_far.forecast or (hours is not None and hours.known_from is Evidence.OWNERS_WORD):
        return
    rows = [row for row in _without_forecast(so_far) if row.basis is Basis.MEASURED and is_near_limit(row)]
    known = [row for row in rows if _is_fitting_known(so_far, row)]
    because = []
    for code, there in (("fitting-unknown", [row for row in rows if row not in known]), ("no-rate", known)):
        if there:
            parts = tuple(map(part_of, there))
            because.append(Saying(code, parts, {"parts": several(parts)}))
    if because:
        amounts = {"parts": several(map(part_of, rows))}
        yield finding("hours-left-unknown", Severity.NOTE, because, amounts=amounts)


def _without_forecast(so_far: SoFar) -> tuple[Row, ...]:
    """The parts seen of which no hours can be told; a roller is spoken for by the one that governs its side."""
    told = {(row.component, row.side) for row in foretold(so_far)}
    seen = without_foreign(so_far, filter(has_figure, so_far.components))
    return tuple(row for row in seen if (row.component, row.side) not in told)


def _percent(so_far: SoFar, row: ForecastRow) -> float:
    worn = so_far.row(row.component, row.side, row.position)
    return 0.0 if worn is None or worn.percent_worn is None else worn.percent_worn


def _is_fitting_known(so_far: SoFar, row: Row) -> bool:
    fitting = fitting_of(so_far.inspection, row.component, row.side, row.position)
    return began(fitting, word_counts=True) is not None


# --- reasons --------------------------------------------------------------------------------------------------------


def _rivals(rows: Sequence[ForecastRow], first: Sequence[ForecastRow]) -> tuple[Subject, ...]:
    """What may be first as well: its range begins before that of the first is over."""
    end = latest_end(first)
    if end is None:
        end = first[0].hours_left
    return tuple(part_of(row) for row in rows if row not in first and reaches(end, row.hours_low))


def _may_be_first(rivals: tuple[Subject, ...]) -> Iterator[Saying]:
    if rivals:
        yield Saying("may-be-first", rivals, {"parts": several(rivals)})


def _by_word(so_far: SoFar, first: Sequence[ForecastRow]) -> Iterator[Saying]:
    by_word = tuple(part_of(row) for row in first if _is_by_word(so_far, row))
    if by_word:
        yield Saying("fitted-by-word", by_word, {"parts": several(by_word)})


def _is_by_word(so_far: SoFar, row: ForecastRow) -> bool:
    fitting = fitting_of(so_far.inspection, row.component, row.side, row.position)
    by_word = fitting is not None and fitting.known_from is Evidence.OWNERS_WORD
    return by_word and row.rate_from is RateFrom.SINCE_FITTED
