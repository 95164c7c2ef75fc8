"""How a sealed document was made, which it carries, so that it can be made anew from what it carries alone."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from io import BytesIO
from pathlib import PurePosixPath
from typing import Any, Final

import rfc8785

from tracksworn.documents.attached import JSON, Attachment, Relationship
from tracksworn.documents.program import program
from tracksworn.documents.words.language import N_, Language
from tracksworn.inspection.dossier import Dossier, Picture

MAKING: Final = "document.json"
KIND: Final = "document 1"


@dataclass(frozen=True, slots=True)
class Making:
    """What was asked for, by which program, and the sizes of the pictures, which are not carried.

    `language`, `units` and `paper` are None where they are the letterhead's; `lot` where it is the inspection's.
    """

    program: str
    document: str
    language: str | None = None
    units: str | None = None
    paper: str | None = None
    photos: Mapping[str, tuple[int, int]] | None = None  # pixels, by the path written in the inspection
    mark: tuple[int, int] | None = None
    fonts: tuple[str, ...] = ()  # the letterhead's, by name
    lot: str | None = None

    @property
    def repeatable(self) -> bool:
        """Whether this program makes the same pages of what is carried: it is the same, and no font is missing."""
        return self.program == program() and not self.fonts


def making_of(dossier: Dossier, document: str, language: str | None, units: str | None, paper: str | None) -> Making:
    """How a document of that dossier is made."""
    return Making(
        program=program(),
        document=str(document),
        language=language,
        units=units,
        paper=paper,
        photos={str(path): (one.width, one.height) for path, one in (dossier.photos or {}).items()},
        mark=(dossier.mark.width, dossier.mark.height) if dossier.mark else None,
        fonts=tuple(font.name for font in dossier.fonts),
        lot=dossier.lot,
    )


def making_attached(making: Making, language: Language) -> Attachment:
    """What the document carries of it, as RFC 8785 writes JSON."""
    content = rfc8785.dumps(
        {
            "tracksworn": KIND,
            "program": making.program,
            "document": making.document,
            "language": making.language,
            "units": making.units,
            "paper": making.paper,
            "photos": {path: list(size) for path, size in (making.photos or {}).items()},
            "mark": None if making.mark is None else list(making.mark),
            "fonts": list(making.fonts),
            **({} if making.lot is None else {"lot": making.lot}),
        }
    )
    return Attachment(MAKING, content, JSON, Relationship.DATA, language.say(N_("How this document was made")))


def read_making(content: bytes) -> Making:
    """The making that a document carries. Raises ValueError where it is none that this program writes."""
    try:
        said = json.loads(content)
        if not isinstance(said, dict) or said.pop("tracksworn", None) != KIND:
            raise ValueError(f"{MAKING} does not begin with `{KIND}`")
        making = Making(
            program=str(said["program"]),
            document=str(said["document"]),
            language=_text(said["language"]),
            units=_text(said["units"]),
            paper=_text(said["paper"]),
            photos={str(path): _size(size) for path, size in said["photos"].items()},
            mark=None if said["mark"] is None else _size(said["mark"]),
            fonts=tuple(map(str, said["fonts"])),
            lot=_text(said.get("lot")),
        )
    except (KeyError, TypeError, AttributeError, RecursionError) as error:
        raise ValueError(f"{MAKING} is not as this program writes it: {error}") from error
    if making_attached(making, Language()).content != content:
        raise ValueError(f"{MAKING} is not as this program writes it")
    return making


def with_stand_ins(dossier: Dossier, making: Making, digests: Mapping[str, str]) -> Dossier:
    """A dossier read from what a document carries, with blank pictures of the right size where it had some.

    `digests` are those that its fingerprint is of, photos too.
    """
    photos = {PurePosixPath(path): _stand_in(size) for path, size in (making.photos or {}).items()}
    mark = None if making.mark is None else _stand_in(making.mark)
    return replace(dossier.in_sale(making.lot), photos=photos, mark=mark, digests=digests)


def _stand_in(size: tuple[int, int]) -> Picture:
    return Picture(_blank(), "image/jpeg", *size)


@cache
def _blank() -> bytes:
    from PIL import Image  # noqa: PLC0415 - only where a document is made anew

    out = BytesIO()
    Image.new("RGB", (4, 4), "white").save(out, "JPEG")
    return out.getvalue()


def _text(value: Any) -> str | None:
    return None if value is None else str(value)


def _size(value: Any) -> tuple[int, int]:
    width, height = value
    if not (isinstance(width, int) and isinstance(height, int) and 0 < width <= 100_000 and 0 < height <= 100_000):
        raise ValueError(f"{MAKING} gives a picture the size {value}")
    return width, height
