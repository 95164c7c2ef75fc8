"""Fonts within a page for a browser: the program's own always, those for further scripts where the page has any."""

from base64 import b64encode
from collections.abc import Iterator, Sequence

from tracksworn.documents.drawing.svg import OTHER_SCRIPTS
from tracksworn.documents.typefaces import FURTHER, OWN, WEIGHTS, Face, characters, nearest, ranges, web_font


def _face(face: Face, family: str, weight: int, more: str = "") -> str:
    data = b64encode(web_font(face)).decode("ascii")
    return (
        f'@font-face{{font-family:"{family}";font-weight:{weight};'
        f"font-style:{'italic' if face.italic else 'normal'};"
        f'src:url(data:font/woff2;base64,{data}) format("woff2"){more}}}\n'
    )


def own() -> str:
    """The faces that style sheets ask for by name."""
    return "".join(_face(face, face.family, face.weight) for face in OWN)


def further(page: str, more: Sequence[Face] = ()) -> str:
    """Faces for what the page says in other scripts, all of one family, which is divided by characters.

    A family with one weight stands for all weights.
    """
    said = frozenset(map(ord, set(page)))
    return "".join(_divided(faces) for faces in _families((*FURTHER, *more)) if _needed(faces, said))


def _families(faces: Sequence[Face]) -> Iterator[tuple[Face, ...]]:
    for family in dict.fromkeys(face.family for face in faces):
        yield tuple(face for face in faces if face.family == family)


def _needed(faces: Sequence[Face], said: frozenset[int]) -> bool:
    latin = characters(OWN[0])
    return any(code not in latin for code in characters(faces[0]) & said)


def _divided(faces: Sequence[Face]) -> str:
    held = ",".join(f"U+{first:04X}-{last:04X}" for first, last in ranges(characters(faces[0]) - {ord(" ")}))
    for_weights = [(nearest(faces, weight), weight) for weight in WEIGHTS]
    return "".join(_face(face, OTHER_SCRIPTS, weight, f";unicode-range:{held}") for face, weight in for_weights)
