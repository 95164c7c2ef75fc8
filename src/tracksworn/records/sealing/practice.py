"""A key to practise with: self-signed, so that it proves nobody's identity."""

from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Final

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import BestAvailableEncryption, Encoding
from cryptography.hazmat.primitives.serialization.pkcs12 import serialize_key_and_certificates

LASTS: Final = timedelta(days=730)
WHAT_IT_IS: Final = "Practice key: vouched for by nobody"
LONGEST_NAME: Final = 64  # RFC 5280, upper bound of a common name


@dataclass(frozen=True, slots=True)
class PracticeKey:
    """A key with its certificate (PKCS#12), and the certificate alone (PEM) for whoever is to trust it."""

    pkcs12: bytes = field(repr=False)
    certificate: bytes


def practice_key(name: str, password: str, now: datetime) -> PracticeKey:
    """A new P-256 key in the name of somebody, locked with a password, good for two years."""
    key = ec.generate_private_key(ec.SECP256R1())
    subject = x509.Name(
        [
            x509.NameAttribute(x509.NameOID.ORGANIZATION_NAME, WHAT_IT_IS),
            x509.NameAttribute(x509.NameOID.COMMON_NAME, name),
        ]
    )
    certificate = (
        x509.CertificateBuilder(issuer_name=subject, subject_name=subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now)
        .not_valid_after(now + LASTS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_for_signing(), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )
    locked = BestAvailableEncryption(password.encode("utf-8"))
    packed = serialize_key_and_certificates(name.encode("utf-8"), key, certificate, None, locked)
    return PracticeKey(packed, certificate.public_bytes(Encoding.PEM))


def _for_signing() -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=True,
        content_commitment=True,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=False,
        crl_sign=False,
        encipher_only=False,
        decipher_only=False,
    )
