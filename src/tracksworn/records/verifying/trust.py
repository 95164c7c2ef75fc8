"""Whom a verification trusts: the certificates that it is given, and never those of the system."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from asn1crypto import x509

from tracksworn.records.sealing.certificates import read_certificates


@dataclass(frozen=True, slots=True)
class Trust:
    """Certificates (DER) up to which a signer's certificate must lead; none means that nobody is known."""

    roots: tuple[bytes, ...] = ()

    @property
    def certificates(self) -> list[Any]:
        """The certificates as they are read by who judges by them."""
        return [x509.Certificate.load(one) for one in self.roots]


def read_trust(paths: Iterable[Path]) -> Trust:
    """All certificates of some PEM files. Raises Faulty for a file that holds none."""
    return Trust(tuple(dict.fromkeys(one for path in paths for one in read_certificates(path))))
