"""Which program makes the documents: a digest that changes with anything that could change a byte of them."""

import re
import sys
from collections.abc import Iterator
from functools import cache
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, requires, version
from typing import Final

from tracksworn.documents.program import files_digest

_NAME: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*")
"""What a requirement begins with, by the Python packaging specification of dependency specifiers."""


@cache
def program_digest() -> str:
    """SHA-256 over what makes documents: the program's own files, and the versions that they stand on."""
    return sha256("\n".join([sys.version, *_versions(), files_digest()]).encode()).hexdigest()


def installed(name: str) -> str:
    """The version of a library as it is installed here; `none` where it is not."""
    try:
        return version(name)
    except PackageNotFoundError:
        return "none"


def _versions() -> Iterator[str]:
    """What the package needs, as it is installed here; what it can do without is left out."""
    needed = (wanted for wanted in requires("tracksworn") or () if "extra ==" not in wanted)
    names = sorted(match[0] for match in map(_NAME.match, needed) if match)
    yield from (f"{name} {installed(name)}" for name in names)
