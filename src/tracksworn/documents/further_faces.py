"""Faces from a letterhead's fonts: of each no more than the characters that a document needs and the program lacks."""

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from io import BytesIO
from typing import Final

import uharfbuzz as harfbuzz

from tracksworn.documents.outlines import has_postscript_outlines, into_truetype
from tracksworn.documents.typefaces import WEIGHTS, Face
from tracksworn.inspection.dossier import Font

EM: Final = 1000


def further_faces(fonts: Sequence[Font], characters: Iterable[str]) -> tuple[Face, ...]:
    """Faces for the characters, each from the first font that holds it."""
    wanted = {ord(character) for character in characters}
    faces: list[Face] = []
    for number, font in enumerate(fonts, 1):
        held = wanted & font.characters
        wanted -= held
        if held:
            faces += _faces(number, font.content, tuple(sorted(held)))
    return tuple(faces)


@lru_cache(maxsize=16)
def _faces(number: int, content: bytes, codes: tuple[int, ...]) -> tuple[Face, ...]:
    face = harfbuzz.Face(harfbuzz.Blob(content))
    weight = next((axis for axis in face.axis_infos if axis.tag == "wght"), None)
    weights = (
        [None]
        if weight is None
        else dict.fromkeys(max(weight.min_value, min(weight.max_value, float(one))) for one in WEIGHTS)
    )
    return tuple(_named(_subset(face, codes, one), number) for one in weights)


def _subset(face: harfbuzz.Face, codes: Sequence[int], weight: float | None) -> bytes:
    wanted = harfbuzz.SubsetInput()
    wanted.flags = harfbuzz.SubsetFlags.NO_HINTING
    wanted.sets(harfbuzz.SubsetInputSets.UNICODE).update({ord(" "), *codes})
    if face.axis_infos:
        wanted.pin_all_axes_to_default(face)
    if weight is not None:
        wanted.pin_axis_location(face, "wght", weight)
    return bytes(harfbuzz.subset(face, wanted).blob.data)


def _named(program: bytes, number: int) -> Face:
    """The face under a name of ours, which no other has, as TrueType with 1000 units an em as all are."""
    from fontTools.ttLib import TTFont  # noqa: PLC0415
    from fontTools.ttLib.scaleUpem import scale_upem  # noqa: PLC0415

    family = f"Letterhead {number}"
    with TTFont(BytesIO(program), recalcTimestamp=False) as font:
        if has_postscript_outlines(font):
            into_truetype(font)
        if font["head"].unitsPerEm != EM:
            scale_upem(font, EM)
        weight = font["OS/2"].usWeightClass if "OS/2" in font else 400
        font["name"].names = []
        for identity, text in _names(family, weight):
            font["name"].setName(text, identity, 3, 1, 0x409)
        out = BytesIO()
        font.save(out, reorderTables=True)
    return Face(family, weight, f"Letterhead-{number}-{weight}.ttf", content=out.getvalue())


def _names(family: str, weight: int) -> Iterator[tuple[int, str]]:
    yield from ((1, family), (2, "Regular"), (4, f"{family} {weight}"), (6, f"{family.replace(' ', '')}-{weight}"))
