"""Who sealed a file and when: what a given root vouches for, and every reason why it does not."""

from datetime import UTC, datetime, timedelta, timezone
from functools import cache
from io import BytesIO
from typing import Any, Final

import pytest
from asn1crypto import pem
from certomancer.registry import ServiceLabel
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import NoEncryption
from judges.specimen import sound
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.validation.dss import DocumentSecurityStore
from records import authorities
from records.sealed import AT, manner, sealed, signer

from tracksworn.records.countersigning import countersign
from tracksworn.records.sealing import seal as sealing
from tracksworn.records.sealing.pkcs12 import from_pkcs12
from tracksworn.records.sealing.practice import practice_key
from tracksworn.records.sealing.quiet import quiet
from tracksworn.records.sealing.seal import seal
from tracksworn.records.sealing.signer import Level, Signer
from tracksworn.records.verifying.instant import Instant, judge_time, known_since
from tracksworn.records.verifying.integrity import judge_integrity
from tracksworn.records.verifying.people import evidence_in
from tracksworn.records.verifying.signers import judge_signers
from tracksworn.records.verifying.trust import Trust
from tracksworn.records.verifying.verdict import Answer, State

NOBODY: Final = Trust()
LEADS: Final = "certificate leads to one that is trusted"
LATER: Final = AT.replace(year=2032)
PAST: Final = datetime(2020, 6, 1, tzinfo=UTC)


def root() -> Trust:
    return Trust((authorities.certificate("root"),))


def judged(content: bytes, trust: Trust, at: datetime = LATER) -> tuple[Answer, Answer]:
    """What is said of the signer and the time of a file that is whole."""
    with quiet():
        answer, found = judge_integrity(content)
        assert answer.state is State.PASSED, answer.because
        assert found is not None
        evidence = evidence_in(found)
        since = known_since(found.seal, found, trust, evidence, at)
        return judge_signers(found, trust, evidence, at), judge_time(found, since)


def sealed_all_the_same(by: Signer, monkeypatch: pytest.MonkeyPatch, at: datetime = AT) -> bytes:
    """Sealed with a certificate that this program would not seal with."""
    monkeypatch.setattr(sealing, "check_fit", lambda signer, at: None)
    return seal(sound(), by, at=at)


def with_revocation_lists(content: bytes) -> bytes:
    """The revocation lists of both issuers, put behind a sealed file as a seal allows it."""
    services = authorities.architecture().service_registry
    lists = [services.get_crl(ServiceLabel(each), AT) for each in ("root", "issuer")]
    out = BytesIO(content)
    DocumentSecurityStore.add_dss(out, None, crls=lists)
    return out.getvalue()


def test_a_signer_who_leads_to_a_given_root_is_trusted() -> None:
    who, when = judged(sealed(), root())
    assert who == Answer(
        who.name, State.PASSED, f"sealed by Ines Marlow, whose {LEADS}; the file does not tell whether it was revoked"
    )
    assert when.state is State.CANNOT_TELL
    assert when.because == "nobody attests it; who sealed it says 2031-04-20 12:30:00 UTC"


def test_without_a_given_root_nobody_is_known() -> None:
    who, when = judged(sealed(Level.T), NOBODY)
    assert (who.state, when.state) == (State.CANNOT_TELL, State.CANNOT_TELL)
    assert "no trusted certificate was given" in who.because
    assert "no trusted certificate was given" in when.because


def test_a_root_that_has_nothing_to_do_with_it_vouches_for_nobody() -> None:
    who, _ = judged(sealed(), Trust((authorities.certificate("authority"),)))
    assert who.state is State.FAILED
    assert "leads to none of those that are trusted" in who.because


@pytest.mark.parametrize("level", [Level.T, Level.LT, Level.LTA])
def test_an_authority_attests_the_time(level: Level) -> None:
    who, when = judged(sealed(level), root())
    assert (who.state, when.state) == (State.PASSED, State.PASSED), (who, when)
    assert when.because.endswith(" UTC, as Time attests")


