"""Where the sections of a profile stand, and at which scale."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from tracksworn.documents.drawing.profiles.labels import BESIDE, READING, RISE, tags_width
from tracksworn.documents.drawing.profiles.painting import Frame
from tracksworn.documents.drawing.profiles.profile import Profile
from tracksworn.documents.drawing.profiles.scale import scales
from tracksworn.documents.drawing.profiles.subject import Subject
from tracksworn.documents.drawing.profiles.tags import tags_of
from tracksworn.documents.drawing.type import text_width

_BETWEEN: Final = 3.0  # mm between two sections
_HEADROOM: Final = 3.8  # for a line of type above a section
_BREAK: Final = 1.5  # how far a break line reaches out


@dataclass(frozen=True, slots=True)
class Field:
    """The room for sections and their labels, mm."""

    left: float
    top: float
    right: float
    bottom: float


def place(profile: Profile, found: Sequence[Subject], field: Field) -> tuple[Frame, ...]:
    """Side by side and centred, their heads level, at the largest scale at which they and their labels fit."""
    field = replace(field, top=field.top + (_HEADROOM if any(subject.said_above for subject in found) else 0.0))
    field = replace(field, bottom=field.bottom - (_HEADROOM if any(subject.said_below for subject in found) else 0.0))
    bare = sum(subject.bounds[2] - subject.bounds[0] for subject in found)
    largest = (field.right - field.left) / bare
    scale = next((one for one in scales() if one <= largest and _fits(profile, found, field, one)), 1e-5)
    extents = [_extent(profile, subject, scale) for subject in found]
    used = sum(left + right for left, right in extents) + _BETWEEN * (len(found) - 1)
    x, frames = field.left + (field.right - field.left - used) / 2, []
    for subject, (left, right) in zip(found, extents, strict=True):
        frames.append(Frame((x + left, field.top + subject.bounds[3] * scale), scale))
        x += left + right + _BETWEEN
    return tuple(frames)


def _fits(profile: Profile, found: Sequence[Subject], field: Field, scale: float) -> bool:
    tall = max(subject.bounds[3] - subject.bounds[1] for subject in found) * scale
    room = field.right - field.left - _BETWEEN * (len(found) - 1)
    if tall > field.bottom - field.top:
        return False
    return sum(sum(_extent(profile, subject, scale)) for subject in found) <= room


def _extent(profile: Profile, subject: Subject, scale: float) -> tuple[float, float]:
    """How far a section with its labels reaches to either side of the part's origin, mm of sheet."""
    section = subject.section
    tags = tags_of(profile, subject, Frame((0.0, 0.0), scale))
    rooms = {"left": tags_width(tags, "left"), "right": tags_width(tags, "right")}
    if subject.upright:
        rooms[subject.reading_side] += _upright_room(subject, scale)
    left, right = section.flank or (subject.bounds[0], subject.bounds[2])
    out = _BREAK if section.breaks else 0.0
    rights = [subject.bounds[2] * scale + out, right * scale + rooms["right"]]
    if section.rise:
        rights.append(section.rise.x * scale + 1.4 + text_width(replace(RISE, content=section.rise.text)))
    if section.beside and section.beside.at[0] > 0:
        rights.append(section.beside.at[0] * scale + 1.0 + text_width(replace(BESIDE, content=section.beside.text)))
    return max(-subject.bounds[0] * scale + out, -left * scale + rooms["left"]), max(rights)


def _upright_room(subject: Subject, scale: float) -> float:
    """An upright reading beside its dimension, or a level one where the dimension is short."""
    wide = text_width(replace(READING, content=subject.reading))
    return 6.2 if subject.span_length(scale) > wide + 1 else wide + 4.4
