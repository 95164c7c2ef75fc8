"""Whether a certificate permits what it is to be used for, before anything is signed with it."""

from collections.abc import Iterator
from datetime import datetime
from typing import Final

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec, rsa

from tracksworn.records.sealing.signer import Signer, UnusableKey

LEAST_RSA: Final = 2048  # bits
CURVES: Final = ("secp256r1", "secp384r1", "secp521r1")  # FIPS 186-5; ISO/TS 32002 names them for PDF
DIGESTS: Final = (hashes.SHA256, hashes.SHA384, hashes.SHA512)  # FIPS 180-4


def check_fit(signer: Signer, at: datetime) -> None:
    """Raise UnusableKey, with all that is wrong, for a certificate that cannot seal at that moment."""
    certificate = x509.load_der_x509_certificate(signer.certificate)
    if wrong := list(unfit(certificate, at)):
        raise UnusableKey(f"the certificate of {named(certificate)} cannot seal: {'; '.join(wrong)}")


def named(certificate: x509.Certificate) -> str:
    """Whom a certificate names: its common name, else all of its subject."""
    names = certificate.subject.get_attributes_for_oid(x509.NameOID.COMMON_NAME)
    return str(names[0].value) if names else certificate.subject.rfc4514_string() or "nobody"


def unfit(certificate: x509.Certificate, at: datetime) -> Iterator[str]:
    """Everything for which a certificate cannot seal, or could not have, at that moment."""
    begins, ends = certificate.not_valid_before_utc, certificate.not_valid_after_utc
    if at < begins:
        yield f"it is not valid before {begins:%Y-%m-%d %H:%M} UTC; wait, or set this machine's clock right"
    if at > ends:
        yield f"it expired on {ends:%Y-%m-%d %H:%M} UTC; ask its issuer for a new one"
    if not _may_sign(certificate):
        yield "its key usage has neither digital signature nor content commitment; ask for one that is made for signing"
    digest = certificate.signature_hash_algorithm
    if digest is not None and not isinstance(digest, DIGESTS):
        yield f"it was signed over {digest.name}, which is weaker than SHA-256; ask its issuer for a new one"
    yield from _wrong_key(certificate)


def _may_sign(certificate: x509.Certificate) -> bool:
    """RFC 5280, 4.2.1.3: a certificate without the extension is not restricted."""
    try:
        usage = certificate.extensions.get_extension_for_class(x509.KeyUsage).value
    except x509.ExtensionNotFound:
        return True
    return usage.digital_signature or usage.content_commitment


def _wrong_key(certificate: x509.Certificate) -> Iterator[str]:
    key = certificate.public_key()
    if isinstance(key, rsa.RSAPublicKey):
        if key.key_size < LEAST_RSA:
            yield f"its RSA key has {key.key_size} bits; {LEAST_RSA} are the least"
    elif not isinstance(key, ec.EllipticCurvePublicKey):
        yield "its key is of a kind that few readers can check; take RSA, or a NIST curve"
    elif key.curve.name not in CURVES:
        yield f"its curve is {key.curve.name}; P-256, P-384 and P-521 are those that readers can check"


def vouched_for_by_itself(signer: Signer) -> bool:
    """Whether a certificate names itself as its issuer, as a practice key's does."""
    certificate = x509.load_der_x509_certificate(signer.certificate)
    return certificate.issuer == certificate.subject
