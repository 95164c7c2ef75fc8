"""Which program makes the documents: a digest that changes with anything that could change a byte of them."""

import sys
from collections.abc import Iterator
from functools import cache
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, requires, version

from tracksworn.documents.program import files_digest


@cache
def program_digest() -> str:
    """SHA-256 over what makes documents: the program's own files, and the versions that they stand on."""
    return sha256("\n".join([sys.version, *_versions(), files_digest()]).encode()).hexdigest()


def _versions() -> Iterator[str]:
    """What the package needs, as it is installed here; what it can do without is left out."""
    for wanted in sorted(requires("tracksworn") or ()):
        name = wanted.split(";")[0].split("[")[0].split(">")[0].split("=")[0].split("<")[0].strip()
        if "extra ==" in wanted:
            continue
        try:
            yield f"{name} {version(name)}"
        except PackageNotFoundError:
            yield f"{name} none"
