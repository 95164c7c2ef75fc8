"""Keys from files, and whether their certificates permit sealing: one clear message for each that does not."""

from datetime import UTC, datetime
from functools import cache

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec, ed25519, rsa
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption
from cryptography.hazmat.primitives.serialization.pkcs12 import (
    load_pkcs12,
    serialize_key_and_certificates,
)
from records.sealed import AT, signer

from tracksworn.records.sealing.fitness import check_fit, vouched_for_by_itself
from tracksworn.records.sealing.pkcs12 import from_pkcs12, opens_without_password
from tracksworn.records.sealing.practice import WHAT_IT_IS, PracticeKey, practice_key
from tracksworn.records.sealing.signer import Signer, UnusableKey


@cache
def practice() -> PracticeKey:
    return practice_key("Ines Marlow", "wörter 12", AT)


def without_password(*, certificate: bool = True) -> bytes:
    """The practice key once more, not locked, or locked out of its certificate."""
    held = load_pkcs12(practice().pkcs12, "wörter 12".encode())
    assert held.cert is not None
    assert isinstance(held.key, ec.EllipticCurvePrivateKey)
    own = held.cert.certificate if certificate else None
    return serialize_key_and_certificates(None, held.key, own, None, NoEncryption())


def test_a_practice_key_says_in_its_certificate_what_it_is() -> None:
    certificate = x509.load_pem_x509_certificate(practice().certificate)
    assert certificate.subject == certificate.issuer
    names = {str(each.value) for each in certificate.subject}
    assert names == {"Ines Marlow", WHAT_IT_IS}
    assert not certificate.extensions.get_extension_for_class(x509.BasicConstraints).value.ca
    held = from_pkcs12(practice().pkcs12, "wörter 12")
    assert held.certificate == certificate.public_bytes(Encoding.DER)
    assert vouched_for_by_itself(held)
    assert not vouched_for_by_itself(signer())
    check_fit(held, AT)


def test_a_key_shows_in_no_text_of_a_signer() -> None:
    assert "private" not in repr(signer())
    assert "pkcs12" not in repr(practice())


@pytest.mark.parametrize(
    ("content", "password", "said"),
    [
        (lambda: practice().pkcs12, "other", "the password is wrong for this key"),
        (lambda: practice().pkcs12, None, "this key has a password, and none is given"),
        (lambda: b"", "x", "no PKCS#12 file"),
        (lambda: practice().certificate, "x", "no PKCS#12 file"),
        (lambda: practice().pkcs12[:-40], "wörter 12", "no PKCS#12 file"),
        (lambda: without_password(certificate=False), None, "no private key with its certificate"),
    ],
)
def test_a_key_that_does_not_open_says_why(content: object, password: str | None, said: str) -> None:
    assert callable(content)
    with pytest.raises(UnusableKey, match=said):
        from_pkcs12(content(), password)


def test_a_key_without_password_is_opened_without_one() -> None:
    assert opens_without_password(without_password())
    assert not opens_without_password(practice().pkcs12)
    assert from_pkcs12(without_password(), None).certificate == from_pkcs12(practice().pkcs12, "wörter 12").certificate


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("expired", "it expired on 2021-01-01 00:00 UTC"),
        ("not-yet", "it is not valid before 2080-01-01 00:00 UTC"),
        ("wrong-usage", "neither digital signature nor content commitment"),
        ("weak", "its RSA key has 1024 bits; 2048 are the least"),
    ],
)
def test_a_certificate_that_does_not_permit_it_is_named_with_the_reason(name: str, said: str) -> None:
    with pytest.raises(UnusableKey) as told:
        check_fit(signer(name), AT)
    assert str(told.value).startswith("the certificate of Ines Marlow cannot seal: ")
    assert said in str(told.value)


@pytest.mark.parametrize("name", ["signer", "client", "nowhere", "revoked"])
def test_one_that_does_is_taken(name: str) -> None:
    check_fit(signer(name), AT)


def test_the_last_moment_still_holds_and_the_next_does_not() -> None:
    ends = datetime(2021, 1, 1, tzinfo=UTC)
    check_fit(signer("expired"), ends)
    with pytest.raises(UnusableKey):
        check_fit(signer("expired"), ends.replace(second=1))


@pytest.mark.parametrize(
    ("key", "said"),
    [
        (ed25519.Ed25519PrivateKey.generate(), "of a kind that few readers can check"),
        (ec.generate_private_key(ec.SECP256K1()), "its curve is secp256k1"),
    ],
)
def test_a_key_that_few_readers_can_check_is_refused(
    key: ed25519.Ed25519PrivateKey | ec.EllipticCurvePrivateKey, said: str
) -> None:
    name = x509.Name([x509.NameAttribute(x509.NameOID.ORGANIZATION_NAME, "Oxbow Sale Yard")])
    issuer = rsa.generate_private_key(65537, 2048)
    certificate = (
        x509.CertificateBuilder(name, name, key.public_key(), 1, AT, AT.replace(year=2032))
        .sign(issuer, hashes.SHA256())
        .public_bytes(Encoding.DER)
    )
    with pytest.raises(UnusableKey, match=said):
        check_fit(Signer(certificate, (), None), AT)
