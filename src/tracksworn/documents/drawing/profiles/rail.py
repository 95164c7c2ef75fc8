"""Section of a link at its rail: shoe face below the break, rail top above."""

from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from tracksworn.documents.drawing.plain import Point
from tracksworn.documents.drawing.profiles.amounts import Amounts
from tracksworn.documents.drawing.profiles.profile import Worn
from tracksworn.documents.drawing.profiles.section import Losses, Name, Section, Span, joined, under


def rail_section(worn: Worn, given: Amounts, depth: float) -> Section:
    """The rail of one side. A worn rail goes flat and wide, falls off at its edges and lips over them."""
    new, half = given.new, 0.22 * given.new
    chin = max(new - max(1.3 * depth, 0.2 * new), 0.14 * new)
    neck = max(chin - 0.1 * new, 0.06 * new)
    foot = max(min(neck - 0.1 * new, 0.55 * new), 0.0)
    throat, edge = 0.64 * half, 0.028 * new

    def body(top: float) -> Polygon:
        crown = [(-half, top - edge), (edge - half, top), (half - edge, top), (half, top - edge)]
        return Polygon(
            [(-half, chin), *crown, (half, chin), (throat, neck), (throat, foot), (-throat, foot), (-throat, neck)]
        )

    def solid(losses: Losses) -> BaseGeometry:
        loss = losses[0]
        if loss <= 0:
            return body(new - loss)
        top = new - loss
        return body(new).intersection(under([(-half, top), (half, top)]))

    def as_worn(losses: Losses) -> BaseGeometry:
        loss = losses[0]
        if loss <= 0:
            return body(new - loss)
        share = min(loss / given.limit, 1.0)
        top, fall = new - loss, 0.02 * new * share
        line = [(-half, top - fall), (-0.7 * half, top - 0.2 * fall), (0.0, top), (0.7 * half, top - 0.2 * fall)]
        kept = body(new).intersection(under([*line, (half, top - fall)]))
        lip, room = 0.014 * new * share, min(0.06 * new, top - fall - chin)
        return (
            joined(kept, *(_lip(side * half, side * lip, top - fall, room) for side in (-1, 1))) if room > 0 else kept
        )

    def touch(_: int, loss: float, __: float) -> Point:
        return (-half if loss >= edge else edge - half), new - loss

    return Section(
        faces=(worn,),
        solid=solid,
        worn=as_worn,
        touch=touch,
        bounds=(-half - 0.02 * new, foot, half + 0.02 * new, new),
        cuts=(((-throat, foot), (throat, foot)),) if foot else (),
        breaks=(((-throat, foot), (throat, foot)),) if foot else (),
        names=(Name(worn.word, (0.0, (chin + neck) / 2), 1.8 * throat),),
        span=Span(lambda _: (throat, foot), lambda losses: (half, new - losses[0]), open=foot > 0),
    )


def _lip(edge: float, lip: float, top: float, room: float) -> Polygon:
    """Metal rolled over the edge of the rail."""
    inside = edge - lip
    return Polygon(
        [
            (inside, top),
            (edge, top),
            (edge + lip, top - 0.25 * room),
            (edge + 0.8 * lip, top - 0.6 * room),
            (edge, top - room),
            (inside, top - room),
        ]
    )
