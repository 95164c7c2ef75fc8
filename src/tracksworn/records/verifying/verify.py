"""The six questions that are asked of a file, on one screen.

integrity → signer, time → what it carries → arithmetic → pages → archive
"""

import warnings
from collections.abc import Sequence
from datetime import datetime
from hashlib import sha256

from tracksworn.documents.scratch import scratch
from tracksworn.records.sealing.quiet import quiet
from tracksworn.records.standing import Claim
from tracksworn.records.verifying.arithmetic import judge_arithmetic
from tracksworn.records.verifying.carried import NotCarried, read_carried
from tracksworn.records.verifying.instant import judge_time, known_since
from tracksworn.records.verifying.integrity import judge_integrity
from tracksworn.records.verifying.kept import with_archive
from tracksworn.records.verifying.pages import judge_pages
from tracksworn.records.verifying.people import evidence_in
from tracksworn.records.verifying.sealed import Sealed
from tracksworn.records.verifying.signers import judge_signers
from tracksworn.records.verifying.trust import Trust
from tracksworn.records.verifying.verdict import Answer, Archive, Name, State, Verdict

NOBODY = Trust()


def verify(content: bytes, *, at: datetime, trust: Trust = NOBODY, archive: Archive | None = None) -> Verdict:
    """The six answers about a file, at that moment (aware of its zone). Nothing is read but the file.

    What a file carries is looked at only once it is known to be what was sealed. No file makes this raise; a machine
    that has no room to lay out what it carries does: Failed, or OSError.
    """
    with quiet(), warnings.catch_warnings():
        warnings.simplefilter("ignore")  # what libraries have to say of others' certificates, the answers say
        integrity, sealed = judge_integrity(content)
        if sealed is None:
            return Verdict((integrity, *_unasked("it is not what was sealed", integrity)))
        evidence = evidence_in(sealed)
        since = known_since(sealed.seal, sealed, trust, evidence, at)
        people = (judge_signers(sealed, trust, evidence, at), judge_time(sealed, since))
        about, claim = _of_what_it_carries(sealed)
        verdict = Verdict((integrity, *people, *about), claim)
        return verdict if archive is None else with_archive(verdict, archive, lambda size: content[:size])


def _of_what_it_carries(sealed: Sealed) -> tuple[Sequence[Answer], Claim | None]:
    try:
        carried = read_carried(sealed.part)
    except NotCarried as error:
        failed = [Answer(name, State.FAILED, str(error)) for name in (Name.ARITHMETIC, Name.PAGES)]
        return (*failed, Answer(Name.ARCHIVE, State.CANNOT_TELL, "it says of no record that it is one")), None
    with scratch() as folder:
        arithmetic = judge_arithmetic(carried, folder)
        if arithmetic.assessed is None:
            pages = Answer(Name.PAGES, State.CANNOT_TELL, "what it carries cannot be read")
        else:
            pages = judge_pages(sealed.part, carried, arithmetic.assessed)
    digest, size = sha256(sealed.content).hexdigest(), len(sealed.content)
    claim = Claim(carried.number, carried.revision, carried.document, digest, size)
    return (arithmetic.answer, pages, Answer(Name.ARCHIVE, State.CANNOT_TELL, "no archive was asked")), claim


def _unasked(because: str, *asked: Answer) -> Sequence[Answer]:
    names = {answer.name for answer in asked}
    return [Answer(name, State.CANNOT_TELL, because) for name in Name if name not in names]
