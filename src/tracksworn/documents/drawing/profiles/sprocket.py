"""A sprocket's tooth, the gap between two teeth, or a bolted segment."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from shapely import affinity
from shapely.geometry import Polygon, box
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.outline import disc
from tracksworn.documents.drawing.plain import Point
from tracksworn.documents.drawing.profiles.amounts import Amounts
from tracksworn.documents.drawing.profiles.profile import Flank, ProfileWords, Size, Worn
from tracksworn.documents.drawing.profiles.section import Losses, Mark, Name, Rise, Section, Span, joined
from tracksworn.inspection.vocabulary import PartPlace

_TIP: Final = 0.33  # half-widths in those at the height that is measured
_FLARE: Final = 0.3  # how fast the flank runs out into the root, in thicknesses
_TALL: Final = 1.3  # a tooth's height in thicknesses
_STEPS: Final = 26
_SINKS: Final = 0.12  # how far a gap's root sinks for each mm that the gap grows


def _both(worn: Sequence[Worn]) -> tuple[Worn, Worn]:
    """The readings of forward and reverse face; a tooth measured across has the same on either."""
    forward = next((one for one in worn if one.place is PartPlace.FORWARD_FACE), worn[0])
    return forward, next((one for one in worn if one.place is PartPlace.REVERSE_FACE), worn[0])


@dataclass(frozen=True, slots=True)
class _Tooth:
    """A tooth about its middle line, y up from the root: `new` mm thick at `height` above it."""

    new: float
    height: float
    reverse_share: float | None  # of a loss of thickness; None: as the faces were read

    @property
    def tall(self) -> float:
        return _TALL * self.new

    @property
    def reach(self) -> float:
        return 1.25 * self.new

    @property
    def foot(self) -> float:
        return -0.3 * self.new

    def half(self, at: float) -> float:
        """Half the thickness as new."""
        flank = self.new / 2 * (_TIP + (1 - _TIP) * math.exp((self.height - at) / (_FLARE * self.new)))
        return flank + 0.34 * self.new * (math.exp(-at / (0.2 * self.height)) - math.exp(-5))

    def gone(self, loss: float, at: float) -> float:
        """What has gone from a flank that lost so much at the height that is measured."""
        return loss * (1 - math.exp(-at / (0.5 * self.height))) / (1 - math.exp(-2))

    def shared(self, losses: Losses) -> tuple[float, float]:
        """Losses of the forward and the reverse flank."""
        if self.reverse_share is None:
            return _shared(losses)
        return losses[0] * (1 - self.reverse_share), losses[0] * self.reverse_share

    def solid(self, losses: Losses) -> BaseGeometry:
        """What is left of it, on a piece of rim."""
        forward, reverse = self.shared(losses)
        top = self.tall - 0.3 * (forward + reverse)
        heights = [top * (step / _STEPS) ** 1.5 for step in range(_STEPS + 1)]
        left = [(-max(self.half(at) - self.gone(forward, at), 0.0), at) for at in heights]
        right = [(max(self.half(at) - self.gone(reverse, at), 0.0), at) for at in heights]
        flanks = (
            [point for point in left if point[0] > -self.reach],
            [point for point in right if point[0] < self.reach],
        )
        ends = [(-self.reach, self.foot), (-self.reach, 0.0)], [(self.reach, 0.0), (self.reach, self.foot)]
        return Polygon([*ends[0], *_rounded(*flanks), *ends[1]]).buffer(0)

    def touch(self, face: int, loss: float, share: float) -> Point:
        """A point within what has gone from a face."""
        at = self.height + share * (0.8 * self.tall - self.height)
        x = self.half(at) - self.gone(loss / 2, at)
        return (-x, at) if face == 0 else (x, at)

    def edge(self, side: int) -> Callable[[Losses], Point]:
        """Where the thickness is measured, on the forward (0) or the reverse (1) flank."""
        return lambda losses: ((-1, 1)[side] * (self.half(self.height) - self.shared(losses)[side]), self.height)

    def mark(self, flank: Flank) -> Mark:
        """The words of a flank, at its middle."""
        side, at = (0 if flank.place is PartPlace.FORWARD_FACE else 1), 0.62 * self.tall

        def point(losses: Losses) -> Point:
            return (-1, 1)[side] * (self.half(at) - self.gone(self.shared(losses)[side] / 2, at)), at

        return Mark(flank.text, point, "right" if side else "left")


def tooth_section(
    worn: Sequence[Worn], given: Amounts, above_root: Size | None, flanks: Sequence[Flank] = ()
) -> Section:
    """One tooth, forward face at the left. What has gone from its thickness is shared out as its faces were read, or
    as its reverse flank was; where that was seen but not measured both flanks are unsure.
    """
    new = given.new
    known = above_root if above_root and above_root.mm < 0.8 * _TALL * new else None
    height = known.mm if known else 0.24 * new
    tooth = _Tooth(new, height, _reverse_share(worn, given, flanks))
    tall, reach, foot = tooth.tall, tooth.reach, tooth.foot
    break_line = ((-reach, foot), (reach, foot))
    return Section(
        faces=_both(worn),
        solid=tooth.solid,
        worn=tooth.solid,
        touch=tooth.touch,
        bounds=(-reach, foot, reach, tall),
        cuts=(break_line, ((-reach, foot), (-reach, 0.0)), ((reach, foot), (reach, 0.0))),
        breaks=(break_line,),
        axes=(
            ((-reach, height), (reach, height)),
            *(((x, foot - 0.06 * new), (x, 0.1 * new)) for x in (-reach, reach)),
        ),
        span=Span(tooth.edge(0), tooth.edge(1), level=True),
        rise=Rise(1.12 * reach, 0.0, height, known.text) if known else None,
        marks=tuple(tooth.mark(flank) for flank in flanks),
        unsure=box(-reach, 0.5 * height, reach, 2 * tall) if any(flank.size is None for flank in flanks) else None,
        flank=(-0.62 * new, 0.62 * new),
        above=len(flanks) > 1,
        rows=(1.2 * height, None),
    )


def _reverse_share(worn: Sequence[Worn], given: Amounts, flanks: Sequence[Flank]) -> float | None:
    """Which share of a thickness's loss has gone at the reverse flank; None where that was not measured."""
    reverse = next((one.size.mm for one in flanks if one.size and one.place is PartPlace.REVERSE_FACE), None)
    first = worn[0].size
    if reverse is None or first is None or len(worn) > 1 or given.new <= first.mm:
        return None
    return min(reverse / (given.new - first.mm), 1.0)


