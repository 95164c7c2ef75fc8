"""A machine's column, the rows over all machines, and how they are shared out over sheets."""

import re
from dataclasses import replace
from datetime import date

import pytest
from builders import about, machine, reading, unseen
from hypothesis import given
from hypothesis import strategies as st
from side_by_side import ahead, gap, headed, looked_at, plan, set_side_by_side

from tracksworn.assessment.decisions import Visit
from tracksworn.documents.comparison.acts import IN_BRIEF
from tracksworn.documents.comparison.build import Compared
from tracksworn.documents.comparison.identification import stem
from tracksworn.documents.comparison.machine import named
from tracksworn.documents.comparison.measures import MANY_ROWS, MOST, column, sets
from tracksworn.documents.comparison.view import MachineView
from tracksworn.documents.fingerprint import fingerprint_of_parts
from tracksworn.documents.full.context import Context
from tracksworn.documents.words.figures import Figures
from tracksworn.inspection.model import FittedPart, Fitting, Hours
from tracksworn.inspection.vocabulary import Component, Evidence, Layout

OTHER = looked_at("131")


def first(compared: Compared) -> MachineView:
    return set_side_by_side(compared, OTHER).machines[0]


def test_who_and_what_stands_at_the_head() -> None:
    one = first(looked_at("118", machine=replace(machine(), serial="S", hours=Hours(6120.0, Evidence.OWNERS_WORD))))
    assert one.name == "Lot 118"
    assert one.hours == "6\u202f120\u202fh, told by the owner, no evidence"
    assert one.inspected.startswith("18 April 2031, ")


def test_the_overall_figure_never_stands_without_what_qualifies_it() -> None:
    one = first(looked_at("118", readings=[reading(Component.SPROCKET, unseen(), 60.0)]))
    assert one.overall.figure == "50"
    assert one.overall.interval
    assert one.overall.seen == "80\u00a0% seen, floor 40, ceiling 60"
    assert one.overall.axis.own.floor == pytest.approx(40.0)
    assert len(one.overall.axis.others) == 1


def test_the_first_limit_is_what_comes_soonest_after_what_is_past_already() -> None:
    seen = looked_at("118", 5.0, 60.0)
    rows = (ahead(0.0, 0.0, 0.0), ahead(800.0, 610.0, 980.0), ahead(2000.0, 1500.0, None))
    limits = first(Compared(seen.dossier, replace(seen.assessment, forecast=rows))).limits
    assert [(one.part, one.when) for one in limits] == [("left links", "now"), ("left links", "610 to 980 h")]


@pytest.mark.parametrize(
    ("forecast", "why"),
    [
        (None, "no hours: neither an earlier inspection nor evidence of when parts were fitted"),
        ((), "no hours: no rate of wear could be found"),
    ],
)
def test_where_there_are_no_hours_it_says_why(forecast: tuple[()] | None, why: str) -> None:
    seen = looked_at("118")
    (limit,) = first(Compared(seen.dossier, replace(seen.assessment, forecast=forecast))).limits
    assert (limit.part, limit.when) == ("", why)


def test_costs_carry_currency_and_day_of_prices() -> None:
    cost = first(looked_at("118", plan=plan())).cost
    assert cost.restore == "EUR\u00a030\u202f100"
    assert cost.left == "value left EUR\u00a041\u202f200"
    assert cost.visit == ""
    assert cost.prices == "of what was seen, without tax, prices of 1 March 2031"
    assert first(looked_at("118")).cost.left == "no prices"


def test_what_was_not_seen_stands_with_its_reason() -> None:
    one = first(looked_at("118", readings=[reading(Component.SPROCKET, unseen("guard fitted"), 60.0)]))
    assert [(part.parts, part.reason) for part in one.not_seen.parts] == [("Left sprocket", "guard fitted")]
    row = next(
        row
        for row in set_side_by_side(
            looked_at("118", readings=[reading(Component.SPROCKET, unseen("guard fitted"), 60.0)]), OTHER
        ).rows
        if row.component is Component.SPROCKET
    )
    left = row.cells[0].left
    assert left is not None
    assert (left.figure, left.reason) == ("", "guard fitted")


