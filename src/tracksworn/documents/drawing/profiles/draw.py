"""Draw a wear profile: the sections of a component at the largest scale that fits, labelled, with their key."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from tracksworn.assessment.model import Basis
from tracksworn.documents.drawing.lettering import box_of, centred
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.inks import INK, LABEL
from tracksworn.documents.drawing.plain import Circle, Drawing, Line, Stroke, Text
from tracksworn.documents.drawing.profiles.amounts import Amounts, amounts, losses_by_eye, loss_now
from tracksworn.documents.drawing.profiles.forms import governing, sections
from tracksworn.documents.drawing.profiles.key import HEAD, PER_CENT, draw_key, make_key, title_lines
from tracksworn.documents.drawing.profiles.labels import LEADER, Tag, draw_dimension, draw_tags, tags_width
from tracksworn.documents.drawing.profiles.painting import Frame, Wear, paint, wear_of
from tracksworn.documents.drawing.profiles.pitch import draw_pitch
from tracksworn.documents.drawing.profiles.profile import Profile, Worn
from tracksworn.documents.drawing.profiles.scale import ratio, scales
from tracksworn.documents.drawing.profiles.section import Section, Span
from tracksworn.documents.drawing.type import text_width
from tracksworn.inspection.vocabulary import Component

_SPAN_ROOM: Final = 5.6  # beside a section, for an upright dimension
_BELOW: Final = 2.2  # mm under a section, for its break line
_EXTENSION: Final = Stroke(0.12)
_READING: Final = Text((0, 0), "", 8.6, 600, anchor="middle")


def draw_profile(profile: Profile) -> Drawing:
    """The section of the profile's component with its key.

    `profile.width` × `profile.height` mm, higher where its notes need it.
    """
    if profile.component is Component.PITCH:
        return draw_pitch(profile)
    given = amounts(profile)
    subjects = _subjects(profile, given)
    key = make_key(profile, [worn for subject in subjects for worn in subject.faces_drawn])
    height = max(profile.height, key.bottom + 1.0)
    field = _Field(0.0, HEAD + 1.0, key.left - 3.0, height - _BELOW)
    placed = _place(profile, given, subjects, field)
    scale = placed[0].frame.scale
    pile = Pile()
    pile.write(*title_lines(profile, scale_text(profile, given, scale)))
    draw_key(pile, profile, key)
    for one in placed:
        paint(pile, one.frame, one.section, one.wear)
        _label(pile, profile, given, one, field)
    return pile.drawing(profile.width, height, profile.alternative)


def scale_text(profile: Profile, given: Amounts, scale: float) -> str:
    """The section's name with its scale, or the word for a typical section where nothing is to scale."""
    said = ratio(scale, profile.words.decimal) if given.to_scale else profile.words.typical
    return f"{profile.section}, {said}" if profile.section else said


@dataclass(frozen=True, slots=True)
class _Field:
    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True, slots=True)
class _Subject:
    """A section with what is known of it. `alone` has labels; of two, each has its reading only, on its outer side."""

    section: Section
    wear: Wear
    governing: int
    alone: bool
    reading: str
    reading_side: Literal["left", "right"]

    @property
    def faces_drawn(self) -> tuple[Worn, ...]:
        """The readings that can be seen in it."""
        return self.section.faces


@dataclass(frozen=True, slots=True)
class _Placed:
    subject: _Subject
    frame: Frame

    @property
    def section(self) -> Section:
        return self.subject.section

    @property
    def wear(self) -> Wear:
        return self.subject.wear


def _subjects(profile: Profile, given: Amounts) -> tuple[_Subject, ...]:
    found = sections(profile, given)
    return tuple(_subject(profile, given, found, index) for index in range(len(found)))


