"""What stands about a section: title and scale above it, and the key of its lines at the right."""

from collections.abc import Collection
from dataclasses import dataclass, replace
from typing import Final

from tracksworn.assessment.model import Basis
from tracksworn.documents.drawing.inks import LABEL
from tracksworn.documents.drawing.lettering import balanced, centred
from tracksworn.documents.drawing.pile import Pile
from tracksworn.documents.drawing.plain import Line, Stroke, Text
from tracksworn.documents.drawing.profiles.profile import Profile, Worn
from tracksworn.documents.drawing.type import text_width

NOW: Final = Stroke(0.42)
AS_NEW: Final = Stroke(0.16, dash=(1.1, 0.6))
LIMIT: Final = Stroke(0.22, dash=(2.2, 0.6, 0.4, 0.6))
DESTROYED: Final = Stroke(0.3, dash=(0.35, 0.75))
BY_EYE: Final = Stroke(0.3, dash=(0.9, 0.6))
NOT_SEEN: Final = Stroke(0.16)

HEAD: Final = 8.0  # mm that title and subtitle take
PER_CENT: Final = "\u00a0%"
_SAMPLE: Final = 5.6
_STEP: Final = 4.2
_GAP: Final = 1.4
_NOTE: Final = Text((0, 0), "", 7.0, colour=LABEL)
_NOTE_STEP: Final = 3.1


@dataclass(frozen=True, slots=True)
class _Entry:
    pen: Stroke | None  # None: not in the drawing
    name: Text
    value: Text


@dataclass(frozen=True, slots=True)
class Key:
    """The key laid out: `left` is where it begins, `bottom` where it ends."""

    left: float
    bottom: float
    entries: tuple[_Entry, ...]
    notes: tuple[str, ...]


def title_lines(profile: Profile, scale: str) -> tuple[Text, ...]:
    """Title at the left, scale at the right; below the title where both do not fit on one line."""
    title = Text((0, 3.0), profile.title, 8.4, 600)
    ratio = Text((profile.width, 3.0), scale, 7.0, colour=LABEL, anchor="end")
    about = Text((0, 6.5), profile.about, 7.0, colour=LABEL)
    if text_width(title) + text_width(ratio) + 3 > profile.width:
        ratio = replace(ratio, at=(profile.width, 6.5))
    lines = [line for line in (title, ratio, about) if line.content]
    if ratio.at[1] == about.at[1] and text_width(about) + text_width(ratio) + 3 > profile.width:
        lines.remove(about)
    return tuple(lines)


def make_key(profile: Profile, drawn: Collection[Worn]) -> Key:
    """As new, now by side or place, limit, destroyed, then the notes. What is not drawn has no sample of its line."""
    entries = tuple(_entries(profile, drawn))
    widest = max((text_width(one.name) + text_width(one.value) for one in entries), default=0.0)
    width = min(max(_SAMPLE + _GAP + widest + 1.6, 23.0), 0.42 * profile.width)
    notes = tuple(line for note in _notes(profile, drawn) for line in balanced(note, width, _NOTE))
    top = HEAD + 1.5
    bottom = top + _STEP * len(entries) + (1.2 + _NOTE_STEP * len(notes) if notes else 0.0)
    return Key(profile.width - width, bottom, entries, notes)


def draw_key(pile: Pile, profile: Profile, key: Key) -> None:
    """Line samples, words, sizes; the notes beneath."""
    y = HEAD + 1.5 + _STEP / 2
    for one in key.entries:
        if one.pen is not None:
            pile.stroke(one.pen, Line(((key.left, y), (key.left + _SAMPLE, y))))
        baseline = centred(y, 7.2)
        pile.write(replace(one.name, at=(key.left + _SAMPLE + _GAP, baseline)))
        if one.value.content:
            pile.write(replace(one.value, at=(profile.width, baseline)))
        y += _STEP
    y += 1.2 + 0.3
    for line in key.notes:
        pile.write(replace(_NOTE, at=(key.left, y), content=line))
        y += _NOTE_STEP


def _entries(profile: Profile, drawn: Collection[Worn]) -> list[_Entry]:
    words = profile.words
    wear, seen = _has_wear(profile), _seen(drawn)
    entries = []
    if wear:
        entries.append(_entry(AS_NEW if seen else None, words.as_new, profile.new.text if profile.new else ""))
    entries += [_worn_entry(profile, worn, drawn=worn in drawn) for worn in _keyed(profile, drawn)]
    if wear:
        entries.append(_entry(LIMIT if seen else None, words.limit, profile.limit.text if profile.limit else ""))
    if profile.destroyed is not None and profile.limit is not None:
        entries.append(_entry(DESTROYED if seen else None, words.destroyed, profile.destroyed.text))
    return entries


def _has_wear(profile: Profile) -> bool:
    """Whether as new and limit are drawn: not on a typical section of which only a size is known."""
    return profile.new is not None or any(worn.gauge.basis is Basis.BY_EYE for worn in profile.now)


def _seen(drawn: Collection[Worn]) -> bool:
    return any(worn.gauge.seen for worn in drawn)


def _worn_entry(profile: Profile, worn: Worn, *, drawn: bool) -> _Entry:
    name, gauge = worn.word or profile.words.now, worn.gauge
    pen = {Basis.NOT_SEEN: NOT_SEEN, Basis.BY_EYE: BY_EYE}.get(gauge.basis, NOW)
    return _entry(pen if drawn else None, name, _value(worn), strong=True)


def _value(worn: Worn) -> str:
    if worn.gauge.basis is Basis.NOT_SEEN:
        return worn.gauge.word
    return worn.size.text if worn.size else worn.gauge.figure + PER_CENT


def _entry(pen: Stroke | None, name: str, value: str, *, strong: bool = False) -> _Entry:
    if strong:
        return _Entry(pen, Text((0, 0), name, 7.2, 600), Text((0, 0), value, 8.2, 600, anchor="end"))
    return _Entry(pen, Text((0, 0), name, 7.2, colour=LABEL), Text((0, 0), value, 7.2, anchor="end"))


def _keyed(profile: Profile, drawn: Collection[Worn]) -> list[Worn]:
    """Those with a line in the drawing; all where none has."""
    return [worn for worn in profile.now if worn in drawn] or list(profile.now)


def _notes(profile: Profile, drawn: Collection[Worn]) -> list[str]:
    """Readings that are not drawn, then what was by eye and not seen, before the caller's own notes."""
    keyed = _keyed(profile, drawn)
    absent = [_not_drawn(profile, worn) for worn in profile.now if worn not in keyed]
    said = [worn.gauge.word for worn in profile.now if worn.gauge.basis is Basis.BY_EYE]
    reasons = [worn.gauge.reason for worn in profile.now if worn.gauge.basis is Basis.NOT_SEEN and worn.gauge.reason]
    return [*absent, *dict.fromkeys((*said, *reasons)), *profile.notes]


def _not_drawn(profile: Profile, worn: Worn) -> str:
    value = _value(worn)
    if worn.gauge.seen:
        value = f"{value}, {profile.words.not_drawn}"
    return f"{worn.word}{profile.words.colon}{value}" if worn.word else value