def test_a_component_that_a_machine_lacks_says_so() -> None:
    rubber = looked_at(
        "131",
        machine=replace(machine(Layout.RUBBER), serial="R"),
        readings=[reading(Component.LUG, 20.0, 20.0)],
    )
    rows = {row.component: row.cells for row in set_side_by_side(looked_at("118"), rubber).rows}
    assert rows[Component.LUG][0].absent == "none on this machine"
    assert rows[Component.LUG][1].absent == ""


def test_the_letterhead_is_the_first_or_the_named_one() -> None:
    machines = (
        looked_at("118"),
        looked_at("131", letterhead=headed("Millrace")),
        looked_at("207", letterhead=headed("Oxbow")),
    )
    assert set_side_by_side(*machines).branding.firm == "Millrace"
    assert set_side_by_side(*machines, host=2).branding.firm == "Oxbow"


def test_units_and_paper_are_the_letterheads_unless_asked_for() -> None:
    machines = looked_at("118", letterhead=headed("Millrace", units="in", paper="letter")), OTHER
    assert set_side_by_side(*machines).branding.paper == "letter"
    assert set_side_by_side(*machines, paper="A4").branding.paper == "A4"


def test_names_are_those_of_the_numbers_until_they_are_too_long() -> None:
    assert set_side_by_side(looked_at("118"), OTHER).identification.stem == "compare-N-118-N-131"
    long = [looked_at("9" * 15 + str(digit)) for digit in range(8)]
    view = set_side_by_side(*long)
    assert view.identification.stem == f"compare-{view.fingerprint[:12]}"


def test_a_name_of_exactly_120_characters_stays() -> None:
    def stemmed(length: int) -> str:
        seen = looked_at("1", number="N" * length)
        context = Context(seen.dossier, seen.assessment, Figures())
        return stem(named([context]), "f" * 64)

    assert len(stemmed(107) + ".html") == 120
    assert stemmed(108) == "compare-" + "f" * 12


def test_the_first_visit_has_its_day_and_its_cost() -> None:
    visits = (Visit(after=0.0, at_hours=1000.0, work=(), set_up=2000.0, track_off=680.0),)
    seen = first(looked_at("118", plan=replace(plan(), visits=visits)))
    assert seen.cost.visit == "first shop visit now: about EUR\u00a02\u202f680"
    later = first(looked_at("118", plan=replace(plan(), visits=(replace(visits[0], after=840.0),))))
    assert later.cost.visit.startswith("first shop visit in 840\u202fh")


@pytest.mark.parametrize("told", [True, False])
def test_hours_that_rest_on_the_owners_word_say_so(told: bool) -> None:
    known = Evidence.OWNERS_WORD if told else Evidence.INVOICE
    seen = looked_at("118", fitted={FittedPart(Component.LINK): Fitting(at=0.0, known_from=known)})
    (limit,) = first(Compared(seen.dossier, replace(seen.assessment, forecast=(ahead(800.0, 610.0, 980.0),)))).limits
    assert limit.caveat == ("by the owner's word" if told else "")


def test_hours_by_a_chart_of_another_machine_are_a_guide() -> None:
    seen = looked_at("118")
    chart = replace(seen.dossier.chart, stands_in_for="H-640E") if seen.dossier.chart else None
    dossier = replace(seen.dossier, chart=chart)
    (limit,) = first(Compared(dossier, replace(seen.assessment, forecast=(ahead(800.0, 610.0, 980.0),)))).limits
    assert limit.caveat == "as a guide"


def test_findings_are_counted_in_words() -> None:
    assert re.fullmatch(r"\d+ to act on, \d+ to watch, \d+ to note", first(looked_at("118")).counts)


def test_what_is_to_be_acted_on_stands_in_brief() -> None:
    assert first(looked_at("118")).to_act_on == ()
    past = first(looked_at("118", 5.0, 4.0))
    assert past.to_act_on[0] == past.acts[0].title
    assert len(past.to_act_on) <= IN_BRIEF + 1


