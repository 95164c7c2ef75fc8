"""Records to verify: real data behind a small sheet, which is quick to make, and a real document, which is not."""

from collections.abc import Mapping
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Final

import pikepdf
from judges.specimen import sound
from records.sealed import AT, signer

from tracksworn.documents.attached import JSON, YAML, Attachment, Relationship, attachments, state
from tracksworn.documents.making import making_attached, making_of
from tracksworn.documents.render.attaching import attach
from tracksworn.documents.report import assess_dossier, make_report
from tracksworn.documents.words.language import Language
from tracksworn.inspection.reading import read_inspection
from tracksworn.records.sealing.seal import seal

DEMO: Final = Path(__file__).parents[3] / "demo_inspections"
NUMBER: Final = "OXB-0231"
LONG: Final = "MPS-2031-0418"


@cache
def carried_by(number: str) -> Mapping[str, bytes]:
    """What a document of that inspection carries, by name and in its order."""
    dossier = read_inspection(DEMO / number)
    making = making_attached(making_of(dossier, "listing", None, None, None), Language())
    carried = attachments(dossier, state(dossier, assess_dossier(dossier)), Language())
    return {one.name: one.content for one in (*carried, making)}


def sheet_with(files: Mapping[str, bytes]) -> bytes:
    """The small sheet, not sealed, that carries these files."""
    out = BytesIO()
    with pikepdf.open(BytesIO(sound())) as pdf:
        for name in list(pdf.attachments):
            del pdf.attachments[name]
        attach(pdf, [_attachment(name, content) for name, content in files.items()], "2031-04-20")
        pdf.save(out, deterministic_id=True)
    return out.getvalue()


def _attachment(name: str, content: bytes) -> Attachment:
    is_source = name.endswith(".yaml")
    kind = Relationship.SOURCE if is_source else Relationship.DATA
    return Attachment(name, content, YAML if is_source else JSON, kind, name)


@cache
def document(files: tuple[tuple[str, bytes], ...] = ()) -> bytes:
    """A real listing sheet, sealed; with `files` these are carried in the place of those that belong there."""
    (content,) = make_report(read_inspection(DEMO / NUMBER), formats=["pdf"], document="listing", sealed=True).values()
    out = BytesIO()
    with pikepdf.open(BytesIO(content)) as pdf:
        for name, other in files:
            pdf.attachments[name].obj.EF.F.write(other)
            pdf.attachments[name].obj.EF.UF.write(other)
        pdf.save(out, deterministic_id=True)
    return seal(out.getvalue(), signer(), at=AT)
