"""What is wrong with Markdown in a CommonMark parser: something raw, a table not whole, a picture not beside it."""

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

from markdown_it import MarkdownIt
from markdown_it.token import Token


def parsed(text: str) -> list[Token]:
    """CommonMark, with the tables that GitHub and most others add to it."""
    return MarkdownIt("commonmark").enable("table").parse(text)


def inside(tokens: list[Token]) -> Iterator[Token]:
    for token in tokens:
        yield token
        yield from token.children or ()


def rows(tokens: list[Token]) -> Iterator[list[int]]:
    """For every table, how many cells each of its rows has."""
    cells: list[int] = []
    for token in tokens:
        if token.type == "table_open":
            cells = []
        elif token.type == "tr_open":
            cells.append(0)
        elif token.type in ("th_open", "td_open"):
            cells[-1] += 1
        elif token.type == "table_close":
            yield cells


def faults(file: Path) -> list[str]:
    """Everything that keeps it from being read as it is meant."""
    text = file.read_text(encoding="utf-8")
    tokens = parsed(text)
    every = list(inside(tokens))
    tables = list(rows(tokens))
    meant = sum(line.startswith("| ---") for line in text.splitlines())
    levels = [int(token.tag[1:]) for token in tokens if token.type == "heading_open"]
    pictures = [token for token in every if token.type == "image"]
    found = [f"raw HTML: {token.content}" for token in every if token.type.startswith("html_")]
    found += [f"{meant} tables are meant, {len(tables)} are read"] if len(tables) != meant or not meant else []
    found += [f"a table without rows, or with rows of {sorted(set(cells))} cells" for cells in tables if len(cells) < 2]
    found += [
        f"a picture that is not there: {picture.attrs['src']}" for picture in pictures if not _there(file, picture)
    ]
    found += [f"a picture without words: {picture.attrs['src']}" for picture in pictures if not picture.content.strip()]
    found += [f"mark-up came through: {one.content}" for one in every if one.type == "text" and "**" in one.content]
    found += [f"level {after} follows {before}" for before, after in pairwise(levels) if after > before + 1]
    return found + ([] if levels.count(1) == 1 and pictures else ["it has not one title, or no pictures"])


def _there(file: Path, picture: Token) -> bool:
    return (file.parent / str(picture.attrs["src"])).is_file()
