"""Objects as the Oxford Common File Layout 1.1 has them, so that the records can be read without this program.

An object is a record, named by its number; a version of it is what was put there at one time: a revision. Where an
object lies follows from its number alone (extension 0003, hash and id n-tuple). Digests are SHA-512 (FIPS 180-4), and
beside them, as fixity, the SHA-256 that the log and everybody's tools name.
"""

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import Any, Final

ROOT_MARK: Final = ("0=ocfl_1.1", b"ocfl_1.1\n")
OBJECT_MARK: Final = ("0=ocfl_object_1.1", b"ocfl_object_1.1\n")
INVENTORY: Final = "inventory.json"
SIDECAR: Final = "inventory.json.sha512"
INVENTORY_TYPE: Final = "https://ocfl.io/1.1/spec/#inventory"
LAYOUT: Final = "0003-hash-and-id-n-tuple-storage-layout"
TUPLES, TUPLE = 3, 3
LONGEST_NAME: Final = 100
PLAIN: Final = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_")


class NoObject(ValueError):  # noqa: N818 - named for what it says of the folder
    """What should be an object is none; its text says why."""


def object_path(number: str) -> PurePosixPath:
    """Where the object of a record lies within the storage root."""
    digest = hashlib.sha256(number.encode("utf-8")).hexdigest()
    parts = [digest[start : start + TUPLE] for start in range(0, TUPLES * TUPLE, TUPLE)]
    name = "".join(sign if sign in PLAIN else "".join(f"%{byte:02x}" for byte in sign.encode()) for sign in number)
    if len(name) > LONGEST_NAME:
        name = f"{name[:LONGEST_NAME]}-{digest}"
    return PurePosixPath(*parts, name)


def root_files() -> Mapping[PurePosixPath, bytes]:
    """What a storage root holds beside its objects."""
    layout = {"extension": LAYOUT, "description": "SHA-256 of the record number in three folders, then the number"}
    settings = {
        "extensionName": LAYOUT, "digestAlgorithm": "sha256", "tupleSize": TUPLE, "numberOfTuples": TUPLES,
    }  # fmt: skip
    return {
        PurePosixPath("extensions", LAYOUT, "config.json"): _json(settings),
        PurePosixPath("ocfl_layout.json"): _json(layout),
        PurePosixPath(ROOT_MARK[0]): ROOT_MARK[1],
    }


@dataclass(frozen=True, slots=True)
class Inventory:
    """What an object holds, as its inventory says it."""

    plain: Mapping[str, Any]

    @property
    def head(self) -> int:
        """The number of its newest version."""
        return int(str(self.plain["head"]).removeprefix("v"))

    def names(self) -> Mapping[str, str]:
        """The SHA-512 of every file by its name, in whichever version it has that."""
        states = (version["state"] for version in self.plain["versions"].values())
        return {name: digest for state in states for digest, names in state.items() for name in names}

    def content_path(self, name: str) -> str | None:
        """Where a file lies within the object."""
        digest = self.names().get(name)
        return None if digest is None else str(self.plain["manifest"][digest][0])

    def forms(self, name: str) -> Mapping[str, str]:
        """Where every form lies that a file had, within the object, the oldest first; its SHA-256, as fixity has it.

        Where fixity has none, it is empty.
        """
        states = (version["state"].items() for version in self.plain["versions"].values())
        had = dict.fromkeys(digest for state in states for digest, names in state if name in names)
        fixity = {path: str(digest) for digest, paths in self.plain["fixity"]["sha256"].items() for path in paths}
        return {path: fixity.get(path, "") for path in (str(self.plain["manifest"][digest][0]) for digest in had)}

    def digests(self) -> Mapping[str, str]:
        """The SHA-512 of every file, by its path within the object."""
        return {path: digest for digest, paths in self.plain["manifest"].items() for path in paths}

    def extended(self, files: Mapping[str, bytes], at: str, message: str, keeping: Iterable[str] = ()) -> "Inventory":
        """The inventory with one version more, in which these are the files, beside those of older ones that stay."""
        version = f"v{self.head + 1}"
        manifest = {digest: list(paths) for digest, paths in self.plain["manifest"].items()}
        fixity = {digest: list(paths) for digest, paths in self.plain["fixity"]["sha256"].items()}
        state: dict[str, list[str]] = {}
        for name in keeping:
            state.setdefault(self.names()[name], []).append(name)
        for name, content in files.items():
            path, digest = f"{version}/content/{name}", hashlib.sha512(content).hexdigest()
            state.setdefault(digest, []).append(name)
            manifest.setdefault(digest, []).append(path)
            fixity.setdefault(hashlib.sha256(content).hexdigest(), []).append(path)
        made = {"created": at, "message": message, "user": {"name": "tracksworn"}, "state": state}
        versions = {**self.plain["versions"], version: made}
        changed = {"head": version, "manifest": manifest, "fixity": {"sha256": fixity}, "versions": versions}
        return Inventory({**self.plain, **changed})

    def files(self) -> Mapping[str, bytes]:
        """The inventory's own file and its digest's, by name."""
        content = _json(self.plain)
        digest = hashlib.sha512(content).hexdigest()
        return {INVENTORY: content, SIDECAR: f"{digest} {INVENTORY}\n".encode("ascii")}


def empty_inventory(number: str) -> Inventory:
    """The inventory of an object that has no version yet."""
    return Inventory(
        {
            "id": number,
            "type": INVENTORY_TYPE,
            "digestAlgorithm": "sha512",
            "head": "v0",
            "manifest": {},
            "fixity": {"sha256": {}},
            "versions": {},
        }
    )


def version_files(inventory: Inventory, files: Mapping[str, bytes]) -> Mapping[PurePosixPath, bytes]:
    """What the newest version's folder holds: these contents and its own copy of the inventory."""
    contents = {PurePosixPath("content", name): content for name, content in files.items()}
    return contents | {PurePosixPath(name): content for name, content in inventory.files().items()}


def object_files(inventory: Inventory, files: Mapping[str, bytes]) -> Mapping[PurePosixPath, bytes]:
    """What the folder of a new object with one version holds."""
    version = version_files(inventory, files)
    top = {PurePosixPath(name): content for name, content in inventory.files().items()}
    mark = {PurePosixPath(OBJECT_MARK[0]): OBJECT_MARK[1]}
    return {PurePosixPath("v1", path): content for path, content in version.items()} | top | mark


def read_inventory(folder: Path) -> Inventory:
    """The inventory of an object. Raises NoObject where it is not as it was written; OSError where it is not there."""
    content = (folder / INVENTORY).read_bytes()
    said = (folder / SIDECAR).read_bytes().split()
    if said != [hashlib.sha512(content).hexdigest().encode("ascii"), INVENTORY.encode("ascii")]:
        raise NoObject(f"{INVENTORY} is not the file that {SIDECAR} names")
    try:
        plain = json.loads(content)
    except ValueError:
        plain = None
    if not isinstance(plain, dict) or plain.get("type") != INVENTORY_TYPE:
        raise NoObject(f"{INVENTORY} is no inventory")
    return Inventory(plain)


def _json(plain: Mapping[str, Any]) -> bytes:
    return json.dumps(plain, indent=1, ensure_ascii=False).encode("utf-8") + b"\n"
