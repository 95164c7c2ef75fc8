"""One lot as index and catalogue show it."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Final
from urllib.parse import quote

from tracksworn.assessment.boundaries import reaches
from tracksworn.assessment.fleet import Look
from tracksworn.assessment.model import Bound, Stage
from tracksworn.assessment.stages import stage
from tracksworn.documents.drawing.whole_bar import WholeBar
from tracksworn.documents.sale.lot import IN_DOUBT, DocumentFile, HoursLeft, Read, SaleLot, Whole
from tracksworn.documents.sale.named import name, part
from tracksworn.documents.sale.reasons import code, short
from tracksworn.documents.sale.view import LeftView, LinkView, LotView, ReadView, WholeView
from tracksworn.documents.words import labels
from tracksworn.documents.words.conformity import RESULTS
from tracksworn.documents.words.figures import DASH, THIN, Figures
from tracksworn.documents.words.language import C_, N_, NP_
from tracksworn.documents.words.left_out import AS_A_GUIDE
from tracksworn.inspection.vocabulary import Evidence

NOT_KNOWN: Final = "not known"
"""For a filter, beside the stages."""
ROUGHLY: Final = "≈"
DOCUMENTS: Final[Mapping[str, str]] = {
    "listing": C_("the listing sheet, as a link", "Sheet"),
    "full": N_("Report"),
    "certificate": N_("Certificate"),
}
"""In the order in which a buyer wants them."""
FORMATS: Final = {"pdf": "PDF", "html": "HTML", "md": "Markdown", "png": "PNG"}
UNSEEN: Final = NP_("{n} part not seen", "{n} parts not seen")
PAST: Final = NP_("{n} part past limit", "{n} parts past limit")
COUNTED: Final = frozenset({"past-limit", IN_DOUBT})
"""Findings that are told as a number of parts."""
UNREAD: Final = {
    False: N_("No figure until its files are mended"),
    True: N_("No figure: it could not be made this time"),
}
"""Of a lot with faults, and of one that failed for none of its own."""


def lot_view(lot: SaleLot, ranks: str, figures: Figures) -> LotView:
    """A lot that was read, or that could not be."""
    read = lot.read
    shown = None if read is None else _read(read, figures)
    return LotView(
        anchor=anchor(lot),
        lot=lot.lot or "",
        name=name(lot),
        record=lot.entry.inspection if read is None else _record(read, figures),
        read=shown,
        unread="" if read is not None else figures.language.say(UNREAD[Look.UNMADE in lot.looks]),
        faults=lot.faults,
        looks=tuple(short(look, figures) for look in _told_apart(lot.looks)),
        every_look=tuple(short(look, figures) for look in lot.looks),
        look_codes=" ".join(map(code, lot.looks)),
        stage_code=lot.looks[0] if read is None else _stage_code(read.whole),
        documents=tuple(_links(lot, figures)),
        ranks=ranks,
    )


def _told_apart(looks: Sequence[Look]) -> Iterator[Look]:
    """Reasons but those of which the findings or a weightier reason tell more."""
    for look in looks:
        if look not in (Look.ACT, Look.PART_PAST_LIMIT) and not (
            look is Look.PART_NEAR_LIMIT and Look.WORST_FAR_ABOVE in looks
        ):
            yield look


def _record(read: Read, figures: Figures) -> str:
    return figures.language.say(N_("{number}, revision {revision}"), number=read.number, revision=str(read.revision))


def _read(read: Read, figures: Figures) -> ReadView:
    say, count = figures.language.say, figures.language.count
    return ReadView(
        machine=f"{read.maker} {read.model}",
        year="" if read.year is None else str(read.year),
        serial=read.serial,
        hours=DASH if read.hours is None else figures.hours(read.hours),
        hours_note=_hours_note(read, figures),
        inspected=figures.short_day(read.inspected),
        by=read.inspector,
        whole=_whole(read.whole, figures),
        worst=_worst(read, figures),
        worst_part=say(N_("no part has a figure")) if read.worst is None else part(read.worst.part, figures),
        past=read.worst is not None and reaches(read.worst.percent_worn, 100.0),
        past_limit=_past_limit(read, figures),
        left=_left(read, figures),
        unseen=count(*UNSEEN, read.whole.unseen) if read.whole.unseen else "",
        chart=say(N_("no wear chart")) if read.chart is None else read.chart,
        acts=_findings(read),
        acts_language="" if read.language == figures.language.code else read.language,
        verdict=_verdict(read, figures),
    )


def _past_limit(read: Read, figures: Figures) -> str:
    """How many parts, and whether some are only so within their uncertainty."""
    if not read.whole.past_limit:
        return ""
    parts = figures.language.count(*PAST, read.whole.past_limit)
    in_doubt = any(act.code == IN_DOUBT for act in read.acts)
    return figures.language.say(N_("{parts}, measure again"), parts=parts) if in_doubt else parts


def _findings(read: Read) -> tuple[str, ...]:
    """What asks for action, but for parts past their limit, which are counted."""
    return tuple(act.title for act in read.acts if act.code not in COUNTED)


def anchor(lot: SaleLot) -> str:
    """The name of a lot within a page, by its place in the list."""
    return f"lot-{lot.entry.place}"


def _stage_code(whole: Whole) -> str:
    return NOT_KNOWN if whole.stage is None or whole.bound is not None else str(whole.stage)


def _hours_note(read: Read, figures: Figures) -> str:
    """What hours rest on where that is not the meter."""
    if read.hours_from in (None, Evidence.METER):
        return ""
    if read.hours_from is Evidence.OWNERS_WORD:
        return figures.language.say(N_("by the owner's word"))
    return labels.word(read.hours_from, figures.language)


# --- the whole ---


def _whole(whole: Whole, figures: Figures) -> WholeView:
    interval = ""
    if whole.bound is None and whole.low is not None and whole.high is not None:
        interval = figures.interval(whole.low, whole.high)
    reach = _reach(whole, figures)
    return WholeView(
        figure=DASH if whole.percent_worn is None else figures.percent(whole.percent_worn),
        bound=_bound(whole, figures),
        by_eye=whole.by_eye,
        interval=interval,
        stage=_stage(whole, figures),
        seen=figures.share(whole.seen_share),
        reach=reach,
        bar=_bar(whole, labels.clauses(filter(None, (interval, reach)), figures.language)),
    )


def _reach(whole: Whole, figures: Figures) -> str:
    """Where the figure would be were all that is unseen as new, or at its limit; how sure it is apart."""
    floor, ceiling = figures.percent(whole.floor), figures.percent(whole.ceiling)
    if floor == ceiling:
        return ""
    return figures.language.say(N_("unseen as new {floor}, at limit {ceiling}"), floor=floor, ceiling=ceiling)


def _bound(whole: Whole, figures: Figures) -> str:
    if whole.bound is Bound.AT_LEAST:
        return labels.word(whole.bound, figures.language)
    return ROUGHLY if whole.by_eye else ""


def _stage(whole: Whole, figures: Figures) -> str:
    """The stage, and the one that the interval reaches above it; of a bound the stage or beyond."""
    if whole.stage is None:
        return ""
    language, named = figures.language, labels.word(whole.stage, figures.language)
    if whole.bound is not None:
        return named if whole.stage is Stage.PAST_LIMIT else language.say(N_("{stage} or beyond"), stage=named)
    furthest = whole.stage if whole.high is None else stage(whole.high)
    order = list(Stage)
    if order.index(furthest) <= order.index(whole.stage):
        return named
    return language.say(N_("{stage}, possibly {next}"), stage=named, next=labels.word(furthest, language))


def _bar(whole: Whole, alternative: str) -> WholeBar:
    known = whole.percent_worn is not None
    return WholeBar(
        percent=whole.percent_worn,
        low=whole.low if known else None,
        high=None if whole.bound is not None or not known else whole.high,
        floor=whole.floor,
        ceiling=whole.ceiling,
        stage=whole.stage,
        by_eye=whole.by_eye,
        alternative=alternative,
    )


# --- worst part, hours, verdict ---


def _worst(read: Read, figures: Figures) -> str:
    """Percent of the most worn part; by eye as it was said."""
    worst = read.worst
    if worst is None:
        return ""
    if not worst.by_eye:
        return figures.percent(worst.percent_worn)
    if worst.low is None and worst.high is None:
        return figures.percent(worst.percent_worn)
    return figures.interval(worst.low, worst.high)


def _left(read: Read, figures: Figures) -> LeftView:
    """None are left where a part is past its limit."""
    say, left, past = figures.language.say, read.hours_left, read.whole.past_limit > 0
    if left is None:
        return LeftView(known=past, hours=say(N_("now: past it") if past else N_("not known")))
    hours = figures.hours_between(left.low, left.high) + THIN + "h"
    return LeftView(
        known=True,
        hours=say(N_("now; next {hours}"), hours=hours) if past else hours,
        now=say(N_("now")) if past else "",
        next=say(N_("next {hours}"), hours=hours) if past else "",
        part="" if left.beaten else part(left.part, figures),
        rest_on=_rest_on(left, read, figures),
    )


def _rest_on(left: HoursLeft, read: Read, figures: Figures) -> str:
    caveats = [N_("by wear alone")] if _findings(read) else []
    caveats += [N_("without the worst part")] if left.without_worst and not read.whole.past_limit else []
    caveats += [N_("by the owner's word")] if left.by_word else []
    caveats += [AS_A_GUIDE] if left.as_guide else []
    return ", ".join(map(figures.language.say, caveats))


def _verdict(read: Read, figures: Figures) -> str:
    if read.verdict is None or read.terms is None:
        return ""
    result = figures.language.say(RESULTS[read.verdict])
    return figures.language.say(N_("{terms}: {result}"), terms=read.terms, result=result)


# --- documents ---


def _links(lot: SaleLot, figures: Figures) -> Iterator[LinkView]:
    """The listing sheet first; of each document all its formats."""
    for one in sorted(lot.documents, key=lambda one: (_place(one), list(FORMATS).index(one.format))):
        name = figures.language.say(DOCUMENTS[one.document])
        yield LinkView(_place(one), name, FORMATS[one.format], quote(one.name))


def _place(one: DocumentFile) -> int:
    return list(DOCUMENTS).index(one.document)
