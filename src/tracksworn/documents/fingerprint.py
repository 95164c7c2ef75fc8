"""The fingerprint of an assessment and of every file that it was computed from.

It is the SHA-256 (FIPS 180-4) of the JSON Canonicalization Scheme's form (RFC 8785) of
`{"assessment": …, "files": {name: SHA-256 of its bytes}}`, in hexadecimal.
"""

import hashlib
from collections.abc import Mapping, Sequence
from typing import Any

import rfc8785

GROUP = 4
SHOWN = 4


def fingerprint(assessment: Mapping[str, Any], digests: Mapping[str, str]) -> str:
    """Sixty-four hexadecimal digits. `assessment` is a statement, `digests` the SHA-256 of each file by its name."""
    return hashlib.sha256(fingerprinted(assessment, digests)).hexdigest()


def fingerprinted(assessment: Mapping[str, Any], digests: Mapping[str, str]) -> bytes:
    """The bytes of which that is the SHA-256."""
    return rfc8785.dumps({"assessment": dict(assessment), "files": dict(digests)})


def fingerprint_of_parts(parts: Sequence[str]) -> str:
    """That of a document made from several: the SHA-256 of the RFC 8785 form of `{"parts": [fingerprint, …]}`.

    Their order counts, as it is that of the columns; so it changes with any figure and any file of any part.
    """
    return hashlib.sha256(fingerprinted_parts(parts)).hexdigest()


def fingerprinted_parts(parts: Sequence[str]) -> bytes:
    """The bytes of which that is the SHA-256."""
    return rfc8785.dumps({"parts": list(parts)})


def first_digits(digits: str) -> str:
    """What a foot shows: the first digits in groups, `a41c 09e7 5d2f 88b3`."""
    return " ".join(digits[start : start + GROUP] for start in range(0, GROUP * SHOWN, GROUP))
