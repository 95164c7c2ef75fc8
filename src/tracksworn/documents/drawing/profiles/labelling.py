"""Labels, dimensions and names on a section."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final, Literal

from tracksworn.documents.drawing.inks import INK
from tracksworn.documents.drawing.lettering import box_of, centred
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Circle, Line, Point, Stroke, Text
from tracksworn.documents.drawing.profiles.labels import (
    BESIDE,
    DOT,
    LEADER,
    READING,
    RISE,
    draw_dimension,
    draw_tags,
)
from tracksworn.documents.drawing.profiles.painting import Frame
from tracksworn.documents.drawing.profiles.placing import Field
from tracksworn.documents.drawing.profiles.profile import Profile
from tracksworn.documents.drawing.profiles.section import Rise, Section
from tracksworn.documents.drawing.profiles.subject import Subject
from tracksworn.documents.drawing.profiles.tags import holds_reading, tags_of
from tracksworn.documents.drawing.type import text_width

_EXTENSION: Final = Stroke(0.12)
_OFF_BREAK: Final = 1.0  # mm that a quiet word stands higher over a break line
_GONE: Final = Text((0, 0), "", 7.2)
_NAME: Final = Text((0, 0), "", 6.6, 500, anchor="middle")


def label(pile: Pile, profile: Profile, subject: Subject, frame: Frame, field: Field) -> None:
    """All type of one section with its leaders."""
    section = subject.section
    left, right = section.flank or (subject.bounds[0], subject.bounds[2])
    edges = (frame.at((left, 0.0))[0], frame.at((right, 0.0))[0])
    if subject.upright:
        _draw_upright(pile, subject, frame, edges)
    elif subject.dimensioned:
        _draw_level(pile, subject, frame)
    lowest, highest = section.rows
    top = field.top + 0.6 if highest is None else max(frame.at((0.0, highest))[1] + 1.6, field.top + 0.6)
    if subject.said_above:
        top = max(top, _above(subject, frame, field) + 2.6)
    bottom = field.bottom if lowest is None else frame.at((0.0, lowest))[1] - 1.6
    draw_tags(pile, tags_of(profile, subject, frame), edges, (top, bottom))
    _draw_gone(pile, subject, frame, field)
    if section.rise:
        _draw_rise(pile, section.rise, frame, frame.at((subject.bounds[2], 0.0))[0])
    _draw_names(pile, section, frame)


def _draw_upright(pile: Pile, subject: Subject, frame: Frame, edges: tuple[float, float]) -> None:
    """The reading as a dimension beside the section, with lines that take it there."""
    span, out = subject.section.span, -1.0 if subject.reading_side == "left" else 1.0
    if span is None:
        return
    x = (edges[0] if out < 0 else edges[1]) + out * 2.4
    foot, tip = (frame.at((out * point[0], point[1])) for point in (span.start(subject.shown), span.end(subject.shown)))
    draw_dimension(pile, (x, foot[1]), (x, tip[1]), open_start=span.open)
    taken = (tip,) if span.open else (foot, tip)
    pile.stroke(_EXTENSION, *(Line(((near + out * 0.7, y), (x + out * 0.8, y))) for near, y in taken))
    middle = (foot[1] + tip[1]) / 2
    text = replace(READING, content=subject.reading)
    if abs(foot[1] - tip[1]) > text_width(text) + 1:
        pile.write(replace(text, at=(x + (2.9 if out > 0 else -0.8), middle), turn=-90.0))
    else:
        anchor: Literal["start", "end"] = "start" if out > 0 else "end"
        pile.write(replace(text, at=(x + out * 1.2, centred(middle, text.size)), anchor=anchor))


def _draw_level(pile: Pile, subject: Subject, frame: Frame) -> None:
    """A level dimension inside the part, with the reading on it where that has room."""
    span = subject.section.span
    if span is None:
        return
    start, end = frame.at(span.start(subject.shown)), frame.at(span.end(subject.shown))
    draw_dimension(pile, start, end)
    if holds_reading(subject, frame.scale):
        middle = ((start[0] + end[0]) / 2, start[1] - 0.9)
        pile.write(replace(READING, at=middle, content=subject.reading, halo=True))


def _draw_gone(pile: Pile, subject: Subject, frame: Frame, field: Field) -> None:
    """What has gone at each face, in the room above or under it, with a leader to it."""
    above, below = subject.said_above, subject.said_below
    y = _above(subject, frame, field) if above else frame.at((0.0, subject.bounds[1]))[1] + 4.2
    end = 0.8 if above else -2.4
    said = above or below
    points = [frame.at(point) for point, _ in said]
    for text, point in zip(_side_by_side([words for _, words in said], points, field), points, strict=True):
        box = box_of(text)
        start = min(max(point[0], box.left + 1.0), box.right - 1.0)
        pile.write(replace(text, at=(text.at[0], y)))
        pile.stroke(LEADER, Line(((start, y + end), point)))
        pile.fill(INK, Circle(point, DOT))


def _above(subject: Subject, frame: Frame, field: Field) -> float:
    """The baseline of what is said above a section."""
    return max(frame.at((0.0, subject.bounds[3]))[1] - 2.6, field.top + 2.0)


def _side_by_side(said: list[str], points: list[Point], field: Field) -> list[Text]:
    """Each over its own point and inwards; where two would meet, from the middle outwards."""
    texts = [replace(_GONE, at=(point[0] - 1.6, 0.0), content=words) for words, point in zip(said, points, strict=True)]
    if len(texts) < 2:
        return [replace(text, at=(min(text.at[0], field.right - text_width(text)), 0.0)) for text in texts]
    (left, right), wide = texts, text_width(texts[1])
    right = replace(right, at=(points[1][0] + 1.6 - wide, 0.0))
    if right.at[0] - left.at[0] > text_width(left) + 2.0:
        return [left, right]
    middle = (points[0][0] + points[1][0]) / 2
    middle = min(max(middle, field.left + text_width(left) + 1.0), field.right - wide - 1.0)
    return [replace(left, at=(middle - 1.0 - text_width(left), 0.0)), replace(right, at=(middle + 1.0, 0.0))]


def _draw_names(pile: Pile, section: Section, frame: Frame) -> None:
    """Each where it has room and stands clear of all other type."""
    for text, room in _names(section, frame):
        clear = not any(box_of(text).meets(box_of(other), 0.3) for other in pile.texts)
        if text.content and clear and text_width(text) <= room * frame.scale:
            pile.write(text)


def _names(section: Section, frame: Frame) -> Iterator[tuple[Text, float]]:
    for name in section.names:
        x, y = frame.at(name.at)
        yield replace(_NAME, at=(x, centred(y, _NAME.size)), content=name.text), name.room
    if section.beside:
        x, y = frame.at(section.beside.at)
        y -= _OFF_BREAK if section.breaks else 0.0
        yield replace(BESIDE, at=(x + 0.9, centred(y, BESIDE.size)), content=section.beside.text), section.beside.room


def _draw_rise(pile: Pile, rise: Rise, frame: Frame, edge: float) -> None:
    (x, low), (_, high) = frame.at((rise.x, rise.low)), frame.at((rise.x, rise.high))
    draw_dimension(pile, (x, low), (x, high))
    pile.stroke(_EXTENSION, *(Line(((edge + 0.6, y), (x + 0.6, y))) for y in (low, high)))
    pile.write(replace(RISE, at=(x + 0.9, centred((low + high) / 2, RISE.size)), content=rise.text))
