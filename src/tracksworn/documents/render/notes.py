"""Users' Markdown made safe: raw HTML is printed as text, links lead to http, https and mailto, no image is loaded."""

import re
from collections.abc import Iterable, Iterator
from functools import cache
from threading import get_ident
from typing import Final
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

import markdown
import nh3
from markdown.treeprocessors import Treeprocessor
from markupsafe import Markup

from tracksworn.documents.direction import begins_leftward, reads_leftward

SCHEMES: Final = {"http", "https", "mailto"}
_BLOCKS: Final = ("p", "ul", "ol", "li", "blockquote", "pre", "table", "thead", "tbody", "tr", "th", "td", "hr")
_INLINE: Final = ("strong", "em", "code", "a", "br")
_LINK: Final = re.compile(r"(?:https?://|mailto:)[^\s\x00-\x20]+", re.IGNORECASE)


def to_html(text: str) -> Markup:
    """The notes as well-formed HTML without headings of its own: a heading is a bold paragraph."""
    tree = _tree(text)
    if reads_leftward(text):
        _set_direction(tree, leftward=False)
    xml = "".join(ElementTree.tostring(child, encoding="unicode") for child in tree)
    return Markup(re.sub(r"<(?!br |hr )([a-z]+) />", r"<\1></\1>", xml))  # noqa: S704 - cleaned by an allow-list


def _set_direction(parent: Element, *, leftward: bool) -> None:
    """Say of every block which way it reads, by its first letter, where that is not the way of what it stands in."""
    for block in parent:
        if block.tag in _BLOCKS:
            own = begins_leftward("".join(block.itertext()), otherwise=leftward)
            if own is not leftward:
                block.set("dir", "rtl" if own else "ltr")
            _set_direction(block, leftward=own)


def to_markdown(text: str) -> str:
    """The same notes written anew as CommonMark that no reader of Markdown can take for HTML."""
    return "\n\n".join(_blocks(_tree(text))).strip()


def escaped(text: str) -> str:
    """Plain text as one line of Markdown in which nothing is mark-up, wherever in a line it stands but at its start."""
    line = re.sub(r"&(?=#?\w+;)", "&amp;", " ".join(text.split("\n")))
    line = re.sub(r"[\\`*_\[\]|~{]", r"\\\g<0>", line.replace("<", "&lt;").replace(">", "&gt;"))
    return re.sub(r"(?<=([$%]))\1", lambda found: f"&#{ord(found[0])};", line)


def _at_start(line: str) -> str:
    """A line that would otherwise begin a list, a heading or a rule."""
    return re.sub(r"^(\s*)([-+=#]|:(?=::)|\d+(?=[.)]))", lambda found: f"{found[1]}{_guarded(found[2])}", line)


def _guarded(start: str) -> str:
    if start == ":":
        return "&#58;"
    return f"\\{start}" if not start.isdigit() else f"{start}\\"


class _AltAlone(Treeprocessor):
    """Leaves the words that stand for an image in its place, and makes headings bold paragraphs."""

    def run(self, root: Element) -> None:
        for element in root.iter():
            if element.tag == "img":
                element.tag, element.text = "span", element.get("alt", "")
                element.attrib.clear()
            elif re.fullmatch(r"h[1-6]", element.tag):
                inner = Element("strong")
                inner.text, inner[:] = element.text, list(element)
                element.tag, element.text, element[:] = "p", None, [inner]


@cache
def _reader(_thread: int) -> markdown.Markdown:
    """One a thread: building it takes longer than a note, and it holds state while it reads."""
    reader = markdown.Markdown(extensions=["tables", "sane_lists"], output_format="xhtml")
    reader.preprocessors.deregister("html_block")
    reader.inlinePatterns.deregister("html")
    reader.treeprocessors.register(_AltAlone(reader), "alt alone", 0)
    return reader


def _tree(text: str) -> Element:
    """Read, cleaned twice over, as a tree: first by leaving out what could be HTML, then by an allow-list."""
    html = _reader(get_ident()).reset().convert(text)
    clean = nh3.clean(
        html,
        tags={*_BLOCKS, *_INLINE},
        attributes={"a": {"href"}},
        attribute_filter=lambda tag, name, value: value if _LINK.fullmatch(value) else None,  # noqa: ARG005
        url_schemes=SCHEMES,
        url_relative="deny",
        link_rel=None,
    )
    for tag in ("br", "hr"):
        clean = clean.replace(f"<{tag}>", f"<{tag}/>")
    return _without_dead_links(ElementTree.fromstring(f"<div>{clean.replace('&nbsp;', '&#160;')}</div>"))  # noqa: S314


def _without_dead_links(root: Element) -> Element:
    for element in root.iter("a"):
        if "href" not in element.attrib:
            element.tag = "span"
    return root


def _blocks(parent: Element) -> Iterator[str]:
    for block in parent:
        if block.tag in ("ul", "ol"):
            yield _list(block)
        elif block.tag == "blockquote":
            yield _prefixed("> ", "> ", "\n\n".join(_blocks(block)))
        elif block.tag == "pre":
            yield _prefixed("    ", "    ", "".join(block.itertext()).rstrip("\n"))
        elif block.tag == "table":
            yield _table(block)
        elif block.tag == "hr":
            yield "* * *"
        else:
            yield "\n".join(map(_at_start, _inline(block).strip().split("\n")))


def _list(block: Element) -> str:
    items = []
    for index, item in enumerate(block, 1):
        bullet = f"{index}. " if block.tag == "ol" else "- "
        items.append(_prefixed(bullet, " " * len(bullet), _item(item)))
    return "\n".join(items)


def _item(item: Element) -> str:
    inner = [child for child in item if child.tag in _BLOCKS]
    if not inner:
        return _at_start(_inline(item).strip())
    first = Element("p")
    first.text = item.text
    first.extend(child for child in item if child.tag not in _BLOCKS)
    return "\n\n".join(filter(None, [_at_start(_inline(first).strip()), *_blocks(_of(inner))]))


def _of(children: Iterable[Element]) -> Element:
    parent = Element("div")
    parent.extend(children)
    return parent


def _prefixed(first: str, rest: str, text: str) -> str:
    lines = text.split("\n")
    return "\n".join([first + lines[0], *((rest + line).rstrip() for line in lines[1:])])


def _table(table: Element) -> str:
    head, *rows = [[_inline(cell).strip() for cell in row] for row in table.iter("tr")]
    lines = [head, ["---"] * len(head), *rows]
    return "\n".join(f"| {' | '.join(row)} |" for row in lines)


def _inline(element: Element) -> str:
    parts = [escaped(element.text or "")]
    for child in element:
        tail = child.tail or ""
        parts += [_span(child), escaped(tail.lstrip() if child.tag == "br" else tail)]
    return "".join(parts)


def _span(element: Element) -> str:
    inner = _inline(element)
    if element.tag in ("strong", "em") and inner.strip():
        mark = "**" if element.tag == "strong" else "*"
        return f"{mark}{inner.strip()}{mark}"
    if element.tag == "code":
        return _code("".join(element.itertext()))
    if element.tag == "a":
        return f"[{inner}](<{element.get('href')}>)"
    return "  \n" if element.tag == "br" else inner


def _code(text: str) -> str:
    """A code span, fenced by more backticks than it holds."""
    longest = max((len(run) for run in re.findall("`+", text)), default=0)
    fence = "`" * (longest + 1)
    room = " " if longest else ""
    return f"{fence}{room}{' '.join(text.split())}{room}{fence}"
