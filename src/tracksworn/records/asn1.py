"""The types of ASN.1, made ready before threads share them.

asn1crypto fills a type in at its first value and guards nothing meanwhile: of two threads that come first together, one
reads a type that is half made ("no field numbered 0 is present").
"""

from collections.abc import Iterator
from typing import Any

from asn1crypto import core


def make_ready() -> None:
    """Fill in every type that has been imported, which takes some milliseconds."""
    for kind in _kinds(core.Asn1Value):
        if kind is not core.Choice:  # the one that has no value of its own
            kind()


def _kinds(of: Any) -> Iterator[Any]:
    for kind in of.__subclasses__():
        yield kind
        yield from _kinds(kind)
