"""Cautions in HTML: nothing that could hide them may reach them, and nothing in the page may run or be fetched.

What may style a caution, or what it stands in, is a short list: rather a harmless rule refused than one that hides.
"""

import re
from base64 import b64encode
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final
from xml.etree.ElementTree import Element

import cssselect2
import tinycss2

from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.gate.brought import Styles, no_style_but
from tracksworn.documents.render.gate.declared import Declaration, Doubt, doubt, of_rules, of_style
from tracksworn.documents.render.gate.wanted import Piece, squeezed, turns_no_letters
from tracksworn.documents.render.tree import read_html
from tracksworn.documents.typefaces import FACES, Face, web_font

TAGS: Final = frozenset(
    [
        "html",
        "body",
        "main",
        "header",
        "section",
        "article",
        "div",
        "aside",
        "footer",
        "h1",
        "h2",
        "h3",
        "h4",
        "h5",
        "h6",
        "p",
        "ul",
        "ol",
        "li",
        "dl",
        "dt",
        "dd",
        "b",
        "strong",
        "em",
        "i",
        "span",
        "a",
        "table",
        "tbody",
        "tr",
        "thead",
        "td",
        "th",
        "figure",
        "figcaption",
        "small",
        "br",
    ]
)
ATTRIBUTES: Final = frozenset(
    [
        "class",
        "id",
        "lang",
        "style",
        "aria-label",
        "aria-labelledby",
        "role",
        "href",
        "colspan",
        "rowspan",
        "scope",
        "tabindex",
    ]
)
RUNNING: Final = frozenset(
    [
        "script",
        "iframe",
        "object",
        "embed",
        "applet",
        "frame",
        "frameset",
        "base",
        "link",
        "form",
        "input",
        "button",
        "dialog",
        "template",
        "marquee",
        "math",
        "noscript",
        "plaintext",
        "xmp",
        "slot",
        "portal",
        "fencedframe",
        "audio",
        "video",
        "canvas",
        "select",
        "textarea",
        "animate",
        "set",
        "animatetransform",
        "animatemotion",
        "foreignobject",
        "bdo",
        "noembed",
        "noframes",
    ]
)
"""What runs, fetches, moves, or is shown over what stands beside it or not at all."""
_DATA: Final = re.compile(r"data:(?:image/(?:png|jpeg|svg\+xml)|font/woff2);base64,[A-Za-z0-9+/=]*\Z")
_LONG_DATA: Final = re.compile(r"(data:image/(?:png|jpeg|svg\+xml);base64,)[A-Za-z0-9+/=]+")
_PATH: Final = re.compile(r' d="[MLHVCSQTAZmlhvcsqtaz0-9., -]*"')
_PASSING: Final = re.compile(
    r":(?:hover|active|focus(?:-within|-visible)?|target(?:-within)?|visited|link|any-link|checked|enabled|disabled)\b"
)
"""What an element is only for a while, or to some readers: such a rule counts as if it always held."""
_LINK: Final = re.compile(r"(?:https?://|mailto:|#)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Word:
    """A stretch of text and the elements it stands in, from the outermost."""

    text: str
    within: tuple[Element, ...]


def check_html(page: str, pieces: Iterable[Piece], faces: Sequence[Face] = (), styles: Styles | None = None) -> None:
    """Raises Refused unless every piece can be read, and nothing runs or is fetched; `faces` are the letterhead's.

    `styles`, given for a firm's own template, is all the style that its page may have, but for fonts.
    """
    root = read_html(without_data(page, faces))
    _nothing_runs(root)
    if styles is not None:
        no_style_but(root, styles)
    sheet = "".join("".join(style.itertext()) for style in root.iter("style"))
    matcher = _matcher(sheet)
    styled = _declarations(root, matcher)
    words = list(_words(root, ()))
    turns_no_letters("".join(word.text for word in words))
    stream, owners = _stream(words)
    for piece in pieces:
        text = squeezed(piece.text)
        refusals: list[Refused] = []
        for start in _occurrences(text, stream):
            stretches = [words[word].within for word in dict.fromkeys(owners[start : start + len(text)])]
            why = next(filter(None, (_why_unseen(within, styled, piece.least) for within in stretches)), None)
            if why is None:
                break
            place = styles.place(why.line, sheet) if styles and why.line else ""
            refusals.append(piece.missing(f"{why.why} ({place})" if place else why.why))
        else:
            raise refusals[0] if refusals else piece.missing("is not in the text of the page in full")


def without_data(page: str, faces: Sequence[Face] = ()) -> str:
    """The page without what its fonts, pictures and paths hold, which is most of it; its own fonts are marked."""
    for face in (*FACES, *faces):
        page = page.replace(f"base64,{b64encode(web_font(face)).decode('ascii')}", "base64,known-font")
    return _PATH.sub(' d=""', _LONG_DATA.sub(r"\1", page))


def _nothing_runs(root: Element) -> None:
    for element in root.iter():
        tag = str(element.tag).rpartition("}")[2].lower()
        if tag in RUNNING and not _is_data(element):
            raise Refused(f"the document is not handed over: a template puts <{tag}> into its page")
        for name, value in element.attrib.items():
            local = name.rpartition("}")[2].lower()
            if local.startswith("on") or not _harmless(tag, local, value):
                raise Refused(f"the document is not handed over: <{tag}> has {local}={value[:60]!r}")


def _is_data(element: Element) -> bool:
    """Whether it is a block of data by its type, which no browser runs."""
    return element.tag == "script" and element.attrib == {"type": "application/ld+json"}


def _harmless(tag: str, name: str, value: str) -> bool:
    if name in ("src", "srcset", "data", "poster", "background", "action", "formaction", "ping"):
        return bool(_DATA.match(value))
    if name == "href":
        return bool(_LINK.match(value)) if tag == "a" else value.startswith("#")
    if tag == "meta":
        return _harmless_meta(name, value)
    return name not in ("popover", "overflow", "shadowrootmode")


def _harmless_meta(name: str, value: str) -> bool:
    """Nothing that sends elsewhere, shrinks the page or turns its colours round."""
    if name == "http-equiv":
        return value.lower() == "content-security-policy"
    if name == "name":
        return value.lower() not in ("color-scheme", "referrer")
    return not re.search(r"initial-scale=(?!1\b)|width=(?!device-width)|maximum-scale|minimum-scale", value)


def _matcher(sheet: str) -> Any:
    matcher = cssselect2.Matcher()
    for prelude, declarations in of_rules(sheet):
        said = tinycss2.serialize(prelude)
        try:
            for one in dict.fromkeys((said, _PASSING.sub(":not(no-such)", said))):
                for selector in cssselect2.compile_selector_list(one):
                    matcher.add_selector(selector, declarations)
        except cssselect2.SelectorError as error:
            raise Refused(f"the document is not handed over: a style sheet selects by {said.strip()!r}") from error
    return matcher


def _declarations(root: Element, matcher: Any) -> Mapping[Element, tuple[Declaration, ...]]:
    """What any rule, in any medium and of whatever weight, says of each element."""
    found = {}
    for wrapped in cssselect2.ElementWrapper.from_html_root(root).iter_subtree():
        element = wrapped.etree_element
        said = [one for *_, declarations in matcher.match(wrapped) for one in declarations]
        found[element] = (*said, *of_style(element.get("style", "")))
    return found


def _words(element: Element, outer: tuple[Element, ...]) -> Iterator[_Word]:
    within = (*outer, element)
    if element.text and element.tag not in ("style", "title", "head", "script"):
        yield _Word(element.text, within)
    for child in element:
        yield from _words(child, within)
        if child.tail:
            yield _Word(child.tail, within)


def _stream(words: list[_Word]) -> tuple[str, list[int]]:
    """All words run together, and for each character which stretch it comes from."""
    characters, owners = [], []
    for index, word in enumerate(words):
        kept = squeezed(word.text)
        characters.append(kept)
        owners += [index] * len(kept)
    return "".join(characters), owners


def _occurrences(text: str, stream: str) -> Iterator[int]:
    """Where a text begins, each time that it stands there."""
    start = stream.find(text)
    while start >= 0:
        yield start
        start = stream.find(text, start + 1)


def _why_unseen(
    within: tuple[Element, ...], styled: Mapping[Element, tuple[Declaration, ...]], least: float
) -> Doubt | None:
    """Why a stretch of text might not be read; None where it surely can."""
    for element in within:
        if element.tag not in TAGS:
            return Doubt(f"stands in <{element.tag}>, which may not be shown")
        if odd := {name for name in element.attrib if name not in ATTRIBUTES and not name.startswith("data-")}:
            return Doubt(f"stands in <{element.tag}> with {', '.join(sorted(odd))}")
    found = doubt([styled[element] for element in within], least)
    return found and replace(found, why=f"may be hidden: {found.why}")
