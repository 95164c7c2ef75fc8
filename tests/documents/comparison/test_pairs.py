"""Every two against each other, and two inspections of one machine."""

from dataclasses import replace
from datetime import date

from builders import machine
from side_by_side import gap, looked_at, set_side_by_side

from tracksworn.assessment.comparing.difference import differences
from tracksworn.assessment.comparing.model import Agreement, Difference, Gap
from tracksworn.documents.comparison.build import comparison
from tracksworn.documents.comparison.view import Comparison
from tracksworn.documents.words.figures import Figures
from tracksworn.documents.words.gaps import e_n, signed
from tracksworn.inspection.model import Hours, Inspector
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
    assert (links.right.figure, links.right.told_apart) == ("–", False)


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


def test_two_inspections_of_one_machine_are_not_two_machines() -> None:
    view = twice(gap(3.0, 5.0, same=True, agreement=(APART, AGREES)))
    assert view.identification.title == "One machine, 2 inspections side by side"
    assert view.summary.headline.startswith("N-2 and N-1 are two inspections of one machine")
    assert "more worn than" not in view.summary.text
    assert view.differences.pairs == ()


def test_the_earlier_comes_first_whatever_the_order_given() -> None:
    (two,) = twice(gap(13.0, 5.0, same=True, agreement=(APART, AGREES))).twice
    assert two.earlier == "N-1, 18 April 2031, Ines Marlow"
    assert two.later == "N-2, 20 April 2031, Ivo Renn"
    assert "As a whole it is 13 points more worn at the later, with an uncertainty of 5." in two.sentences
    assert two.course[0].change.figure == "+13\u00a0±\u00a05"


def test_what_does_not_agree_is_named_with_its_figures() -> None:
    (two,) = twice(gap(3.0, 5.0, same=True, agreement=(APART, AGREES))).twice
    assert "2 readings stand in both; 1 of them agree (E_n up to 1)." in two.sentences
    (apart,) = two.apart
    assert (apart.part, apart.earlier, apart.later, apart.e_n) == ("Left links", "68", "79", "1.01")
    assert "Hardly any work lies between, so one of the two readings is wrong." in two.sentences


def test_after_much_work_a_larger_figure_may_be_wear() -> None:
    (two,) = twice(gap(3.0, 5.0, same=True, agreement=(APART,)), hours=1900.0).twice
    assert any("work in between may account for it" in sentence for sentence in two.sentences)
    assert "Between them lie 2 days and 900\u202fh." in two.sentences


def test_of_unknown_hours_as_many_count_as_the_days_can_hold() -> None:
    apart = gap(3.0, 5.0, same=True, agreement=(APART,))
    (soon,) = twice(apart, date(2031, 4, 22), hours=None).twice
    (later,) = twice(apart, date(2031, 4, 23), hours=None).twice
    assert any("Hardly any work lies between" in sentence for sentence in soon.sentences)
    assert any("work in between may account for it" in sentence for sentence in later.sentences)


def test_a_reading_on_the_boundary_agrees() -> None:
    (two,) = twice(gap(3.0, 5.0, same=True, agreement=(replace(APART, e_n=1.0 + 1e-10),))).twice
    assert "1 reading stands in both; 1 agrees (E_n up to 1)." in two.sentences
    assert two.apart == ()


def test_less_worn_at_the_later_is_said_to_be_renewed_or_wrong() -> None:
    (two,) = twice(gap(-13.0, 5.0, same=True)).twice
    assert any("13 points less worn at the later" in sentence for sentence in two.sentences)
    assert "No part was measured at the same place in both and not renewed between." in two.sentences


def test_e_n_never_rounds_on_to_one() -> None:
    assert e_n(1.0, Figures()) == "1.00"
    assert e_n(1.0001, Figures()) == "1.01"
    assert e_n(0.9999, Figures()) == "0.99"
    assert signed(Gap(0.2, 3.0), Figures()) == "0\u00a0±\u00a03"
    assert signed(None, Figures()) == "–"
