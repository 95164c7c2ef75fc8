"""From an inspection and its assessment to the lot that index and catalogue know."""

import re
from collections.abc import Iterable
from typing import Final

from tracksworn.assessment.decisions import ForecastRow
from tracksworn.assessment.fleet import looks
from tracksworn.assessment.model import Assessment, Basis, Row
from tracksworn.assessment.sayings import Finding, Severity
from tracksworn.assessment.stages import stage
from tracksworn.documents.full.reader import figures_for
from tracksworn.documents.report import Assessed
from tracksworn.documents.sale.lot import (
    IN_DOUBT,
    Act,
    DocumentFile,
    Entry,
    HoursLeft,
    Part,
    Read,
    SaleLot,
    Whole,
    Worst,
)
from tracksworn.documents.words.findings import say_finding
from tracksworn.documents.words.forecast import may_be_beaten, next_limit, told_end
from tracksworn.documents.words.left_out import by_word
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.vocabulary import ROLLERS

_NAME: Final = re.compile(r".*-(full|listing|certificate)(-[0-9]+)?\.(pdf|html|md|png)")


def sale_lot(entry: Entry, assessed: Assessed, names: Iterable[str], *, language: str | None = None) -> SaleLot:
    """A lot that was read, with the names of its documents' files; titles of findings are in that language.

    The list's number of the lot goes before the inspection's own.
    """
    return SaleLot(
        entry=entry,
        lot=entry.lot or assessed.dossier.inspection.lot,
        looks=looks(assessed.assessment, assessed.dossier.chart),
        read=_read(assessed, language),
        documents=document_files(names),
    )


def document_files(names: Iterable[str]) -> tuple[DocumentFile, ...]:
    """Which documents files are, by their names; of several pages the first, and no pictures of another document."""
    found: dict[tuple[str, str], DocumentFile] = {}
    for name in names:
        known = None if "/" in name else _NAME.fullmatch(name)
        if known is not None:
            document, _, kind = known.groups()
            found.setdefault((document, kind), DocumentFile(document, kind, name))
    return tuple(found.values())


def _read(assessed: Assessed, language: str | None) -> Read:
    dossier, assessment = assessed.dossier, assessed.assessment
    inspection, figures = dossier.inspection, figures_for(dossier, assessment, language, None)
    machine, hours = inspection.machine, inspection.machine.hours
    acts = [one for one in assessment.findings if one.severity is Severity.ACT]
    return Read(
        number=inspection.number,
        revision=inspection.revision,
        maker=machine.maker,
        model=machine.model,
        year=machine.year,
        serial=machine.serial,
        layout=machine.layout,
        hours=None if hours is None else hours.machine,
        hours_from=None if hours is None else hours.known_from,
        inspected=inspection.inspected,
        issued=inspection.date_of_document,
        inspector=inspection.inspector.name,
        place=inspection.place,
        chart=None if dossier.chart is None else dossier.chart.title,
        letterhead=None if inspection.letterhead is None else str(inspection.letterhead),
        language=figures.language.code,
        method=assessment.method,
        fingerprint=assessed.stated.fingerprint,
        whole=_whole(assessment),
        worst=_worst(assessment),
        hours_left=_hours_left(dossier, assessment),
        acts=tuple(Act(_code(one), say_finding(one, figures).title.rstrip(".")) for one in acts),
        terms=None if assessment.conformity is None else assessment.conformity.title,
        verdict=None if assessment.conformity is None else assessment.conformity.result,
    )


def _code(finding: Finding) -> str:
    """That of its advice where it may be short of its limit within its uncertainty."""
    return IN_DOUBT if finding.advice.code == IN_DOUBT else finding.code


def _whole(assessment: Assessment) -> Whole:
    overall = assessment.overall
    measured = any(row.basis is Basis.MEASURED and row.percent_worn is not None for row in assessment.components)
    return Whole(
        percent_worn=overall.percent_worn,
        low=overall.low,
        high=overall.high,
        bound=overall.bound,
        floor=overall.floor,
        ceiling=overall.ceiling,
        stage=None if overall.percent_worn is None else stage(overall.percent_worn),
        by_eye=overall.percent_worn is not None and not measured,
        seen_share=overall.seen_share,
        unseen=overall.unseen,
        past_limit=overall.past_limit,
        near_limit=overall.near_limit,
    )


def _worst(assessment: Assessment) -> Worst | None:
    worst = assessment.overall.worst
    row = None if worst is None else assessment.row(worst.component, worst.side, worst.position)
    if worst is None or row is None:
        return None
    return Worst(
        part=_part(row, assessment),
        percent_worn=worst.percent_worn,
        low=row.low,
        high=row.high,
        by_eye=row.estimate is not None,
        stage=stage(worst.percent_worn),
    )


def _hours_left(dossier: Dossier, assessment: Assessment) -> HoursLeft | None:
    row, forecast = next_limit(assessment), assessment.forecast or ()
    if row is None:
        return None
    worst, told = assessment.overall.worst, {(one.component, one.side, one.position) for one in forecast}
    return HoursLeft(
        part=_part(row, assessment),
        low=row.hours_low,
        high=told_end(row, forecast, dossier.inspection.machine.hours_per_week),
        beaten=may_be_beaten(row, forecast),
        without_worst=worst is not None and (worst.component, worst.side, worst.position) not in told,
        by_word=by_word(row, dossier.inspection),
        as_guide=dossier.chart is not None and dossier.chart.stands_in_for is not None,
    )


def _part(row: Row | ForecastRow, assessment: Assessment) -> Part:
    there = assessment.rows(row.component, row.side)
    return Part(row.component, row.side, row.position, row.component in ROLLERS and len(there) == 1)
