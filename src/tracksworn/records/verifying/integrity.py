"""Whether a file is, to the byte, what was sealed, save what its seal allows to be appended."""

from pyhanko.sign.fields import MDPPerm

from tracksworn.records.plainly import plainly
from tracksworn.records.verifying.appended import check_appended
from tracksworn.records.verifying.envelope import check_envelope
from tracksworn.records.verifying.people import evidence_in
from tracksworn.records.verifying.sealed import Broken, Sealed, find_seal
from tracksworn.records.verifying.verdict import Answer, Name, State


def judge_integrity(content: bytes) -> tuple[Answer, Sealed | None]:
    """The answer, and the file's seal where it has passed."""
    try:
        sealed = find_seal(content)
        _check_certified(sealed)
        for one in sealed.everything:
            check_envelope(one)
        found = check_appended(sealed)
        evidence_in(sealed)
    except Broken as error:
        return Answer(Name.INTEGRITY, State.FAILED, str(error)), None
    except Exception as error:  # noqa: BLE001 - what a damaged file makes its readers raise is of no one kind
        return Answer(Name.INTEGRITY, State.FAILED, f"it cannot be read to its end: {plainly(error)}"), None
    because = "every byte is as it was sealed"
    if found:
        because += f"; appended, as its seal allows: {', '.join(found)}"
    return Answer(Name.INTEGRITY, State.PASSED, because), sealed


def _check_certified(sealed: Sealed) -> None:
    """A seal says what may be appended to its file (ISO 32000-2, 12.8.2.2)."""
    if sealed.seal.docmdp_level not in (MDPPerm.NO_CHANGES, MDPPerm.FILL_FORMS):
        raise Broken("its first signature is no seal: it does not say that no changes are allowed")
    held = sealed.reader.root["/Perms"].raw_get("/DocMDP") if "/Perms" in sealed.reader.root else None
    if held is None or held.reference != sealed.seal.sig_field.raw_get("/V").reference:
        raise Broken("its first signature is no seal: the document does not name it")
