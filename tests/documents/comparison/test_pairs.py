"""Every two against each other, and two inspections of one machine."""

from dataclasses import replace
from datetime import date

import pytest
from builders import at_least, inspection, machine, unseen
from side_by_side import gap, looked_at, set_side_by_side

from tracksworn.assessment.comparing.difference import differences
from tracksworn.assessment.comparing.model import Agreement, Difference, Gap, SideGap
from tracksworn.documents.comparison.between import in_order, in_time
from tracksworn.documents.comparison.build import comparison
from tracksworn.documents.comparison.view import Comparison
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.gaps import e_n, rate_between, signed
from tracksworn.inspection.model import Hours, Inspection, Inspector
from tracksworn.inspection.vocabulary import Component, Evidence, Side


def test_every_pair_has_its_verdict_and_its_sides() -> None:
    view = set_side_by_side(looked_at("118"), looked_at("131"), looked_at("207"), by={(0, 1): gap(4.2)})
    first, second, _ = view.differences.pairs
    assert (first.name, first.overall.figure, first.verdict) == (
        "Lot 118 less lot 131",
        "+4\u00a0±\u00a08",
        "cannot be told apart",
    )
    assert not first.overall.told_apart
    assert (second.overall.figure, second.verdict) == ("\u221220\u00a0±\u00a08", "lot 207 is more worn")
    assert view.differences.components == ("Links",)
    (links,) = second.sides
    assert links is not None
    assert (links.left.figure, links.left.told_apart) == ("\u221220\u00a0±\u00a08", True)
    assert (links.right.figure, links.right.told_apart) == ("other place", False)


def test_chance_is_told_where_there_are_many_pairs() -> None:
    two = set_side_by_side(looked_at("118"), looked_at("131")).differences.notes
    three = set_side_by_side(looked_at("118"), looked_at("131"), looked_at("207")).differences.notes
    assert not any("by chance" in note for note in two)
    assert any("by chance" in note for note in three)


def test_the_whole_way_from_inspections_to_the_differences() -> None:
    compared = [looked_at("118", 60.0, 60.0), looked_at("131", 20.0, 20.0)]
    view = comparison(compared, differences([one.assessed for one in compared]))
    (pair,) = view.differences.pairs
    assert pair.verdict == "lot 131 is more worn"
    assert pair.overall.figure.startswith("\u221224\u00a0±")  # 0.6 of 40 points
    assert view.twice == ()


SERIAL = machine().serial
AGREES = Agreement(Component.LINK, Side.RIGHT, None, None, 50.0, 51.0, 0.3)
APART = Agreement(Component.LINK, Side.LEFT, None, None, 79.0, 68.0, 1.004)


def twice(difference: Difference, later: date = date(2031, 4, 20), hours: float | None = 1040.0) -> Comparison:
    def seen(inspected: date, at: float | None, name: str, lot: str) -> object:
        it = machine(hours=None if at is None else Hours(at, Evidence.METER))
        return looked_at(lot, unlisted=True, machine=it, inspected=inspected, inspector=Inspector(name))

    first = seen(later, hours, "Ivo Renn", "2")
    second = seen(date(2031, 4, 18), 1000.0, "Ines Marlow", "1")
    return set_side_by_side(first, second, by={(0, 1): difference})  # type: ignore[arg-type]


def test_why_two_sides_make_no_pair_stands_in_the_cell() -> None:
    unread = looked_at("131", unseen(), at_least(60))
    (pair,) = set_side_by_side(looked_at("118"), unread, by={(0, 1): _without_pairs()}).differences.pairs
    (links,) = pair.sides
    assert links is not None
    assert (links.left.figure, links.right.figure) == ("not seen", "bound only")


def _without_pairs() -> Difference:
    return Difference(None, tuple(SideGap(Component.LINK, side, None) for side in Side), same_machine=False)


def test_two_inspections_of_one_machine_are_not_two_machines() -> None:
    view = twice(gap(-3.0, 5.0, same=True, agreement=(APART, AGREES)))
    assert view.identification.title == "One machine, 2 inspections side by side"
    assert view.summary.headline == "One machine, inspected twice: 2 days and 40\u202fh of work lie between."
    assert "more worn than" not in view.summary.text
    assert view.differences.pairs == ()


def test_the_earlier_stands_at_the_left_whatever_the_order_given() -> None:
    view = twice(gap(13.0, 5.0, same=True, agreement=(APART, AGREES)))
    assert [one.name for one in view.machines] == [
        "18 April 2031, 1\u202f000\u202fh",
        "20 April 2031, 1\u202f040\u202fh",
    ]
    assert [one.machine for one in view.machines] == ["N-1, Ines Marlow", "N-2, Ivo Renn"]
    assert "As a whole it is more worn at the later: +13\u00a0±\u00a05 points." in view.summary.text
    (two,) = view.twice
    assert two.course[0].change.figure == "+13\u00a0±\u00a05"
    assert two.sentences == ()  # the lead says them


def test_among_other_machines_the_earlier_takes_the_first_of_their_places() -> None:
    def seen(serial: str, day: int) -> Inspection:
        return replace(inspection(), machine=replace(machine(), serial=serial), inspected=date(2031, 4, day))

    given = [seen("A", 20), seen("B", 1), seen("A", 18), seen("C", 1), seen("A", 19)]
    assert in_time(given) == (2, 1, 4, 3, 0)


