"""What the YAML parser complains of, said so that an inspector can mend it, and told where the cause stands."""

import re
import sys
from collections.abc import Callable

import yaml

from tracksworn.inspection.written import TOP, Mark, quoted

_UNREADABLE = "this line does not read"
_ESCAPE = re.compile(r"\\U([0-9A-Fa-f]{8})")


def plain_words(error: yaml.YAMLError, text: str) -> tuple[Mark, str]:
    """Where the cause stands and what to do about it."""
    if not isinstance(error, yaml.MarkedYAMLError):
        return TOP, f"the file does not read as YAML: {quoted(str(error))}"
    complaint = f"{error.context or ''}; {error.problem or ''}"
    at = error.problem_mark or error.context_mark
    began = error.context_mark or at
    if at is None or began is None:
        return TOP, f"the file does not read as YAML: {quoted(complaint)}"
    open_quote = _runaway_quote(text, at)
    if open_quote is not None:
        return open_quote, "the quote that opens here is not closed on its line"
    for sign, where, words in _COMPLAINTS:
        if sign in complaint:
            return _mark(where(began, at)), words
    return _mark(at), f"{_UNREADABLE}: {quoted(error.problem or complaint)}"


def no_character(text: str) -> tuple[Mark, str]:
    """Where an escape such as `\\UFFFFFFFF` stands, on which the parser itself stumbles."""
    found = next((escape for escape in _ESCAPE.finditer(text) if int(escape[1], 16) > sys.maxunicode), None)
    offset = found.start() if found else 0
    return Mark(text.count("\n", 0, offset) + 1, offset - text.rfind("\n", 0, offset)), "this escape is no character"


def _mark(mark: yaml.Mark) -> Mark:
    return Mark(mark.line + 1, mark.column + 1)


def _runaway_quote(text: str, problem: yaml.Mark) -> Mark | None:
    """Where a quote opened that ran on to a quote in a later line, right before the problem."""
    found = None
    try:
        for token in yaml.scan(text, Loader=yaml.SafeLoader):
            if token.start_mark.index >= problem.index:
                break
            if isinstance(token, yaml.ScalarToken) and token.style in ("'", '"'):
                runs_on = token.end_mark.line > token.start_mark.line
                found = token.start_mark if runs_on and token.end_mark.line == problem.line else None
    except (yaml.YAMLError, ValueError, OverflowError):
        pass
    return None if found is None else _mark(found)


def _began(began: yaml.Mark, _: yaml.Mark) -> yaml.Mark:
    return began


def _at(_: yaml.Mark, at: yaml.Mark) -> yaml.Mark:
    return at


_Where = Callable[[yaml.Mark, yaml.Mark], yaml.Mark]

_COMPLAINTS: tuple[tuple[str, _Where, str], ...] = (
    ("scanning a quoted scalar", _began, "the quote that opens here is not closed"),
    (
        "unknown escape character",
        _at,
        "a backslash in double quotes begins an escape; write `\\\\`, or use single quotes",
    ),
    ("expected escape sequence", _at, "an escape in double quotes is not complete; write `\\\\`, or use single quotes"),
    (
        "parsing a flow mapping",
        _began,
        "the brace `{` that opens here is not closed, or a comma, colon or quote is missing in it",
    ),
    (
        "parsing a flow sequence",
        _began,
        "the bracket `[` that opens here is not closed, or a comma or quote is missing in it",
    ),
    ("could not find expected ':'", _began, "a key stands here without `: ` behind it (a colon, then a blank)"),
    (
        "mapping values are not allowed here",
        _at,
        "this colon does not read: a text that holds `: ` needs quotes, and keys of one kind begin in one column",
    ),
    ("sequence entries are not allowed here", _at, "a list entry `- …` begins on a line of its own"),
    ("found character '\\t'", _at, "a tab stands here; indent with blanks"),
    ("that cannot start any token", _at, "a text that begins with this character needs quotes"),
    ("scanning an alias", _began, "aliases are refused; a text that begins with `*` needs quotes"),
    ("scanning an anchor", _began, "anchors are refused; a text that begins with `&` needs quotes"),
    ("scanning a tag", _began, "tags are refused; a text that begins with `!` needs quotes"),
    ("parsing a tag", _began, "tags are refused; a text that begins with `!` needs quotes"),
    ("undefined tag handle", _at, "tags are refused; a text that begins with `!` needs quotes"),
    ("directive", _at, "a line that begins with `%` needs quotes"),
    ("scanning a block scalar", _at, "behind `|` or `>` nothing may stand but a comment"),
    ("duplicate anchors", _at, "anchors are refused; a text that begins with `&` needs quotes"),
    ("expected '<document start>'", _at, "this does not continue what stands above; check the indentation"),
    ("expected <block end>", _at, "the indentation of this line fits nothing above it, or a quote or colon is missing"),
)
