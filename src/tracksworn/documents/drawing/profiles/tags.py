"""Which labels with leaders a section has."""

from typing import Literal

from tracksworn.documents.drawing.profiles.amounts import losses_by_eye
from tracksworn.documents.drawing.profiles.key import PER_CENT
from tracksworn.documents.drawing.profiles.labels import READING, Tag
from tracksworn.documents.drawing.profiles.painting import Frame
from tracksworn.documents.drawing.profiles.profile import Profile
from tracksworn.documents.drawing.profiles.subject import Subject
from tracksworn.documents.drawing.type import width_mm

Side = Literal["left", "right"]


def tags_of(profile: Profile, subject: Subject, frame: Frame) -> list[Tag]:
    """Sizes at their lines, what has gone at its face, the ends of an estimate."""
    if not subject.alone or not subject.worn.gauge.seen:
        return []
    level = subject.section.span is not None and subject.section.span.level
    sizes = [] if level else _size_tags(profile, subject, frame)
    return [
        *_mark_tags(subject, frame),
        *_face_tags(subject, frame),
        *_level_tags(subject, frame),
        *sizes,
        *_estimate_tags(subject, frame),
    ]


def holds_reading(subject: Subject, scale: float) -> bool:
    """Whether a level dimension is long enough for the reading to stand on it."""
    return width_mm(subject.reading, READING.size, READING.family, READING.weight) + 2.0 <= subject.span_length(scale)


def _size_tags(profile: Profile, subject: Subject, frame: Frame) -> list[Tag]:
    section, face, side = subject.section, subject.governing, _side(subject.governing)
    tags = []
    if profile.new and profile.limit and subject.given.stated:
        tags.append(Tag(section.prefix + profile.new.text, frame.at(section.touch(face, 0.0, 0.12)), side))
        limit = frame.at(section.touch(face, subject.given.limit, 0.78))
        tags.append(Tag(section.prefix + profile.limit.text, limit, side))
    if profile.destroyed and subject.destroyed:
        point = section.touch(face, subject.destroyed[face], 0.9)
        tags.append(Tag(section.prefix + profile.destroyed.text, frame.at(point), side))
    if section.span is None and subject.reading:
        point = section.touch(face, subject.shown[face], 0.5)
        tags.append(Tag(subject.reading, frame.at(point), side, strong=True))
    return tags


def _estimate_tags(subject: Subject, frame: Frame) -> list[Tag]:
    gauge = subject.worn.gauge
    said = [end for end in (gauge.low, gauge.high) if end is not None]
    tags = []
    for index, loss in enumerate(losses_by_eye(subject.given, gauge)):
        point = subject.section.touch(subject.governing, loss, 0.3 + 0.3 * index)
        tags.append(Tag(f"{said[index]:.0f}{PER_CENT}", frame.at(point), _side(subject.governing), strong=True))
    return tags


def _mark_tags(subject: Subject, frame: Frame) -> list[Tag]:
    """What is said of flanks, where it does not stand above the section."""
    if subject.section.above:
        return []
    return [Tag(mark.text, frame.at(mark.at(subject.shown)), mark.side) for mark in subject.section.marks]


def _face_tags(subject: Subject, frame: Frame) -> list[Tag]:
    """What has gone at each face, as the caller says it, and the sizes of those that do not govern."""
    section, now = subject.section, subject.now
    if now is None or section.above:
        return []
    tags = []
    for index, worn in subject.faces():
        if worn.gone and not subject.said_below:
            tags.append(Tag(worn.gone, frame.at(section.touch(index, now[index] / 2, 0.3)), _side(index)))
        if index != subject.governing and worn.size is not None and section.span is None:
            point = frame.at(section.touch(index, now[index], 0.5))
            tags.append(Tag(section.prefix + worn.size.text, point, _side(index), strong=True))
    return tags


def _level_tags(subject: Subject, frame: Frame) -> list[Tag]:
    """The reading beside the section, where a level dimension is too short to hold it."""
    span = subject.section.span
    if span is None or not span.level or not subject.dimensioned or holds_reading(subject, frame.scale):
        return []
    return [Tag(subject.reading, frame.at(span.end(subject.shown)), "right", strong=True)]


def _side(face: int) -> Side:
    """The first face is at the left of a section, the others at its right."""
    return "right" if face else "left"
