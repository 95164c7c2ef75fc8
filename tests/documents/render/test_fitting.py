"""Heads and feet in one line, whatever the names."""

from typing import Literal

import pytest
import views
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.drawing.type import width_mm
from tracksworn.documents.full.view import FullReport, Labelled
from tracksworn.documents.render.fitting import GAP, WIDTH, Fitted, in_one_line, level, shortened
from tracksworn.documents.render.heads import draw_foot, draw_head


@pytest.mark.parametrize("room", [10.0, 30.0, 80.0])
def test_a_shortened_text_fits_and_says_that_it_goes_on(room: float) -> None:
    text = shortened(views.LONG, room, 8.6, 500)
    assert width_mm(text, 8.6, weight=500) <= room
    assert text.endswith("…")
    assert views.LONG.startswith(text.rstrip("…"))


def test_a_text_that_fits_is_left_alone() -> None:
    assert shortened("Oxbow Sale Yard", 60, 8.6, 500) == "Oxbow Sale Yard"


@given(st.lists(st.floats(1, 300), min_size=1, max_size=8), st.floats(5, 400))
def test_the_widest_give_way_first(wanted: list[float], room: float) -> None:
    given_ = level(wanted, room)
    assert sum(given_) <= max(room, sum(wanted)) + 1e-6
    assert sum(given_) == pytest.approx(min(sum(wanted), room))
    assert all(got <= want for got, want in zip(given_, wanted, strict=True))
    cut = [got for got, want in zip(given_, wanted, strict=True) if got < want]
    assert not cut or max(given_) == pytest.approx(min(cut))


@pytest.mark.parametrize("view", [views.report(), views.long_report(), views.short_report()])
def test_the_strips_fit_with_a_gap_between(view: FullReport) -> None:
    fitted = Fitted(view)
    for row, room in ((fitted.strip, WIDTH), (fitted.foot, WIDTH - 14)):
        widths = [max(width_mm(one.value, row.size, weight=500), width_mm(one.label, 6.4)) for one in row.labelled]
        assert sum(widths) + GAP * (len(widths) - 1) <= room


@pytest.mark.parametrize("view", [views.report(), views.long_report()])
def test_every_foot_says_not_sealed_beside_the_fingerprint(view: FullReport) -> None:
    foot = [text.content for text in draw_foot(Fitted(view)).texts]
    assert "Fingerprint, not sealed" in foot
    assert "a41c 09e7 5d2f 88b3" in foot
    assert "MPS-2031-0418-r0-full" in foot


def test_the_foot_of_a_document_of_one_sheet_says_which_sheet_it_is() -> None:
    assert [text.content for text in draw_foot(Fitted(views.report()), "1 of 1").texts][-1] == "1 of 1"


def test_what_ties_a_loose_sheet_to_its_machine_is_never_shortened() -> None:
    said = ("Machine", "Serial number", "Place", "Inspector")
    names = ("Hollin H-640E, 2024, " + views.LONG, "HLNCOL9000SLC0000412", views.LONG, "Maximiliana Featherstonehaugh")
    yields: tuple[Literal["partly", "never", "wholly"], ...] = ("partly", "never", "wholly", "never")
    list_ = [Labelled(label, name, yields=how) for label, name, how in zip(said, names, yields, strict=True)]
    shown = {one.label: one.value for one in in_one_line(list_, 120, (8.6, 7.6)).labelled}
    assert list(shown) == ["Machine", "Serial number", "Inspector"]
    assert (shown["Serial number"], shown["Inspector"]) == (names[1], names[3])
    assert shown["Machine"].startswith("Hollin H-640E")
    assert shown["Machine"].endswith("…")


def test_only_what_may_give_way_breaks_in_the_strip_of_sheet_one() -> None:
    strip = views.report().identification.strip
    assert Fitted(views.report()).unbroken == tuple(one.label for one in strip if one.yields != "wholly")
    assert "Machine" not in Fitted(views.long_report()).unbroken


def test_smaller_type_comes_before_a_shortened_name() -> None:
    list_ = [Labelled("Chart", "Hollin H-640E, 216 mm pitch, sealed and lubricated", yields="partly")]
    needed = width_mm(list_[0].value, 7.6, weight=500)
    row = in_one_line(list_, needed - 0.5, (7.6, 7.2))
    assert (row.labelled, row.size) == (tuple(list_), 7.2)


def test_a_head_without_a_mark_begins_at_the_edge() -> None:
    firm = draw_head(Fitted(views.short_report())).texts[0]
    assert (firm.content, firm.at[0]) == ("Millrace Plant Survey", 0.0)
