"""Hours left, the plan and the verdict as `assess` prints them, on a demo machine that has all of them."""

from io import StringIO

import pytest
from cli.conftest import DEMO, GOOD, Run
from rich.console import Console

from tracksworn.cli.decision_tables import print_decisions
from tracksworn.documents.full.build import full_report
from tracksworn.documents.full.view import FullReport
from tracksworn.documents.report import assess_dossier
from tracksworn.inspection.reading import read_inspection

MACHINE = DEMO / "MPS-2031-0418"


@pytest.fixture(scope="module")
def view() -> FullReport:
    dossier = read_inspection(MACHINE)
    return full_report(dossier, assess_dossier(dossier))


@pytest.fixture(scope="module")
def lines(view: FullReport) -> list[str]:
    """What is printed where there is room for every line, without blanks at their ends."""
    out = StringIO()
    print_decisions(view, Console(file=out, width=2000))
    return [line.rstrip() for line in out.getvalue().splitlines()]


@pytest.mark.slow
def test_hours_left_stand_by_side_with_months_and_rates(lines: list[str], view: FullReport) -> None:
    assert view.ahead.hours is not None
    begin = lines.index(view.headings.hours_left) + 1
    for row in view.ahead.hours.rows:
        for side in (row.left, row.right):
            if side is not None:
                line = next(number for number in range(begin, len(lines)) if f"  {side.hours}  " in lines[number])
                told = " ".join(lines[line : line + 3])
                assert side.months in told
                assert side.rates in told
                assert side.rates
        assert any(line.endswith(row.note) for line in lines)
    assert " ".join(view.ahead.hours.notes) in lines


@pytest.mark.slow
def test_visits_stand_with_what_they_cost_and_what_that_is_made_of(lines: list[str], view: FullReport) -> None:
    plan = view.ahead.plan
    assert plan is not None
    assert plan.total is not None
    assert len(plan.visits) > 1
    assert "estimate" in lines[lines.index(view.headings.shop_visits) + 1]
    assert plan.basis in lines
    for visit in (*plan.visits, plan.total):
        line = next(number for number, line in enumerate(lines) if visit.when in line and line.endswith(visit.cost))
        assert visit.work in lines[line]
        assert visit.early in lines[line]
        assert lines[line].startswith(visit.number)
        amounts = f"parts {visit.parts}, labour {visit.labour}, set-up {visit.set_up}"
        assert lines[line + 1].strip() == amounts
    assert f"{view.headings.value_left}  {plan.value_left}" in lines
    assert f"{view.headings.to_restore}  {plan.to_restore}" in lines
    assert all(f"{view.headings.swaps}: {swap}" in lines for swap in plan.swaps)
    assert " ".join(plan.remarks) in lines


@pytest.mark.slow
def test_every_verdict_stands_beside_what_was_found_and_allowed(lines: list[str], view: FullReport) -> None:
    assert view.terms is not None
    begin = next(number for number, line in enumerate(lines) if line.endswith(view.terms.title))
    assert lines[begin + 1].startswith(f"{view.terms.verdict}. ")
    sides = [side for row in view.terms.rows for side in row.sides if side is not None]
    assert len(sides) > 10
    for line, side in zip(lines[begin + 2 :], sides, strict=False):
        wanted = (side.side, side.figure, side.allowed, side.verdict, side.probability)
        told = [cell.strip() for cell in line.split("  ") if cell.strip()]
        assert told[-sum(map(bool, wanted)) :] == [text for text in wanted if text]
    assert set(view.terms.reasons) < set(lines)
    assert " ".join(view.terms.rule) in lines


@pytest.mark.slow
def test_all_of_it_fits_a_narrow_terminal_and_loses_nothing(tracksworn: Run) -> None:
    done = tracksworn("assess", MACHINE, NO_COLOR="1", COLUMNS="80")
    assert done.returncode == 0
    lines = done.stdout.splitlines()
    for heading in ("Hours left to each limit", "Shop visits and what they cost", "Against the terms"):
        assert any(line.startswith(heading) for line in lines)
    assert max(map(len, lines)) <= 80
    assert not any("…" in line for line in lines)


def test_without_any_there_is_the_reason_alone(tracksworn: Run) -> None:
    done = tracksworn("assess", GOOD, COLUMNS="400")
    assert "No hours left are given: " in done.stdout
    for absent in ("Hours left to each limit", "Shop visits", "Against the terms"):
        assert absent not in done.stdout
