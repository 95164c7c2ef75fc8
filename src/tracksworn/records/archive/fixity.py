"""Whether the files of an object are those that its inventory names, every byte of them."""

import hashlib
from collections.abc import Iterator
from pathlib import Path, PurePosixPath
from typing import Final

from tracksworn.records.archive.files import sha256
from tracksworn.records.archive.ocfl import INVENTORY, OBJECT_MARK, SIDECAR, Inventory

BLOCK: Final = 1 << 20


def check_object(folder: Path, inventory: Inventory) -> Iterator[tuple[str, str]]:
    """What is wrong with the files of an object, by their path in it."""
    expected = dict(inventory.digests())
    fixity = {path: digest for digest, paths in inventory.plain["fixity"]["sha256"].items() for path in paths}
    there = {str(PurePosixPath(path.relative_to(folder))) for path in folder.rglob("*") if not path.is_dir()}
    for path in sorted(expected):
        if path not in there:
            yield path, "is missing"
            continue
        long, short = _digests(folder / path)
        if (long, short) != (expected[path], fixity.get(path)):
            yield path, "has changed since it was put there (bit rot, or somebody's hand)"
    copies = {f"v{version}/{name}" for version in range(1, inventory.head + 1) for name in (INVENTORY, SIDECAR)}
    own = {OBJECT_MARK[0], INVENTORY, SIDECAR} | copies
    for path in sorted((there | own) - set(expected)):
        if path not in there:
            yield path, "is missing"
        elif path not in own:
            yield path, "was never put there"
    yield from _check_copies(folder, inventory, there)


def _check_copies(folder: Path, inventory: Inventory, there: set[str]) -> Iterator[tuple[str, str]]:
    """Each version's own inventory is what its sidecar says; that of the newest is the object's."""
    for version in range(1, inventory.head + 1):
        path, beside = f"v{version}/{INVENTORY}", f"v{version}/{SIDECAR}"
        if path not in there or beside not in there:
            continue
        content = (folder / path).read_bytes()
        said = (folder / beside).read_bytes()
        if said != f"{hashlib.sha512(content).hexdigest()} {INVENTORY}\n".encode("ascii"):
            yield path, f"is not the file that {beside} names"
    newest = folder / f"v{inventory.head}" / INVENTORY
    if newest.is_file() and sha256(newest.read_bytes()) != sha256((folder / INVENTORY).read_bytes()):
        yield f"v{inventory.head}/{INVENTORY}", "is not the record's own inventory"
    if (folder / OBJECT_MARK[0]).is_file() and (folder / OBJECT_MARK[0]).read_bytes() != OBJECT_MARK[1]:
        yield OBJECT_MARK[0], "has changed"


def _digests(path: Path) -> tuple[str, str]:
    """SHA-512 and SHA-256 of a file, read once."""
    long, short = hashlib.sha512(), hashlib.sha256()
    with path.open("rb") as file:
        while block := file.read(BLOCK):
            long.update(block)
            short.update(block)
    return long.hexdigest(), short.hexdigest()
