"""The program's own typefaces: found through a private fontconfig file, so that no system font decides the bytes."""

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Final, Literal

from tracksworn.documents import resources

if TYPE_CHECKING:
    from weasyprint.text.fonts import FontConfiguration

Family = Literal["Barlow", "Barlow Semi Condensed"]


@dataclass(frozen=True, slots=True)
class Face:
    """One typeface: how CSS names it and the file that holds it."""

    family: Family
    weight: int
    file: str
    italic: bool = False

    @property
    def path(self) -> Path:
        """The TrueType file."""
        return resources.fonts() / self.file


FACES: Final = (
    Face("Barlow", 400, "Barlow-400.ttf"),
    Face("Barlow", 400, "Barlow-400-italic.ttf", italic=True),
    Face("Barlow", 500, "Barlow-500.ttf"),
    Face("Barlow", 600, "Barlow-600.ttf"),
    Face("Barlow Semi Condensed", 400, "BarlowSemiCondensed-400.ttf"),
    Face("Barlow Semi Condensed", 500, "BarlowSemiCondensed-500.ttf"),
    Face("Barlow Semi Condensed", 600, "BarlowSemiCondensed-600.ttf"),
    Face("Barlow Semi Condensed", 700, "BarlowSemiCondensed-700.ttf"),
)
"""Every face that pages and drawings are set in."""


@cache
def configuration() -> "FontConfiguration":
    """One font configuration for a whole process; building one takes longer than a page."""
    with _only_our_fonts():  # also while importing, which complains where the system has no fonts
        from weasyprint.text.fonts import FontConfiguration  # noqa: PLC0415 - half a second that only PDF needs

        return FontConfiguration()


@contextmanager
def _only_our_fonts() -> Iterator[None]:
    """Fontconfig reads the file that the environment names at the moment a configuration is made."""
    before = os.environ.get("FONTCONFIG_FILE")
    with tempfile.TemporaryDirectory(prefix="tracksworn-fonts-") as folder:
        file = Path(folder, "fonts.conf")
        file.write_text(
            f'<?xml version="1.0"?><fontconfig><dir>{escape(str(resources.fonts()))}</dir>'
            f"<cachedir>{escape(folder)}</cachedir><config><rescan><int>0</int></rescan></config></fontconfig>",
            encoding="utf-8",
        )
        os.environ["FONTCONFIG_FILE"] = str(file)
        try:
            yield
        finally:
            if before is None:
                del os.environ["FONTCONFIG_FILE"]
            else:
                os.environ["FONTCONFIG_FILE"] = before


@cache
def characters(face: Face) -> frozenset[int]:
    """The code points that a face has a glyph for."""
    from fontTools.ttLib import TTFont  # noqa: PLC0415

    with TTFont(face.path) as font:
        return frozenset(font.getBestCmap())


@cache
def web_font(face: Face) -> bytes:
    """The face as WOFF2, for embedding in a page that is read in a browser."""
    return face.path.with_suffix(".woff2").read_bytes()
