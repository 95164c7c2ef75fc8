"""A mark in SVG: refused if it could run, move or fetch anything, else written anew, canonically."""

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from typing import Final, NoReturn
from xml.sax.saxutils import escape

from tracksworn.inspection.dossier import Picture, PictureRefused

MOST_BYTES = 1_000_000
MOST_ELEMENTS = 20_000
"""Counted as drawn: what a `use` repeats counts each time."""
DEEPEST = 60
_LONGEST_CHAIN = 200

_SVG = "{http://www.w3.org/2000/svg}"
_XLINK_HREF = "{http://www.w3.org/1999/xlink}href"
_XML_SPACE = "{http://www.w3.org/XML/1998/namespace}space"
_IN_TEXT: Final = {"\r": "&#13;"}
_IN_QUOTES: Final = {'"': "&quot;", "\t": "&#9;", "\n": "&#10;", "\r": "&#13;"}
_RUNS = frozenset({"script", "handler", "listener"})
_EMBEDS = frozenset({"foreignobject", "iframe", "object", "embed", "audio", "video", "canvas"})
_MOVES = frozenset({"animate", "animatecolor", "animatemotion", "animatetransform", "set", "discard"})
_FETCHING_CSS = re.compile(r"@import|image-set\s*\(|\bimage\s*\(|\bsrc\s*\(|expression\s*\(|javascript:", re.IGNORECASE)
_CSS_URL = re.compile(r"url\s*\(\s*[\"']?\s*([^\"')\s]*)", re.IGNORECASE)
_LENGTH = re.compile(r"\s*(\d+(?:\.\d*)?|\.\d+)\s*(px|pt|pc|mm|cm|in)?\s*")
_PIXELS_PER = {"px": 1.0, "pt": 96 / 72, "pc": 16.0, "mm": 96 / 25.4, "cm": 96 / 2.54, "in": 96.0}


def looks_like_svg(content: bytes) -> bool:
    """Whether the content begins as XML does, in any encoding that may hold it."""
    return content[:200].replace(b"\x00", b"").lstrip(b"\xef\xbb\xbf\xff\xfe \t\r\n").startswith(b"<")


def read_svg(content: bytes) -> Picture:
    """The mark with only its shapes in it, UTF-8, attributes sorted. Raises PictureRefused."""
    if len(content) > MOST_BYTES:
        _refuse("is larger than 1 MB; simplify it")
    root = _parse(content)
    if root.tag != f"{_SVG}svg":
        _refuse("does not begin with an svg element in the namespace http://www.w3.org/2000/svg; save it as SVG")
    shapes = _rebuilt(root)
    _refuse_if_it_unfolds(shapes)
    width, height = _size(shapes)
    shapes.set("xmlns", _SVG.strip("{}"))
    shapes.attrib.setdefault("viewBox", f"0 0 {width:g} {height:g}")
    return Picture(_written(shapes).encode(), "image/svg+xml", max(1, round(width)), max(1, round(height)))


def _refuse(what: str) -> NoReturn:
    msg = f"the mark in SVG {what}"
    raise PictureRefused(msg)


class _Builder(ET.TreeBuilder):
    """Builds the tree and refuses, as soon as they are met, the things that make XML dangerous to read."""

    def __init__(self) -> None:
        super().__init__()
        self._depth = 0

    def start(self, tag: str, attrs: dict[str, str], /) -> "ET.Element[str]":
        self._depth += 1
        if self._depth > DEEPEST:
            _refuse(f"has elements more than {DEEPEST} deep; flatten it")
        return super().start(tag, attrs)

    def end(self, tag: str, /) -> "ET.Element[str]":
        self._depth -= 1
        return super().end(tag)

    def doctype(self, _name: str, _public: str | None, _system: str | None) -> NoReturn:
        _refuse("has a document type; save it without one")

    def pi(self, target: str, _text: str | None = None, /) -> NoReturn:
        _refuse(f"has a processing instruction, {target[:80]}; save it without one")


def _parse(content: bytes) -> "ET.Element[str]":
    parser = ET.XMLParser(target=_Builder())  # noqa: S314 - document types, and so entities, are refused
    try:
        parser.feed(content)
        root: ET.Element[str] = parser.close()
    except (ET.ParseError, ValueError, LookupError) as error:
        if isinstance(error, PictureRefused):
            raise
        _refuse("is no well-formed XML; save it again from the program that drew it")
    return root


