"""Which program makes the documents: a digest that changes with anything that could change a byte of them."""

import sys
from collections.abc import Iterator
from functools import cache
from hashlib import sha256
from importlib.metadata import PackageNotFoundError, requires, version
from pathlib import Path
from typing import Final

import tracksworn
from tracksworn.documents import resources

_PACKAGE: Final = Path(tracksworn.__file__).parent
_MAKING: Final = ("inspection", "assessment", "documents")
"""The rooms that make a document; what writes, seals or keeps it changes nothing in it."""


@cache
def program_digest() -> str:
    """SHA-256 over what makes documents: the files of these rooms, templates, fonts, and the versions they stand on."""
    lines = [f"{name} {sha256(path.read_bytes()).hexdigest()}" for name, path in sorted(_files())]
    return sha256("\n".join([sys.version, *_versions(), *lines]).encode()).hexdigest()


def _files() -> Iterator[tuple[str, Path]]:
    folders = {name: _PACKAGE / name for name in _MAKING} | {"templates": resources.templates()}
    for name, folder in folders.items():
        for path in folder.rglob("*"):
            if path.is_file() and "__pycache__" not in path.parts:
                yield f"{name}/{path.relative_to(folder).as_posix()}", path
    yield "program", Path(tracksworn.__file__)


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
