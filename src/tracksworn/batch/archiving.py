"""Documents put into an archive as they are written."""

from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.held import NotTaken


class Archivist:
    """Puts documents into an open archive."""

    def __init__(self, archive: Archive) -> None:
        self._archive = archive
        self.added = 0

    def add(self, content: bytes) -> str | None:
        """Put one in, or find that it is in; why it is not taken, if so."""
        try:
            self.added += self._archive.add(content).new
        except NotTaken as error:
            return str(error)
        return None