def _rebuilt(element: "ET.Element[str]") -> "ET.Element[str]":
    """A copy without foreign namespaces; raises PictureRefused for whatever could run, move or fetch."""
    copy = ET.Element(_local(element.tag), _attributes(element))
    copy.text, copy.tail = element.text, element.tail
    if copy.tag == "style":
        _check_css("".join(element.itertext()))
    for child in element:
        _check_name(_local(child.tag))
        if child.tag.startswith(_SVG):
            copy.append(_rebuilt(child))
        else:
            for inner in child.iter():
                _check_name(_local(inner.tag))
    return copy


def _local(tag: str) -> str:
    return tag.rpartition("}")[2]


def _check_name(name: str) -> None:
    lower = name.lower()
    if lower in _RUNS:
        _refuse(f"holds a script ({name}); save it without")
    if lower in _EMBEDS:
        _refuse(f"holds foreign content ({name}); save it as plain shapes")
    if lower in _MOVES:
        _refuse(f"holds an animation ({name}); save it without")


def _attributes(element: "ET.Element[str]") -> dict[str, str]:
    kept: dict[str, str] = {}
    for name, value in element.attrib.items():
        local = _local(name)
        if local.lower().startswith("on"):
            _refuse(f"holds a handler ({local}); save it without")
        if local.lower() in ("href", "src"):
            _check_reference(value)
        if name == _XLINK_HREF:
            kept.setdefault("href", value)
        elif name == _XML_SPACE or not name.startswith("{"):
            _check_css(value)  # drawing attributes are read as CSS too
            kept["xml:space" if name == _XML_SPACE else name] = value
    return kept


def _check_reference(target: str) -> None:
    if not target.strip().startswith("#"):
        _refuse(f"refers to {target.strip()[:80]!r}; only references within the mark, #…, are followed")


def _check_css(text: str) -> None:
    for target in _CSS_URL.findall(text):
        _check_reference(target)
    if "\\" in text:
        _refuse("has a backslash in its style; write the style without escapes")
    if fetching := _FETCHING_CSS.search(text):
        _refuse(f"has {fetching.group().strip(' (')} in its style; save it with its shapes' own attributes")


def _written(element: "ET.Element[str]") -> str:
    """Attributes sorted, one way to escape. ElementTree's own writers depend on prefixes registered elsewhere."""
    attributes = "".join(f' {name}="{escape(value, _IN_QUOTES)}"' for name, value in sorted(element.attrib.items()))
    inner = escape(element.text or "", _IN_TEXT) + "".join(map(_written, element))
    end = f">{inner}</{element.tag}>" if inner else "/>"
    return f"<{element.tag}{attributes}{end}{escape(element.tail or '', _IN_TEXT)}"


def _refuse_if_it_unfolds(root: "ET.Element[str]") -> None:
    """References that lead in a circle, or repeat each other until few lines draw millions of shapes."""
    by_id = {element.attrib["id"]: element for element in root.iter() if "id" in element.attrib}
    sizes: dict[int, int] = {}
    open_now: set[int] = set()

    def size(element: "ET.Element[str]") -> int:
        key = id(element)
        if key in open_now:
            _refuse("has references that lead in a circle; save it as plain shapes")
        if len(open_now) > _LONGEST_CHAIN:
            _refuse(f"has references more than {_LONGEST_CHAIN} deep; save it as plain shapes")
        if key not in sizes:
            open_now.add(key)
            inner = [*element, *(by_id[name] for name in _referred(element) if name in by_id)]
            sizes[key] = 1 + sum(map(size, inner))
            open_now.discard(key)
        return sizes[key]

    if size(root) > MOST_ELEMENTS:
        _refuse(f"draws more than {MOST_ELEMENTS} elements; simplify it")


def _referred(element: "ET.Element[str]") -> Iterator[str]:
    for name, value in element.attrib.items():
        if name == "href":
            yield value.strip().removeprefix("#")
        for target in _CSS_URL.findall(value):
            yield target.removeprefix("#")


def _size(root: "ET.Element[str]") -> tuple[float, float]:
    """Width and height in pixels, from the attributes or else the view box."""
    width, height = (_length(root.get(name, "")) for name in ("width", "height"))
    if width and height:
        return width, height
    box = re.split(r"[\s,]+", root.get("viewBox", "").strip())
    sides = [_length(side) for side in box[2:]] if len(box) == 4 else []
    if len(sides) != 2 or not all(sides):
        _refuse("has no size; give its svg element a viewBox, or width and height")
    return sides[0], sides[1]


def _length(text: str) -> float:
    match = _LENGTH.fullmatch(text)
    return float(match[1]) * _PIXELS_PER[match[2] or "px"] if match else 0.0
