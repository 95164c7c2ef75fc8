"""What the renderer hands over."""

from dataclasses import dataclass
from enum import StrEnum

from tracksworn.inspection.faults import TrackswornError


class Format(StrEnum):
    """What a document can be written as."""

    PDF = "pdf"
    HTML = "html"
    MARKDOWN = "md"
    PNG = "png"


class Sheet(StrEnum):
    """Which document is made of an inspection; a word of its files' names."""

    FULL = "full"
    LISTING = "listing"
    CERTIFICATE = "certificate"


@dataclass(frozen=True, slots=True)
class File:
    """A finished file: its name, with `/` below a folder of its own, and its bytes."""

    name: str
    content: bytes


class Refused(TrackswornError):  # noqa: N818
    """A document is not handed over: its cautions are not all in it, or a template cannot be used."""
