"""Section of a track shoe: plate and grousers, by kind of shoe."""

from dataclasses import dataclass
from typing import Final

from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.plain import Point
from tracksworn.documents.drawing.profiles.amounts import Amounts
from tracksworn.documents.drawing.profiles.profile import Worn
from tracksworn.documents.drawing.profiles.section import Losses, Name, Section, Span, joined, over
from tracksworn.inspection.vocabulary import ShoeKind


@dataclass(frozen=True, slots=True)
class _Kind:
    """Proportions in heights of one grouser as new."""

    grousers: int
    tip: float
    root: float
    between: float  # from middle to middle
    plate: float  # thickness
    margin: float  # plate beyond the outer grousers' middles
    fillet: float = 0.12


_KINDS: Final = {
    ShoeKind.SINGLE_GROUSER: _Kind(1, 0.36, 0.78, 0.0, 0.34, 1.15),
    ShoeKind.DOUBLE_GROUSER: _Kind(2, 0.5, 1.0, 2.4, 0.45, 1.1),
    ShoeKind.TRIPLE_GROUSER: _Kind(3, 0.55, 1.15, 2.1, 0.5, 1.05),
    ShoeKind.SWAMP: _Kind(1, 0.3, 3.0, 0.0, 0.3, 1.75, 0.05),
    ShoeKind.PAD: _Kind(1, 3.0, 3.2, 0.0, 0.4, 1.9, 0.0),
}


def shoe_section(worn: Worn, given: Amounts, kind: ShoeKind | None) -> Section:
    """Plate top at 0, tips at the new height. Tips wear round at their edges."""
    form = _KINDS[kind or ShoeKind.SINGLE_GROUSER]
    new = given.new
    middles = [(index - (form.grousers - 1) / 2) * form.between * new for index in range(form.grousers)]
    foot = middles[-1] + (form.root / 2 + 1.3 * form.fillet) * new
    reach, plate = (form.margin * new + middles[-1]), form.plate * new

    def body(top: float) -> BaseGeometry:
        slab = Polygon([(-reach, -plate), (-reach, 0), (reach, 0), (reach, -plate)])
        return joined(slab, *(_grouser(middle, top, new, form) for middle in middles))

    def cut(losses: Losses, fall: float) -> BaseGeometry:
        loss = losses[0]
        if loss <= 0:
            return body(new - loss)
        top = max(new - loss, 0.0)
        fallen = fall * top
        far = _half_at(top - 1.2 * fallen, new, form) + 0.01 * new
        gone = [over(_tip(middle, top, fallen, _half_at(top, new, form), far), 2 * new) for middle in middles]
        return body(new).difference(joined(*gone))

    def touch(_: int, loss: float, __: float) -> Point:
        height = new - loss
        half = _half_at(height, new, form) if loss > 0.05 * new else form.tip * new / 2 - min(0.05, form.tip / 4) * new
        return middles[0] - half, height

    return Section(
        faces=(worn,),
        solid=lambda losses: cut(losses, 0.0),
        worn=lambda losses: cut(losses, 0.09),
        touch=touch,
        bounds=(-reach, -plate, reach, new),
        cuts=(((-reach, -plate), (-reach, 0.0)), ((reach, -plate), (reach, 0.0))),
        axes=tuple(((x, -plate - 0.05 * new), (x, 0.05 * new)) for x in (-reach, reach)),
        names=(Name(worn.word, (0.0, -plate / 2), reach),),
        span=Span(lambda _: (foot, 0.0), lambda losses: (-touch(0, losses[0], 0.0)[0], new - losses[0])),
        flank=(-foot, foot) if form.grousers == 1 and form.root < 1 else None,
        rows=(0.0, None),
    )


def _grouser(middle: float, top: float, new: float, form: _Kind) -> Polygon:
    tip, root, fillet = form.tip * new / 2, form.root * new / 2, form.fillet * new
    edge = min(0.05 * new, tip / 2)
    right = [(tip - edge, top), (tip, top - edge), (root, fillet), (root + 1.2 * fillet, 0.0)]
    left = [(-x, y) for x, y in reversed(right)]
    return Polygon([(middle + x, y) for x, y in [*left, *right]])


def _half_at(height: float, new: float, form: _Kind) -> float:
    """Half the grouser's width at a height."""
    edge, fillet = min(0.05 * new, form.tip * new / 4), form.fillet * new
    share = (new - edge - height) / (new - edge - fillet)
    return (form.tip + (form.root - form.tip) * min(max(share, 0.0), 1.0)) * new / 2


def _tip(middle: float, top: float, fall: float, half: float, far: float) -> list[Point]:
    """The worn tip: flat, its edges gone. `half` is half the grouser's width at the tip, `far` that below the edges."""
    inner = max(half - 1.6 * fall, 0.5 * half)
    return [
        (middle - far, top - 1.2 * fall),
        (middle - inner, top),
        (middle + inner, top),
        (middle + far, top - 1.2 * fall),
    ]
