"""A section together with what is known of the part."""

from dataclasses import dataclass
from typing import Literal

from tracksworn.assessment.model import Basis
from tracksworn.documents.drawing.plain import Point
from tracksworn.documents.drawing.profiles.amounts import Amounts, loss_now, losses_by_eye
from tracksworn.documents.drawing.profiles.forms import governing, sections
from tracksworn.documents.drawing.profiles.profile import Profile, Worn
from tracksworn.documents.drawing.profiles.section import Losses, Section

Bounds = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Subject:
    """Of two sections beside each other, each has only its reading, on its outer side; one alone has all labels."""

    section: Section
    governing: int  # the face that its labels speak of
    alone: bool
    given: Amounts
    now: Losses | None  # None where there is no edge of wear
    ends: tuple[Losses, ...]  # of an estimate by eye, as many as were said
    destroyed: Losses | None
    reading: str
    reading_side: Literal["left", "right"]
    bounds: Bounds  # of all that is drawn of the part, mm of the part

    @property
    def worn(self) -> Worn:
        """The reading that governs."""
        return self.section.faces[self.governing]

    @property
    def basis(self) -> Basis:
        """What is known of it rests on this."""
        return self.worn.gauge.basis

    @property
    def as_new(self) -> Losses:
        """Nothing gone anywhere."""
        return tuple(0.0 for _ in self.section.faces)

    @property
    def limit(self) -> Losses:
        """Every face at its limit."""
        return tuple(self.given.limit for _ in self.section.faces)

    @property
    def shown(self) -> Losses:
        """The losses at which the reading stands in the drawing; as new where there is no edge."""
        return self.now or self.as_new

    @property
    def dimensioned(self) -> bool:
        """Whether the reading is written as a dimension."""
        sized = self.basis is Basis.MEASURED and (self.now is not None or not self.given.stated)
        return self.section.span is not None and bool(self.reading) and sized

    @property
    def upright(self) -> bool:
        """Whether that dimension stands beside the section."""
        return self.dimensioned and self.section.span is not None and not self.section.span.level

    def span_length(self, scale: float) -> float:
        """How long that dimension is on the sheet, mm."""
        if self.section.span is None:
            return 0.0
        (x, y), (far, high) = self.section.span.start(self.shown), self.section.span.end(self.shown)
        return abs(far - x if self.section.span.level else high - y) * scale

    @property
    def said_above(self) -> list[tuple[Point, str]]:
        """What has gone and where on the part, where that is said above the section: at a flank, else face by face."""
        if not self.section.above or not self.worn.gauge.seen:
            return []
        if self.section.marks:
            return [(mark.at(self.shown), mark.text) for mark in self.section.marks]
        if self.now is None:
            return []
        now = self.now
        return [
            (self.section.touch(index, now[index] / 2, 0.4), worn.gone) for index, worn in self.faces() if worn.gone
        ]

    @property
    def said_below(self) -> list[tuple[Point, str]]:
        """What has gone and where on the part, from left to right, where that is said under the section."""
        if not self.section.below or self.now is None:
            return []
        now = self.now
        gone = [
            (self.section.touch(index, now[index] / 2, 0.94), worn.gone) for index, worn in self.faces() if worn.gone
        ]
        return sorted(gone) if len(gone) <= 2 else []

    def faces(self) -> list[tuple[int, Worn]]:
        """The faces with a reading of their own."""
        faces = self.section.faces
        return [(index, worn) for index, worn in enumerate(faces) if not index or worn is not faces[0]]


def subjects(profile: Profile, given: Amounts) -> tuple[Subject, ...]:
    """The sections of a profile, from left to right."""
    found = sections(profile, given)
    return tuple(_subject(profile, given, section, index, len(found)) for index, section in enumerate(found))


def _subject(profile: Profile, given: Amounts, section: Section, index: int, count: int) -> Subject:
    face = governing(section.faces)
    worn = section.faces[face]
    now = None
    if loss_now(profile, given, worn) is not None:
        now = tuple(loss_now(profile, given, one) or 0.0 for one in section.faces)
    ends = [losses_by_eye(given, one.gauge) for one in section.faces]
    said = min(len(one) for one in ends)
    destroyed = None
    if given.destroyed is not None and worn.gauge.seen:
        destroyed = tuple(given.held(given.destroyed) for _ in section.faces)
    return Subject(
        section=section,
        governing=face,
        alone=count == 1,
        given=given,
        now=now,
        ends=tuple(tuple(one[which] for one in ends) for which in range(said)),
        destroyed=destroyed,
        reading=section.prefix + worn.size.text if worn.size else "",
        reading_side="left" if count > 1 and index == 0 else "right",
        bounds=section.bounds if now is None or min(now) >= 0 else _around(section.bounds, section.worn(now).bounds),
    )


def _around(one: Bounds, other: Bounds) -> Bounds:
    return min(one[0], other[0]), min(one[1], other[1]), max(one[2], other[2]), max(one[3], other[3])
