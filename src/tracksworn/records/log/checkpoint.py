"""A checkpoint: how long the log is and the root of its tree, signed with the log's own key (Ed25519, RFC 8032)."""

import base64
import hashlib
import json
from dataclasses import dataclass
from typing import Any, Final

import rfc8785
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

from tracksworn.inspection.faults import TrackswornError
from tracksworn.records.log.tree import Frontier

KIND: Final = "checkpoint 1"


class LogBroken(TrackswornError):  # noqa: N818 - named for what it says of the log
    """The log is not what was signed: it was cut, altered, or its checkpoint does not come from its key."""


@dataclass(frozen=True, slots=True)
class Checkpoint:
    """The log as it was at one time. `length` is that of its file in bytes, `frontier` what its root follows from."""

    at: str  # RFC 3339, UTC
    length: int
    frontier: Frontier
    signature: bytes = b""

    @property
    def size(self) -> int:
        """How many acts there are."""
        return self.frontier.size

    @property
    def root(self) -> str:
        """The root of the tree, in hexadecimal."""
        return self.frontier.root().hex()

    def signed_bytes(self) -> bytes:
        """What the signature is over: the RFC 8785 form of all else."""
        return rfc8785.dumps(self._plain())

    def _plain(self) -> dict[str, Any]:
        return {
            "tracksworn": KIND,
            "at": self.at,
            "size": self.size,
            "length": self.length,
            "root": self.root,
            "peaks": [peak.hex() for peak in self.frontier.peaks],
        }

    def json(self) -> bytes:
        """The checkpoint as it is published."""
        whole = self._plain() | {"signature": base64.b64encode(self.signature).decode("ascii")}
        return json.dumps(whole, indent=1).encode("ascii") + b"\n"


def sign(key: Ed25519PrivateKey, at: str, length: int, frontier: Frontier) -> Checkpoint:
    """A checkpoint of the log as it is."""
    bare = Checkpoint(at, length, frontier)
    return Checkpoint(at, length, frontier, key.sign(bare.signed_bytes()))


def read_checkpoint(content: bytes, key: Ed25519PublicKey) -> Checkpoint:
    """A checkpoint as it was published. Raises LogBroken where it is none or the key has not signed it."""
    try:
        plain = json.loads(content)
        frontier = Frontier(int(plain["size"]), tuple(bytes.fromhex(peak) for peak in plain["peaks"]))
        signature = base64.b64decode(plain["signature"], validate=True)
        found = Checkpoint(str(plain["at"]), int(plain["length"]), frontier, signature)
        same = (
            plain["tracksworn"] == KIND
            and found.root == plain["root"]
            and len(frontier.peaks) == frontier.size.bit_count()
        )
        key.verify(signature, found.signed_bytes())
    except InvalidSignature:
        raise LogBroken("the log's checkpoint is not signed with the log's key; it, or the key, was altered") from None
    except (ValueError, KeyError, TypeError, OverflowError, RecursionError):
        raise LogBroken("the log's checkpoint is no checkpoint; it was altered") from None
    if not same:
        raise LogBroken("the log's checkpoint contradicts itself; it was altered")
    return found


def private_pem(key: Ed25519PrivateKey) -> bytes:
    """The key as PKCS #8 in PEM (RFC 8410), not encrypted."""
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def public_pem(key: Ed25519PublicKey) -> bytes:
    """The key in PEM (RFC 8410)."""
    return key.public_bytes(serialization.Encoding.PEM, serialization.PublicFormat.SubjectPublicKeyInfo)


def name_of(key: Ed25519PublicKey) -> str:
    """The log's name: the SHA-256 of its public key, in hexadecimal."""
    raw = key.public_bytes(serialization.Encoding.Raw, serialization.PublicFormat.Raw)
    return hashlib.sha256(raw).hexdigest()


def read_private(content: bytes) -> Ed25519PrivateKey:
    """A private key in PEM. Raises LogBroken where it is none of that kind."""
    try:
        key = serialization.load_pem_private_key(content, password=None)
    except (ValueError, TypeError):
        raise LogBroken("the log's key cannot be read; it was altered") from None
    if not isinstance(key, Ed25519PrivateKey):
        raise LogBroken("the log's key is of another kind; it was put in another's place")
    return key


def read_public(content: bytes) -> Ed25519PublicKey:
    """A public key in PEM. Raises LogBroken where it is none of that kind."""
    try:
        key = serialization.load_pem_public_key(content)
    except ValueError:
        raise LogBroken("the log's public key cannot be read; it was altered") from None
    if not isinstance(key, Ed25519PublicKey):
        raise LogBroken("the log's public key is of another kind; it was put in another's place")
    return key
