"""Who sealed a file, and who signed it after that."""

from datetime import datetime

from pyhanko.sign.validation.pdf_embedded import EmbeddedPdfSignature

from tracksworn.records.verifying.instant import known_since
from tracksworn.records.verifying.people import Evidence, NotTrusted, check_trusted, name_of, unfit_for_sealing
from tracksworn.records.verifying.sealed import Sealed
from tracksworn.records.verifying.trust import Trust
from tracksworn.records.verifying.verdict import Answer, Name, State


def judge_signers(sealed: Sealed, trust: Trust, evidence: Evidence, at: datetime) -> Answer:
    """Whether all who signed are trusted, each judged at the moment since when its signature is known to be there."""

    def doubt_about(signature: EmbeddedPdfSignature) -> str:
        return _doubt(signature, trust, evidence, known_since(signature, sealed, trust, evidence, at).known)

    who = f"sealed by {name_of(sealed.seal.signed_data)}"
    if sealed.later:
        who += f", countersigned by {', '.join(name_of(one.signed_data) for one in sealed.later)}"
    doubts = [doubt for one in (sealed.seal, *sealed.later) if (doubt := doubt_about(one))]
    if doubts:
        return Answer(Name.SIGNER, State.FAILED, f"{who}, but {'; '.join(doubts)}")
    if not trust.roots:
        return Answer(Name.SIGNER, State.CANNOT_TELL, f"{who}; no trusted certificate was given to hold that against")
    silent = "" if evidence.lists or evidence.answers else "; the file does not tell whether it was revoked"
    return Answer(Name.SIGNER, State.PASSED, f"{who}, whose certificate leads to one that is trusted{silent}")


def _doubt(signature: EmbeddedPdfSignature, trust: Trust, evidence: Evidence, known: datetime) -> str:
    if wrong := unfit_for_sealing(signature.signed_data, known):
        return wrong
    if not trust.roots:
        return ""
    try:
        check_trusted(signature.signed_data, trust, evidence, known)
    except NotTrusted as error:
        return str(error)
    return ""
