"""One lot of a sale: all that index and catalogue tell of it, as plain values that go to JSON and back unchanged.

Percents are points of percent worn, hours machine hours, shares fractions of 1, days ISO 8601. It holds no text of the
pages but the titles of findings, so that an index can be made anew without any inspection being read again.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from typing import Any, Final

from tracksworn.assessment.decisions import ForecastRow, Result
from tracksworn.assessment.fleet import Look, Standing, looks
from tracksworn.assessment.model import Assessment, Basis, Bound, Row, Stage
from tracksworn.assessment.sayings import Severity
from tracksworn.assessment.stages import stage
from tracksworn.documents.fingerprint import fingerprint
from tracksworn.documents.full.reader import figures_for
from tracksworn.documents.statement import statement
from tracksworn.documents.words.findings import say_finding
from tracksworn.documents.words.forecast import next_limit
from tracksworn.documents.words.left_out import by_word
from tracksworn.inspection.dossier import Dossier
from tracksworn.inspection.vocabulary import ROLLERS, Component, Evidence, Layout, Side

KIND: Final = "sale lot 1"
_NAME: Final = re.compile(r".*-(full|listing|certificate)(-[0-9]+)?\.(pdf|html|md|png)")


@dataclass(frozen=True, slots=True)
class Entry:
    """A lot as the list has it: its place there, from 1, its inspection's path as listed, and its number if given."""

    place: int
    inspection: str
    lot: str | None = None


@dataclass(frozen=True, slots=True)
class Whole:
    """The whole undercarriage by shares of cost, never without what qualifies it."""

    percent_worn: float | None
    low: float | None
    high: float | None
    bound: Bound | None
    floor: float
    ceiling: float
    stage: Stage | None
    by_eye: bool  # whether nothing was measured
    seen_share: float
    unseen: int  # parts not seen
    past_limit: int
    near_limit: int


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a machine. `alone` where a side has only one of it, so that its position need not be named."""

    component: Component
    side: Side
    position: int | None
    alone: bool = False


@dataclass(frozen=True, slots=True)
class Worst:
    """The most worn part. By eye `low` and `high` are the range as said, one of them missing for a bound."""

    part: Part
    percent_worn: float
    low: float | None
    high: float | None
    by_eye: bool
    stage: Stage


@dataclass(frozen=True, slots=True)
class HoursLeft:
    """Hours until the next part reaches its limit, of those that are not past it."""

    part: Part
    low: float
    high: float | None  # None: no upper end
    by_word: bool  # rest on what the owner told
    as_guide: bool  # by a chart that was made for another machine


@dataclass(frozen=True, slots=True)
class Act:
    """A finding that asks for action: its code, and its title in the language of the lot's documents."""

    code: str
    title: str


@dataclass(frozen=True, slots=True)
class DocumentFile:
    """A file of the lot: which document, in which format, and its name in the folder."""

    document: str
    format: str
    name: str


@dataclass(frozen=True, slots=True)
class Read:
    """What was read of a lot without faults, and what follows from it."""

    number: str
    revision: int
    maker: str
    model: str
    year: int | None
    serial: str
    layout: Layout
    hours: float | None
    hours_from: Evidence | None
    inspected: date
    issued: date
    inspector: str
    place: str | None
    chart: str | None  # its title; None without one
    letterhead: str | None  # its path from the inspection's folder
    language: str  # of its documents, by BCP 47
    method: int
    fingerprint: str
    whole: Whole
    worst: Worst | None
    hours_left: HoursLeft | None
    acts: tuple[Act, ...]
    terms: str | None  # their title
    verdict: Result | None  # None without terms


@dataclass(frozen=True, slots=True)
class SaleLot:
    """One lot. `read` is None where its files have faults, which then stand in `faults` as `file:line:column: what`."""

    entry: Entry
    lot: str | None
    looks: tuple[Look, ...]
    read: Read | None = None
    faults: tuple[str, ...] = ()
    documents: tuple[DocumentFile, ...] = ()

    @property
    def standing(self) -> Standing:
        """This lot among many."""
        whole = self.read.whole if self.read is not None else None
        known = whole.percent_worn if whole is not None and whole.bound is None else None
        return Standing(known, self.read is None, self.looks)

    def as_json(self) -> dict[str, Any]:
        """Plain values for JSON, in the order of the published format; what is not known is null."""
        return {"tracksworn": KIND, **_plain(self)}

    @classmethod
    def from_json(cls, said: Mapping[str, Any]) -> "SaleLot":
        """The lot that `as_json` wrote. Raises ValueError for anything else."""
        try:
            if said["tracksworn"] != KIND:
                raise ValueError(f"a lot begins with `{KIND}`, not {said['tracksworn']!r}")
            return _lot(said)
        except (KeyError, TypeError) as error:
            raise ValueError(f"this is no lot as this program writes it: {error!r}") from error


