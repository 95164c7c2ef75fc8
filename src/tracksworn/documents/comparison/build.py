"""From inspections and what follows from them to the view of machines side by side."""

from collections.abc import Sequence
from dataclasses import dataclass

from tracksworn.assessment.comparing.model import Assessed
from tracksworn.assessment.model import Assessment
from tracksworn.documents.comparison.between import Pair, between, in_order, in_time
from tracksworn.documents.comparison.columns import machine_view
from tracksworn.documents.comparison.elevations import elevations
from tracksworn.documents.comparison.headings import headings
from tracksworn.documents.comparison.identification import end_mark, foot, identification, signed, whose_terms
from tracksworn.documents.comparison.machine import Machine, named, together
from tracksworn.documents.comparison.measures import column, is_crowded, sets
from tracksworn.documents.comparison.pairs import differences_view
from tracksworn.documents.comparison.rows import rows
from tracksworn.documents.comparison.told import summary
from tracksworn.documents.comparison.twice import twice_views
from tracksworn.documents.comparison.view import Comparison
from tracksworn.documents.fingerprint import fingerprint_of_parts
from tracksworn.documents.full.closing import fingerprint_of
from tracksworn.documents.full.context import Context
from tracksworn.documents.full.identification import branding
from tracksworn.documents.full.reader import contexts_for
from tracksworn.documents.words import labels
from tracksworn.documents.words.cautions import cautions
from tracksworn.documents.words.language import N_
from tracksworn.inspection.dossier import Dossier


@dataclass(frozen=True, slots=True)
class Compared:
    """An inspection with all that it names, and its assessment by its own chart and letterhead."""

    dossier: Dossier
    assessment: Assessment

    @property
    def assessed(self) -> Assessed:
        """What it is compared by."""
        return Assessed(self.dossier.inspection, self.dossier.chart, self.assessment)


def comparison(
    compared: Sequence[Compared],
    differences: Sequence[Pair],
    *,
    host: int | None = None,
    language: str | None = None,
    units: str | None = None,
    paper: str | None = None,
) -> Comparison:
    """Machines side by side, with the differences of every two.

    The letterhead is that of `host`, else the first that there is; it gives language, units and paper where these are
    not asked for.
    """
    order = in_time([one.dossier.inspection for one in compared])
    index = order.index(_host(compared) if host is None else host)
    compared, differences = [compared[place] for place in order], in_order(differences, order)
    machines = named(_contexts(compared, compared[index].dossier, language, units))
    digits = fingerprint_of_parts([fingerprint_of(machine.context) for machine in machines])
    firm, pairs = branding(machines[index].context, paper), between(len(machines), differences)
    letterhead = compared[index].dossier.letterhead
    components = rows(machines)
    together_on_a_sheet = sets(len(machines), len(components))
    width = column(max(map(len, together_on_a_sheet)), firm.paper)
    sides = elevations(machines, width, crowded=is_crowded(together_on_a_sheet, len(components)))
    return Comparison(
        branding=firm,
        identification=identification(machines, digits),
        headings=headings(machines[index].context.language),
        summary=summary(machines, pairs),
        machines=tuple(machine_view(which, machines, sides.each[which], width) for which in range(len(machines))),
        left_sides=sides.label,
        hours_caution=_hours_caution(machines),
        rows=components,
        sets=together_on_a_sheet,
        column=width,
        differences=differences_view(machines, pairs),
        twice=twice_views(machines, pairs),
        money=_money(machines),
        standing_terms=(letterhead.standing_terms or "") if letterhead else "",
        whose_terms=whose_terms(machines[index]),
        cautions=cautions(machines[index].context.language),
        signature=signed(machines[index], machines),
        foot=foot(machines[index], machines, digits),
        fingerprint=digits,
        sealed=False,
        end=end_mark(machines),
    )


def _host(compared: Sequence[Compared]) -> int:
    """The first that has a letterhead, else the first."""
    return next((index for index, one in enumerate(compared) if one.dossier.letterhead is not None), 0)


def _contexts(
    compared: Sequence[Compared], host: Dossier, language: str | None, units: str | None
) -> tuple[Context, ...]:
    """Each in the units and language of the one letterhead, whatever its own asks for."""
    letterhead = host.letterhead
    spoken = language or (letterhead.language if letterhead else "en")
    chosen = units or (letterhead.units if letterhead else "mm")
    return contexts_for([(one.dossier, one.assessment) for one in compared], spoken, chosen)


def _money(machines: Sequence[Machine]) -> str:
    """That sums of different currencies, or of different days, cannot be set against each other."""
    say, language = machines[0].context.say, machines[0].context.language
    plans = [plan for machine in machines if (plan := machine.context.assessment.plan) is not None]
    priced = [machine for machine in machines if machine.context.assessment.plan is not None]
    if len(plans) < 2:
        return ""
    currencies = dict.fromkeys(plan.currency for plan in plans)
    if len(currencies) > 1:
        return say(
            N_("Priced in currencies that cannot be set against each other: {priced}."),
            priced=labels.listed([_priced_in(currency, priced) for currency in currencies], language),
        )
    if len({plan.as_of for plan in plans}) > 1:
        return say(
            N_("Costs of {machines} are by price lists of different days: set them against each other with care."),
            machines=together(priced, language),
        )
    return say(N_("Costs are estimates from price lists, not offers."))


def _priced_in(currency: str, priced: Sequence[Machine]) -> str:
    """Which are priced in it: `lots 118 and 131 in EUR`."""
    alike = [machine for machine in priced if (plan := machine.context.assessment.plan) and plan.currency == currency]
    context = alike[0].context
    return context.say(N_("{machines} in {currency}"), machines=together(alike, context.language), currency=currency)


def _hours_caution(machines: Sequence[Machine]) -> str:
    """What stands at the hours left, wherever there are any."""
    if not any(machine.context.assessment.forecast for machine in machines):
        return ""
    return machines[0].context.say(N_("Hours left are no permission to run a part past its limit."))