def test_differences_follow_the_columns() -> None:
    turned = in_order([(0, 1, gap(-4.0)), (0, 2, gap(-5.0)), (1, 2, gap(6.0))], (2, 1, 0))
    found = [(first, second, one.overall.points) for first, second, one in turned if one.overall]
    assert found == [(0, 1, -6.0), (0, 2, 5.0), (1, 2, 4.0)]


def test_where_hardly_any_work_lies_between_every_reading_is_shown() -> None:
    view = twice(gap(3.0, 5.0, same=True, agreement=(APART, AGREES)))
    assert "Of the 2 readings that stand in both 1 agree; in the others one of the two is wrong." in view.summary.text
    agreement = view.twice[0].agreement
    assert agreement is not None
    apart, agrees = agreement.readings
    assert (apart.part, apart.earlier, apart.later, apart.e_n, apart.agrees) == (
        "Left links",
        "68",
        "79",
        "1.01",
        False,
    )
    assert agrees.agrees


def test_after_much_work_a_larger_figure_is_wear_and_not_listed() -> None:
    view = twice(gap(3.0, 5.0, same=True, agreement=(APART, AGREES)), hours=1900.0)
    assert "All 2 readings that stand in both grew or stayed, as the work in between explains." in view.summary.text
    assert view.summary.headline.endswith("2 days and 900\u202fh of work lie between.")
    assert view.twice[0].agreement is None


def test_after_much_work_what_shrank_is_listed_alone() -> None:
    shrank = replace(APART, first=68.0, second=79.0)  # as given: the later first
    view = twice(gap(3.0, 5.0, same=True, agreement=(shrank, AGREES)), hours=1900.0)
    assert "1 of 2 readings that stand in both shrank by more than its uncertainty" in view.summary.text
    agreement = view.twice[0].agreement
    assert agreement is not None
    (one,) = agreement.readings
    assert (one.earlier, one.later) == ("79", "68")


def test_of_unknown_hours_as_many_count_as_the_days_can_hold() -> None:
    apart = gap(3.0, 5.0, same=True, agreement=(APART,))
    soon = twice(apart, date(2031, 4, 22), hours=None)
    later = twice(apart, date(2031, 4, 23), hours=None)
    assert soon.twice[0].agreement is not None
    assert later.twice[0].agreement is None
    assert "how many hours it worked is not known" in later.summary.headline


def test_a_reading_on_the_boundary_agrees() -> None:
    view = twice(gap(3.0, 5.0, same=True, agreement=(replace(APART, e_n=1.0 + 1e-10),)))
    assert "The 1 reading that stands in both agrees." in view.summary.text


def test_less_worn_at_the_later_is_said_to_be_renewed_or_wrong() -> None:
    said = twice(gap(-13.0, 5.0, same=True)).summary.text
    assert "As a whole it is less worn at the later: \u221213\u00a0±\u00a05 points." in said
    assert "No part was measured at the same place in both and not renewed between." in said


def test_what_changed_has_its_rate_where_work_lies_between() -> None:
    links = next(one for one in twice(gap(8.0, 4.0, same=True), hours=1800.0).twice[0].course if one.rate)
    assert (links.part, links.change.figure, links.rate) == ("Left links", "+8\u00a0±\u00a04", "1.0\u00a0±\u00a00.5")
    assert not twice(gap(8.0, 4.0, same=True), hours=1090.0).twice[0].has_rates


def test_among_other_machines_the_pair_tells_itself() -> None:
    first, second = looked_at("1", unlisted=True), looked_at("2", unlisted=True)
    same = replace(first.dossier.inspection.machine)
    second = looked_at("2", unlisted=True, machine=same, inspected=date(2031, 5, 2))
    view = set_side_by_side(first, second, looked_at("3"), by={(0, 1): gap(-5.0, 2.0, same=True)})
    (two,) = view.twice
    assert "As a whole it is more worn at the later: +5\u00a0±\u00a02 points." in two.sentences
    assert len(view.differences.pairs) == 2


@pytest.mark.parametrize(
    ("points", "within", "hours", "expected"),
    [
        (20.0, 3.4, 752.0, "2.7 ± 0.5"),
        (8.0, 7.3, 752.0, "1.1 ± 1.0"),
        (50.0, 12.0, 100.0, "50 ± 12"),
        (1, 0.5, 5000, "0.02 ± 0.01"),
    ],
)
def test_a_rate_is_as_fine_as_its_uncertainty(points: float, within: float, hours: float, expected: str) -> None:
    assert rate_between(Gap(points, within), hours, Figures()).replace("\u00a0", " ") == expected


def test_e_n_never_rounds_on_to_one() -> None:
    assert e_n(1.0, Figures()) == "1.00"
    assert e_n(1.0001, Figures()) == "1.01"
    assert e_n(0.9999, Figures()) == "0.99"
    assert signed(Gap(0.2, 3.0), Figures()) == "0\u00a0±\u00a03"
    assert signed(None, Figures()) == "–"
