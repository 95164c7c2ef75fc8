"""Documents put into an archive as they are written, and held against it before they are sealed."""

from hashlib import sha256

from tracksworn.documents.sale.lot import Read
from tracksworn.records.archive.archive import Archive
from tracksworn.records.archive.contents import read_facts, unlike
from tracksworn.records.archive.held import NotTaken, file_name
from tracksworn.records.standing import Claim


class Archivist:
    """Puts documents into an open archive."""

    def __init__(self, archive: Archive) -> None:
        self._archive = archive
        self.added = 0
        self._seen: dict[tuple[str, int, str], bytes] = {}  # the digest of what was held against the archive

    def has(self, read: Read, digest: str) -> bool:
        """Whether these very bytes are held, or were before they expired; asked of the index alone."""
        return self._archive.standing(Claim(read.number, read.revision, "", digest, 0)).same

    def instead(self, content: bytes) -> bytes | None:
        """The last form of what is held of the same document, sealed or not; None where nothing is.

        Raises NotTaken where that is of other data or was made in another way, and for a record that has expired or is
        damaged.
        """
        facts = read_facts(content)
        key = facts.number, facts.revision, facts.document
        if self._seen.setdefault(key, digest := sha256(content).digest()) != digest:
            raise NotTaken(
                f"{file_name(*key)} is another one of this run, and only sealed ones stand beside each other"
            )
        self._archive.files.sound_inventory(facts.number)
        record = self._archive.show(facts.number)
        documents = record.documents if record else ()
        held = next((one for one in documents if (one.number, one.revision, one.document) == key), None)
        if held is None:
            return None
        kept = self._archive.content(held)
        if how := unlike(kept, content):
            raise NotTaken(f"{held.name} is held already, {how}; what has changed needs a revision of its own")
        return kept

    def add(self, content: bytes) -> None:
        """Put one in, or find that it is in. Raises NotTaken with the reason."""
        self.added += self._archive.add(content).new