def _subject(profile: Profile, given: Amounts, found: Sequence[Section], index: int) -> _Subject:
    section, alone = found[index], len(found) == 1
    face = governing(section.faces)
    now = None
    if loss_now(profile, given, section.faces[face]) is not None:
        now = tuple(loss_now(profile, given, worn) or 0.0 for worn in section.faces)
    size = section.faces[face].size
    reading = section.prefix + size.text if size else ""
    side: Literal["left", "right"] = "left" if not alone and index == 0 else "right"
    return _Subject(section, wear_of(section, given, now, face), face, alone, reading, side)


def _place(
    profile: Profile, given: Amounts, subjects: Sequence[_Subject], field: _Field
) -> tuple[_Placed, ...]:
    """The sections beside each other at the largest scale at which they and their labels fit."""
    between = 3.0 * (len(subjects) - 1)
    scale, extents = 0.0, [(0.0, 0.0)]
    for scale in scales():
        extents = [_extent(profile, given, subject, scale) for subject in subjects]
        wide = sum(left + right for left, right in extents) + between
        tall = max(subject.section.bounds[3] - subject.section.bounds[1] for subject in subjects) * scale
        if wide <= field.right - field.left and tall <= field.bottom - field.top:
            break
    slack = (field.right - field.left - sum(left + right for left, right in extents) - between) / 2
    x, placed = field.left + slack, []
    for subject, (left, right) in zip(subjects, extents, strict=True):
        low, high = subject.section.bounds[1] * scale, subject.section.bounds[3] * scale
        spare = (field.bottom - field.top - (high - low)) / 2
        placed.append(_Placed(subject, Frame((x + left, field.bottom - spare + low), scale)))
        x += left + right + 3.0
    return tuple(placed)


def _extent(profile: Profile, given: Amounts, subject: _Subject, scale: float) -> tuple[float, float]:
    """How far a section with its labels reaches to either side of the part's origin, mm of sheet."""
    section = subject.section
    frame = Frame((0.0, 0.0), scale)
    tags = _tags(profile, given, subject, frame)
    left, right = section.flank or (section.bounds[0], section.bounds[2])
    rooms = {"left": tags_width(tags, "left"), "right": tags_width(tags, "right")}
    if _upright(subject):
        rooms[subject.reading_side] += _span_room(subject, frame)
    reach_left = max(-section.bounds[0] * scale + (1.4 if section.breaks else 0.0), -left * scale + rooms["left"])
    reach_right = max(section.bounds[2] * scale + (1.4 if section.breaks else 0.0), right * scale + rooms["right"])
    if section.rise:
        reach_right = max(reach_right, section.rise.x * scale + 1.4 + text_width(Text((0, 0), section.rise.text, 7.2)))
    if section.beside:
        reach_right = max(reach_right, section.beside.at[0] * scale + 1.0 + text_width(_beside(section.beside.text)))
    return reach_left, reach_right


def _losses(subject: _Subject) -> tuple[float, ...]:
    return subject.wear.now or tuple(0.0 for _ in subject.section.faces)


def _upright(subject: _Subject) -> Span | None:
    """The span of the reading where it stands upright beside the section."""
    span = subject.section.span
    if span is None or not subject.reading:
        return None
    losses = _losses(subject)
    return span if span.start(losses)[0] == span.end(losses)[0] else None


def _span_room(subject: _Subject, frame: Frame) -> float:
    wide = text_width(replace(_READING, content=subject.reading))
    return _SPAN_ROOM + 0.6 if _span_length(subject, frame) > wide + 1 else wide + 4.4


def _span_length(subject: _Subject, frame: Frame) -> float:
    span, losses = subject.section.span, _losses(subject)
    return math.dist(span.start(losses), span.end(losses)) * frame.scale if span else 0.0