@pytest.mark.parametrize(
    ("said", "written"),
    [
        (AT.astimezone(timezone(timedelta(hours=2))), "2031-04-20 12:30:00 UTC"),
        (AT.replace(tzinfo=None), "2031-04-20 12:30:00, of no zone"),
    ],
)
def test_what_who_sealed_it_says_of_the_time_is_told_in_utc(
    said: datetime, written: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    _, whole = judge_integrity(sealed())
    assert whole is not None
    monkeypatch.setattr(type(whole.seal), "self_reported_timestamp", said)
    answer = judge_time(whole, Instant(AT, "", ()))
    assert answer.because == f"nobody attests it; who sealed it says {written}"


def test_a_timestamp_by_an_authority_that_is_not_trusted_attests_nothing() -> None:
    who, when = judged(sealed(Level.T), Trust((authorities.certificate("issuer"),)))
    assert (who.state, when.state) == (State.PASSED, State.CANNOT_TELL)
    assert "by Time is not relied on: its certificate leads to none of those that are trusted" in when.because


def test_a_timestamp_from_the_future_attests_nothing() -> None:
    _, when = judged(sealed(Level.T), root(), datetime(2026, 1, 1, tzinfo=UTC))
    assert when.state is State.CANNOT_TELL
    assert "still to come" in when.because


@pytest.mark.parametrize(
    ("name", "at", "said"),
    [
        ("expired", PAST, "it expired on 2021-01-01"),
        ("not-yet", AT, "it is not valid before 2080-01-01"),
        ("wrong-usage", AT, "neither digital signature nor content commitment"),
        ("weak", AT, "its RSA key has 1024 bits"),
    ],
)
def test_a_certificate_that_could_not_seal_fails_with_the_reason(
    name: str, at: datetime, said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    content = sealed_all_the_same(signer(name), monkeypatch, at)
    for trust in (root(), NOBODY):
        who, _ = judged(content, trust)
        assert who.state is State.FAILED
        assert said in who.because


def test_a_certificate_that_was_revoked_fails_where_the_file_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    content = with_revocation_lists(sealed_all_the_same(signer("revoked"), monkeypatch))
    who, _ = judged(content, root())
    assert who.state is State.FAILED
    assert "a certificate was revoked on 2024-01-01" in who.because
    who, _ = judged(with_revocation_lists(sealed()), root())
    assert who.state is State.PASSED


def test_a_root_may_be_the_signer_itself_but_only_while_it_is_valid() -> None:
    made = practice_key("Ines Marlow", "x", AT)
    content = seal(sound(), from_pkcs12(made.pkcs12, "x"), at=AT)
    itself = Trust((pem.unarmor(made.certificate)[2],))
    assert judged(content, itself)[0].state is State.PASSED
    assert judged(content, itself, AT.replace(year=2040))[0].state is State.FAILED
    assert judged(content, root())[0].state is State.FAILED


def by_one_who_may_not_issue() -> Signer:
    """A signer whose certificate was issued by somebody with a certificate for signing."""
    key = ec.generate_private_key(ec.SECP256R1())
    issuer = x509.load_der_x509_certificate(authorities.certificate("nowhere"))
    names = x509.Name([x509.NameAttribute(x509.NameOID.COMMON_NAME, "Otto Renn")])
    held: Any = _loaded(authorities.key("signer"))
    made = x509.CertificateBuilder(issuer.subject, names, key.public_key(), 7, AT, LATER).sign(held, hashes.SHA256())
    return _signer(key, made, authorities.certificate("nowhere"), authorities.certificate("issuer"))


def test_an_issuer_that_is_no_authority_vouches_for_nobody() -> None:
    by = by_one_who_may_not_issue()
    for trust in (root(), Trust((authorities.certificate("nowhere"),))):
        who, _ = judged(seal(sound(), by, at=AT), trust, AT)
        assert who.state is State.FAILED, who


@cache
def countersigned(level: Level = Level.B) -> bytes:
    with authorities.answering():
        return countersign(sealed(level, countersign=True), signer("client"), at=AT, manner=manner(Level.B))


def test_whoever_countersigns_is_named_and_must_be_trusted_too() -> None:
    who, _ = judged(countersigned(), root())
    assert who.state is State.PASSED
    assert who.because.startswith("sealed by Ines Marlow, countersigned by Otto Renn, ")
    made = practice_key("Nobody", "x", AT)
    stranger = countersign(sealed(countersign=True), from_pkcs12(made.pkcs12, "x"), at=AT)
    who, _ = judged(stranger, root())
    assert who.state is State.FAILED
    assert "countersigned by Nobody, but" in who.because


def test_each_signature_is_judged_since_when_it_is_known() -> None:
    """The seal has its timestamp, of today's clock; the countersignature has none and is judged at verifying."""
    with quiet():
        _, found = judge_integrity(countersigned(Level.T))
        assert found is not None
        evidence = evidence_in(found)
        since = [known_since(one, found, root(), evidence, LATER).known for one in (found.seal, *found.later)]
    assert since[0] < AT
    assert since[1] == LATER


def test_an_archive_timestamp_is_over_everything_before_it() -> None:
    reader = PdfFileReader(BytesIO(sealed(Level.LTA)))
    assert len(reader.embedded_timestamp_signatures) == 1
    answer, found = judge_integrity(sealed(Level.LTA))
    assert answer.because.startswith(
        "every byte is as it was sealed; appended, as its seal allows: an archive timestamp"
    )
    assert found is not None
    assert len(found.stamps) == 1


def _loaded(der: bytes) -> object:
    from cryptography.hazmat.primitives.serialization import load_der_private_key

    return load_der_private_key(der, None)


def _signer(key: ec.EllipticCurvePrivateKey, own: x509.Certificate, *chain: bytes) -> Signer:
    from cryptography.hazmat.primitives.serialization.pkcs12 import serialize_key_and_certificates

    more = [x509.load_der_x509_certificate(each) for each in chain]
    return from_pkcs12(serialize_key_and_certificates(None, key, own, more, NoEncryption()), None)
