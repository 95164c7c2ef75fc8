"""What is said of all lots together: words first, counts by stage and by reason, and which lots these are."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from tracksworn.assessment.fleet import Fleet, Look
from tracksworn.assessment.model import Stage
from tracksworn.assessment.stages import BEGINS
from tracksworn.documents.drawing.distribution import Distribution
from tracksworn.documents.full.view import Summary
from tracksworn.documents.sale.lot import SaleLot
from tracksworn.documents.sale.lots import NOT_KNOWN
from tracksworn.documents.sale.named import listed, machine, name, natural
from tracksworn.documents.sale.reasons import SHORT, code, long, short
from tracksworn.documents.sale.view import CountView, MachinesView
from tracksworn.documents.words import labels
from tracksworn.documents.words.figures import NO_BREAK, Figures
from tracksworn.documents.words.forecast import NO_PERMISSION
from tracksworn.documents.words.language import N_, NP_

LOTS: Final = NP_("{n} lot", "{n} lots")
LOOK_AGAIN: Final = NP_("{lots}, {n} of which needs another look.", "{lots}, {n} of which need another look.")
KNOWN: Final = NP_(
    "{n} has an overall figure: {low}.",
    "{n} have an overall figure, from {low} to {high}; half of them are at {median} or more.",
)
UNKNOWN: Final = NP_("{n} has no overall figure, or only a bound.", "{n} have no overall figure, or only a bound.")
TO_ACT: Final = NP_("{n} has a finding that asks for action.", "{n} have a finding that asks for action.")
PAST: Final = NP_("{n} has a part past its limit.", "{n} have a part past its limit.")
UNMADE: Final = NP_("{n} could not be made this time.", "{n} could not be made this time.")
FAULTY: Final = NP_(
    "{n} could not be read, as its files have faults.", "{n} could not be read, as their files have faults."
)


def summary(lots: Sequence[SaleLot], fleet: Fleet, figures: Figures) -> Summary:
    """How many lots there are and what is known of them; the counts add up to the whole."""
    say, count = figures.language.say, figures.language.count
    all_lots = count(*LOTS, fleet.lots)
    if fleet.to_look_at:
        headline = count(*LOOK_AGAIN, fleet.to_look_at, lots=all_lots)
    else:
        headline = say(N_("{lots}, none of which asks for another look."), lots=all_lots)
    return Summary(headline, tuple(_sentences(lots, fleet, figures)))


def _sentences(lots: Sequence[SaleLot], fleet: Fleet, figures: Figures) -> Iterator[str]:
    """What a clerk has to do first, then what is known of the wear."""
    count = figures.language.count
    if fleet.looks[Look.ACT]:
        yield count(*TO_ACT, fleet.looks[Look.ACT])
    past = sum(lot.read is not None and lot.read.whole.past_limit > 0 for lot in lots)
    for words, number in ((PAST, past), (FAULTY, fleet.looks[Look.FAULTS]), (UNMADE, fleet.looks[Look.UNMADE])):
        if number:
            yield count(*words, number)
    known = [percent for lot in lots if (percent := lot.standing.percent_worn) is not None]
    if fleet.median is not None:
        low, high, median = map(figures.per_cent, (min(known), max(known), fleet.median))
        yield count(*KNOWN, fleet.known, low=low, high=high, median=median)
    if fleet.not_known:
        yield count(*UNKNOWN, fleet.not_known)


def distribution(fleet: Fleet, figures: Figures) -> Distribution:
    """How the drawing of all lots is made."""
    say = figures.language.say
    aside = tuple(
        (say(text), count)
        for text, count in (
            (N_("not known"), fleet.not_known),
            (SHORT[Look.FAULTS], fleet.looks[Look.FAULTS]),
            (SHORT[Look.UNMADE], fleet.looks[Look.UNMADE]),
        )
        if count
    )
    middle = "" if fleet.median is None else say(N_("middle {percent}"), percent=figures.percent(fleet.median))
    counted = [
        say(N_("{low} to {high}: {count}"), low=str(10 * index), high=str(10 * index + 10), count=str(count))
        for index, count in enumerate(fleet.classes)
        if count
    ]
    counted += [say(N_("{name}: {count}"), name=text, count=str(count)) for text, count in aside]
    return Distribution(
        classes=fleet.classes,
        aside=aside,
        median=fleet.median,
        median_text=middle,
        limit=say(N_("limit")),
        alternative=say(
            N_("Lots by percent worn as a whole: {counted}."), counted=labels.clauses(counted, figures.language)
        ),
    )


# --- counts ---


def stages(fleet: Fleet, figures: Figures) -> tuple[CountView, ...]:
    """Lots by stage, then those that are in none; all but the last stage are told even where none is in them."""
    say = figures.language.say
    told = [
        CountView(str(one), labels.word(one, figures.language), _range(one, figures), str(count))
        for one, count in fleet.stages.items()
        if count or one is not Stage.PAST_LIMIT
    ]
    if fleet.not_known:
        told.append(
            CountView(NOT_KNOWN, say(N_("not known")), say(N_("no figure, or only a bound")), str(fleet.not_known))
        )
    for look, why in ((Look.FAULTS, N_("files with faults")), (Look.UNMADE, N_("this time"))):
        if fleet.looks[look]:
            told.append(CountView(look, short(look, figures), say(why), str(fleet.looks[look])))
    return tuple(told)


def _range(one: Stage, figures: Figures) -> str:
    say, edges = figures.language.say, [0.0, *BEGINS.values()]
    place = list(Stage).index(one)
    low = figures.number(edges[place])
    if place + 1 == len(edges):
        return say(N_("{low}\u00a0% and over"), low=low)
    return say(N_("{low} to under {high}\u00a0%"), low=low, high=figures.number(edges[place + 1]))


def reasons(lots: Sequence[SaleLot], fleet: Fleet, figures: Figures) -> tuple[CountView, ...]:
    """Why lots need another look, and which; reasons that do not occur are left out."""
    return tuple(
        CountView(
            code=code(look),
            name=long(look, figures),
            range="",
            count=str(count),
            lots=listed(name(lot) for lot in lots if look in lot.looks),
            short=short(look, figures),
        )
        for look, count in fleet.looks.items()
        if count
    )


def machines(lots: Sequence[SaleLot], figures: Figures) -> tuple[MachinesView, ...]:
    """Lots by maker and model, in the order of their names; those that could not be read last."""
    found: dict[str, list[str]] = {}
    for lot in lots:
        found.setdefault(machine(lot), []).append(name(lot))
    unread = found.pop("", [])
    told = [MachinesView(one, str(len(found[one])), listed(found[one])) for one in sorted(found, key=natural)]
    if unread:
        told.append(
            MachinesView(
                labels.opening(figures.language.say(N_("machine not known"))), str(len(unread)), listed(unread)
            )
        )
    return tuple(told)


def days(lots: Iterable[SaleLot], figures: Figures) -> str:
    """From the first to the last day of inspection; empty where nothing could be read."""
    inspected = [lot.read.inspected for lot in lots if lot.read is not None]
    if not inspected:
        return ""
    first, last = figures.day(min(inspected)), figures.day(max(inspected))
    return first if first == last else figures.language.say(N_("{low} to {high}"), low=first, high=last)


def no_permission(figures: Figures) -> str:
    """What stands wherever hours do."""
    return figures.language.say(NO_PERMISSION)


def thresholds(figures: Figures) -> str:
    """How the reasons are to be taken."""
    return figures.language.say(
        N_(
            "From where on a reason counts is judgement, of figures before they are rounded; a lot may have several "
            "reasons, and none of them is a verdict."
        )
    )


def legend(figures: Figures) -> str:
    """How a lot's line and figures are read."""
    return figures.language.say(
        N_(
            "Overall is the whole undercarriage by cost: 0 is as new, the heavy stroke is the limit, ticks stand at 50 "
            "and 80. The pointer is the figure, the bar its {confidence} interval; ≈ and a dashed bar: all was judged "
            "by eye. Dashes beside it run to where the figure would be were all that is unseen as new, and were it at "
            "its limit; what was seen is a share of the cost. An average hides: the worst part stands beside it, bold "
            "past its limit. Hours to the next limit are of parts that were measured and of known age, and of a side's "
            "rollers of the worst; not known: there is no such part."
        ),
        confidence=f"95{NO_BREAK}%",
    )
