"""Types of single values: how each is read from its text, and how a JSON Schema describes it."""

import re
from collections.abc import Callable, Iterable
from datetime import date
from enum import StrEnum
from pathlib import PurePosixPath
from typing import Annotated, Any, TypeVar

from pydantic import PlainValidator, WithJsonSchema

from tracksworn.inspection import notation
from tracksworn.inspection.file_types.base import read_words
from tracksworn.inspection.numbers import number, whole
from tracksworn.inspection.values import Temperatures
from tracksworn.inspection.vocabulary import (
    Between,
    Component,
    Evidence,
    Grade,
    Ground,
    Impact,
    Layout,
    LimitMeans,
    Origin,
    PartPlace,
    ShoeKind,
    Sign,
    Suspension,
    Track,
)
from tracksworn.inspection.written import Items, ListWanted, Text, Wrong, one_of, quoted, suggestion

E = TypeVar("E", bound=StrEnum)
T = TypeVar("T")

SCALAR = ("string", "number", "boolean")
"""What an editor may take a scalar for; the program reads each as text."""

LONGEST_TEXT = 2_000
LONGEST_MARKDOWN = 100_000
YEARS = (1950, 2099)
_MOST_HOURS = 1_000_000


def text_of(node: object) -> Text:
    """The text that stands here, where one belongs."""
    if not isinstance(node, Text):
        raise Wrong("one value belongs here, not a list or a mapping")
    return node


def scalar(**more: Any) -> WithJsonSchema:
    """The schema of one value."""
    return WithJsonSchema({"type": list(SCALAR), **more})


def _from_text(read: Callable[[Text], T]) -> PlainValidator:
    return PlainValidator(lambda node: read(text_of(node)))


def word(words: Iterable[E]) -> tuple[PlainValidator, WithJsonSchema]:
    """A word of an enumeration, or of a part of it."""
    known = [str(word) for word in words]
    return _from_text(lambda text: read_words(words, text)), WithJsonSchema({"enum": known})


def choice(*words: str) -> tuple[PlainValidator, WithJsonSchema]:
    """One of a few plain words."""

    def read(text: Text) -> str:
        if text not in words:
            raise Wrong(f"{quoted(text)} is not known here; {suggestion(text, words)}")
        return str(text)

    return _from_text(read), WithJsonSchema({"enum": list(words)})


def _text(text: Text) -> str:
    if len(text) > LONGEST_TEXT:
        raise Wrong(f"a text has at most {LONGEST_TEXT:,} characters, not {len(text):,}")
    if not text.strip():
        raise Wrong("a text belongs here; give one or leave the key out")
    return str(text).strip()


def _markdown(text: Text) -> str:
    if len(text) > LONGEST_MARKDOWN:
        raise Wrong(f"a text has at most {LONGEST_MARKDOWN:,} characters, not {len(text):,}")
    return str(text)


def _name(longest: int) -> Callable[[Text], str]:
    def read(text: Text) -> str:
        if not re.fullmatch(rf"[A-Za-z0-9][A-Za-z0-9._-]{{0,{longest - 1}}}", text):
            raise Wrong(
                f"{quoted(text)} cannot be used, for it names files; at most {longest} of A-Z a-z 0-9 . _ -, "
                "beginning with a letter or digit"
            )
        return str(text)

    return read


def lot_of(text: Text) -> str:
    """A lot's number in a sale."""
    return _name(16)(text)


def _day(text: Text) -> date:
    form = re.fullmatch(r"([0-9]{4})-([0-9]{2})-([0-9]{2})", text)
    if form is None:
        raise Wrong(f"{quoted(text)} is no date; write year-month-day, such as `2031-04-18`")
    try:
        day = date(int(form[1]), int(form[2]), int(form[3]))
    except ValueError:
        raise Wrong(f"{quoted(text)} is not in the calendar") from None
    if not YEARS[0] <= day.year <= YEARS[1]:
        raise Wrong(f"{quoted(text)} is too far off; dates lie in the years {YEARS[0]} to {YEARS[1]}")
    return day


