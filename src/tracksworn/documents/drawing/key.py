"""The signs of the elevations' legend: a wheel worn, its limit, past it, judged by eye, and not seen."""

from enum import Enum, auto
from typing import Final

from tracksworn.assessment.model import Stage
from tracksworn.documents.drawing.inks import LABEL, STAGE_INKS
from tracksworn.documents.drawing.outline import hatch, ring
from tracksworn.documents.drawing.plain import Circle, Drawing, Path, Stroke

SIZE: Final = 9.0
_CENTRE: Final = (SIZE / 2, SIZE / 2)
_NEW, _EDGE, _LIMIT, _HUB = 4.2, 3.0, 1.7, 0.9  # radii, mm
_FINE: Final = Stroke(0.22)
_LIMIT_STROKE: Final = Stroke(0.5)
_DASHED: Final = Stroke(0.22, dash=(0.9, 0.6))


class KeyKind(Enum):
    """What a sign explains."""

    WORN = auto()
    LIMIT = auto()
    PAST = auto()
    BY_EYE = auto()
    NOT_SEEN = auto()


def draw_key(kind: KeyKind, *, alternative: str) -> Drawing:
    """One wheel, SIZE × SIZE mm."""
    painters = {
        KeyKind.WORN: _worn, KeyKind.LIMIT: _limit, KeyKind.PAST: _past, KeyKind.BY_EYE: _by_eye,
        KeyKind.NOT_SEEN: _not_seen,
    }  # fmt: skip
    return Drawing(SIZE, SIZE, painters[kind](), alternative)


def _circle(radius: float, stroke: Stroke) -> Path:
    return Path((Circle(_CENTRE, radius),), stroke=stroke)


def _worn() -> tuple[Path, ...]:
    ink = STAGE_INKS[Stage.SECOND_HALF]
    return (
        Path(hatch(ring(_CENTRE, _EDGE, _NEW), 0.6), stroke=Stroke(0.14, ink)),
        Path((Circle(_CENTRE, _EDGE), Circle(_CENTRE, _LIMIT)), fill=ink),
        Path((Circle(_CENTRE, _NEW), Circle(_CENTRE, _EDGE)), stroke=_FINE),
        _circle(_LIMIT, _LIMIT_STROKE),
    )


def _limit() -> tuple[Path, ...]:
    return (_circle(_NEW, _FINE), _circle(_LIMIT, _LIMIT_STROKE))


def _past() -> tuple[Path, ...]:
    ink = STAGE_INKS[Stage.PAST_LIMIT]
    return (
        Path(hatch(ring(_CENTRE, _HUB, _NEW), 0.6, crossed=True), stroke=Stroke(0.14, ink)),
        Path((Circle(_CENTRE, _NEW), Circle(_CENTRE, _HUB)), stroke=_FINE),
        _circle(_LIMIT, Stroke(0.5, dash=(1.0, 0.8))),
    )


def _by_eye() -> tuple[Path, ...]:
    dashes = Path((Circle(_CENTRE, 3.5), Circle(_CENTRE, 2.6)), stroke=_DASHED)
    return (_circle(_NEW, _FINE), dashes, _circle(_LIMIT, _LIMIT_STROKE))


def _not_seen() -> tuple[Path, ...]:
    return (Path((Circle(_CENTRE, _NEW), Circle(_CENTRE, _LIMIT)), stroke=Stroke(0.22, LABEL, dash=(0.9, 0.6))),)