def _shared(losses: Losses) -> tuple[float, float]:
    """How much of the thickness has gone at either face, together the greater of the two losses."""
    forward, reverse = losses
    total = forward + reverse
    if min(losses) < 0 or total == 0:
        return forward / 2, reverse / 2
    return max(losses) * forward / total, max(losses) * reverse / total


def _rounded(left: list[Point], right: list[Point]) -> list[Point]:
    """Up the left flank, over the tip with its corners broken, down the right one."""
    (x, y), (far, _) = left[-1], right[-1]
    edge = 0.18 * (far - x)
    return [*left[:-1], (x, y - edge), (x + edge, y), (far - edge, y), (far, y - edge), *reversed(right[:-1])]


def gap_section(worn: Sequence[Worn], given: Amounts, words: ProfileWords) -> Section:
    """The gap between two teeth, across which the reading was taken: it grows."""
    new = given.new
    depth, reach, foot = 0.85 * new, 1.05 * new, -0.35 * new

    def solid(losses: Losses) -> BaseGeometry:
        loss = losses[0]
        block = Polygon([(-reach, foot), (-reach, depth - 0.2 * loss), (reach, depth - 0.2 * loss), (reach, foot)])
        radius, middle = (new + loss) / 2, new / 2
        deep = (middle + _SINKS * loss) / radius
        bowl = affinity.scale(disc((0.0, middle), radius), 1.0, deep, origin=(0.0, middle))
        return block.difference(joined(bowl, _flare(radius, new, depth)))

    def touch(_: int, loss: float, __: float) -> Point:
        return -(new + loss) / 2, new / 2

    break_line = ((-reach, foot), (reach, foot))
    return Section(
        faces=(worn[0],),
        solid=solid,
        worn=solid,
        touch=touch,
        bounds=(-reach, foot, reach, depth),
        cuts=(break_line, ((-reach, foot), (-reach, depth)), ((reach, foot), (reach, depth))),
        breaks=(break_line,),
        axes=tuple(((x, foot - 0.06 * new), (x, depth + 0.02 * new)) for x in (-reach, reach)),
        names=(Name(words.bushing, (0.0, 0.3 * new), 0.7 * new),),
        span=Span(
            lambda losses: (-(new + losses[0]) / 2, new / 2),
            lambda losses: ((new + losses[0]) / 2, new / 2),
            level=True,
        ),
    )


