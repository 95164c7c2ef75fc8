"""Cautions in Markdown: they must be words of the text, not hidden in raw HTML, comments, definitions or pictures."""

import html
import re
from collections.abc import Iterable
from typing import Final

import markdown

from tracksworn.documents.render.files import Refused
from tracksworn.documents.render.gate.wanted import Piece, squeezed, turns_no_letters
from tracksworn.documents.render.tree import texts

_RAW_HTML: Final = re.compile(r"<(?:[A-Za-z/!?])")
_HIDING: Final = {
    re.compile(r"(?<!\\)~~"): "words struck through",
    re.compile(r"(?<!\\)(?:\\\\)*\\[A-Za-z]+"): "a command of a formula",
    re.compile(r"(?<![\\$])\$\$"): "a formula",
    re.compile(r"\A\s*(?:---|\+\+\+)"): "data before its text",
    re.compile(r"^\s*(?:```|~~~)", re.MULTILINE): "a fenced block",
    re.compile(r"^\s*:::", re.MULTILINE): "a block with a class",
    re.compile(r"(?:\*|\]|`)\{[.#:]"): "attributes",
    re.compile(r"%%"): "a remark",
    re.compile(r"(?<!\\)\{[%{]"): "a template",
}
"""What plain CommonMark shows as text, and readers with more to them do not."""
_AUTOLINK: Final = re.compile(r"<(?:https?://|mailto:)[^\s<>]*>", re.IGNORECASE)


def check_markdown(page: str, pieces: Iterable[Piece]) -> None:
    """Raises Refused unless every piece is among the words of the page, and the page holds no raw HTML."""
    raw = _RAW_HTML.search(_AUTOLINK.sub("", _without_code(page)))
    if raw:
        there = page[max(raw.start() - 20, 0) : raw.start() + 40]
        raise Refused(f"the document is not handed over: its Markdown holds raw HTML, near {there!r}")
    for pattern, what in _HIDING.items():
        if found := pattern.search(_without_code(page)):
            raise Refused(f"the document is not handed over: its Markdown holds {what}, near {found[0][:40]!r}")
    turns_no_letters(page + html.unescape(page))
    words = squeezed("".join(texts(markdown.markdown(page, extensions=["tables"]))))
    for piece in pieces:
        if squeezed(piece.text) not in words:
            raise piece.missing("is not in the text in full")


def _without_code(page: str) -> str:
    """The page without code spans and indented blocks, in which HTML is text."""
    lines = ["" if line.startswith("    ") else line for line in page.split("\n")]
    return re.sub(r"(`+)(?!`).+?(?<!`)\1(?!`)", "", "\n".join(lines))
