"""A firm's name, mark, colours, address, signatory and standing terms."""

from dataclasses import dataclass, field
from pathlib import PurePosixPath
from typing import Literal

Paper = Literal["A4", "letter"]
Units = Literal["mm", "in"]


@dataclass(frozen=True, slots=True)
class Assumed:
    """The firm's own values in place of the program's; points, `instrument` a half-width in mm."""

    inspector: float | None = None
    seat: float | None = None
    spread: float | None = None
    instrument: float | None = None
    basis: str | None = None


@dataclass(frozen=True, slots=True)
class Signatory:
    """Who answers for the document."""

    name: str
    title: str | None = None


@dataclass(frozen=True, slots=True)
class Letterhead:
    """How a firm's documents look and who signs them. Paths are relative to the letterhead's folder."""

    firm: str
    signatory: Signatory
    address: tuple[str, ...] = ()
    email: str | None = None
    web: str | None = None
    telephone: str | None = None
    mark: PurePosixPath | None = None
    accent: str = "#1f5c6b"
    paper: Paper = "A4"
    units: Units = "mm"
    language: str = "en"
    fonts: tuple[PurePosixPath, ...] = ()
    records_at: str | None = None
    standing_terms: str | None = None
    assumed: Assumed = field(default_factory=Assumed)
