"""Small documents such as the program makes, for the archive: everything that they carry, and one empty page."""

import io
import json
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pikepdf

from tracksworn import __version__
from tracksworn.documents.attached import Attachment, attachments, state
from tracksworn.documents.fingerprint import fingerprinted
from tracksworn.documents.making import Making, making_attached
from tracksworn.documents.render.attaching import attach
from tracksworn.documents.report import assess_dossier
from tracksworn.documents.words.language import Language
from tracksworn.inspection.reading import read_inspection
from tracksworn.records.disk import Disk

LETTERHEAD = """\
tracksworn: letterhead 1
firm: Millrace Plant Survey
signatory: {name: Ines Marlow}
"""

INSPECTION = """\
tracksworn: inspection 1
number: OXB-0231
inspected: 2031-05-02
issued: 2031-05-03
inspector: {name: Ines Marlow}
machine: {maker: Merrow, model: Tarn 22, serial: "20417", layout: excavator, bottom rollers: 8, top rollers: 2}
chart: none (no figures for this make)
letterhead: ../letterheads/millrace.yaml
readings:
  link: {left: by eye about 40 %, right: by eye 40 to 50 %}
  sprocket: {left: by eye 82 to 90 %, right: not seen (mud)}
observations:
  - {at: left front idler, seen: side wear, grade: slight, note: Blank where the Größe of the rim was hidden}
"""


@dataclass(frozen=True)
class Clock:
    """A clock that stands still."""

    time: datetime = datetime(2031, 5, 4, 9, 30, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.time


class NotWaiting(Disk):
    """A disk that is not waited for: a process that ends takes nothing with it that it has written."""

    def _sync(self, handle: int, path: Path) -> None:
        self.before("sync", path)


@cache
def _carried() -> tuple[Attachment, ...]:
    with TemporaryDirectory() as folder:
        inspection = Path(folder) / "OXB-0231" / "inspection.yaml"
        letterhead = Path(folder) / "letterheads" / "millrace.yaml"
        for file, text in ((inspection, INSPECTION), (letterhead, LETTERHEAD)):
            file.parent.mkdir()
            file.write_text(text, encoding="utf-8")
        dossier = read_inspection(inspection)
        return attachments(dossier, state(dossier, assess_dossier(dossier)), Language("en"))


@cache
def document(
    number: str = "OXB-0231",
    revision: int = 0,
    serial: str = "20417",
    inspected: str = "2031-05-02",
    issued: str = "2031-05-03",
    firm: str = "Millrace Plant Survey",
    note: str = "Blank where the Größe of the rim was hidden",
    *,
    mark: str = "",
    kind: str = "",
) -> bytes:
    """A document of an inspection with these in it; `mark` makes two files of the same data differ.

    One that is made to be sealed says of which `kind` it is.
    """
    named = {one.name: one.content for one in _carried()}
    said = INSPECTION.replace("OXB-0231", number, 1).replace("2031-05-02", inspected).replace("2031-05-03", issued)
    said = said.replace("20417", serial).replace("Blank where the Größe of the rim was hidden", note)
    if revision:
        said = said.replace("inspected:", f"revision: {revision}\nreplaces: 0\nbecause: corrected\ninspected:", 1)
    named["OXB-0231/inspection.yaml"] = said.encode()
    named["letterheads/millrace.yaml"] = LETTERHEAD.replace("Millrace Plant Survey", firm).encode()
    statement = json.loads(named["assessment.json"])
    statement |= {"number": number, "revision": revision, "inspected": inspected}
    return bound(named, statement, mark, kind)


def bound(named: dict[str, bytes], statement: dict[str, Any], mark: str = "", kind: str = "") -> bytes:
    """A PDF that carries these files and that statement, with the fingerprint of both."""
    files = {name: content for name, content in named.items() if not name.endswith(".json")}
    digests = {name: sha256(content).hexdigest() for name, content in files.items()}
    contents = {
        **named,
        "assessment.json": json.dumps(statement, indent=2, ensure_ascii=False).encode() + b"\n",
        "fingerprint.json": fingerprinted(statement, digests),
    }
    carried = [
        Attachment(one.name, contents[one.name], one.media_type, one.relationship, one.what)
        for one in _carried()
        if one.name in contents
    ]
    if kind:
        carried.append(making_attached(Making(__version__, kind), Language("en")))
    return pdf_with(carried, mark)


def pdf_with(carried: list[Attachment], mark: str = "") -> bytes:
    """One empty page and these files."""
    with pikepdf.new() as pdf:
        pdf.add_blank_page()
        attach(pdf, carried, "2031-05-03")
        if mark:
            pdf.docinfo["/Title"] = mark
        made = io.BytesIO()
        pdf.save(made, deterministic_id=True)
    return made.getvalue()


def carried() -> dict[str, bytes]:
    """What the plain document carries, by name."""
    return {one.name: one.content for one in _carried()}
