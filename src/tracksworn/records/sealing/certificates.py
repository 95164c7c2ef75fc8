"""Certificates in files: PEM, one or more."""

from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding

from tracksworn.inspection.faults import Fault, Faulty


def read_certificates(path: Path) -> tuple[bytes, ...]:
    """The certificates of a PEM file, each as DER. Raises Faulty where it holds none."""
    try:
        held = x509.load_pem_x509_certificates(path.read_bytes())
    except ValueError as error:
        what = "this is no certificate in PEM; it begins with -----BEGIN CERTIFICATE-----"
        raise Faulty([Fault(path, 1, 1, what)]) from error
    return tuple(one.public_bytes(Encoding.DER) for one in held)
