"""Everything that one report is computed from: an inspection and all that it names."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path, PurePosixPath

from tracksworn.inspection.chart import WearChart
from tracksworn.inspection.faults import Fault
from tracksworn.inspection.inputs import Input
from tracksworn.inspection.letterhead import Letterhead
from tracksworn.inspection.model import Inspection
from tracksworn.inspection.prices import Prices
from tracksworn.inspection.terms import Terms
from tracksworn.inspection.vocabulary import Kind


class PictureRefused(ValueError):  # noqa: N818 - named for what happened to the picture
    """A photo or mark that was not taken; its text says what is wrong and what would be right."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A photo turned upright and written anew without metadata, as JPEG, or a mark as PNG or safe SVG."""

    content: bytes
    media_type: str
    width: int  # pixels
    height: int


@dataclass(frozen=True, slots=True)
class Font:
    """A letterhead's font: its file, TrueType or OpenType, and the code points that it has an outline for."""

    name: str
    content: bytes
    characters: frozenset[int]


@dataclass(frozen=True, slots=True)
class Stationery:
    """A letterhead with its mark and fonts, for a document that is of no single inspection."""

    letterhead: Letterhead
    mark: Picture | None = None
    fonts: tuple[Font, ...] = ()


@dataclass(frozen=True, slots=True)
class Source:
    """A file that the assessment is computed from: its name from the folder above, and its bytes as they were read."""

    name: str
    kind: Kind
    content: bytes


@dataclass(frozen=True, slots=True)
class Dossier:
    """What was read and checked. `digests` holds the SHA-256 of every file by its name from the folder above.

    `sources` are these files but the photos: the inspection itself first, earlier ones last. `inputs` are all files
    that were read, the letterhead's mark and fonts and what earlier inspections name included. `lot` is a sale's own
    number for the machine, where that goes before the inspection's.
    """

    inspection: Inspection
    folder: Path
    chart: WearChart | None = None
    letterhead: Letterhead | None = None
    mark: Picture | None = None
    fonts: tuple[Font, ...] = ()  # the letterhead's, in its order
    prices: Prices | None = None
    terms: Terms | None = None
    earlier: "tuple[Dossier, ...]" = ()
    photos: Mapping[PurePosixPath, Picture] | None = None  # by the path written in the inspection
    digests: Mapping[str, str] | None = None
    sources: tuple[Source, ...] = ()
    inputs: tuple[Input, ...] = ()
    warnings: tuple[Fault, ...] = ()
    lot: str | None = None

    def in_sale(self, lot: str | None) -> "Dossier":
        """The same machine under a sale's number for it; None leaves the inspection's own."""
        if lot in (None, self.inspection.lot):
            return self
        return replace(self, inspection=replace(self.inspection, lot=lot), lot=lot)
