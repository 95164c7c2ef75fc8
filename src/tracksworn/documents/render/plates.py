"""Every picture of a full report, drawn once for all its formats."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from tracksworn.assessment.model import Basis, Stage
from tracksworn.documents.drawing.hours.draw import draw_hours
from tracksworn.documents.drawing.key import KeyKind, draw_key
from tracksworn.documents.drawing.plain import Drawing, Text
from tracksworn.documents.drawing.profiles.draw import draw_profile
from tracksworn.documents.drawing.rule import draw_rule, draw_rule_scale, draw_twin_rule, words_inside
from tracksworn.documents.drawing.ruler import draw_ruler
from tracksworn.documents.drawing.strip import draw_strip
from tracksworn.documents.drawing.travel import draw_range, draw_travel
from tracksworn.documents.drawing.trend.draw import draw_trends
from tracksworn.documents.full.view import FullReport, PartRow, PartSide, PhotoView, SideView, TravelSide
from tracksworn.documents.render.pair import Pair
from tracksworn.documents.render.terms_plates import TermsPlates, draw_terms
from tracksworn.inspection.vocabulary import Side

PHONE = 84.0
"""How wide a drawing is that a phone shows whole, mm: its type is then about as large as on paper."""
HALF = 87.0
"""How wide sections are that stand two in a row, mm."""

_BASES: Final = {Basis.MEASURED: KeyKind.WORN, Basis.BY_EYE: KeyKind.BY_EYE, Basis.NOT_SEEN: KeyKind.NOT_SEEN}


@dataclass(frozen=True, slots=True)
class Key:
    """A sign of the legend and its words."""

    drawing: Drawing
    words: str


@dataclass(frozen=True, slots=True)
class Plates:
    """The drawings of a report in the order of its pages. Tuples run beside the view's own."""

    ruler: Drawing
    narrow_ruler: Drawing  # the same for a phone
    sides: tuple[Drawing, ...]  # without the headings, which the page sets in the room left for them
    scale_left: Drawing
    scale_right: Drawing
    rules: tuple[Pair, ...]
    twins: tuple[Drawing, ...]  # both halves in one, where a page has no columns
    travels: tuple[Pair, ...]
    strips: tuple[Drawing, ...]
    findings: tuple[Drawing | None, ...]
    profiles: tuple[Drawing, ...]
    keys: tuple[Key, ...]
    photos: tuple[PhotoView, ...]  # those that stand at no finding
    terms: TermsPlates | None  # None without terms
    hours: Drawing | None  # hours left; None without a forecast
    trends: tuple[Drawing, ...] = ()

    @property
    def any_section(self) -> bool:
        """Whether any part is drawn in section."""
        return bool(self.profiles) or any(self.findings)

    def seen(self, row: PartRow) -> bool:
        """Whether a component was seen on either side."""
        return any(side is not None and side.gauge.seen for side in (row.left, row.right))

    def reason_beneath(self, side: PartSide) -> str:
        """Why a part was not seen, where the bar had no room for it."""
        return "" if not side.reason or side.reason in words_inside(side.gauge) else side.reason


def draw_plates(view: FullReport) -> Plates:
    """Draw everything in a report but the elevations, which its view holds drawn."""
    said = f"{view.headings.percent_worn}: 0, 50, 80, 100"
    figures = ("0", "50", "80", "100")
    return Plates(
        ruler=draw_ruler(view.whole.ruler),
        narrow_ruler=draw_ruler(replace(view.whole.ruler, width=PHONE)),
        sides=tuple(_without_heading(side) for side in view.sides),
        scale_left=draw_rule_scale(Side.LEFT, figures, alternative=said),
        scale_right=draw_rule_scale(Side.RIGHT, figures, alternative=said),
        rules=tuple(Pair(_rule(row.left), _rule(row.right)) for row in view.parts),
        twins=tuple(_twin(row) for row in view.parts),
        travels=tuple(Pair(_travel(row.left), _travel(row.right)) for row in view.travel),
        strips=tuple(draw_strip(strip.strip) for strip in view.strips),
        findings=tuple(draw_profile(one.profile) if one.profile else None for one in view.findings),
        profiles=tuple(draw_profile(replace(profile, width=HALF)) for profile in view.profiles),
        keys=tuple(_keys(view)),
        photos=tuple(_photos_of_their_own(view)),
        terms=draw_terms(view.terms) if view.terms else None,
        hours=draw_hours(view.ahead.hours.chart) if view.ahead.hours else None,
        trends=draw_trends([one.trend for one in view.trends.views]) if view.trends else (),
    )


def _without_heading(side: SideView) -> Drawing:
    set_by_page = (side.heading, side.front)
    marks = (mark for mark in side.drawing.marks if not (isinstance(mark, Text) and mark.content in set_by_page))
    return replace(side.drawing, marks=tuple(marks))


def _rule(side: PartSide | None) -> Drawing | None:
    return draw_rule(side.gauge, side.side, alternative=side.alternative) if side else None


def _twin(row: PartRow) -> Drawing:
    halves = [side for side in (row.left, row.right) if side]
    left, right = (half.gauge if half else None for half in (row.left, row.right))
    return draw_twin_rule(left, right, alternative=" ".join(half.alternative for half in halves))


def _travel(side: TravelSide | None) -> Drawing | None:
    if side is None:
        return None
    if side.percent_used is not None:
        return draw_travel(side.percent_used, side.side, alternative=side.alternative)
    return draw_range(*side.range, side.side, alternative=side.alternative) if side.range else None


def _keys(view: FullReport) -> Iterator[Key]:
    """Signs of what occurs on the machine, and no others."""
    words, kinds = view.headings, _occurring(view)
    for kind, said in (
        (KeyKind.WORN, f"{words.hatched}. {words.solid}."),
        (KeyKind.LIMIT, words.limit),
        (KeyKind.PAST, words.past),
        (KeyKind.BY_EYE, words.by_eye),
        (KeyKind.NOT_SEEN, words.not_seen_key),
    ):
        if kind in kinds:
            yield Key(draw_key(kind, alternative=said), said)


def _occurring(view: FullReport) -> frozenset[KeyKind]:
    gauges = [side.gauge for row in view.parts for side in (row.left, row.right) if side]
    gauges += [place.gauge for one in view.strips for place in (*one.strip.left, *one.strip.right)]
    kinds = {_BASES[gauge.basis] for gauge in gauges}
    if any(gauge.stage is Stage.PAST_LIMIT for gauge in gauges):
        kinds.add(KeyKind.PAST)
    elif any(gauge.seen for gauge in gauges):
        kinds.add(KeyKind.LIMIT)
    return frozenset(kinds)


def _photos_of_their_own(view: FullReport) -> Iterator[PhotoView]:
    shown = {photo.name for finding in view.findings for photo in finding.photos}
    observed = [photo for observation in view.observations for photo in observation.photos]
    for photo in (*view.photos, *observed, *view.identification.plates):
        if photo.name not in shown:
            shown.add(photo.name)
            yield photo
