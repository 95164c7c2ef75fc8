"""What was not seen, which every document must say."""

from collections.abc import Iterator

from tracksworn.documents.full.view import NotSeen
from tracksworn.documents.render.gate.wanted import Piece


def wanted_of_unseen(not_seen: NotSeen, machine: str = "") -> Iterator[Piece]:
    """Each part with its reason, and each sentence; with the machine where a document has several."""
    identity, what = (machine, "list of what was not seen of") if machine else ("not seen", "list of what was")
    for one in not_seen.parts:
        yield Piece(identity, f"{one.parts}: {one.reason}", what)
    yield from (Piece(identity, text, what) for text in not_seen.sentences)