def sale_lot(
    entry: Entry, dossier: Dossier, assessment: Assessment, names: Iterable[str], *, language: str | None = None
) -> SaleLot:
    """A lot that was read, with the names of its documents' files; titles of findings are in that language.

    The list's number of the lot goes before the inspection's own.
    """
    return SaleLot(
        entry=entry,
        lot=entry.lot or dossier.inspection.lot,
        looks=looks(assessment, dossier.chart),
        read=_read(dossier, assessment, language),
        documents=document_files(names),
    )


def faulty_lot(entry: Entry, faults: Iterable[str]) -> SaleLot:
    """A lot of which the files have faults: no figures."""
    return SaleLot(entry=entry, lot=entry.lot, looks=(Look.FAULTS,), faults=tuple(faults))


def document_files(names: Iterable[str]) -> tuple[DocumentFile, ...]:
    """Which documents files are, by their names; of several pages the first, and no pictures of another document."""
    found: dict[tuple[str, str], DocumentFile] = {}
    for name in names:
        known = None if "/" in name else _NAME.fullmatch(name)
        if known is not None:
            document, _, kind = known.groups()
            found.setdefault((document, kind), DocumentFile(document, kind, name))
    return tuple(found.values())


# --- from an assessment ---


def _read(dossier: Dossier, assessment: Assessment, language: str | None) -> Read:
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
        fingerprint=fingerprint(statement(assessment), dossier.digests or {}),
        whole=_whole(assessment),
        worst=_worst(assessment),
        hours_left=_hours_left(dossier, assessment),
        acts=tuple(Act(one.code, say_finding(one, figures).title.rstrip(".")) for one in acts),
        terms=None if assessment.conformity is None else assessment.conformity.title,
        verdict=None if assessment.conformity is None else assessment.conformity.result,
    )


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
    row = next_limit(assessment)
    if row is None:
        return None
    return HoursLeft(
        part=_part(row, assessment),
        low=row.hours_low,
        high=row.hours_high,
        by_word=by_word(row, dossier.inspection),
        as_guide=dossier.chart is not None and dossier.chart.stands_in_for is not None,
    )


def _part(row: Row | ForecastRow, assessment: Assessment) -> Part:
    there = assessment.rows(row.component, row.side)
    return Part(row.component, row.side, row.position, row.component in ROLLERS and len(there) == 1)


# --- to JSON and back ---


def _plain(value: Any) -> Any:
    """A value of this module as JSON has it."""
    if isinstance(value, StrEnum):
        return str(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    names = getattr(value, "__dataclass_fields__", None)
    return value if names is None else {name: _plain(getattr(value, name)) for name in names}


def _lot(said: Mapping[str, Any]) -> SaleLot:
    return SaleLot(
        entry=Entry(**said["entry"]),
        lot=said["lot"],
        looks=tuple(map(Look, said["looks"])),
        read=None if said["read"] is None else _read_again(said["read"]),
        faults=tuple(said["faults"]),
        documents=tuple(DocumentFile(**one) for one in said["documents"]),
    )


def _read_again(said: Mapping[str, Any]) -> Read:
    worst, left, whole = said["worst"], said["hours_left"], said["whole"]
    return Read(
        **{
            **said,
            "layout": Layout(said["layout"]),
            "hours_from": _maybe(Evidence, said["hours_from"]),
            "inspected": date.fromisoformat(said["inspected"]),
            "issued": date.fromisoformat(said["issued"]),
            "whole": Whole(**{**whole, "bound": _maybe(Bound, whole["bound"]), "stage": _maybe(Stage, whole["stage"])}),
            "worst": worst and Worst(**{**worst, "part": _part_again(worst["part"]), "stage": Stage(worst["stage"])}),
            "hours_left": left and HoursLeft(**{**left, "part": _part_again(left["part"])}),
            "acts": tuple(Act(**one) for one in said["acts"]),
            "verdict": _maybe(Result, said["verdict"]),
        }
    )


def _part_again(said: Mapping[str, Any]) -> Part:
    return Part(**{**said, "component": Component(said["component"]), "side": Side(said["side"])})


def _maybe(kind: type[StrEnum], said: str | None) -> Any:
    return None if said is None else kind(said)
