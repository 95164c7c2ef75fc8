"""Whether the pages say what the attached data say: the document is made anew, and both are read back by PDFium."""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import pypdfium2 as pdfium

from tracksworn.documents.making import MAKING, Making, read_making, with_stand_ins
from tracksworn.documents.report import Assessed, make_report
from tracksworn.inspection.faults import TrackswornError
from tracksworn.records.plainly import plainly
from tracksworn.records.verifying.carried import Carried
from tracksworn.records.verifying.verdict import Answer, Name, State

AROUND: Final = 30  # characters shown of what differs
_FIGURE: Final = re.compile(r"\d+(?:[.,]\d+)*")


def judge_pages(part: bytes, carried: Carried, assessed: Assessed) -> Answer:
    """Hold the pages of the sealed part against those that this program makes of what it carries."""
    if MAKING not in carried.files:
        return _told(State.FAILED, f"it carries no {MAKING}, which says how it was made")
    try:
        there = pages_of(part)
    except pdfium.PdfiumError as error:
        return _told(State.FAILED, f"its pages cannot be read: {plainly(error)}")
    try:
        making = read_making(carried.files[MAKING])
        shown = with_stand_ins(assessed.dossier, making, carried.digests)
        anew = _made_anew(making, replace(assessed, dossier=shown))
    except (ValueError, TrackswornError) as error:
        return _told(State.FAILED, f"it cannot be made anew from what it carries: {plainly(error)}")
    wanted = pages_of(anew)
    return _exactly(there, wanted) if making.repeatable else _figures(there, wanted, making)


def _made_anew(making: Making, assessed: Assessed) -> bytes:
    (content,) = make_report(
        assessed,
        formats=["pdf"],
        document=making.document,
        language=making.language,
        units=making.units,
        paper=making.paper,
        sealed=True,
    ).values()
    return content


def pages_of(content: bytes) -> list[str]:
    """The text of each page, its blanks as single ones. Raises PdfiumError where a page cannot be read."""
    pdf = pdfium.PdfDocument(content)
    try:
        return [" ".join(page.get_textpage().get_text_range().split()) for page in pdf]
    finally:
        pdf.close()


def _exactly(there: Sequence[str], wanted: Sequence[str]) -> Answer:
    if len(there) != len(wanted):
        return _told(State.FAILED, f"it has {len(there)} pages, and what it carries gives {len(wanted)}")
    for number, (one, other) in enumerate(zip(there, wanted, strict=True), 1):
        if one != other:
            return _told(State.FAILED, f"page {number} is not what it carries gives: {_apart(one, other)}")
    return _told(State.PASSED, f"the text of {_counted(len(there))} is what the attached data give")


def _figures(there: Sequence[str], wanted: Sequence[str], making: Making) -> Answer:
    """Every figure stands on its page; where there are more or fewer pages, on some page."""
    if len(there) != len(wanted):
        there, wanted = [" ".join(there)], [" ".join(wanted)]
    for one, other in zip(there, wanted, strict=True):
        held = _FIGURE.findall(one)
        if missing := [figure for figure in _FIGURE.findall(other) if figure not in held]:
            return _told(State.FAILED, f"its pages do not say {missing[0]}, which the attached data give")
    why = "letterhead's fonts are not attached" if making.fonts else f"version {making.program} made it"
    return _told(State.PASSED, f"every figure that the attached data give stands on its page (figures alone: {why})")


def _apart(one: str, other: str) -> str:
    place = next((i for i, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))
    start = max(place - AROUND // 2, 0)
    return f"`{one[start : place + AROUND]}` stands where `{other[start : place + AROUND]}` should"


def _counted(pages: int) -> str:
    return "its page" if pages == 1 else f"its {pages} pages"


def _told(state: State, because: str) -> Answer:
    return Answer(Name.PAGES, state, because)