def _flare(radius: float, new: float, depth: float) -> Polygon:
    wide = radius + 0.12 * new
    return Polygon([(-radius, new / 2), (radius, new / 2), (wide, depth + new), (-wide, depth + new)])


def segment_section(worn: Sequence[Worn], given: Amounts) -> Section:
    """A bolted segment of three whole teeth; their thickness stands at the pitch line."""
    new = given.new
    pitch, teeth_round = 2.35 * new, 22
    radius = pitch * teeth_round / (2 * math.pi)
    half_angle = 360 / teeth_round * 2
    root, tip, inner = radius - 0.62 * pitch / 2, radius + 0.24 * new, radius - 1.75 * new

    def solid(losses: Losses) -> BaseGeometry:
        loss = losses[0]
        sector = Polygon([*_arc(tip - 0.4 * loss, half_angle), *reversed(_arc(inner, half_angle))])
        hollow = (pitch - new) / 2 + loss / 2
        gullets = [
            disc(_around(radius + 0.32 * loss, angle), hollow).union(_mouth(radius, angle, hollow, tip + new))
            for angle in (step * 360 / teeth_round for step in (-1.5, -0.5, 0.5, 1.5))
        ]
        bolts = [
            disc(_around((root + inner) / 2 - 0.08 * new, angle), 0.17 * new) for angle in (-20.0, -7.0, 7.0, 20.0)
        ]
        return sector.difference(joined(*gullets, *bolts))

    def touch(_: int, loss: float, __: float) -> Point:
        return _around(tip - 0.4 * loss, -360 / teeth_round)

    reach = max(x for x, _ in _arc(tip, half_angle))
    low = min(y for _, y in _arc(inner, half_angle))
    return Section(
        faces=(worn[0],),
        solid=solid,
        worn=solid,
        touch=touch,
        bounds=(-reach, low, reach, tip),
        span=Span(
            lambda losses: (-(new - losses[0]) / 2, radius), lambda losses: ((new - losses[0]) / 2, radius), level=True
        ),
    )


def _mouth(radius: float, angle: float, hollow: float, top: float) -> Polygon:
    """What is open above a gullet, its sides along the middle line of the gap."""
    corners = [(-hollow, radius), (hollow, radius), (1.06 * hollow, top), (-1.06 * hollow, top)]
    turn = math.radians(-angle)
    return Polygon(
        [(x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn)) for x, y in corners]
    )


def _around(radius: float, angle: float) -> Point:
    """A point of the wheel, its centre at 0, the angle clockwise from the top."""
    return radius * math.sin(math.radians(angle)), radius * math.cos(math.radians(angle))


def _arc(radius: float, half_angle: float) -> list[Point]:
    return [_around(radius, half_angle * (step / 16 - 1)) for step in range(33)]
