"""Who signs: a certificate with its private key, wherever the key lies."""

from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from tracksworn.inspection.faults import Faulty


class CannotSeal(Faulty):
    """What was given cannot be sealed, or sealed with; in one sentence, what is wrong and what would be right."""

    def __init__(self, what: str) -> None:
        super().__init__(())
        self.what = what

    def __str__(self) -> str:
        return self.what


class UnusableKey(CannotSeal):
    """A key that cannot be signed with: a wrong password, no key there, a certificate that does not permit it."""


class UnusableFile(CannotSeal):
    """A file that cannot be signed: none of ours, signed already, or without room for a countersignature."""


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
