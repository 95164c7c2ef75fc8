"""How a file stands in an archive that claims to be a document of a record."""

from tracksworn.records.archive.files import Files, sha256
from tracksworn.records.archive.held import Held
from tracksworn.records.archive.index.reading import Reading
from tracksworn.records.standing import Bytes, Claim, Standing


def standing_of(claim: Claim, reading: Reading, files: Files) -> Standing:
    """By the index, and where other bytes are held that may begin with the file's, by those."""
    held, former = reading.documents(claim.number), reading.former(claim.number)
    own = [one for one in held if one.revision == claim.revision]
    forms = {form.name for form in former if (form.revision, form.sha256) == (claim.revision, claim.sha256)}
    same = next((one for one in own if one.sha256 == claim.sha256 or one.name in forms), None)
    newest = max((one.revision for one in held), default=None)
    if same is None:
        return _of_another(claim, next((one for one in own if one.document == claim.document), None), newest, files)
    return Standing(
        same=True,
        other=False,
        newest=newest,
        expired=same.expired,
        elsewhere=same.elsewhere,
        renewed=same.sha256 != claim.sha256,
    )


def _of_another(claim: Claim, other: Held | None, newest: int | None, files: Files) -> Standing:
    if other is None:
        return Standing(same=False, other=False, newest=newest)
    if other.expired:
        return Standing(same=False, other=True, newest=newest, expired=other.expired, elsewhere=other.elsewhere)
    earlier, held = _begins_with(other, claim, files), Bytes(other.size, other.sha256)
    return Standing(same=False, other=True, newest=newest, earlier=earlier, held=held)


def _begins_with(held: Held, claim: Claim, files: Files) -> bool:
    """Whether a document, as it was put in, begins with the bytes of a file and goes on."""
    if not 0 < claim.size < held.size:
        return False
    content = files.content(held.number, held.name) or b""
    return sha256(content) == held.sha256 and sha256(content[: claim.size]) == claim.sha256
