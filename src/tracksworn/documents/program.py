"""Which program makes the documents, told by its own files: a version number alone does not change while one works."""

from collections.abc import Iterator
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Final

import tracksworn
from tracksworn.documents import resources

_PACKAGE: Final = Path(tracksworn.__file__).parent
_MAKING: Final = ("inspection", "assessment", "documents")
"""The rooms that make a document; what writes, seals or keeps it changes nothing in it."""


@cache
def files_digest() -> str:
    """SHA-256 over the names and digests of these rooms' files and of the templates."""
    lines = [f"{name} {sha256(path.read_bytes()).hexdigest()}" for name, path in sorted(_files())]
    return sha256("\n".join(lines).encode()).hexdigest()


def program() -> str:
    """The version, and the first digits of that digest, as PEP 440 writes a local version."""
    return f"{tracksworn.__version__}+{files_digest()[:12]}"


def _files() -> Iterator[tuple[str, Path]]:
    folders = {name: _PACKAGE / name for name in _MAKING} | {"templates": resources.templates()}
    for name, folder in folders.items():
        for path in folder.rglob("*"):
            if path.is_file() and "__pycache__" not in path.parts:
                yield f"{name}/{path.relative_to(folder).as_posix()}", path
    yield "program", Path(tracksworn.__file__)
