"""Which program makes the documents: a digest that changes with anything that could change a byte of them."""

import sys
from functools import cache
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, version

from tracksworn.batch.libraries import NONE, packages, system_libraries
from tracksworn.documents.program import files_digest


@cache
def program_digest() -> str:
    """SHA-256 over what makes documents: the program's own files, and the versions of all that is below them."""
    below = (sys.version, *packages(), *map(" ".join, system_libraries()))
    return sha256("\n".join([*below, files_digest()]).encode()).hexdigest()


def installed(name: str) -> str:
    """The version of a library as it is installed here; `none` where it is not."""
    try:
        return version(name)
    except PackageNotFoundError:
        return NONE