def _tags(profile: Profile, given: Amounts, subject: _Subject, frame: Frame) -> list[Tag]:
    if not subject.alone or not subject.section.faces[subject.governing].gauge.seen:
        return []
    section, face = subject.section, subject.governing
    side: Literal["left", "right"] = "right" if face else "left"
    tags = _face_tags(subject, frame)
    if section.span is not None and not _stands(section.span, _losses(subject)):
        return tags + _level_tags(subject, frame) + _estimate_tags(given, subject, frame)
    if profile.new and profile.limit and given.stated:
        tags.append(Tag(section.prefix + profile.new.text, frame.at(section.touch(face, 0.0, 0.12)), side))
        tags.append(Tag(section.prefix + profile.limit.text, frame.at(section.touch(face, given.limit, 0.78)), side))
    if profile.destroyed and subject.wear.destroyed:
        point = section.touch(face, subject.wear.destroyed[face], 0.9)
        tags.append(Tag(section.prefix + profile.destroyed.text, frame.at(point), side))
    if section.span is None and subject.reading:
        tags.append(Tag(subject.reading, frame.at(section.touch(face, _losses(subject)[face], 0.5)), side, strong=True))
    return tags + _estimate_tags(given, subject, frame)


def _stands(span: Span, losses: tuple[float, ...]) -> bool:
    return span.start(losses)[0] == span.end(losses)[0]


def _estimate_tags(given: Amounts, subject: _Subject, frame: Frame) -> list[Tag]:
    """The ends of an estimate's range, in percent."""
    gauge = subject.section.faces[subject.governing].gauge
    if gauge.basis is not Basis.BY_EYE:
        return []
    said = [end for end in (gauge.low, gauge.high) if end is not None]
    losses = losses_by_eye(given, gauge)
    touch = subject.section.touch
    return [
        Tag(f"{end:.0f}{PER_CENT}", frame.at(touch(subject.governing, loss, 0.3 + 0.3 * index)), "left", strong=True)
        for index, (end, loss) in enumerate(zip(said, losses, strict=True))
    ]


def _face_tags(subject: _Subject, frame: Frame) -> list[Tag]:
    """What has gone at each face, as the caller says it, and the sizes of those that do not govern."""
    section, now = subject.section, subject.wear.now
    if now is None or section.above:
        return []
    tags: list[Tag] = []
    for index, worn in _faces(section):
        side: Literal["left", "right"] = "right" if index else "left"
        if worn.gone:
            tags.append(Tag(worn.gone, frame.at(section.touch(index, now[index] / 2, 0.3)), side))
        if index != subject.governing and worn.size is not None and section.span is None:
            point = frame.at(section.touch(index, now[index], 0.5))
            tags.append(Tag(section.prefix + worn.size.text, point, side, strong=True))
    return tags


def _faces(section: Section) -> list[tuple[int, Worn]]:
    """The faces with a reading of their own."""
    return [(index, worn) for index, worn in enumerate(section.faces) if not index or worn is not section.faces[0]]


def _level_tags(subject: _Subject, frame: Frame) -> list[Tag]:
    """The reading beside the section, where it is too narrow to hold it."""
    span = subject.section.span
    if span is None or not subject.reading or _holds_reading(subject, frame):
        return []
    return [Tag(subject.reading, frame.at(span.end(_losses(subject))), "right", strong=True)]


def _holds_reading(subject: _Subject, frame: Frame) -> bool:
    wide = text_width(replace(_READING, content=subject.reading))
    return wide + 0.6 <= _span_length(subject, frame)


def _label(pile: Pile, profile: Profile, given: Amounts, placed: _Placed, field: _Field) -> None:
    section, frame, subject = placed.section, placed.frame, placed.subject
    left, right = section.flank or (section.bounds[0], section.bounds[2])
    edges = (frame.at((left, 0.0))[0], frame.at((right, 0.0))[0])
    bottom = field.bottom if section.floor is None else frame.at((0.0, section.floor))[1] - 1.6
    tags = _tags(profile, given, subject, frame)
    if subject.reading and section.span is not None and (subject.wear.now or not given.stated):
        if _upright(subject):
            _draw_upright(pile, subject, frame, edges)
        else:
            _draw_level(pile, subject, frame)
    draw_tags(pile, tags, edges, (field.top + 0.6, bottom))
    _draw_gone_above(pile, subject, frame, field.top + 2.0)
    _draw_names(pile, section, frame)
    if section.rise:
        _draw_rise(pile, section, frame)


