"""What the YAML parser complains of, said so that an inspector can mend it, and told where the cause stands."""

import re
import sys
from collections.abc import Callable

import yaml

from tracksworn.inspection.written import TOP, Mark, quoted

BEGINS_WITH_STAR = "a text that begins with `*` needs quotes; YAML's aliases are refused"
BEGINS_WITH_AND = "a text that begins with `&` needs quotes; YAML's anchors are refused"
BEGINS_WITH_MARK = "a text that begins with `!` needs quotes; YAML's tags are refused"
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
    if "mapping values are not allowed here" in complaint:
        return _unexpected_colon(text, at)
    before = text.split("\n")[at.line][: at.column]
    if complaint.endswith(_STRAY_COLON) and (began.line == at.line or "," in before):
        return _mark(at), _COLON_IN_BRACES
    if complaint.endswith(_ANOTHER_TEXT) and before.rstrip()[-1:] in ("'", '"'):
        return _mark(at), _BEHIND_A_QUOTE
    for sign, where, words in _COMPLAINTS:
        if sign in complaint:
            return _mark(where(began, at)), words.format(column=began.column + 1, line=began.line + 1)
    return _mark(at), f"{_UNREADABLE}: {quoted(error.problem or complaint)}"


def _unexpected_colon(text: str, at: yaml.Mark) -> tuple[Mark, str]:
    """A colon behind another on its line, or the first of a line that is indented more than the one above allows."""
    lines = text.split("\n")
    before = lines[at.line][: at.column]
    above = next(
        (line for line in reversed(lines[: at.line]) if line.strip() and not line.lstrip().startswith("#")), ""
    )
    if ": " in before:
        return _mark(at), "a text that holds `: ` needs quotes around the whole of it"
    if re.match(r"\s*-[^\s-]", above):
        return Mark(at.line, above.index("-") + 1), "a blank is missing behind this `-`"
    begins = Mark(at.line + 1, len(before) - len(before.lstrip(" -")) + 1)
    return begins, "this line is indented more than the one above it allows; keys of one kind begin in one column"


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

_STRAY_COLON = "but got ':'"
_ANOTHER_TEXT = ("but got '<scalar>'", "but found '<scalar>'")
_COLON_IN_BRACES = "this colon does not read; in braces a text that holds `: ` needs quotes around the whole of it"
_BEHIND_A_QUOTE = (
    "this stands behind a quote that is closed; a text with quotes in it needs others around it: `'\"so\"'`"
)

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
        "the brace `{{` that opens here is not closed, or a comma, colon or quote is missing in it",
    ),
    (
        "parsing a flow sequence",
        _began,
        "the bracket `[` that opens here is not closed, or a comma or quote is missing in it",
    ),
    (
        "could not find expected ':'",
        _began,
        "a key stands here without `: ` behind it (a colon, then a blank); a text that goes on is indented",
    ),
    (
        "sequence entries are not allowed here",
        _at,
        'a list entry `- …` begins on a line of its own; `-` alone needs quotes: `"-"`',
    ),
    ("found character '\\t'", _at, "a tab stands here; indent with blanks"),
    ("that cannot start any token", _at, "a text that begins with this character needs quotes"),
    ("mapping keys are not allowed here", _at, "a text that begins with `?` needs quotes"),
    ("scanning an alias", _began, BEGINS_WITH_STAR),
    ("scanning an anchor", _began, BEGINS_WITH_AND),
    ("scanning a tag", _began, BEGINS_WITH_MARK),
    ("parsing a tag", _began, BEGINS_WITH_MARK),
    ("undefined tag handle", _at, BEGINS_WITH_MARK),
    ("directive", _at, "a line that begins with `%` needs quotes"),
    (
        "scanning a block scalar",
        _at,
        "a text that begins with `|` or `>` needs quotes, unless it stands in the next lines",
    ),
    ("duplicate anchors", _at, BEGINS_WITH_AND),
    ("expected '<document start>'", _at, "this does not continue what stands above; check the indentation"),
    ("but found '}'", _at, "this brace closes none that is open"),
    ("but found ']'", _at, "this bracket closes none that is open"),
    (
        "expected <block end>",
        _at,
        "this does not line up with what began in column {column} of line {line}; or a quote or colon is missing above",
    ),
)
