"""How parts are spoken of: one, several, on a side, at a place, by their numbers; and how words are listed."""

from collections.abc import Iterable, Mapping
from enum import StrEnum
from typing import Final

from tracksworn.assessment.sayings import Subject, Topic
from tracksworn.documents.words.label_words import HEADINGS, MANY, ONE, WORDS
from tracksworn.documents.words.language import C_, N_, Language
from tracksworn.inspection.model import Spot
from tracksworn.inspection.vocabulary import CHAINS, ROLLERS, Component, ObservedPlace, PartPlace, Side

What = Component | ObservedPlace | Topic
Alike = tuple[What, PartPlace | None, tuple[int, ...]]
"""What parts of one name, place and numbers have in common on either side."""
Lone = frozenset[Component]
"""Rollers of which a side has only one, which needs no number."""

JOINTED: Final = frozenset({Component.LINK, Component.BUSHING, Component.PITCH, ObservedPlace.PIN, ObservedPlace.SEAL})
"""Where a number is a joint counted from the master joint."""

SIDED: Final[Mapping[Side, str]] = {Side.LEFT: N_("left {part}"), Side.RIGHT: N_("right {part}")}
BOTH: Final = N_("left and right {part}")
SIDES: Final[Mapping[Side, str]] = {Side.LEFT: N_("left side"), Side.RIGHT: N_("right side")}


def word(value: StrEnum, language: Language) -> str:
    """A word of the trade in the reader's language, as in the middle of a sentence."""
    return language.say(WORDS.get(type(value), ONE)[value])


def one(what: StrEnum, language: Language) -> str:
    """The name of one such part: `bottom roller`."""
    return language.say(ONE[what])


def many(what: StrEnum, language: Language) -> str:
    """The name of several: `bottom rollers`; that of one where there is no other."""
    return language.say(MANY.get(what) or ONE[what])


def heading(component: Component, language: Language) -> str:
    """The name at the head of a component's row."""
    return language.say(HEADINGS[component])


def part(subject: Subject | Spot, language: Language, lone: Lone = frozenset()) -> str:
    """Which part is spoken of, as in the middle of a sentence: `left bottom roller 3`, `right links`.

    A chain and a set of rollers without a number are spoken of in the plural, those `lone` on their side without one.
    """
    what = subject.what if isinstance(subject, Subject) else subject.part
    if what is None:
        return language.say(SIDES[subject.side]) if subject.side else language.say(N_("machine"))
    name = one(what, language) if what in lone else _numbered(what, subject.number, language)
    return _placed(_sided(name, subject.side, language), subject.place, language)


def _sided(name: str, side: Side | None, language: Language) -> str:
    return name if side is None else language.say(SIDED[side], part=name)


def _placed(name: str, place: PartPlace | None, language: Language) -> str:
    return name if place is None else language.say(N_("{part}, {place}"), part=name, place=word(place, language))


def _numbered(what: StrEnum, number: int | None, language: Language) -> str:
    if number is None:
        several = what in CHAINS or what in ROLLERS or what is Topic.JOINT_TEMPERATURE
        return many(what, language) if several else one(what, language)
    pattern = N_("{part} at joint {number}") if what in JOINTED else N_("{part} {number}")
    return language.say(pattern, part=one(what, language), number=str(number))


def parts(subjects: Iterable[Subject], language: Language, lone: Lone = frozenset()) -> str:
    """Several parts as one list: `left bottom rollers 1 and 3 to 6`, `left and right links`."""
    numbers: dict[tuple[What, PartPlace | None, Side | None], set[int]] = {}
    for subject in subjects:
        there = numbers.setdefault((subject.what, subject.place, subject.side), set())
        there.update(() if subject.number is None or subject.what in lone else (subject.number,))
    sides: dict[Alike, list[Side | None]] = {}
    for (what, place, side), there in numbers.items():
        sides.setdefault((what, place, tuple(sorted(there))), []).append(side)
    if len(sides) > 1 and (together := _same_sides(sides)):
        return _on_the_same(together, [what for what, _, _ in sides], language, lone)
    return listed([_alike(*alike, on, language, lone) for alike, on in sides.items()], language)


def _same_sides(sides: Mapping[Alike, list[Side | None]]) -> list[Side]:
    """Left, right or both, where all parts are whole sets on just these, so that it is said once; else nothing."""
    whole = all(place is None and not numbers for _, place, numbers in sides)
    first = next(iter(sides.values()))
    alike = all(set(on) == set(first) for on in sides.values())
    return [side for side in first if side is not None] if whole and alike else []


def _on_the_same(sides: list[Side], parts: list[What], language: Language, lone: Lone) -> str:
    if len(sides) > 1:
        return language.say(BOTH, part=listed([many(what, language) for what in parts], language))
    names = [one(what, language) if what in lone else _numbered(what, None, language) for what in parts]
    return _sided(listed(names, language), sides[0], language)


def _alike(
    what: What,
    place: PartPlace | None,
    numbers: tuple[int, ...],
    sides: list[Side | None],
    language: Language,
    lone: Lone,
) -> str:
    if len(sides) == 1 and len(numbers) <= 1:
        return part(Subject(what, sides[0], numbers[0] if numbers else None, place), language, lone)
    if len(numbers) == 1:
        name = _numbered(what, numbers[0], language)
    elif numbers:
        pattern = N_("{part} at joints {numbers}") if what in JOINTED else N_("{part} {numbers}")
        name = language.say(pattern, part=many(what, language), numbers=runs(numbers, language))
    else:
        name = many(what, language)
    name = _sided(name, sides[0], language) if len(sides) == 1 else language.say(BOTH, part=name)
    return _placed(name, place, language)


def runs(numbers: Iterable[int], language: Language) -> str:
    """Numbers in ascending order with runs of three and more drawn together: `1, 3 to 6 and 8`."""
    together: list[list[int]] = []
    for number in sorted(numbers):
        if together and number == together[-1][-1] + 1:
            together[-1].append(number)
        else:
            together.append([number])
    names: list[str] = []
    for run in together:
        if len(run) > 2:
            names.append(language.say(N_("{low} to {high}"), low=str(run[0]), high=str(run[-1])))
        else:
            names += [str(number) for number in run]
    return listed(names, language)


def opening(sentence: str) -> str:
    """The same words with a capital, as a heading or sentence begins."""
    return sentence[:1].upper() + sentence[1:]


def listed(names: tuple[str, ...] | list[str], language: Language) -> str:
    """Names in a row: `a`, `a and b`, `a, b and c`."""
    *first, last = names
    return language.say(N_("{first} and {last}"), first=", ".join(first), last=last) if first else last


def clauses(said: Iterable[str], language: Language) -> str:
    """What is said after one another in one sentence: `a; b; c`. What is empty is left out."""
    first, *further = [one for one in said if one] or [""]
    for one in further:
        first = language.say(N_("{first}; {next}"), first=first, next=one)
    return first


def within(sentence: str, language: Language) -> str:
    """A sentence, or a name as a heading has it, inside another."""
    pattern = C_("a sentence inside another: {small} begins small, {kept} as it stands", "{small}")
    return language.say(pattern, small=sentence[:1].lower() + sentence[1:], kept=sentence)