def _draw_upright(pile: Pile, subject: _Subject, frame: Frame, edges: tuple[float, float]) -> None:
    span, losses, out = subject.section.span, _losses(subject), -1.0 if subject.reading_side == "left" else 1.0
    if span is None:
        return
    low, high = frame.at(span.start(losses))[1], frame.at(span.end(losses))[1]
    x = (edges[0] if out < 0 else edges[1]) + out * 2.4
    start, end = (x, low), (x, high)
    draw_dimension(pile, start, end, open_start=span.open)
    inner = x - out * 2.0
    pile.stroke(_EXTENSION, Line(((inner, high), (x + out * 0.8, high))))
    if not span.open:
        pile.stroke(_EXTENSION, Line(((inner, low), (x + out * 0.8, low))))
    middle = (low + high) / 2
    text = replace(_READING, content=subject.reading)
    if abs(high - low) > text_width(text) + 1:
        pile.write(replace(text, at=(x + (2.9 if out > 0 else -0.8), middle), turn=-90.0))
        return
    pile.write(
        replace(text, at=(x + out * 1.2, centred(middle, text.size)), anchor="end" if out < 0 else "start")
    )


def _draw_level(pile: Pile, subject: _Subject, frame: Frame) -> None:
    """A level dimension inside the part, with the reading on it where that has room."""
    span, losses = subject.section.span, _losses(subject)
    if span is None:
        return
    start, end = frame.at(span.start(losses)), frame.at(span.end(losses))
    draw_dimension(pile, start, end)
    if _holds_reading(subject, frame):
        middle = ((start[0] + end[0]) / 2, start[1] - 0.9)
        pile.write(replace(_READING, at=middle, content=subject.reading, halo=True))


def _draw_gone_above(pile: Pile, subject: _Subject, frame: Frame, top: float) -> None:
    """What has gone at each face, in the room above it, with a leader down to it."""
    section, now = subject.section, subject.wear.now
    if now is None or not section.above:
        return
    peak = frame.at((0.0, section.bounds[3]))[1]
    for index, worn in _faces(section):
        if not worn.gone:
            continue
        point = frame.at(section.touch(index, now[index] / 2, 0.25 if index == 0 else 0.75))
        y = max(peak - 2.6, top)
        text = Text((point[0], y), worn.gone, 7.2, anchor="start" if index == 0 else "end")
        outer = -1.6 if index == 0 else 1.6
        pile.write(replace(text, at=(point[0] + outer, y)))
        pile.stroke(LEADER, Line(((point[0], y + 0.8), point)))
        pile.fill(INK, Circle(point, 0.24))


def _draw_names(pile: Pile, section: Section, frame: Frame) -> None:
    for name in section.names:
        x, y = frame.at(name.at)
        text = Text((x, centred(y, 6.6)), name.text, 6.6, 500, anchor="middle")
        clear = not any(box_of(text).meets(box_of(other), 0.3) for other in pile.texts)
        if name.text and text_width(text) <= name.room * frame.scale and clear:
            pile.write(text)
    if section.beside and section.beside.text:
        x, y = frame.at(section.beside.at)
        pile.write(replace(_beside(section.beside.text), at=(x + 0.9, centred(y, 6.6))))


def _beside(text: str) -> Text:
    return Text((0, 0), text, 6.6, colour=LABEL)


def _draw_rise(pile: Pile, section: Section, frame: Frame) -> None:
    rise = section.rise
    if rise is None:
        return
    low, high = frame.at((rise.x, rise.low)), frame.at((rise.x, rise.high))
    draw_dimension(pile, low, high)
    edge = frame.at((section.bounds[2], 0.0))[0]
    pile.stroke(_EXTENSION, *(Line(((edge + 0.6, y), (low[0] + 0.6, y))) for y in (low[1], high[1])))
    pile.write(Text((low[0] + 0.9, centred((low[1] + high[1]) / 2, 7.2)), rise.text, 7.2))
