"""How a part is named: `left bottom roller 3 inner tread`, as much of it as is known."""

from collections.abc import Sequence
from enum import StrEnum
from typing import TypeVar

from tracksworn.inspection.model import FittedPart, Spot
from tracksworn.inspection.vocabulary import ROLLERS, WEARING, Component, ObservedPlace, PartPlace, Side
from tracksworn.inspection.written import Wrong, likely, one_of, quoted

NUMBERED_BY_JOINT = frozenset(
    {
        Component.LINK,
        Component.BUSHING,
        Component.PITCH,
        Component.SHOE,
        Component.LUG,
        Component.DRIVE_LUG,
        ObservedPlace.PIN,
        ObservedPlace.SEAL,
        ObservedPlace.SHOE_BOLT,
    }
)
NUMBERED = NUMBERED_BY_JOINT | ROLLERS | {ObservedPlace.BOGIE_PIVOT, ObservedPlace.GUARD}
_PARTS: tuple[Component | ObservedPlace, ...] = (*Component, *ObservedPlace)
E = TypeVar("E", bound=StrEnum)


def spot(text: str, *, side_alone: bool = False) -> Spot:
    """`[left|right] COMPONENT [NUMBER] [PLACE]`; where photos are concerned a side may stand alone."""
    words = text.split()
    side = _take(words, tuple(Side))
    if side_alone and side is not None and not words:
        return Spot(None, side)
    part = _take(words, _PARTS)
    if part is None:
        also = "; a side may stand alone" if side_alone else ""
        raise Wrong(f"{_no_part(text, words, _PARTS)}{also}")
    number = _number(words)
    place = _take(words, tuple(PartPlace))
    if words:
        raise Wrong(f"{quoted(' '.join(words))} does not read behind `{part}`; {_behind(part, words)}")
    if number is not None and part not in NUMBERED:
        raise Wrong(f"a {part} has no number")
    return Spot(part, side, number, place)


def fitted_part(text: str) -> FittedPart:
    """`[left|right] COMPONENT [POSITION]`, the key of an entry under `fitted`."""
    words = text.split()
    side = _take(words, tuple(Side))
    component = _take(words, WEARING)
    if component is None:
        raise Wrong(_no_part(text, words, WEARING))
    position = _number(words)
    if words:
        raise Wrong(f"{quoted(' '.join(words))} does not read behind `{component}`; write `left bottom roller 3`")
    if position is not None and (component not in ROLLERS or side is None):
        raise Wrong("only rollers have a position, on a side: `left bottom roller 3`")
    return FittedPart(component, side, position)


def _take(words: list[str], known: Sequence[E]) -> E | None:
    """Take the longest of the known terms off the front."""
    for count in (3, 2, 1):
        taken = " ".join(words[:count])
        for term in known:
            if len(words) >= count and term.value == taken:
                del words[:count]
                return term
    return None


def _number(words: list[str]) -> int | None:
    if not words or not words[0].isdigit() or not words[0].isascii():
        return None
    digits = words.pop(0)
    if len(digits) > 3 or int(digits) == 0:
        raise Wrong(f"{quoted(digits)} is no number of a joint or position; they count from 1")
    return int(digits)


def _no_part(text: str, words: list[str], known: Sequence[Component | ObservedPlace]) -> str:
    if not words:
        return f"{quoted(text)} names no part; {_EXAMPLE}"
    for start in range(1, len(words)):
        later = words[start:]
        part = _take(later, known)
        if part is not None:
            before = " ".join(words[:start])
            return f"{quoted(before)} does not read before `{part}`; only `left` or `right` may stand there"
    near = next((found for count in (3, 2, 1) if (found := likely(" ".join(words[:count]), known))), None)
    return f"{quoted(text)} names no known part; {f'did you mean {one_of(near)}?' if near else _EXAMPLE}"


def _behind(part: Component | ObservedPlace, rest: list[str]) -> str:
    """What may have been meant by what stands behind a part."""
    words = " ".join(rest)
    if near := likely(words, tuple(Side)):
        return f"the side stands first: `{near[0]} {part}`"
    longer = likely(f"{part} {words}", [each for each in _PARTS if each.value.startswith(f"{part} ")])
    near = longer or likely(words, tuple(PartPlace))
    return (
        f"did you mean {one_of(near)}?" if near else "a number, as `3`, or a place, as `inner tread`, may stand there"
    )


_EXAMPLE = "write a side, a component and its number, as `left bottom roller 3`"
