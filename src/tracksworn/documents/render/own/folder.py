"""A folder of a firm's own templates, read once and whole, so that nothing outside of it can ever be read."""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Final

from tracksworn.documents.render.own.templates import KNOWN, OwnTemplates
from tracksworn.inspection.faults import Fault, Faulty

MOST_BYTES: Final = 200_000
MOST_FILES: Final = 40
_READ: Final = (".html", ".md", ".css")
_LEFT_ALONE: Final = ("README.md",)


def read_templates(folder: Path) -> OwnTemplates:
    """All templates and style sheets of a folder, judged as far as that can be done before they are used.

    Raises Faulty, with file and line, where the folder is not there, has none of the names that are known, has a
    template that does not say what it extends, or a style sheet that could hide something.
    """
    from tracksworn.documents.render.own.source import faults_of  # noqa: PLC0415 - it reads Jinja's grammar

    if not folder.is_dir():
        raise Faulty([Fault(folder, 1, 1, "this folder of templates is not there" + _no_folder(folder))])
    texts, faults = _read(folder)
    templates = OwnTemplates(folder, texts)
    if not faults:
        faults = faults_of(templates)
    if not faults and not set(texts) & set(KNOWN):
        faults.append(Fault(folder, 1, 1, f"no template in it has a name that is known here: {', '.join(KNOWN)}"))
    if faults:
        raise Faulty(faults)
    return templates


def _no_folder(folder: Path) -> str:
    return "; a file stands in its place" if folder.exists() else ""


def _read(folder: Path) -> tuple[dict[str, str], list[Fault]]:
    texts: dict[str, str] = {}
    faults: list[Fault] = []
    for path in _files(folder):
        text = _text(path, folder)
        if isinstance(text, Fault):
            faults.append(text)
        else:
            texts[path.name] = text
        if len(texts) > MOST_FILES:
            faults.append(Fault(folder, 1, 1, f"it holds more than {MOST_FILES} templates and style sheets"))
            break
    return texts, faults


def _files(folder: Path) -> Iterator[Path]:
    names = sorted(entry.name for entry in os.scandir(folder))
    yield from (folder / name for name in names if name.endswith(_READ) and name not in _LEFT_ALONE)


def _text(path: Path, folder: Path) -> str | Fault:
    real = path.resolve()
    if not real.is_relative_to(folder.resolve()):
        return Fault(path, 1, 1, "it leads outside of the folder of templates; put the file itself there")
    if not real.is_file():
        return Fault(path, 1, 1, "it is no ordinary file")
    with real.open("rb") as file:
        content = file.read(MOST_BYTES + 1)
    if len(content) > MOST_BYTES:
        return Fault(path, 1, 1, f"it is larger than {MOST_BYTES // 1000} kB, which no template needs")
    try:
        return content.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        return Fault(path, line, 1, "it is not UTF-8; save it with that encoding")
