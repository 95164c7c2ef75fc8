"""Keys from a file (PKCS#12, RFC 7292)."""

from collections.abc import Iterable

from asn1crypto import keys, pkcs12, x509
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    PublicFormat,
)
from cryptography.hazmat.primitives.serialization.pkcs12 import PKCS12KeyAndCertificates, load_pkcs12

from tracksworn.records.sealing.signer import Signer, UnusableKey


def from_pkcs12(content: bytes, password: str | None) -> Signer:
    """The signer of a PKCS#12 file; its first certificate is that of its key, the others lead to the issuer.

    Raises UnusableKey for a wrong password, for what is no such file, and for one without key and certificate.
    """
    held = _opened(content, password)
    key, certificate = held.key, held.cert
    if key is None or certificate is None:
        raise UnusableKey("this PKCS#12 file has no private key with its certificate; export both together")
    own = certificate.certificate
    theirs, ours = (
        each.public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
        for each in (own.public_key(), key.public_key())
    )
    if theirs != ours:
        raise UnusableKey("the certificate in this PKCS#12 file is not that of the key in it")
    chain = tuple(each.certificate.public_bytes(Encoding.DER) for each in held.additional_certs)
    private = key.private_bytes(Encoding.DER, PrivateFormat.PKCS8, NoEncryption())
    return Signer(own.public_bytes(Encoding.DER), chain, _signing(private, own.public_bytes(Encoding.DER), chain))


def opens_without_password(content: bytes) -> bool:
    """Whether a file needs no password: those are not asked for one."""
    return any(_loaded(content, nothing) is not None for nothing in (None, b""))


def _opened(content: bytes, password: str | None) -> PKCS12KeyAndCertificates:
    tries = [password.encode("utf-8")] if password else [None, b""]
    for one in tries:
        if (held := _loaded(content, one)) is not None:
            return held
    if not _is_pkcs12(content):
        raise UnusableKey("this is no PKCS#12 file (.p12 or .pfx); `tracksworn key new` makes one to practise with")
    raise UnusableKey(
        "the password is wrong for this key" if password else "this key has a password, and none is given"
    )


def _loaded(content: bytes, password: bytes | None) -> PKCS12KeyAndCertificates | None:
    try:
        return load_pkcs12(content, password)
    except (ValueError, TypeError):
        return None


def _is_pkcs12(content: bytes) -> bool:
    try:
        return bool(pkcs12.Pfx.load(content, strict=True)["version"].native)
    except (ValueError, TypeError):
        return False


def _signing(private: bytes, certificate: bytes, chain: Iterable[bytes]) -> object:
    from pyhanko.sign.signers.pdf_cms import SimpleSigner  # noqa: PLC0415 - takes a third of a second
    from pyhanko_certvalidator.registry import SimpleCertificateStore  # noqa: PLC0415

    store = SimpleCertificateStore()  # type: ignore[no-untyped-call]
    store.register_multiple([x509.Certificate.load(each) for each in chain])
    return SimpleSigner(
        signing_cert=x509.Certificate.load(certificate),
        signing_key=keys.PrivateKeyInfo.load(private),
        cert_registry=store,
    )
