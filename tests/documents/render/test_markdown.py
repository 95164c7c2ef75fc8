"""What the Markdown says where the other formats have a drawing, and what its pictures are set in."""

from dataclasses import replace
from xml.etree import ElementTree

import pytest
from documents.render.conftest import made, view

from tracksworn.assessment.model import Basis
from tracksworn.documents.full.view import FullReport
from tracksworn.documents.render.render import render

pytestmark = pytest.mark.slow


def written(report: FullReport) -> str:
    return render(report, ["md"])[0].content.decode("utf-8")


def with_left(**changes: object) -> FullReport:
    base = view("short")
    row = base.parts[0]
    assert row.left is not None
    left = replace(row.left, **changes)  # type: ignore[arg-type]
    return replace(base, parts=(replace(row, left=left), *base.parts[1:]))


@pytest.mark.parametrize(("reason", "said"), [("beside a wall", "**Not seen**, beside a wall"), ("", "**Not seen**")])
def test_a_part_that_was_not_seen_says_so_before_its_reason(reason: str, said: str) -> None:
    unseen = with_left(
        basis=Basis.NOT_SEEN,
        figure="",
        letters="",
        interval="",
        stage="",
        reason=reason,
        reading="",
        details=(),
    )
    assert f"| {said} |" in written(unseen)


def test_interval_stage_and_letters_stand_apart_from_the_figure() -> None:
    seen = with_left(figure="79", letters="a, c", interval="74 to 84", stage="second half", reason="")
    assert "| **79** (74 to 84); second half (a, c) |" in written(seen)


def test_every_text_of_its_pictures_keeps_its_length_without_the_fonts() -> None:
    pictures = [file for file in made("like most", "md") if file.name.endswith(".svg")]
    for picture in pictures:
        for text in ElementTree.fromstring(picture.content).iter("{http://www.w3.org/2000/svg}text"):
            assert float(text.get("textLength", "0")) > 0, (picture.name, text.text)


def test_a_heading_of_the_page_is_not_repeated_within_the_picture() -> None:
    heading = view("like most").sides[0].heading
    page, *pictures = made("like most", "md")
    assert f"## {heading}" in page.content.decode("utf-8")
    (left,) = (file for file in pictures if file.name.endswith("/elevation-left-1.svg"))
    texts = ElementTree.fromstring(left.content).iter("{http://www.w3.org/2000/svg}text")
    assert heading not in {text.text for text in texts}
