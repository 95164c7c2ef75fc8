"""A document's typefaces for the page engine, by a private fontconfig file: no system font decides the bytes."""

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Final

from tracksworn.documents import resources
from tracksworn.documents.render.libraries import by_their_own_names
from tracksworn.documents.scratch import scratch
from tracksworn.documents.typefaces import FURTHER, OWN, Face

if TYPE_CHECKING:
    from weasyprint.text.fonts import FontConfiguration

SETTINGS: Final = "fonts.conf"
ROOM: Final = 1 << 18
"""Bytes; what fontconfig notes of the fonts takes 48 kB, and where it cannot, it complains by itself."""


@cache
def configuration() -> "FontConfiguration":
    """The program's own faces, one configuration for a whole process; building one takes longer than a page."""
    with scratch(ROOM) as folder:
        return _built(folder, ())


@contextmanager
def configured(more: Sequence[Face] = ()) -> Iterator["FontConfiguration"]:
    """The program's faces and further ones, whose files are there as long as the configuration is used."""
    if not more:
        yield configuration()
        return
    with scratch(ROOM) as folder:
        for index, face in enumerate(more):
            (folder / f"{index}.ttf").write_bytes(face.program)
        yield _built(folder, more)


def _built(folder: Path, more: Sequence[Face]) -> "FontConfiguration":
    """Fontconfig reads the file that the environment names at the moment a configuration is made."""
    file = folder / SETTINGS
    file.write_text(settings(folder, more), encoding="utf-8")
    before = os.environ.get("FONTCONFIG_FILE")
    os.environ["FONTCONFIG_FILE"] = str(file)
    try:  # also while importing, which complains where the system has no fonts
        with by_their_own_names():
            from weasyprint.text.fonts import FontConfiguration  # noqa: PLC0415 - half a second that only PDF needs

        return FontConfiguration()
    finally:
        if before is None:
            del os.environ["FONTCONFIG_FILE"]
        else:
            os.environ["FONTCONFIG_FILE"] = before


def settings(folder: Path, more: Sequence[Face] = ()) -> str:
    """The fontconfig file: which folders hold fonts, and in which order families stand in for one another."""
    folders = (resources.fonts(), *((folder,) if more else ()))
    instead = "".join(f"<family>{escape(name)}</family>" for name in _families((*FURTHER, *more)))
    return (
        '<?xml version="1.0"?><fontconfig>'
        + "".join(f"<dir>{escape(str(each))}</dir>" for each in folders)
        + "".join(f"<alias><family>{name}</family><accept>{instead}</accept></alias>" for name in _families(OWN))
        + f"<cachedir>{escape(str(folder))}</cachedir><config><rescan><int>0</int></rescan></config></fontconfig>"
    )


def _families(faces: Sequence[Face]) -> Sequence[str]:
    return tuple(dict.fromkeys(face.family for face in faces))
