"""Who signs: a certificate with its private key, wherever the key lies."""

from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from tracksworn.inspection.faults import Faulty


class UnusableKey(Faulty):
    """A key that cannot be signed with: a wrong password, no key there, a certificate that does not permit it."""

    def __init__(self, what: str) -> None:
        super().__init__(())
        self.what = what

    def __str__(self) -> str:
        return self.what


class Level(StrEnum):
    """How much a seal carries to be checked by later (ETSI EN 319 142-1): B-B, B-T, B-LT, B-LTA."""

    B = "b"  # the signature alone
    T = "t"  # with an authority's timestamp of it
    LT = "lt"  # with certificates and revocation data as well
    LTA = "lta"  # with an archive timestamp over all of that


@dataclass(frozen=True, slots=True)
class Signer:
    """A certificate (DER), those that lead to its issuer, and what signs with its key."""

    certificate: bytes
    chain: tuple[bytes, ...]
    private: Any = field(repr=False)  # a pyHanko signer
