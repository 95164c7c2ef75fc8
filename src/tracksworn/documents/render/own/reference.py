"""What a firm's template may use, written out for its author: blocks, and every value with its help.

`python -m tracksworn.documents.render.own.reference > templates/VALUES.md` writes it anew; a test holds the two equal.
"""

import sys
from collections.abc import Iterator, Mapping
from typing import Final

from tracksworn.documents.certificate.view import Certificate
from tracksworn.documents.comparison.view import Comparison
from tracksworn.documents.described import describe, views_within
from tracksworn.documents.full.view import FullReport
from tracksworn.documents.listing.view import Listing
from tracksworn.documents.render.own.source import blocks_of

VIEWS: Final[Mapping[str, type]] = {
    "full": FullReport,
    "listing": Listing,
    "certificate": Certificate,
    "compare": Comparison,
}


def reference() -> str:
    """All of it as Markdown."""
    return "\n".join(_lines()) + "\n"


def _lines() -> Iterator[str]:
    yield "# What a template may use"
    yield ""
    yield "Written by the program itself (tracksworn.documents.render.own.reference). README.md says how to use it."
    for name, view in VIEWS.items():
        yield from ("", f"## {name}", "", "| file | blocks, in their order |", "| --- | --- |")
        for form in ("html", "md"):
            yield f"| `{name}.{form}` | {', '.join(f'`{block}`' for block in blocks_of(f'{name}.{form}'))} |"
        shown: set[str] = set()
        for one in views_within(view):
            where = "`view`" if one is view else f"a `{one.__name__}`"
            if one.__name__ not in shown:
                shown.add(one.__name__)
                yield from ("", f"{where} has:", "")
                yield from (f"- `{field.name}`: {field.help or 'a fixed word or figure'}" for field in describe(one))


if __name__ == "__main__":
    sys.stdout.write(reference())
