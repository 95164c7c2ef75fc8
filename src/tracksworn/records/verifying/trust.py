"""Whom a verification trusts: the certificates that it is given, and never those of the system."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from asn1crypto import pem, x509

from tracksworn.inspection.faults import Failed, Fault, Faulty, printable

LARGEST: Final = 1_000_000  # bytes
_PRIVATE: Final = re.compile(rb"-----BEGIN [A-Z ]*PRIVATE KEY-----")


@dataclass(frozen=True, slots=True)
class Trust:
    """Certificates (DER) up to which a signer's certificate must lead; none means that nobody is known."""

    roots: tuple[bytes, ...] = ()

    @property
    def certificates(self) -> list[Any]:
        """The certificates as they are read by who judges by them."""
        return [x509.Certificate.load(one) for one in self.roots]


def read_trust(paths: Sequence[Path]) -> Trust:
    """All certificates of some PEM files. Raises Faulty for a file that has none, Failed where one cannot be read."""
    return Trust(tuple(dict.fromkeys(one for path in paths for one in _read(path))))


def _read(path: Path) -> list[bytes]:
    try:
        with path.open("rb") as file:
            content = file.read(LARGEST)
    except OSError as error:
        raise Failed(f"{printable(path)} cannot be read: {error.strerror or error}") from error
    if _PRIVATE.search(content):
        raise _no_certificate(path, "it holds a private key, which is nobody else's; give the certificate alone")
    try:
        blocks = [(kind, der) for kind, _, der in pem.unarmor(content, multiple=True)]
        found = [der for kind, der in blocks if kind == "CERTIFICATE"]
        for der in found:
            _ = x509.Certificate.load(der, strict=True).subject.native
    except (ValueError, TypeError) as error:
        raise _no_certificate(
            path, "it is no certificate in PEM, which begins `-----BEGIN CERTIFICATE-----`"
        ) from error
    if not found:
        raise _no_certificate(path, "it holds no certificate in PEM, which begins `-----BEGIN CERTIFICATE-----`")
    return found


def _no_certificate(path: Path, what: str) -> Faulty:
    return Faulty([Fault(path, 1, 1, what)])