def _plain(text: Text, suffix: str = "", most: float = 1e9) -> float:
    """A number from nought, with an optional word behind it."""
    body = text.rstrip()
    if suffix and body.endswith(suffix):
        body = body.removesuffix(suffix)
    notation.refuse_tight_commas(body)
    read = float(number(body))
    if read > most:
        raise Wrong(f"{quoted(text)} is more than {most:,.0f}")
    return read


def machine_hours(text: Text) -> float:
    """`8412` or `8412 h`."""
    if not re.search("[0-9]", text) or re.search("[a-gi-zA-Z]", text):
        raise Wrong(f"{quoted(text)} does not read; write hours such as `8412` or `8412 h`, or leave the key out")
    return _plain(text, "h", _MOST_HOURS)


def _percent(text: Text) -> float:
    if not text.rstrip().endswith("%"):
        raise Wrong(f"{quoted(text)} has no `%`; write a percent such as `60 %`")
    return _plain(text, "%", 1000)


def _above_nought(read: Callable[[Text], float]) -> Callable[[Text], float]:
    def above(text: Text) -> float:
        value = read(text)
        if value <= 0:
            raise Wrong(f"{quoted(text)} is not above nought")
        return value

    return above


def _share_of_hours(text: Text) -> float:
    share = _percent(text) / 100
    if share > 1:
        raise Wrong("a share is at most 100 %")
    return share


def _confidence(text: Text) -> float:
    confidence = _percent(text) / 100
    if not 0.5 <= confidence < 1:
        raise Wrong("a confidence is from 50 % to under 100 %")
    return confidence


def _points(text: Text) -> float:
    body = re.fullmatch(r"(.*?)\s*points?\s*", text, re.DOTALL)
    if body is None:
        raise Wrong(f"{quoted(text)} has no unit; write percentage points such as `1.4 points`")
    return _plain(Text(body[1], text.mark), most=100)


def path_of(text: Text) -> PurePosixPath:
    """A path from the folder of the file that it stands in."""
    if "\\" in text:
        raise Wrong("folders are parted by `/`, not by a backslash", text.index("\\"))
    if text.startswith("/") or re.match(r"[A-Za-z][A-Za-z0-9+.-]*:", text):
        raise Wrong(f"{quoted(text)} is no path from this file's folder, such as `photos/a.jpg` or `../b.yaml`")
    path = PurePosixPath(_text(text))
    if path.name in ("", ".."):
        raise Wrong(f"{quoted(text)} names no file")
    return path


def _yes_or_no(text: Text) -> bool:
    if text.lower() not in ("yes", "no", "true", "false"):
        raise Wrong(f"{quoted(text)} is neither `yes` nor `no`")
    return text.lower() in ("yes", "true")


def whole_between(low: int, high: int) -> tuple[PlainValidator, WithJsonSchema]:
    """A whole number between two bounds."""
    return _from_text(lambda text: whole(text, low, high)), scalar(examples=[str(low)])


def _several_words(words: Iterable[E], *, commas: bool) -> tuple[PlainValidator, WithJsonSchema]:
    """A word or a list of them; with `commas` also `abrasive, wet`."""

    def read(node: object) -> tuple[E, ...]:
        if isinstance(node, Items):
            parts = [text_of(item) for item in node]
        else:
            parts = _parts(text_of(node)) if commas else [text_of(node)]
        if len(parts) == 1 and "," in parts[0]:
            raise ListWanted(f"for several write a list: `[{parts[0]}]`")
        found = tuple(read_words(words, part) for part in parts)
        if len(set(found)) < len(found):
            raise Wrong("a word stands here twice")
        if not found:
            raise Wrong(f"a word is missing here; {one_of(words)}")
        return found

    known = [str(word) for word in words]
    alone = {"type": "string"} if commas else {"enum": known}
    return PlainValidator(read), WithJsonSchema({"oneOf": [alone, {"type": "array", "items": {"enum": known}}]})


def _parts(text: Text) -> list[Text]:
    return [Text(part.strip(), text.mark) for part in text.split(",")]


