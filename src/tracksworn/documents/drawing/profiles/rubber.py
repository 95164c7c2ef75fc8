"""Section of a rubber track: carcass with its cords, lug below, drive lug above."""

from dataclasses import dataclass

from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.plain import Point
from tracksworn.documents.drawing.profiles.amounts import Amounts
from tracksworn.documents.drawing.profiles.profile import Measure, ProfileWords, Worn
from tracksworn.documents.drawing.profiles.section import FAR, Losses, Metal, Name, Section, Span, Touch, joined


def lug_section(worn: Worn, given: Amounts, words: ProfileWords) -> Section:
    """The lug on the ground side, measured from the carcass to its tread."""
    new = given.new
    half, tip, reach, carcass = 1.15 * new, 0.9 * new, 1.75 * new, 0.36 * new
    drive = _trapezium(0.42 * new, 0.22 * new, carcass, carcass + 0.75 * new)

    def solid(losses: Losses) -> BaseGeometry:
        depth = max(new - losses[0], 0.0)
        width = half + (tip - half) * depth / new
        return joined(_band(reach, carcass), drive, _trapezium(half, width, 0.0, -depth))

    def touch(_: int, loss: float, __: float) -> Point:
        depth = new - loss
        return -(half + (tip - half) * depth / new), -depth

    span = Span(lambda _: (half, 0.0), lambda losses: (-touch(0, losses[0], 0.0)[0], losses[0] - new))
    return _Track(reach, carcass, half, below=True).section(
        worn, words, (solid, touch), (-new, carcass + 0.75 * new), span
    )


def drive_lug_section(worn: Worn, given: Amounts, words: ProfileWords) -> Section:
    """The drive lug on the inside: worn on both flanks where its thickness was measured, else from its tip."""
    new = given.new
    flanks = given.measure is Measure.THICKNESS
    half, tall = (new / 2, 1.15 * new) if flanks else (0.42 * new, new)
    tip, carcass = 0.55 * half, 0.36 * tall
    reach = 2.6 * half if flanks else 1.3 * new
    tread = _trapezium(1.35 * half, 1.15 * half, 0.0, -0.6 * tall)

    def solid(losses: Losses) -> BaseGeometry:
        loss = losses[0]
        if flanks:
            root = half - loss / 2
            shape = _trapezium(root, max(tip - 0.8 * loss / 2, 0.06 * half), carcass, carcass + tall - 0.3 * loss)
        else:
            height = max(new - loss, 0.0)
            shape = _trapezium(half, half + (tip - half) * height / new, carcass, carcass + height)
        return joined(_band(reach, carcass), tread, shape)

    def touch(_: int, loss: float, share: float) -> Point:
        if not flanks:
            return -(half + (tip - half) * (new - loss) / new), carcass + new - loss
        root, top = half - loss / 2, max(tip - 0.8 * loss / 2, 0.06 * half)
        rise = 0.85 - 0.6 * share
        return -(root + (top - root) * rise), carcass + rise * (tall - 0.3 * loss)

    def edge(side: int, losses: Losses) -> Point:
        if flanks:
            return side * (half - losses[0] / 2), carcass
        return (half, carcass) if side < 0 else (-touch(0, losses[0], 0.0)[0], carcass + new - losses[0])

    span = Span(lambda losses: edge(-1, losses), lambda losses: edge(1, losses), level=flanks)
    return _Track(reach, carcass, half, below=False).section(
        worn, words, (solid, touch), (-0.6 * tall, carcass + tall), span
    )


@dataclass(frozen=True, slots=True)
class _Track:
    """The carcass: half its width in the drawing, its thickness above 0, and which lug is spoken of."""

    reach: float
    thick: float
    lug: float  # half the width of the lug that is spoken of
    below: bool  # whether that is the one on the ground side

    def section(
        self, worn: Worn, words: ProfileWords, metal: tuple[Metal, Touch], ends: tuple[float, float], span: Span
    ) -> Section:
        """All that lugs of either side share. `ends` are the lowest and the highest point."""
        cord = 0.5 * self.thick
        cuts = tuple(((x, 0.0), (x, self.thick)) for x in (-self.reach, self.reach))
        return Section(
            faces=(worn,),
            solid=metal[0],
            worn=metal[0],
            touch=metal[1],
            bounds=(-self.reach, ends[0], self.reach, ends[1]),
            cuts=cuts,
            cords=(((-self.reach, cord), (self.reach, cord)),),
            names=(Name(worn.word, (0.0, -0.12 * self.thick), 0.6 * self.reach),),
            beside=Name(words.cords, (self.reach, cord), FAR),
            span=span,
            flank=(-self.lug, self.lug),
            rows=(None, 0.0) if self.below else (self.thick, None),
        )


def _band(reach: float, thick: float) -> Polygon:
    return _trapezium(reach, reach, 0.0, thick)


def _trapezium(low: float, high: float, bottom: float, top: float) -> Polygon:
    return Polygon([(-low, bottom), (-high, top), (high, top), (low, bottom)])
