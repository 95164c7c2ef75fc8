"""A firm's own templates as they were read, and the names that they can have."""

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path
from typing import Final

from tracksworn.documents.render.kinds import KINDS

PAGES: Final = tuple(f"{kind.name}.{form}" for kind in KINDS for form in ("html", "md"))
"""One template for each document in each way of writing; PDF and PNG are made of the HTML."""
STYLES: Final = ("extra.css", "print.css", "screen.css")
"""What is added to the built-in style sheets: everywhere, on sheets (PDF, PNG), in a browser (HTML)."""
KNOWN: Final = (*PAGES, *STYLES)


@dataclass(frozen=True, slots=True, eq=False)
class OwnTemplates:
    """A firm's own templates and style sheets: their texts by name."""

    folder: Path
    texts: Mapping[str, str]

    def style(self, name: str) -> str:
        """One of its style sheets; empty where it has none of that name."""
        return self.texts.get(name, "")


def meant(name: str, known: tuple[str, ...]) -> str:
    """What may have been meant by a name that is not known, else all that are."""
    near = get_close_matches(name, known, n=3, cutoff=0.6)
    said = [f"`{one}`" for one in near or known if near or not one.startswith("tracksworn/")]
    return f"did you mean {' or '.join(said)}?" if near else f"there are {', '.join(said)}"