def _address(node: object) -> tuple[str, ...]:
    lines = list(node) if isinstance(node, Items) else [text_of(node)]
    return tuple(_text(text_of(line)) for line in lines)


ShortText = Annotated[str, _from_text(_text), scalar(maxLength=LONGEST_TEXT)]
Markdown = Annotated[str, _from_text(_markdown), scalar(maxLength=LONGEST_MARKDOWN)]
Number = Annotated[str, _from_text(_name(64)), scalar(maxLength=64, examples=["MPS-2031-0418"])]
Lot = Annotated[str, _from_text(lot_of), scalar(maxLength=16, examples=["114"])]
Day = Annotated[date, _from_text(_day), scalar(examples=["2031-04-18"])]
RelativePath = Annotated[PurePosixPath, _from_text(path_of), WithJsonSchema({"type": "string"})]
YesOrNo = Annotated[bool, _from_text(_yes_or_no), WithJsonSchema({"enum": ["yes", "no", True, False]})]

Length = Annotated[float, _from_text(notation.length), scalar(examples=["131.2 mm", "6 15/16 in"])]
LengthOrNought = Annotated[
    float, _from_text(lambda text: notation.length(text, nought=True)), scalar(examples=["0.8 mm"])
]
LengthRange = Annotated[tuple[float, float], _from_text(notation.length_range), scalar(examples=["55 to 75 mm"])]
Temperature = Annotated[float, _from_text(notation.temperature), scalar(examples=["18 C"])]
SeveralTemperatures = Annotated[Temperatures, _from_text(notation.temperatures), scalar(examples=["31, 33, 58, 32 C"])]

Percent = Annotated[float, _from_text(_percent), scalar(examples=["60 %"])]
ShareOfHours = Annotated[float, _from_text(_share_of_hours), scalar(examples=["15 %"])]
Confidence = Annotated[float, _from_text(_confidence), scalar(examples=["95 %"])]
Points = Annotated[float, _from_text(_above_nought(_points)), scalar(examples=["1.4 points"])]
PlainNumber = Annotated[float, _from_text(_plain), scalar(examples=["0.24"])]
PercentRow = Annotated[float, _from_text(lambda text: _plain(text, "%", 1000)), scalar(examples=["20"])]
Factor = Annotated[float, _from_text(_above_nought(_plain)), scalar(examples=["3"])]
MachineHours = Annotated[float, _from_text(machine_hours), scalar(examples=["8412"])]
Labour = Annotated[float, _from_text(machine_hours), scalar(examples=["14 h"])]
HoursPerWeek = Annotated[float, _from_text(_above_nought(lambda text: _plain(text, "h", 168))), scalar(examples=["35"])]
Money = Annotated[float, _from_text(_plain), scalar(examples=["1800"])]

AnyLayout = Annotated[Layout, *word(Layout)]
AnySuspension = Annotated[Suspension, *word(Suspension)]
AnyTrack = Annotated[Track, *word(Track)]
AnyShoeKind = Annotated[ShoeKind, *word(ShoeKind)]
AnyImpact = Annotated[Impact, *word(Impact)]
AnyGrade = Annotated[Grade, *word(Grade)]
AnyLimitMeans = Annotated[LimitMeans, *word(LimitMeans)]
AnyBetween = Annotated[Between, *word(Between)]
AnyOrigin = Annotated[Origin, *word(Origin)]
AnyPartPlace = Annotated[PartPlace, *word(PartPlace)]
AnyComponent = Annotated[Component, *word(Component)]
MeterEvidence = Annotated[Evidence, *word((Evidence.METER, Evidence.TELEMATICS, Evidence.OWNERS_WORD))]
FittingEvidence = Annotated[
    Evidence, *word((Evidence.INVOICE, Evidence.STAMP, Evidence.OWNERS_WORD, Evidence.EARLIER_INSPECTION))
]
GroundWords = Annotated[tuple[Ground, ...], *_several_words(Ground, commas=True)]
SignWords = Annotated[tuple[Sign, ...], *_several_words(Sign, commas=False)]
Address = Annotated[
    tuple[str, ...],
    PlainValidator(_address),
    WithJsonSchema({"oneOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]}),
]