def test_an_overall_figure_all_by_eye_is_only_about_right() -> None:
    rough = first(looked_at("118", about(50), about(50), readings=[])).overall
    assert (rough.bound, rough.by_eye) == ("≈", True)
    assert (first(looked_at("118")).overall.bound, first(looked_at("118")).overall.by_eye) == ("", False)


def test_pale_marks_carry_short_lots_or_the_numbers_of_columns() -> None:
    lots = set_side_by_side(looked_at("118"), OTHER).machines
    assert [one.tag for one in lots] == ["", ""]
    assert [span.tag for span in lots[0].overall.axis.others] == ["131"]
    numbers = set_side_by_side(looked_at("118", unlisted=True), looked_at("131", unlisted=True)).machines
    assert [one.tag for one in numbers] == ["1", "2"]
    assert [span.tag for span in numbers[0].overall.axis.others] == ["2"]


def test_a_delta_is_that_of_the_report_also_where_it_is_not_of_the_figures_beside_it() -> None:
    seen = looked_at("118", 48.0, 60.0)
    sides = seen.assessment.sides
    over_other_places = tuple(replace(side, delta=13.0) if side.component is Component.LINK else side for side in sides)
    foreign = tuple(replace(side, foreign=True) for side in sides)
    told = [Compared(seen.dossier, replace(seen.assessment, sides=one)) for one in (sides, over_other_places, foreign)]
    rows = [set_side_by_side(one, OTHER).rows for one in told]
    assert [one[0].cells[0].delta for one in rows] == ["+12", "+13", "–"]


def test_hours_carry_their_caution_wherever_there_are_any() -> None:
    seen = looked_at("118")
    told = Compared(seen.dossier, replace(seen.assessment, forecast=(ahead(800.0, 610.0, 980.0),)))
    assert set_side_by_side(told, OTHER).hours_caution.startswith("Hours left are no permission")
    assert set_side_by_side(seen, OTHER).hours_caution == ""


def test_inspections_of_one_machine_are_headed_by_day_and_hours() -> None:
    pair = looked_at("118", unlisted=True), looked_at("118", unlisted=True, revision=1)
    same = {(0, 1): gap(-20.0, same=True)}
    assert [one.name.split(", ", 1)[1] for one in set_side_by_side(*pair, by=same).machines] == [
        "N-118, revision 0",
        "N-118, revision 1",
    ]
    later = looked_at("118", unlisted=True, inspected=date(2031, 5, 2))
    assert [one.name.split(",")[0] for one in set_side_by_side(later, pair[0], by=same).machines] == [
        "18 April 2031",
        "2 May 2031",
    ]


def test_the_fingerprint_is_that_of_the_parts_in_their_order() -> None:
    # The SHA-256 of {"parts":["a","b"]}, as sha256sum has it
    assert fingerprint_of_parts(["a", "b"]) == "3b83ba8ce94f63293a1c7f865b79261db1069a2f0e28fd4b26ec4607d4a75bee"
    assert fingerprint_of_parts(["a", "b"]) != fingerprint_of_parts(["b", "a"])
    view, other = set_side_by_side(looked_at("118"), OTHER), set_side_by_side(looked_at("118", 61.0), OTHER)
    assert view.fingerprint == fingerprint_of_parts([one.fingerprint.replace(" ", "") for one in view.machines])
    assert view.fingerprint != other.fingerprint


def test_the_date_is_that_of_the_latest() -> None:
    assert set_side_by_side(looked_at("118", inspected=date(2031, 5, 2)), OTHER).identification.issued == "2031-05-02"


@given(st.integers(2, 8), st.integers(1, 14))
def test_every_machine_stands_on_one_sheet_and_none_is_crowded(count: int, rows: int) -> None:
    found = sets(count, rows)
    assert [index for one in found for index in one] == list(range(count))
    most = max(map(len, found))
    assert most <= (MOST if rows <= MANY_ROWS else MOST - 1)
    assert most - min(map(len, found)) <= 1
    assert column(most, "A4") * most <= 269
    assert column(most, "letter") >= 55
