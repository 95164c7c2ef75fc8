"""Heads and feet in one line, whatever the names."""

import pytest
import views
from hypothesis import given
from hypothesis import strategies as st

from tracksworn.documents.drawing.type import width_mm
from tracksworn.documents.full.view import FullReport
from tracksworn.documents.render.fitting import GAP, WIDTH, Fitted, level, shortened
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
    for strip, size, room in ((fitted.strip, 8.6, WIDTH), (fitted.foot, 7.6, WIDTH - 14)):
        widths = [max(width_mm(one.value, size, weight=500), width_mm(one.label, 6.4)) for one in strip]
        assert sum(widths) + GAP * (len(widths) - 1) <= room


@pytest.mark.parametrize("view", [views.report(), views.long_report()])
def test_every_foot_says_not_sealed_beside_the_fingerprint(view: FullReport) -> None:
    foot = [text.content for text in draw_foot(Fitted(view)).texts]
    assert "a41c 09e7 5d2f 88b3, not sealed" in foot
    assert "MPS-2031-0418-r0-full" in foot


def test_a_head_without_a_mark_begins_at_the_edge() -> None:
    firm = draw_head(Fitted(views.short_report())).texts[0]
    assert (firm.content, firm.at[0]) == ("Millrace Plant Survey", 0.0)
